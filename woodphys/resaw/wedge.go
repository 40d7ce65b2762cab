package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// WedgeThickness returns the thickness available for flat plates sawn parallel
// to one radial face of a wedge: that of the wedge at the far edge of a blank
// laid from the bark edge.
//
// bark, heart: thickness at the bark and at the heart edge, 0 to 100 m, heart
// at most bark; across: width between them, 1 micrometre to 100 m; blank: width
// of the blank, 0 to across. Errors: method.OutOfRange, method.Contradictory.
// Accuracy: exact, rounded down to 1 nm. Leaves far from the reference face fall
// off quarter.
//
// Source: derived; A - (A - B) w/w0.
func WedgeThickness(bark, heart, across, blank quantity.Length) (quantity.Length, method.Notes, error) {
	var notes method.Notes
	if err := check(&notes, rowWedge, given{"bark_edge", bark}, given{"heart_edge", heart},
		given{"across", across}, given{"blank", blank}); err != nil {
		return 0, notes, err
	}
	switch {
	case heart > bark:
		return 0, notes, contradictory("heart_edge", "the heart edge is thicker than the bark edge")
	case blank > across:
		return 0, notes, contradictory("blank", "the blank is wider than the wedge")
	}
	return length(between(whole(bark), whole(heart), whole(blank), whole(across))), notes, nil
}
