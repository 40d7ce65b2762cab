package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// Allowances are what a sawn leaf has over its final thickness. Kerf is not one
// of them: wander belongs here and never in the kerf.
type Allowances struct {
	Final       quantity.Length // thickness of the finished plate, 1 micrometre to 100 m
	CleanupShow quantity.Length // off the show face, 0 to 100 m, as all that follow
	CleanupBack quantity.Length // off the back
	Wander      quantity.Length // of the blade
	Flatness    quantity.Length // lost to flattening the leaf
	Oversize    quantity.Length // for shrinkage still to come
}

// Part is one line of a build-up.
type Part struct {
	Name      string
	Thickness quantity.Length
}

// LeafThickness returns the thickness to saw a leaf at and the parts it is made
// of, in the order of Allowances; parts of zero are shown too.
//
// a: see Allowances. Errors: method.OutOfRange. Accuracy: exact sum of whole
// nanometres.
//
// Source: common practice; t = final + s_show + s_back + wander + flatness +
// shrink oversize. Mill practice adds the parts of sawing deviation the same
// way ("Sawing variation" papers, Forest Products Journal 73(1), 2023).
func LeafThickness(a Allowances) (quantity.Length, []Part, method.Notes, error) {
	var notes method.Notes
	parts := []Part{
		{"final", a.Final}, {"cleanup_show", a.CleanupShow}, {"cleanup_back", a.CleanupBack},
		{"wander", a.Wander}, {"flatness", a.Flatness}, {"oversize", a.Oversize},
	}
	for _, p := range parts {
		if err := notes.Use(rowLeafThickness, p.Name, exact.Millimetres(p.Thickness)); err != nil {
			return 0, nil, notes, err
		}
	}
	return a.Sum(), parts, notes, nil
}

// Sum returns the thickness to saw: all the parts together.
//
// Accuracy: exact sum of whole nanometres. Source: as LeafThickness.
func (a Allowances) Sum() quantity.Length { return exact.Length(a.sum()) }

func (a Allowances) sum() nm {
	return exact.Whole(a.Final) + exact.Whole(a.CleanupShow) + exact.Whole(a.CleanupBack) + exact.Whole(a.Wander) + exact.Whole(a.Flatness) + exact.Whole(a.Oversize)
}
