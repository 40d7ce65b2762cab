package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
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
	if err := exact.Check(&notes, rowWedge, exact.Named("bark_edge", bark), exact.Named("heart_edge", heart),
		exact.Named("across", across), exact.Named("blank", blank)); err != nil {
		return 0, notes, err
	}
	switch {
	case heart > bark:
		return 0, notes, exact.Contradictory("heart_edge", "the heart edge is thicker than the bark edge")
	case blank > across:
		return 0, notes, exact.Contradictory("blank", "the blank is wider than the wedge")
	}
	return exact.Length(exact.Between(exact.Whole(bark), exact.Whole(heart), exact.Whole(blank),
		exact.Whole(across))), notes, nil
}
