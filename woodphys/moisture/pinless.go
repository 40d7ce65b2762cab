package moisture

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Standard deviations of a dielectric meter in %MC.
const (
	pinlessSDSet   = 2.5 // +/-2 to 3 with the density set (from memory); the middle
	pinlessSDUnset = 4.0 // without: own choice; a published pair of meters differed by 4
)

var pinlessRow = method.Method{
	ID: "mc.pinless-meter", Chapter: "moisture",
	Summary:  "Dielectric (pinless) meter as shown",
	Equation: "MC = reading",
	Inputs: []method.Input{
		{Name: "reading_pct", Unit: "%MC", Fitted: method.Range{Low: 5, High: 25}, Limit: method.Range{Low: 3, High: 60}},
	},
	Accuracy: "SD 2.5 %MC with the density set (published 2-3), 4 without",
	Source:   "Wood Handbook FPL-GTR-282 ch. 13 on meters; the uncertainty from memory",
	Checked:  method.Memory,
}

// FromPinlessMeter returns the moisture content from a dielectric meter whose
// reading (0.03 to 0.60) is taken as it stands; densitySet says that the meter
// was set to the wood's density. It speaks for the mean of a thin piece; a thick
// one is sensed mostly near the face.
//
// Errors: out_of_range for reading_pct.
// Accuracy: SD 2.5 %MC with density set, 4 without; grows above 25 %.
// Source: Wood Handbook ch. 13 (uncertainty from memory).
func FromPinlessMeter(reading quantity.Moisture, densitySet bool) (Estimate, error) {
	e := Estimate{How: pinlessRow.ID, Place: Mean}
	if err := e.Notes.Use(&pinlessRow, "reading_pct", reading.Percent()); err != nil {
		return Estimate{}, err
	}
	sd := pinlessSDSet
	if !densitySet {
		sd = pinlessSDUnset
		e.Notes.Warn(method.Warning{Code: method.DefaultUsed, Method: pinlessRow.ID, Input: "density_set", Detail: "the meter was not set to the wood's density; dense wood reads high"})
	}
	e.Notes.Warn(method.Warning{Code: method.Assumption, Method: pinlessRow.ID, Detail: "a pinless meter needs an air gap below the piece and reads high on wet surfaces"})
	sd += WetMeterSD(reading).Percent()
	e.set(reading, quantity.Moisture(sd)*quantity.PercentMC)
	return e, nil
}
