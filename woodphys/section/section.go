package section

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Section is a rectangle of wood seen on its end grain, and where the pith is.
// Axes: the origin is the middle of the section, x runs along the width to the
// right, y through the thickness upwards. All sizes are those at the moisture
// content the change starts from.
type Section struct {
	Width, Thickness quantity.Length // 0.01 mm to 100 m
	PithX, PithY     quantity.Length // up to 1 km away; outside, inside or on an edge
}

// FromRings returns the section whose rings in the middle meet the width at
// ringAngle (0 flatsawn to 90 degrees quartersawn) and have there the radius
// ringRadius (0.01 mm to 1 km; take a large one for straight rings). The pith
// comes to lie below and to the left.
//
// Errors: out_of_range for ring_angle_deg, ring_radius.
// Accuracy: geometry; a ring angle read to 2 degrees moves a pith 100 mm away by
// 3.5 mm.
// Source: geometry; the pith lies at ringRadius from the middle, ringAngle off the vertical.
func FromRings(width, thickness quantity.Length, ringAngle quantity.Angle, ringRadius quantity.Length) (Section, error) {
	var n method.Notes
	if err := n.Use(&ringRow, "ring_angle_deg", tidy(ringAngle.Degrees())); err != nil {
		return Section{}, err
	}
	if err := n.Use(&ringRow, "ring_radius", tidy(ringRadius.Millimetres())); err != nil {
		return Section{}, err
	}
	sin, cos := math.Sincos(float64(ringAngle))
	return Section{Width: width, Thickness: thickness, PithX: -ringRadius * quantity.Length(sin), PithY: -ringRadius * quantity.Length(cos)}, nil
}

// FromPith returns the section whose pith lies y (-1 to 1 km) from the near edge, the left
// one, and z (-1 to 1 km) below face 1, the upper one. Sizes are 0.01 mm to 100 m; any range
// error comes from the calculation.
//
// Accuracy: exact.
// Source: geometry, OnEndGrain.
func FromPith(width, thickness, y, z quantity.Length) Section {
	pith := OnEndGrain(width, thickness, y, z)
	return Section{Width: width, Thickness: thickness, PithX: pith.X, PithY: pith.Y}
}

// Pith returns where the pith lies, as FromPith takes it.
//
// Accuracy: exact.
// Source: geometry, FromPith undone.
func (s *Section) Pith() (y, z quantity.Length) { return s.FromCorner(Point{s.PithX, s.PithY}) }

// check tests the sizes against the row.
func (s *Section) check(n *method.Notes) error {
	for _, in := range [...]struct {
		name string
		l    quantity.Length
	}{{"width", s.Width}, {"thickness", s.Thickness}, {"pith_x", s.PithX}, {"pith_y", s.PithY}} {
		if err := n.Use(&polarRow, in.name, tidy(in.l.Millimetres())); err != nil {
			return err
		}
	}
	return nil
}

// holdsPith reports whether the pith lies strictly inside the section. On an
// edge it does not: a log halved through the pith is free to fold there.
func (s *Section) holdsPith() bool {
	return math.Abs(float64(s.PithX)) < float64(s.Width)/2 && math.Abs(float64(s.PithY)) < float64(s.Thickness)/2
}

// tidy removes the last-digit dust of a unit conversion, so that a value on a
// limit is inside it.
func tidy(v float64) float64 {
	if r := math.Round(v*1e9) / 1e9; !math.IsInf(r, 0) {
		return r
	}
	return v
}
