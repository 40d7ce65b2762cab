package moisture

import (
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

var targetRow = method.Method{
	ID: "mc.target-weight", Chapter: "moisture",
	Summary:  "Weight of a whole piece to expect at a target moisture content",
	Equation: "W2 = W1 (1 + MC2)/(1 + MC1)",
	Inputs: slices.Concat(
		massInputs("mass"),
		[]method.Input{
			{Name: "mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
			{Name: "target_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		},
	),
	Accuracy: "that of the known moisture content and the scale",
	Source:   "arithmetic on the definition of MC; Wengert, sample board formulas",
	Checked:  method.Derived,
}

// TargetWeight is the weight of a piece at a target moisture content.
type TargetWeight struct {
	Mass    quantity.Band[quantity.Mass]
	Ovendry quantity.Mass // OD = W/(1 + MC)
	Notes   method.Notes
}

// WeightAt returns what a piece, known by one weighing at a known moisture
// content (0 to 2.5), will weigh at target (0 to 2.5): the number to write on
// the billet. The band covers the known moisture content and the scale; the
// target is taken as exact.
//
// Errors: out_of_range for mass, mc_pct, target_mc_pct; contradictory for a
// broken band.
// Accuracy: error propagation.
// Source: arithmetic on the definition of MC, derived.
func WeightAt(known Known, target quantity.Moisture) (TargetWeight, error) {
	var t TargetWeight
	scale, err := known.relativeSD(&t.Notes, &targetRow, "mass")
	if err != nil {
		return TargetWeight{}, err
	}
	if err := checkBand(&t.Notes, &targetRow, "mc_pct", known.MC); err != nil {
		return TargetWeight{}, err
	}
	if err := t.Notes.Use(&targetRow, "target_mc_pct", target.Percent()); err != nil {
		return TargetWeight{}, err
	}
	total := 1 + float64(known.MC.Value)
	t.Ovendry = known.Mass / quantity.Mass(total)
	mass := t.Ovendry * quantity.Mass(1+target)
	t.Mass = quantity.NormalBand(mass, mass*quantity.Mass(hypot(float64(known.MC.SD())/total, scale)))
	return t, nil
}
