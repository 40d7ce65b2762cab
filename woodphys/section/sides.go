package section

import (
	"math"

	"latewood/woodphys/quantity"
)

// Sense is the way in which the curve of a side opens.
type Sense string

// Senses of a cup.
const (
	HollowToBark Sense = "hollow_to_the_bark"
	HollowToPith Sense = "hollow_to_the_pith"
	StaysFlat    Sense = "flat"
)

// Hollow is the face that a gradient makes hollow.
type Hollow string

// Faces that a gradient can make hollow.
const (
	NoFace    Hollow = ""
	UpperFace Hollow = "upper"
	LowerFace Hollow = "lower"
)

// StillFlat is the cup below which a side counts as flat: a micrometre, which nobody
// measures. Own choice.
const StillFlat = 1 * quantity.Micrometre

// isFlat reports that a cup is none worth telling.
func isFlat(cup quantity.Length) bool { return math.Abs(float64(cup)) < float64(StillFlat) }

// Side is what becomes of one side.
type Side struct {
	Name string                         // lower, upper, left, right
	Cup  quantity.Band[quantity.Length] // without a gradient; positive: hollow towards the bark
	// WithGradient is the cup and the bend of the gradient together. Both come from the
	// shrinkage of one piece, so the half widths of the bands add. Nil without a gradient
	// and for an edge.
	WithGradient *quantity.Band[quantity.Length]
	Sense        Sense // with the gradient where there is one
	Round        bool  // the side stands out; false: it is hollow, or flat
}

// sides are all four; bent is nil without a gradient.
func (s *Section) sides(c Sides, bent *Bent) []Side {
	half, side := s.Thickness/2, s.Width/2
	out := []Side{
		{Name: "lower", Cup: c.Lower}, {Name: "upper", Cup: c.Upper}, {Name: "left", Cup: c.Left},
		{Name: "right", Cup: c.Right},
	}
	for i, outward := range []bool{inwards(s.PithY + half), inwards(half - s.PithY), inwards(s.PithX + side), inwards(side - s.PithX)} {
		one := &out[i]
		cup := one.Cup
		if bent != nil && (one.Name == "lower" || one.Name == "upper") {
			cup = added(cup, bent.upwards(outward == (one.Name == "upper")))
			one.WithGradient = &cup
		}
		switch {
		case isFlat(cup.Value):
			one.Sense = StaysFlat
			continue
		case cup.Value > 0:
			one.Sense = HollowToBark
		default:
			one.Sense = HollowToPith
		}
		// A curve that opens to the bark makes the side hollow whose bark lies outwards.
		one.Round = (cup.Value > 0) != outward
	}
	return out
}

// onSide is how near the pith may lie to a side to lie on it, where the side bends as beside a
// pith that is just outside of the section. Floating point leaves less of none.
const onSide = quantity.Micrometre / 1000

// inwards reports that the pith, so far inwards from a side, lies on the section's side of it: the
// bark lies outwards then.
func inwards(pith quantity.Length) bool { return pith > onSide }

// barkAbove says where the bark lies from a height: away from the pith.
func (s *Section) barkAbove(y quantity.Length) bool { return y > s.PithY }

// upwards is the bend of a gradient in the sense of the cup of a face with the bark above
// or below.
func (b *Bent) upwards(barkAbove bool) quantity.Band[quantity.Length] {
	if barkAbove {
		return b.Cup
	}
	c := b.Cup
	return quantity.Band[quantity.Length]{Value: 0 - c.Value, Low: 0 - c.High, High: 0 - c.Low} // 0 - 0 is not -0
}

// hollow is the face that the gradient makes hollow.
func (b *Bent) hollow() Hollow {
	switch {
	case isFlat(b.Cup.Value):
		return NoFace
	case b.Cup.Value > 0:
		return UpperFace
	}
	return LowerFace
}

// flatWith is about what is left of a thickness planed flat with the bend of the gradient
// in it: both faces bend alike, so planing them takes the whole sagitta off.
func (b *Bent) flatWith(s *Section, lower, flat quantity.Band[quantity.Length]) quantity.Band[quantity.Length] {
	both := added(lower, b.upwards(s.barkAbove(-s.Thickness/2)))
	more := quantity.Length(math.Abs(float64(both.Value)) - math.Abs(float64(lower.Value)))
	spread := max(b.Cup.High-b.Cup.Value, b.Cup.Value-b.Cup.Low)
	return quantity.Band[quantity.Length]{Value: max(0, flat.Value-more), Low: max(0, flat.Low-more-spread),
		High: max(0, flat.High-more+spread)}
}

func added[T ~float64](a, b quantity.Band[T]) quantity.Band[T] {
	return quantity.Band[T]{Value: a.Value + b.Value, Low: a.Low + b.Low, High: a.High + b.High}
}
