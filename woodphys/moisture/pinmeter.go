package moisture

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Standard deviations of a pin meter in %MC.
const (
	// pinSDCorrected: +/-1.5 to 2 for a calibrated meter with species
	// correction between 7 and 25 % (from memory); the middle is taken as SD.
	pinSDCorrected = 1.75
	// pinSDUncorrected: +/-3 without species correction (from memory).
	pinSDUncorrected = 3.0
	// pinSDTemperature: wood within about 11 degC of the calibration when its
	// temperature is not given, at 0.5 %MC per 5.6 degC. Own choice.
	pinSDTemperature = 0.5
	// pinSDBelow is added for readings under 7 %, where the resistance is
	// beyond what most meters measure. Own choice.
	pinSDBelow = 1.0
	// pinSDAbove is added per %MC of reading over 25 %, so that 30 % has SD
	// 3.75 and 60 % says hardly more than "wet". Published only as
	// "unreliable above 25-30 %" (read); the slope is our own choice.
	pinSDAbove = 0.4
	// pinSDDepth is added when the pins stood at a depth that is neither the
	// mean nor the core, or at no known depth. Own choice.
	pinSDDepth = 1.0
)

const (
	// neutralCelsius is where the temperature equation changes nothing, 22-23 degC.
	neutralCelsius = 22.5
	// MeanDepth is the depth, as a share of the thickness, at which a
	// parabolic profile has its mean: (1 - 1/sqrt 3)/2 = 0.2113. Handbooks say
	// 1/5 to 1/4.
	MeanDepth = 0.21132486540518713
)

var pinRow = method.Method{
	ID: "mc.pin-meter", Chapter: "moisture",
	Summary:  "Resistance (pin) meter on the Douglas-fir scale corrected for wood temperature and species",
	Equation: "MC = [(R + 0.567 - 0.0260 T + 0.000051 T^2)/(0.881 * 1.0056^T) - b]/a",
	Inputs: []method.Input{
		{Name: "reading_pct", Unit: "%MC", Fitted: method.Range{Low: 7, High: 25}, Limit: method.Range{Low: 4, High: 60}},
		{Name: "wood_temperature", Unit: "C", Fitted: method.Range{Low: 0, High: 40}, Limit: method.Range{Low: -20, High: 70}},
		{Name: "species_a", Unit: "", Fitted: method.Range{Low: 0.7, High: 1.4}, Limit: method.Range{Low: 0.3, High: 3}},
		{Name: "species_b_pct", Unit: "%MC", Fitted: method.Range{Low: -4, High: 4}, Limit: method.Range{Low: -15, High: 15}},
		{Name: "depth_fraction", Unit: "", Fitted: method.Range{Low: 0, High: 0.5}, Limit: method.Range{Low: 0, High: 0.5}},
	},
	Accuracy: "SD 1.75 %MC calibrated and species corrected (published 1.5-2), 3 uncorrected; grows below 7 and above 25 %",
	Source:   "Pfaff and Garrahan 1986; Wood Handbook FPL-GTR-282 ch. 13, 0.5 %MC per 5.6 degC, agrees within 0.6 %MC at 8-14 % and 0-40 degC",
	Checked:  method.Memory,
}

// PinReading is a reading of a resistance meter with pins.
type PinReading struct {
	Reading          quantity.Moisture // as shown, Douglas-fir scale, meter's own corrections off; 0.04 to 0.60
	WoodTemperature  quantity.Temperature
	TemperatureKnown bool
	// SpeciesA, SpeciesB correct for the species, MC = (MC_DouglasFir - B)/A;
	// A has no unit, 0.3 to 3; B is a moisture content, -0.15 to 0.15.
	SpeciesA     float64
	SpeciesB     quantity.Moisture
	SpeciesKnown bool
	// Depth of the bare pin tips as a share of the thickness, 0 to 0.5.
	Depth      float64
	DepthKnown bool
}

// DepthShare returns the depth of bare pin tips as a share of the thickness of the piece,
// 0 to 0.5: pins past the middle are nearer the other face. Both above 0, the depth at
// most the thickness.
//
// Accuracy: exact.
// Source: geometry of two faces that are alike.
func DepthShare(depth, thickness quantity.Length) float64 {
	share := float64(depth / thickness)
	return min(share, 1-share)
}

// FromPinMeter returns the moisture content from a pin reading, corrected for
// the wood's temperature (-20 to 70 degC) and the caller's species constants. A
// depth of 0.15 to 0.30 of the thickness speaks for the mean, from 0.40 for the
// core, under 0.15 for the shell; without a depth the estimate is a Spot.
//
// Errors: out_of_range for reading_pct (4 to 60), wood_temperature, species_a,
// species_b_pct, depth_fraction.
// Accuracy: SD 1.75 %MC species corrected, 3 uncorrected, more outside 7-25 %.
// Source: Pfaff and Garrahan 1986, from memory; checked against the handbook's
// rule of 0.5 %MC per 5.6 degC (read).
func FromPinMeter(r PinReading) (Estimate, error) {
	e := Estimate{How: pinRow.ID, Place: Spot}
	shown := r.Reading.Percent()
	if err := e.Notes.Use(&pinRow, "reading_pct", shown); err != nil {
		return Estimate{}, err
	}
	e.Notes.Warn(method.Warning{Code: method.Recalled, Method: pinRow.ID, Detail: "the temperature equation is recalled from its publication"})
	celsius, variance := neutralCelsius, 0.0
	if r.TemperatureKnown {
		celsius = r.WoodTemperature.Celsius()
		if err := e.Notes.Use(&pinRow, "wood_temperature", celsius); err != nil {
			return Estimate{}, err
		}
	} else {
		variance += pinSDTemperature * pinSDTemperature
		const said = "the wood's temperature was not given; %s is taken, where the correction is nil"
		e.Notes.Warn(method.Warning{Code: method.DefaultUsed, Method: pinRow.ID, Input: "wood_temperature", Detail: fmt.Sprintf(said, quantity.Celsius(neutralCelsius).Format("C"))}.
			Saying(said, method.Amount{Value: neutralCelsius, Unit: "C"}))
	}
	a, b, base := 1.0, 0.0, pinSDUncorrected
	if r.SpeciesKnown {
		a, b, base = r.SpeciesA, r.SpeciesB.Percent(), pinSDCorrected
		if err := e.Notes.Use(&pinRow, "species_a", a); err != nil {
			return Estimate{}, err
		}
		if err := e.Notes.Use(&pinRow, "species_b_pct", b); err != nil {
			return Estimate{}, err
		}
	} else {
		e.Notes.Warn(method.Warning{Code: method.DefaultUsed, Method: pinRow.ID, Input: "species_a", Detail: "no species correction was given; a = 1 and b = 0 (the Douglas-fir scale) are taken, with a standard deviation of 3 %MC before that of depth and range is added"})
	}
	extra, err := r.depth(&e)
	if err != nil {
		return Estimate{}, err
	}
	base += WetMeterSD(r.Reading).Percent() + extra
	if shown < 7 {
		base += pinSDBelow
	}
	mc := quantity.Moisture((douglasFir(shown, celsius)-b)/a) * quantity.PercentMC
	if mc < 0 {
		return Estimate{}, &method.Error{
			Code: method.Contradictory, Input: "species_b_pct",
			Detail: fmt.Sprintf("the species correction turns the reading into %.1f %%MC; no wood is drier than 0", mc.Percent()),
		}
	}
	e.set(mc, quantity.Moisture(math.Sqrt(base*base+variance))*quantity.PercentMC)
	return e, nil
}

// WetMeterSD returns what is added to the standard deviation of a reading of a meter that shows so
// much, because above 25 %MC it says wet and not how wet: 0 to there.
//
// Accuracy: a rule of thumb. Source: as pinSDAbove.
func WetMeterSD(shown quantity.Moisture) quantity.Moisture {
	return pinSDAbove * max(0, shown-25*quantity.PercentMC)
}

// douglasFir returns the temperature-corrected reading in %MC on the
// Douglas-fir scale. Pfaff and Garrahan 1986, from memory.
func douglasFir(reading, celsius float64) float64 {
	return (reading + 0.567 - 0.0260*celsius + 0.000051*celsius*celsius) / (0.881 * math.Pow(1.0056, celsius))
}

// depth sets what the reading speaks for and returns what to add to the SD.
func (r PinReading) depth(e *Estimate) (extra float64, err error) {
	if !r.DepthKnown {
		e.Notes.Warn(method.Warning{Code: method.DefaultUsed, Method: pinRow.ID, Input: "depth_fraction", Detail: "the depth of the pins was not given; plain pins read the wettest wood they touch, so with a gradient this is not the mean. For the mean stand insulated pins at 0.21 of the thickness"})
		return pinSDDepth, nil
	}
	if err := e.Notes.Use(&pinRow, "depth_fraction", r.Depth); err != nil {
		return 0, err
	}
	switch {
	case r.Depth < 0.15:
		e.Place = Shell
	case r.Depth <= 0.30:
		e.Place = Mean
	case r.Depth < 0.40:
		e.Notes.Warn(method.Warning{Code: method.Assumption, Method: pinRow.ID, Input: "depth_fraction", Detail: "pins between 0.30 and 0.40 of the thickness read neither the mean (0.21) nor the core (0.5)"})
		return pinSDDepth, nil
	default:
		e.Place = Core
	}
	return 0, nil
}
