package section

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Ring is the ring at a place of a section.
type Ring struct {
	Angle  quantity.Angle  // between ring and width, 0 flatsawn to 90 degrees quartersawn
	Radius quantity.Length // distance from the pith
	Notes  method.Notes
}

// RingAt returns the ring angle and radius at the place p of a section, p from
// its middle (up to 1 km; it may lie outside the section).
//
// Errors: out_of_range for width, thickness, pith_x, pith_y, x, y; contradictory
// for x when the place is the pith itself.
// Accuracy: exact for circular rings.
// Source: geometry, atan(|x - pith_x| / |y - pith_y|).
func RingAt(s Section, p Point) (Ring, error) {
	var out Ring
	if err := s.check(&out.Notes); err != nil {
		return Ring{}, err
	}
	if err := out.Notes.Use(&polarRow, "x", tidy(p.X.Millimetres())); err != nil {
		return Ring{}, err
	}
	if err := out.Notes.Use(&polarRow, "y", tidy(p.Y.Millimetres())); err != nil {
		return Ring{}, err
	}
	out.Notes.Rest(&ringRow)
	x, y := math.Abs(float64(p.X-s.PithX)), math.Abs(float64(p.Y-s.PithY))
	if x == 0 && y == 0 {
		return Ring{}, &method.Error{Code: method.Contradictory, Input: "x", Detail: "there is no ring angle at the pith itself"}
	}
	out.Angle, out.Radius = quantity.Angle(math.Atan2(x, y)), quantity.Length(math.Hypot(x, y))
	return out, nil
}

// Places are nine places of a section: lower face, mid-thickness and upper face,
// each at the left edge, mid-width and the right edge.
type Places [3][3]Ring

// Rings returns the rings at nine places. A place on the pith has a radius and an
// angle of 0.
//
// Errors: out_of_range for width, thickness, pith_x, pith_y.
// Accuracy: exact for circular rings.
// Source: geometry, as RingAt.
func Rings(s Section) (Places, error) {
	var out Places
	for i := range out {
		for j := range out[i] {
			p := Point{s.Width / 2 * quantity.Length(j-1), s.Thickness / 2 * quantity.Length(i-1)}
			if p.X == s.PithX && p.Y == s.PithY {
				continue
			}
			r, err := RingAt(s, p)
			if err != nil {
				return Places{}, err
			}
			out[i][j] = r
		}
	}
	return out, nil
}
