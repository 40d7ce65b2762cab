package section

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Point is a place in the plane of the section, from the middle of the section.
type Point struct{ X, Y quantity.Length }

// Outline is the edge of a section before and after a change: as many points
// each, anticlockwise from the lower left corner, not closed. After lies so that
// the middle of the section and the direction of its ring there have not moved.
type Outline struct {
	Before, After []Point
	Notes         method.Notes
}

// Draw returns the outline of a section before and after the relative changes
// radial and tangential (-0.6 to 0.6, negative for shrinkage), with perSide points
// on each side (1 to 2000; 1 gives the corners only).
//
// Errors: out_of_range for width, thickness, pith_x, pith_y, radial_change_pct,
// tangential_change_pct, points_per_side; unsupported for a section that holds the
// pith, which has no stress-free shape.
// Accuracy: the points are exact; between them the edge departs from a straight
// line by the cup of that side over perSide squared.
// Source: package comment.
func Draw(s Section, radial, tangential float64, perSide int) (Outline, error) {
	var out Outline
	if err := s.check(&out.Notes); err != nil {
		return Outline{}, err
	}
	if err := checkChange(&out.Notes, radial, tangential); err != nil {
		return Outline{}, err
	}
	if err := out.Notes.Use(&polarRow, "points_per_side", float64(perSide)); err != nil {
		return Outline{}, err
	}
	if s.holdsPith() {
		return Outline{}, &method.Error{Code: method.Unsupported, Input: "pith", Detail: "the pith is inside the section; it has no stress-free shape to draw"}
	}
	m := newPolar(&s, radial, tangential)
	out.Before = make([]Point, 0, 4*perSide)
	out.After = make([]Point, 0, 4*perSide)
	w, t := s.Width/2, s.Thickness/2
	corners := [...]Point{{-w, -t}, {w, -t}, {w, t}, {-w, t}}
	for side, from := range corners {
		to := corners[(side+1)%4]
		for i := range perSide {
			f := quantity.Length(float64(i) / float64(perSide))
			p := Point{from.X + f*(to.X-from.X), from.Y + f*(to.Y-from.Y)}
			out.Before = append(out.Before, p)
			out.After = append(out.After, m.place(p))
		}
	}
	return out, nil
}

func checkChange(n *method.Notes, radial, tangential float64) error {
	if err := n.Use(&polarRow, "radial_change_pct", radial*100); err != nil {
		return err
	}
	return n.Use(&polarRow, "tangential_change_pct", tangential*100)
}

// place maps a point and sets it back into the axes of the section.
func (m *polar) place(p Point) Point {
	q := m.at(float64(p.X), float64(p.Y))
	along, across := q.x-m.a*m.radius, q.y
	return Point{quantity.Length(along*m.ux - across*m.uy), quantity.Length(along*m.uy + across*m.ux)}
}
