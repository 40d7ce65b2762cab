package section

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

var prongRow = method.Method{
	ID: "section.prong-test", Chapter: chapter,
	Summary:  "Cup of a leaf from how far the outer prong of a stress section turns",
	Equation: "kappa = 2 d/l^2; cup = kappa w^2/8 = d (w/l)^2/4",
	Inputs: []method.Input{
		{Name: "tip_travel", Unit: "mm", Fitted: method.Range{Low: 0, High: 30}, Limit: method.Range{Low: 0, High: 300}},
		{Name: "prong_length", Unit: "mm", Fitted: method.Range{Low: 40, High: 300}, Limit: method.Range{Low: 5, High: 1000}},
	},
	Accuracy: "3 in 10 (1 SD, own estimate): the prong is an outer strip, and the stress is taken as rising evenly through it and the leaf; small turns",
	Source:   "derived: a strip cut out of stress that rises evenly takes the same curvature at any thickness; that the trade cuts prongs to see it, Simpson (ed.) 1991, Dry Kiln Operator's Manual, USDA AH 188, ch. 6 (from memory)",
	Checked:  method.Derived,
}

// prongShare is one standard deviation of the cup from a prong, over it.
const prongShare = 0.3

// ProngCup returns the cup of an outer leaf of a width (0.01 mm to 100 m) from how far the tip of
// an outer prong moved (0 to 300 mm), and how long the prong is (5 mm to 1 m): the stress that
// the saw sets free bends both alike. Hollow where the prong is: inward, towards the middle of
// the piece.
//
// Errors: out_of_range for "tip_travel", "prong_length" and "width"; contradictory for
// "tip_travel" where the tip moved further than half of the prong.
// Accuracy: 3 in 10 (1 SD).
//
// Source: row section.prong-test.
func ProngCup(travel, length, width quantity.Length) (quantity.Band[quantity.Length], method.Notes, error) {
	var notes method.Notes
	none := quantity.Band[quantity.Length]{}
	if err := notes.Use(&prongRow, "tip_travel", tidy(travel.Millimetres())); err != nil {
		return none, notes, err
	}
	if err := notes.Use(&prongRow, "prong_length", tidy(length.Millimetres())); err != nil {
		return none, notes, err
	}
	if err := notes.Use(&gradientRow, "width", tidy(width.Millimetres())); err != nil {
		return none, notes, err
	}
	if travel > length/2 {
		limit := method.AtMost((length / 2).AtMost("mm"))
		return none, notes, &method.Error{Code: method.Contradictory, Input: "tip_travel", Limit: limit,
			Detail: "the tip of a prong does not move further than half of its length; it must be " + limit.String()}
	}
	cup := travel * (width / length) * (width / length) / 4
	return quantity.NormalBand(cup, prongShare*cup), notes, nil
}
