package section

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Lean is the edge that a ring line nears as it goes from face 1 into the wood.
type Lean string

// Edges a ring line can near. Far is the right edge of the axes of a Section, near the left.
const (
	LeansFar  Lean = "far"
	LeansNear Lean = "near"
)

// PithSide is the side of a section that the pith lies towards.
type PithSide string

// Sides of a section. Face 1 is the upper face of its axes, face 2 the lower.
const (
	TowardsFace1 PithSide = "face_1"
	TowardsFace2 PithSide = "face_2"
	TowardsNear  PithSide = "near"
	TowardsFar   PithSide = "far"
)

// StraightRings is the radius that stands for rings without a curve to be seen: the
// largest that FromRings takes.
const StraightRings = 1000 * quantity.Metre

// Straight tells whether the rings of s are taken as straight: whether its pith lies as far
// off as that of StraightRings, so that no place of it is known.
//
// Accuracy: a thousandth of the radius.
// Source: own definition.
func (s *Section) Straight() bool {
	return math.Hypot(float64(s.PithX), float64(s.PithY)) > 0.999*float64(StraightRings)
}

// OnEndGrain returns a place of a section from its distances from the near edge and from
// face 1 into the wood, -1 to 1 km.
//
// Accuracy: exact.
// Source: geometry; the near edge lies half a width to the left of the middle, face 1
// half a thickness above it.
func OnEndGrain(width, thickness, y, z quantity.Length) Point {
	return Point{X: y - width/2, Y: thickness/2 - z}
}

// FromCorner returns p, a place of the section or beside it, by its distances from the near
// edge and from face 1 into the wood.
//
// Accuracy: exact.
// Source: geometry, OnEndGrain undone.
func (s *Section) FromCorner(p Point) (y, z quantity.Length) {
	return p.X + s.Width/2, s.Thickness/2 - p.Y
}

// Turned returns the section of FromRings mirrored, so that its ring lines lean to that
// edge and the pith lies towards that side. FromRings makes ring lines that lean to the far
// edge, and a pith towards face 2, which is the near edge as well.
//
// Accuracy: exact.
// Source: geometry; a ring line is square to the way to the pith.
func (s Section) Turned(lean Lean, pith PithSide) Section {
	along := quantity.Length(1) // both signs of the way to the pith are alike
	if lean == LeansNear {
		along = -1
	}
	x, y := -along, quantity.Length(-1)
	switch pith {
	case TowardsFace1:
		x, y = along, 1
	case TowardsNear:
		x, y = -1, -along
	case TowardsFar:
		x, y = 1, along
	case TowardsFace2:
	}
	s.PithX, s.PithY = x*max(s.PithX, -s.PithX), y*max(s.PithY, -s.PithY)
	return s
}

// FromChord returns the section on which one ring runs through the places from and to, up
// to 1 km from its middle, and stands out from the straight line between them by height
// (0.001 mm to 1 km), with the pith towards a side of that line.
//
// Errors: out_of_range for height; contradictory for from, to at one place, and for a
// pith side along the line.
// Accuracy: a height read to 0.5 mm moves the pith of a ring of 100 mm radius over 60 mm by
// 11 mm.
// Source: geometry of a circle, radius = chord^2/(8 height) + height/2.
func FromChord(width, thickness quantity.Length, from, to Point, height quantity.Length, pith PithSide) (Section, error) {
	dx, dy := float64(to.X-from.X), float64(to.Y-from.Y)
	chord := math.Hypot(dx, dy)
	if chord == 0 {
		return Section{}, &method.Error{Code: method.Contradictory, Input: "to", Detail: "both ends of the chord are at one place"}
	}
	if !(height >= quantity.Micrometre && height <= StraightRings) {
		return Section{}, &method.Error{Code: method.OutOfRange, Input: "height", Limit: method.Between(quantity.Micrometre.Millimetres(), StraightRings.Millimetres(), "mm"),
			Detail: "the height of a ring over its chord must be 0.001 mm to 1000 m"}
	}
	nx, ny := -dy/chord, dx/chord
	var towards float64
	switch pith {
	case TowardsFace1:
		towards = ny
	case TowardsFace2:
		towards = -ny
	case TowardsNear:
		towards = -nx
	case TowardsFar:
		towards = nx
	}
	if math.Abs(towards) < 1e-9 {
		return Section{}, &method.Error{Code: method.Contradictory, Input: "pith_side",
			Detail: "the chord runs towards " + string(pith) + "; name a side that lies across it"}
	}
	h := float64(height)
	away := math.Copysign(1, towards) * (chord*chord/(8*h) - h/2) // less than 0 where more than half of the ring stands over it
	return Section{Width: width, Thickness: thickness,
		PithX: (from.X+to.X)/2 + quantity.Length(away*nx), PithY: (from.Y+to.Y)/2 + quantity.Length(away*ny)}, nil
}
