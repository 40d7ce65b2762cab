package air

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Heats in kJ/kg and kJ/kgK of ASHRAE Fundamentals 2017 ch. 1, eqs. 33 (water)
// and 35 (ice), from memory, with t and tw in degC:
//
//	W = ((latent - latentFall tw) W* - 1.006 (t - tw)) / (latent + 1.86 t - bulbHeat tw)
type bulb struct {
	latent, latentFall, bulbHeat float64
	logP, slope                  func(k float64) float64
}

const (
	airHeat    = 1.006 // kJ/kgK, dry air
	vapourHeat = 1.86  // kJ/kgK, water vapour
)

func waterBulb() bulb { return bulb{2501, 2.326, 4.186, logWater, slopeWater} }

func iceBulb() bulb { return bulb{2830, 0.24, 2.1, logIce, slopeIce} }

// FromWetBulb returns the state of air at dry bulb t (-60 to 120 degC), wet bulb
// wet of an aspirated psychrometer (air past the bulb at 3 m/s or more) and
// pressure p (30 to 110 kPa). iced says that the wick is frozen; then wet is at
// most 0 degC, and below 0 degC it may lie a little above the dry bulb because
// air saturated over water is more than saturated over ice.
//
// Errors: *method.Error with input "temperature", "wet_bulb", "pressure" out of
// range; code Contradictory for a wet bulb above the dry bulb, for one so low
// that the humidity would be negative, and (input "ice_bulb") for an iced bulb
// above 0 degC.
// Accuracy: the psychrometer formula of WMO-No. 8 differs by about 0.3 %RH at
// 20 degC; a reading error of 0.5 K costs about 4 %RH there.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 33 and 35 (from memory).
func FromWetBulb(t, wet quantity.Temperature, p quantity.Pressure, iced bool) (State, error) {
	s, err := begin(t, p)
	if err != nil {
		return State{}, err
	}
	if err := s.Notes.Use(&rowWetBulb, "wet_bulb", wet.Celsius()); err != nil {
		return State{}, err
	}
	b := waterBulb()
	switch {
	case iced && wet.Kelvin() > triplePoint:
		return State{}, &method.Error{Code: method.Contradictory, Input: "ice_bulb",
			Detail: fmt.Sprintf("an iced bulb cannot read %s; ice melts at 0 C", wet.Format("C"))}
	case iced:
		b = iceBulb()
	case t.Less(wet):
		return State{}, &method.Error{Code: method.Contradictory, Input: "wet_bulb", Limit: method.AtMost(t.AtMost("C")),
			Detail: fmt.Sprintf("wet_bulb %s lies above the dry bulb %s", wet.Format("C"), t.Format("C"))}
	}
	saturation := math.Exp(b.logP(wet.Kelvin()))
	if saturation >= p.Pascals() {
		return State{}, &method.Error{Code: method.Contradictory, Input: "wet_bulb",
			Detail: fmt.Sprintf("water boils at %s under %s", wet.Format("C"), p.Format("hPa"))}
	}
	tc, twc := t.Celsius(), wet.Celsius()
	saturated := molarRatio * saturation / (p.Pascals() - saturation) // eq. 21
	w := ((b.latent-b.latentFall*twc)*saturated - airHeat*(tc-twc)) / (b.latent + vapourHeat*tc - b.bulbHeat*twc)
	e := quantity.Pressure(p.Pascals() * w / (molarRatio + w))
	dry := s
	if s, err = s.with(e, "wet_bulb"); err != nil {
		err = mustBe(err, dry.possible(b, e > 0))
	}
	return s, err
}

// possible is the limit of a wet bulb in air of the dry bulb and pressure of s that it missed: the
// dry bulb where it is too warm, else what it reads in air without any vapour.
func (s State) possible(b bulb, warm bool) *method.Limit {
	if warm {
		return method.AtMost(s.DryBulb.AtMost("C"))
	}
	high := s.DryBulb.Kelvin()
	return method.AtLeast(quantity.Kelvin(risingRoot(lowestPoint, high, high-10, s.bulbResidual(b))).AtLeast("C"))
}

// WetBulb returns the temperature of an aspirated wet bulb in the air s, to
// 1e-8 K, and whether it is iced. The bulb is taken as iced when the water bulb
// would read below 0 degC. Where the bulb freezes the reading steps down (by 0.1
// K in moist air to 0.6 K in dry air) because ice gives off less vapour for the
// same heat; that step is real and not an error of the method.
//
// Errors: *method.Error with input "temperature" or "pressure" when s was not
// made by a From function and holds impossible values.
// Accuracy: the exact inverse of FromWetBulb.
//
// Source: ASHRAE Fundamentals 2017 ch. 1 eqs. 33 and 35, solved by Newton's method.
func (s State) WetBulb() (t quantity.Temperature, iced bool, err error) {
	checked, err := begin(s.DryBulb, s.Pressure)
	if err != nil {
		return quantity.Temperature{}, false, err
	}
	if _, err := checked.with(s.VapourPressure, "vapour_pressure"); err != nil {
		return quantity.Temperature{}, false, err
	}
	dry := s.DryBulb.Kelvin()
	if dry > freezing {
		residual := s.bulbResidual(waterBulb())
		if atFreezing, _ := residual(freezing); atFreezing <= 0 {
			start := dry - (1-s.RelativeHumidity)*(dry-freezing)/2
			return quantity.Kelvin(risingRoot(freezing, dry, start, residual)), false, nil
		}
	}
	// The equations over ice and over water meet near the triple point and not at
	// 0 degC, so the ice bulb of saturated air at 0 degC lies a hair above it.
	start := math.Min(dry, freezing) - 1
	return quantity.Kelvin(risingRoot(lowestPoint, triplePoint, start, s.bulbResidual(iceBulb()))), true, nil
}

// bulbResidual is eq. 33 or 35 multiplied out so that it has no pole where the
// saturation pressure at the bulb nears the air pressure; it rises with the
// temperature of the bulb and is zero at the wet bulb. In K and kJ Pa/kg.
func (s State) bulbResidual(b bulb) func(k float64) (value, slope float64) {
	tc, p, w := s.DryBulb.Celsius(), s.Pressure.Pascals(), s.HumidityRatio
	return func(k float64) (float64, float64) {
		twc := k - freezing
		ps := math.Exp(b.logP(k))
		dps := ps * b.slope(k)
		given := (b.latent - b.latentFall*twc) * molarRatio // times ps: heat the bulb's vapour takes
		taken := airHeat*(tc-twc) + w*(b.latent+vapourHeat*tc-b.bulbHeat*twc)
		value := given*ps - taken*(p-ps)
		slope := given*dps - b.latentFall*molarRatio*ps + (airHeat+w*b.bulbHeat)*(p-ps) + taken*dps
		return value, slope
	}
}
