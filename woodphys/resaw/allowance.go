package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
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
		if err := notes.Use(rowLeafThickness, p.Name, millimetres(p.Thickness)); err != nil {
			return 0, nil, notes, err
		}
	}
	return a.Sum(), parts, notes, nil
}

// Sum returns the thickness to saw: all the parts together.
//
// Accuracy: exact sum of whole nanometres. Source: as LeafThickness.
func (a Allowances) Sum() quantity.Length { return length(a.sum()) }

func (a Allowances) sum() nm {
	return whole(a.Final) + whole(a.CleanupShow) + whole(a.CleanupBack) + whole(a.Wander) + whole(a.Flatness) + whole(a.Oversize)
}

// On returns what a sawn leaf of this kind has over its final thickness on a saw:
// the saw's clean-up and wander, and for the shrinkage still to come what all of
// that, dry, is short of the sawn thickness: dry / (1 - shrinkage) - dry.
//
// s: any saw; p.Shrinkage 0 to 0.5. Accuracy: exact but for the rounding of the
// oversize to whole nanometres.
//
// Source: common practice for the parts; the oversize from the meaning of shrinkage
// as a share of the size before it (Wood Handbook, FPL-GTR-190, ch. 4).
func (p *PartKind) On(s *Saw) Allowances {
	a := Allowances{Final: p.Final, CleanupShow: s.CleanupShow, CleanupBack: s.CleanupBack, Wander: s.Wander, Flatness: p.Flatness}
	dry := p.Final + p.Flatness + s.CleanupShow + s.CleanupBack + s.Wander
	a.Oversize = length(whole(dry/quantity.Length(1-p.Shrinkage) - dry))
	return a
}
