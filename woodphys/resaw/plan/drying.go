package plan

import (
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// Angles are ring angles to the face of leaves, 0 (flatsawn) to 90 degrees (quartersawn), by
// which a part is given its allowances for drying: of all that its leaves may have, that by
// which they lose most of their thickness, the steepest, and that by which they lose most of
// their width, the flattest.
type Angles struct{ Thickness, Width quantity.Angle }

// One reports whether all leaves have one ring angle.
//
// Accuracy: exact to a millionth of a degree. Source: derived by arithmetic.
func (a Angles) One() bool { return a.Thickness-a.Width < 1e-6*quantity.Degree }

// With returns the angles of leaves that may have those of either.
//
// Accuracy: exact. Source: derived by arithmetic.
func (a Angles) With(b Angles) Angles {
	return Angles{max(a.Thickness, b.Thickness), min(a.Width, b.Width)}
}

// DriesAt returns the ring angles that the leaves of a part may have that are cut from a
// billet, and whether its rings are known: by its one ring angle, or by its pith over all of its
// section, within what the part asks for; of rings that are not known 0 to 90 degrees. A part
// no wider than the billet is thick may come from a blank on its side, where the rings stand
// the other way.
//
// b: its width, thickness and rings; p: its width and least ring angle. Accuracy: exact for
// rings that are circles about the pith, to twelve digits of a degree.
//
// Source: derived; the ring line is square to the line from the pith. That the steepest rings
// cost most thickness and the flattest most width follows from tangential shrinkage being the
// larger in every wood of the tables.
func DriesAt(p *PartKind, b *Billet) (at Angles, known bool) {
	at, known = b.ringAngles()
	const tiny = 1e-9 * quantity.Degree
	least := p.LeastRingAngle
	aside := Angles{90*quantity.Degree - at.Width, 90*quantity.Degree - at.Thickness}
	narrow := p.Width <= exact.Max(exact.Max(b.Thickness, b.ThicknessEnd), b.ThicknessFarEdge)
	switch turns := narrow && known && (least == 0 || b.Pith == nil); {
	case turns && at.Thickness < least-tiny && aside.Thickness >= least-tiny:
		at = aside // it fits no other way
	case turns && aside.Thickness >= least-tiny:
		at = at.With(aside)
	}
	at.Width = max(at.Width, least)
	at.Thickness = max(at.Thickness, at.Width)
	tidy := func(a quantity.Angle) quantity.Angle {
		return quantity.Angle(quantity.Tidy(a.Degrees())) * quantity.Degree
	}
	return Angles{tidy(at.Thickness), tidy(at.Width)}, known
}

// ringAngles are the steepest and the flattest angle of the rings to face 1 in the section.
func (b *Billet) ringAngles() (at Angles, known bool) {
	switch {
	case b.RingAngle != nil:
		return Angles{*b.RingAngle, *b.RingAngle}, true
	case b.Pith == nil:
		return Angles{90 * quantity.Degree, 0}, false
	}
	wide := exact.Max(b.Width, b.WidthEnd)
	thick := exact.Max(exact.Max(b.Thickness, b.ThicknessEnd), b.ThicknessFarEdge)
	nearX, farX := offFrom(b.Pith.X, wide)
	nearZ, farZ := offFrom(b.Pith.Z, thick)
	angle := func(x, z quantity.Length) quantity.Angle {
		return resaw.RingAngleAt(resaw.Point{X: x, Z: z}, resaw.Point{})
	}
	return Angles{angle(farX, nearZ), angle(nearX, farZ)}, true
}

// offFrom is how far a place is off the nearest and the farthest of 0 to size.
func offFrom(at, size quantity.Length) (near, far quantity.Length) {
	return max(0, -at, at-size), max(at, -at, at-size, size-at)
}

// AllowForDrying lets a part have the shrinkage and the sawn width that its leaves need
// in one more drying, where they need more than it has.
//
// d: the drying of one billet, whose ring angle is not looked at; at: the ring angles of the
// leaves; dry: width of the dry piece, 1 micrometre to 100 m.
// Errors: those of movement.Change. Accuracy: that of the strain, 15 % between pieces of
// a wood.
//
// Source: as movement.SizeBefore.
func (p *PartKind) AllowForDrying(d resaw.Drying, at Angles, dry quantity.Length) (method.Notes, error) {
	thick, notes, err := movement.SizeBefore(quantity.Metre, movement.ThicknessAt(at.Thickness, 0), d.From, d.To, d.Wood)
	if err != nil {
		return notes, err
	}
	more := thick - quantity.Metre
	p.Shrinkage = max(p.Shrinkage, float64(more/(quantity.Metre+more)))
	wide, n, err := movement.SizeBefore(dry, movement.WidthAt(at.Width, 0), d.From, d.To, d.Wood)
	notes.Merge(n)
	p.Width = max(p.Width, wide)
	return notes, err
}
