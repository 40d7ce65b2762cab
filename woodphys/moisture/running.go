package moisture

import (
	"fmt"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

var runningRow = method.Method{
	ID: "mc.running-weight", Chapter: "moisture",
	Summary:  "Moisture content from a weight of the same piece and a known start",
	Equation: "OD = W0/(1 + MC0); MC = W/OD - 1; dMC = (1 + MC)/(1 + MC0) dMC0",
	Inputs: slices.Concat(
		massInputs("start_mass"), massInputs("mass"),
		[]method.Input{{Name: "start_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange}},
	),
	Accuracy: "that of the known start times (1 + MC)/(1 + MC0), and the scale's divisions",
	Source:   "Wengert, sample board formulas (trade column)",
	Checked:  method.Read,
}

// FromRunningWeight returns the moisture content of a piece that now weighs now
// and weighed start.Mass when its moisture content was start.MC (0 to 2.5). The
// piece must be whole: nothing planed, sawn or broken off, no sealer added
// between the two weighings.
//
// Errors: out_of_range for start_mass, mass, start_mc_pct; contradictory for a
// mass below the ovendry mass that the start implies (the limit names it) or
// above 250 %MC.
// Accuracy: error propagation of the start and of both scale readings.
// Source: Wengert, sample board formulas (read).
func FromRunningWeight(start Known, now Weighing) (Estimate, error) {
	e := Estimate{How: runningRow.ID, Place: Mean}
	startSD, err := start.relativeSD(&e.Notes, &runningRow, "start_mass")
	if err != nil {
		return Estimate{}, err
	}
	nowSD, err := now.relativeSD(&e.Notes, &runningRow, "mass")
	if err != nil {
		return Estimate{}, err
	}
	if err := checkBand(&e.Notes, &runningRow, "start_mc_pct", start.MC); err != nil {
		return Estimate{}, err
	}
	ovendry := start.Mass / quantity.Mass(1+start.MC.Value) // OD = W0/(1 + MC0)
	if now.Mass < ovendry-now.division() {
		least, g := ovendry.AtLeast("g")
		return Estimate{}, &method.Error{
			Code: method.Contradictory, Input: "mass", Limit: method.AtLeast(least, g),
			Detail: fmt.Sprintf("%s is below the ovendry mass %s %s that the start implies; either wood was lost or the starting %.1f %%MC is too low",
				now.Mass.Format(g), quantity.FormatNumber(least, 9), g, start.MC.Value.Percent()),
		}
	}
	ratio := float64(now.Mass / ovendry) // 1 + MC
	mc := quantity.Moisture(ratio - 1)
	if err := withinMoisture(&runningRow, "mass", mc); err != nil {
		return Estimate{}, err
	}
	fromStart := ratio / float64(1+start.MC.Value) * float64(start.MC.SD()) // (1+MC)/(1+MC0) dMC0
	e.set(mc, quantity.Moisture(hypot(fromStart, ratio*startSD, ratio*nowSD)))
	return e, nil
}
