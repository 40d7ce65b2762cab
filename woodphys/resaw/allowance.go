package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
	"latewood/woodphys/wood"
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
	Rounding    quantity.Length // up to a step that the saw can be set to
}

// Part is one line of a build-up.
type Part struct {
	Name      string
	Thickness quantity.Length
}

// LeafThickness returns the thickness to saw a leaf at and the parts it is made
// of, in the order of Allowances; parts of zero are shown too, but for the rounding.
//
// a: see Allowances. Errors: method.OutOfRange. Accuracy: exact sum of whole
// nanometres.
//
// Source: common practice; t = final + s_show + s_back + wander + flatness +
// shrink oversize + rounding. Mill practice adds the parts of sawing deviation the same
// way ("Sawing variation" papers, Forest Products Journal 73(1), 2023).
func LeafThickness(a Allowances) (quantity.Length, []Part, method.Notes, error) {
	var notes method.Notes
	parts := []Part{
		{"final", a.Final}, {"cleanup_show", a.CleanupShow}, {"cleanup_back", a.CleanupBack},
		{"wander", a.Wander}, {"flatness", a.Flatness}, {"oversize", a.Oversize},
	}
	if a.Rounding != 0 {
		parts = append(parts, Part{"rounding", a.Rounding})
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
	return exact.Whole(a.Final) + exact.Whole(a.CleanupShow) + exact.Whole(a.CleanupBack) + exact.Whole(a.Wander) +
		exact.Whole(a.Flatness) + exact.Whole(a.Oversize) + exact.Whole(a.Rounding)
}

// Drying is what a leaf still goes through once it is sawn.
type Drying struct {
	From, To  quantity.Moisture // 0 to 2.5, when sawn and when settled
	RingAngle quantity.Angle    // of the rings to the face, 0 to 90 degrees
	Wood      wood.Wood
}

// SawnLeaf is the thickness to saw a leaf at, with the parts it is made of.
type SawnLeaf struct {
	Thickness quantity.Length
	Parts     []Part
	Notes     method.Notes
}

// LeafToSaw returns the thickness to saw a leaf at that is to have its allowances
// once it has dried: those given and, where it still dries, what it loses by that in
// place of Oversize.
//
// a: see Allowances; d: nil for a leaf that stays as it is. Errors: method.OutOfRange;
// those of movement.Change. Accuracy: exact sum of whole nanometres but for the
// shrinkage, which strays by 15 % between pieces of a wood.
//
// Source: as LeafThickness and movement.SizeBefore.
func LeafToSaw(a Allowances, d *Drying) (SawnLeaf, error) {
	var leaf SawnLeaf
	if d != nil {
		a.Oversize = 0
		dry, _, _, err := LeafThickness(a)
		if err != nil {
			return SawnLeaf{}, err
		}
		before, notes, err := movement.SizeBefore(dry, movement.ThicknessAt(d.RingAngle, 0), d.From, d.To, d.Wood)
		if err != nil {
			return SawnLeaf{}, err
		}
		leaf.Notes = notes
		a.Oversize = before - dry
	}
	sum, parts, notes, err := LeafThickness(a)
	leaf.Thickness, leaf.Parts = sum, parts
	leaf.Notes.Merge(notes)
	return leaf, err
}
