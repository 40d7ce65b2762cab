package moisture

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

var basisRow = method.Method{
	ID: "mc.wet-basis-claim", Chapter: "moisture",
	Summary:  "Whether a claimed moisture content is really the wet-basis figure of the two weights",
	Equation: "dry basis (W - W0)/W0; wet basis (W - W0)/W",
	Inputs: []method.Input{
		{Name: "claimed_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "wet_mass", Unit: "g", Fitted: massRange, Limit: massRange},
		{Name: "ovendry_mass", Unit: "g", Fitted: massRange, Limit: massRange},
	},
	Accuracy: "a claim of whole percents is matched within 0.55, any other within 0.06 %MC",
	Source:   "definitions, as in ASTM D4442",
	Checked:  method.Derived,
}

// Basis compares a claimed moisture content with the two weights.
type Basis struct {
	LooksWet bool              // the claim is the wet-basis figure and not the dry-basis one
	Agrees   bool              // the claim is the dry-basis figure
	Dry      quantity.Moisture // from the weights, share of the ovendry mass
	Wet      float64           // from the weights, share of the wet mass, 0 to 1
	Detail   string            // for people
	Notes    method.Notes
}

// LooksWetBasis returns whether claimed (0 to 2.5) equals the wet-basis figure
// of wood that weighed wet before and ovendry after the oven, a mistake found in
// print: 8.5 oz dried to 7.5 oz is 13.3 %MC, not 11.8. Both masses 1 mg to 100 t. Where the two bases lie
// too close to tell apart, LooksWet is false.
//
// Errors: out_of_range for claimed_mc_pct, wet_mass, ovendry_mass;
// contradictory when the ovendry mass is above the wet mass.
// Accuracy: matches the claim to its own rounding, 0.55 %MC for a whole
// number and 0.06 %MC otherwise.
// Source: definitions; the printed mistake in a household drying guide (read).
func LooksWetBasis(claimed quantity.Moisture, wet, ovendry quantity.Mass) (Basis, error) {
	var b Basis
	for _, in := range []struct {
		name  string
		value float64
	}{{"claimed_mc_pct", claimed.Percent()}, {"wet_mass", wet.Grams()}, {"ovendry_mass", ovendry.Grams()}} {
		if err := b.Notes.Use(&basisRow, in.name, in.value); err != nil {
			return Basis{}, err
		}
	}
	if ovendry > wet {
		return Basis{}, &method.Error{
			Code: method.Contradictory, Input: "ovendry_mass", Limit: method.AtMost(wet.AtMost("g")),
			Detail: "the ovendry mass is more than the wet mass; are they exchanged?",
		}
	}
	b.Dry = quantity.Moisture((wet - ovendry) / ovendry)
	b.Wet = b.Dry.WetBasis()
	percent := claimed.Percent()
	tolerance := 0.06 // printed to 0.1
	if math.Abs(percent-math.Round(percent)) < 1e-9 {
		tolerance = 0.55 // printed as a whole number
	}
	b.Agrees = math.Abs(percent-b.Dry.Percent()) <= tolerance
	b.LooksWet = !b.Agrees && math.Abs(percent-100*b.Wet) <= tolerance
	figures := fmt.Sprintf("the weights give %.1f %%MC on the ovendry mass and %.1f %% of the wet mass", b.Dry.Percent(), 100*b.Wet)
	switch {
	case b.LooksWet:
		b.Detail = fmt.Sprintf("%s; the claimed %.1f is the wet-basis figure", figures, percent)
	case b.Agrees:
		b.Detail = figures + "; the claim is on the ovendry mass"
	default:
		b.Detail = fmt.Sprintf("%s; the claimed %.1f is neither", figures, percent)
	}
	return b, nil
}
