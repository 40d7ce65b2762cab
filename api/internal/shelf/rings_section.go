package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/section"
)

// PithOfChord is where the pith lies by the chord of a ring, in a piece of that width. Errors point
// below the rings.
func (r *Rings) PithOfChord(width quantity.Length) (*resaw.Point, error) {
	place := func(p *Pith) section.Point {
		return section.OnEndGrain(width, 0, LengthOr(p.Y, width/2), p.Z.SI)
	}
	s, err := section.FromChord(width, 0, place(r.Chord.From), place(r.Chord.To), r.Chord.Height.SI, section.PithSide(r.PithSide))
	if err != nil {
		return nil, method.Renamed(err, [2]string{"height", "chord/height"}, [2]string{"to", "chord/to"})
	}
	y, z := s.Pith()
	return &resaw.Point{X: y, Z: z}, nil
}

// Section is a section of that width and thickness with its pith. Errors point below the
// rings.
func (r *Rings) Section(width, thickness quantity.Length, notes *method.Notes) (section.Section, error) {
	pith, angle, err := r.Found(width, notes)
	switch {
	case err != nil:
		return section.Section{}, err
	case pith != nil:
		return section.FromPith(width, thickness, pith.X, pith.Z), nil
	}
	radius := section.StraightRings
	if r.Radius != nil {
		radius = r.Radius.SI
	} else {
		notes.Warn(method.Warning{Code: method.Assumption, Input: "rings",
			Detail: "the rings are taken as straight, all at one angle; give radius or pith for a cup by their curve"})
	}
	s, err := section.FromRings(width, thickness, *angle, radius)
	if err != nil {
		return s, method.Renamed(err, [2]string{"ring_angle_deg", "angle_deg"}, [2]string{"ring_radius", "radius"})
	}
	return s.Turned(section.Lean(r.Lean), section.PithSide(r.PithSide)), nil
}

// Ring is the ring angle in the middle of a piece of that thickness, with its standard
// deviation; width is nil where it is not known. Errors point below the rings.
func (r *Rings) Ring(width *quantity.Length, thickness quantity.Length, notes *method.Notes) (movement.Ring, error) {
	if err := r.Check(); err != nil {
		return movement.Ring{}, err
	}
	var ring movement.Ring
	if r.AngleSD != nil {
		ring.SD = quantity.Angle(*r.AngleSD) * quantity.Degree
	}
	if width == nil && r.OneAngle() == nil && (r.Pith == nil || r.Pith.Y != nil) {
		return ring, wire.Missing("angle_deg", "without the width of the piece its ring angle is told by angle_deg")
	}
	wide := quantity.Length(0) // of no bearing on a pith in the middle
	if width != nil {
		wide = *width
	}
	pith, angle, err := r.Found(wide, notes)
	switch {
	case err != nil:
		return ring, err
	case angle != nil:
		ring.Angle = *angle
		return ring, nil
	}
	there, err := section.RingAt(section.FromPith(wide, thickness, pith.X, pith.Z), section.Point{})
	ring.Angle = there.Angle
	return ring, method.Named(err, "pith")
}

// SectionNames are what a request calls the pith of a section, by the names that the
// chapter gives it; at is the place of the rings.
func (r *Rings) SectionNames(at string) [][2]string {
	switch {
	case r.Pith != nil:
		at += "/pith"
	case r.Radius != nil:
		at += "/radius"
	}
	return [][2]string{{"pith_x", at}, {"pith_y", at}, {"pith_distance", at}, {"pith", at}, {"x", at}}
}
