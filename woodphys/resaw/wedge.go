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

// CarvedHalf is one half of a wedge opened by one centre cut.
type CarvedHalf struct {
	Bark, Heart quantity.Length // thickness at its two edges after facing
	Notes       method.Notes
}

// CarvedWedge returns the two equal halves of a wedge after one centre cut. The
// bark edges are joined, thick, in the middle, with the sawn faces coplanar and
// underneath.
//
// bark, heart: thickness of the wedge at its edges, 0 to 100 m, heart at most
// bark; kerf: 0 to heart; facing: taken off each half in all, 0 to what is
// left. Errors: method.OutOfRange, method.Contradictory. Accuracy: exact,
// rounded down to 1 nm.
//
// Source: derived; (A - k)/2 and (B - k)/2, less facing.
func CarvedWedge(bark, heart, kerf, facing quantity.Length) (CarvedHalf, error) {
	var h CarvedHalf
	if err := check(&h.Notes, rowCarved, given{"bark_edge", bark}, given{"heart_edge", heart},
		given{"kerf", kerf}, given{"facing", facing}); err != nil {
		return CarvedHalf{}, err
	}
	a, b, k, f := whole(bark), whole(heart), whole(kerf), whole(facing)
	switch {
	case b > a:
		return CarvedHalf{}, contradictory("heart_edge", "the heart edge is thicker than the bark edge")
	case k > b:
		return CarvedHalf{}, contradictory("kerf", "kerf is more than the heart edge")
	case f > (b-k)/2:
		return CarvedHalf{}, contradictory("facing", "facing is more than the heart edge of a half")
	}
	h.Bark, h.Heart = length((a-k)/2-f), length((b-k)/2-f)
	return h, nil
}
