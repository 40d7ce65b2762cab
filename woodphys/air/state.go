package air

import (
	"errors"
	"fmt"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Temperatures in kelvin.
const (
	freezing    = 273.15 // 0 degC
	triplePoint = 273.16
)

// molarRatio is the molar mass of water over that of dry air, ASHRAE
// Fundamentals 2017 ch. 1 eq. 20 (from memory).
const molarRatio = 0.621945

// State is moist air at rest: dry bulb and pressure with everything that
// follows from them and one measure of its vapour. Dew point, frost point and
// wet bulb take an iteration and are methods.
type State struct {
	DryBulb          quantity.Temperature
	Pressure         quantity.Pressure // of the air with its vapour
	VapourPressure   quantity.Pressure
	RelativeHumidity float64 // fraction 0 to 1 of saturation over liquid water, below 0 degC too
	HumidityRatio    float64 // kg of vapour per kg of dry air
	Notes            method.Notes
}

// FromRelativeHumidity returns the state of air at dry bulb t (-60 to 120 degC),
// relative humidity rh (fraction 0 to 1, over liquid water) and pressure p (30
// to 110 kPa).
//
// Errors: *method.Error with input "temperature", "rh_pct" or "pressure" out of
// range; code Contradictory when the vapour alone would reach the pressure p.
// Accuracy: that of SaturationPressureOverWater.
//
// Source: definition of relative humidity, ASHRAE Fundamentals 2017 ch. 1 eq. 22.
func FromRelativeHumidity(t quantity.Temperature, rh float64, p quantity.Pressure) (State, error) {
	s, err := begin(t, p)
	if err != nil {
		return State{}, err
	}
	if err := s.Notes.Use(&rowState, "rh_pct", rh*100); err != nil {
		return State{}, err
	}
	return s.with(quantity.Pressure(rh)*SaturationPressureOverWater(t), "rh_pct")
}

// FromDewPoint returns the state of air at dry bulb t (-60 to 120 degC), dew
// point dew (-100 degC to t, over liquid water below 0 degC too) and pressure p
// (30 to 110 kPa).
//
// Errors: *method.Error with input "temperature", "dew_point" or "pressure" out
// of range; code Contradictory for a dew point above the dry bulb.
// Accuracy: that of SaturationPressureOverWater.
//
// Source: definition, ASHRAE Fundamentals 2017 ch. 1 eq. 36.
func FromDewPoint(t, dew quantity.Temperature, p quantity.Pressure) (State, error) {
	s, err := begin(t, p)
	if err != nil {
		return State{}, err
	}
	if err := s.Notes.Use(&rowDewPoint, "dew_point", dew.Celsius()); err != nil {
		return State{}, err
	}
	if s, err = s.with(SaturationPressureOverWater(dew), "dew_point"); err != nil && t.Less(dew) {
		err = mustBe(err, method.AtMost(t.AtMost("C")))
	}
	return s, err
}

// begin checks dry bulb and pressure and notes the rows of the saturation
// pressure at the dry bulb.
func begin(t quantity.Temperature, p quantity.Pressure) (State, error) {
	s := State{DryBulb: t, Pressure: p}
	if err := s.Notes.Use(&rowState, "temperature", t.Celsius()); err != nil {
		return State{}, err
	}
	if err := s.Notes.Use(&rowState, "pressure", p.Pascals()); err != nil {
		return State{}, err
	}
	if t.Kelvin() < freezing {
		return s, s.Notes.Use(&rowSupercooled, "temperature", t.Celsius())
	}
	return s, s.Notes.Use(&rowWater, "temperature", t.Celsius())
}

// slack is how far rounding, also of a printed input, may carry a relative
// humidity past 0 or 1 before it counts as impossible.
const slack = 1e-6

// with completes s for the vapour pressure e that follows from the named input.
func (s State) with(e quantity.Pressure, input string) (State, error) {
	saturation := SaturationPressureOverWater(s.DryBulb)
	rh := float64(e / saturation)
	switch {
	case rh > 1+slack:
		return State{}, &method.Error{
			Code: method.Contradictory, Input: input,
			Detail: fmt.Sprintf("%s and a dry bulb of %s would mean %.1f %% relative humidity; air cannot hold that much vapour", input, s.DryBulb.Format("C"), rh*100),
		}
	case rh < -slack:
		return State{}, &method.Error{
			Code: method.Contradictory, Input: input,
			Detail: fmt.Sprintf("%s and a dry bulb of %s would mean a relative humidity below 0 %%", input, s.DryBulb.Format("C")),
		}
	}
	s.RelativeHumidity = min(max(rh, 0), 1)
	s.VapourPressure = min(max(e, 0), saturation)
	if s.VapourPressure >= s.Pressure {
		return State{}, &method.Error{
			Code: method.Contradictory, Input: input,
			Detail: fmt.Sprintf("the vapour alone would have %s, as much as the whole air (%s); water boils here", s.VapourPressure.Format("hPa"), s.Pressure.Format("hPa")),
		}
	}
	// ASHRAE Fundamentals 2017 ch. 1 eq. 20: W = 0.621945 e/(p - e)
	s.HumidityRatio = molarRatio * float64(s.VapourPressure/(s.Pressure-s.VapourPressure))
	return s, nil
}

// mustBe adds to the error of a state the limit of its input.
func mustBe(err error, limit *method.Limit) error {
	var impossible *method.Error
	if !errors.As(err, &impossible) {
		return err
	}
	told := *impossible
	told.Limit, told.Detail = limit, impossible.Detail+"; it must be "+limit.String()
	return &told
}

// DewPoint returns the temperature at which the air would be saturated over
// liquid water, supercooled below 0 degC: -100 degC to the dry bulb, to 1e-9 K.
//
// Errors: *method.Error with code Unsupported and input "dew_point" when the air
// is too dry to have one above -100 degC.
// Accuracy: of the inversion 1e-9 K; the saturation pressure adds 0.1 K at -45 degC.
//
// Source: inversion of ASHRAE Fundamentals 2017 ch. 1 eq. 6.
func (s State) DewPoint() (quantity.Temperature, error) {
	if !(float64(s.VapourPressure) >= float64(SaturationPressureOverWater(quantity.Kelvin(lowestPoint)))) {
		return quantity.Temperature{}, tooDry("dew_point")
	}
	return DewPointOf(s.VapourPressure), nil
}

// FrostPoint returns the temperature at which the air would be saturated over
// ice, -100 to 0.01 degC, to 1e-9 K; ok is false when the air is so moist that
// dew comes before frost. In air above ice saturation the frost point lies
// above the dry bulb.
//
// Errors: *method.Error with code Unsupported and input "frost_point" when the
// air is too dry to have one above -100 degC.
// Accuracy: of the inversion 1e-9 K; of the pressure as SaturationPressureOverIce.
//
// Source: inversion of ASHRAE Fundamentals 2017 ch. 1 eq. 5.
func (s State) FrostPoint() (t quantity.Temperature, ok bool, err error) {
	switch e := s.VapourPressure; {
	case !(e >= SaturationPressureOverIce(quantity.Kelvin(lowestPoint))):
		return quantity.Temperature{}, false, tooDry("frost_point")
	case e > SaturationPressureOverIce(quantity.Kelvin(triplePoint)):
		return quantity.Temperature{}, false, nil
	default:
		return FrostPointOf(e), true, nil
	}
}

func tooDry(input string) error {
	return &method.Error{Code: method.Unsupported, Input: input, Limit: method.AtLeast(-100, "C"),
		Detail: "the air is too dry to have a " + map[string]string{"dew_point": "dew point", "frost_point": "frost point"}[input] + " above -100 C"}
}
