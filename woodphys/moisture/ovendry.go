package moisture

import (
	"fmt"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// ovendrySD is the standard deviation of an ovendry determination beside the
// scale: drying not finished, water taken up on the way to the scale, resin
// lost. Published for a maker's oven: 0.2 to 0.5 %MC (from memory); the middle
// is taken.
const ovendrySD = 0.35 * quantity.PercentMC

var ovendryRow = method.Method{
	ID: "mc.ovendry", Chapter: "moisture",
	Summary:  "Moisture content from the wet and the ovendry weight of a section",
	Equation: "MC = (W - W0)/W0",
	Inputs:   slices.Concat(massInputs("wet_mass"), massInputs("ovendry_mass")),
	Accuracy: "0.2 to 0.5 %MC in a maker's oven (SD 0.35 %MC taken) and the scale's division",
	Source:   "ASTM D4442 method A, 103 +/- 2 degC to constant weight; EN 13183-1",
	Checked:  method.Memory,
}

// FromOvendry returns the moisture content of a section weighed wet and then
// ovendry, on the dry basis. Both masses from 1 mg to 100 t, scale divisions in
// the Weighings. It speaks for that section only; whether the section stands
// for its board is another question.
//
// Errors: out_of_range for wet_mass or ovendry_mass; contradictory when the
// ovendry mass exceeds the wet mass by more than both scale divisions.
// Accuracy: SD 0.35 %MC and the scale.
// Source: ASTM D4442 method A (from memory).
func FromOvendry(wet, ovendry Weighing) (Estimate, error) {
	e := Estimate{How: ovendryRow.ID, Place: Mean, Section: true}
	wetSD, err := wet.relativeSD(&e.Notes, &ovendryRow, "wet_mass")
	if err != nil {
		return Estimate{}, err
	}
	drySD, err := ovendry.relativeSD(&e.Notes, &ovendryRow, "ovendry_mass")
	if err != nil {
		return Estimate{}, err
	}
	if slack := wet.division() + ovendry.division(); ovendry.Mass > wet.Mass+slack {
		return Estimate{}, &method.Error{
			Code: method.Contradictory, Input: "ovendry_mass", Limit: method.AtMost(wet.Mass.AtMost("g")),
			Detail: fmt.Sprintf("the ovendry mass %s is more than the wet mass %s; are they exchanged?",
				ovendry.Mass.Format("g"), wet.Mass.Format("g")),
		}
	}
	ratio := float64(wet.Mass / ovendry.Mass)
	mc := quantity.Moisture(ratio - 1)
	if err := withinMoisture(&ovendryRow, "wet_mass", mc); err != nil {
		return Estimate{}, err
	}
	e.set(mc, quantity.Moisture(hypot(ratio*wetSD, ratio*drySD, float64(ovendrySD))))
	return e, nil
}

// withinMoisture refuses a moisture content above the highest that wood holds.
func withinMoisture(row *method.Method, input string, mc quantity.Moisture) error {
	if mc.Percent() <= highestMC {
		return nil
	}
	return &method.Error{
		Code: method.Contradictory, Input: input, Limit: method.AtMost(highestMC, "%MC"),
		Detail: fmt.Sprintf("%s gives %.0f %%MC by %s, more than wood holds (250 %%MC)", input, mc.Percent(), row.ID),
	}
}
