package match

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// steepness is a ring angle as its sine and cosine, so that no angle is turned
// into a tangent near 90 degrees.
type steepness struct{ sin, cos float64 }

func (s steepness) angle() quantity.Angle { return quantity.Angle(math.Atan2(s.sin, s.cos)) }

// flat says that the ring line runs so nearly along the face, below 0.01 degrees,
// that it cannot be said to cross it.
func (s steepness) flat() bool { return s.sin < 1.745e-4*s.cos }

// rings is how the rings lie: circles about a pith, or planes.
type rings struct {
	circular bool
	x, z     float64 // pith, m
	plane    steepness
	sign     float64 // of dx/dz of plane ring lines, 0 when not known
}

// at returns the steepness at a place and the sign of the ring line's dx/dz.
func (r *rings) at(x, z float64) (steepness, float64) {
	if !r.circular {
		return r.plane, r.sign
	}
	dx, dz := x-r.x, z-r.z
	radius := math.Hypot(dx, dz)
	if radius == 0 {
		return steepness{1, 0}, 1
	}
	// On a circle x dx + z dz = 0, so dx/dz = -(z-zp)/(x-xp).
	sign := 1.0
	if (dx > 0) == (dz > 0) {
		sign = -1
	}
	return steepness{math.Abs(dx) / radius, math.Abs(dz) / radius}, sign
}

// circleShift returns how far the circle about the pith through (x, (za+zb)/2)
// moves along x from za to zb, and whether it reaches both.
//
// With q = r^2 - (z-zp)^2 at each face the shift is sqrt(qb) - sqrt(qa); the
// difference is written as a quotient so that it does not cancel, and is exactly
// 0 when the pith lies midway between the faces.
func (r *rings) circleShift(x, za, zb float64) (float64, bool) {
	middle := (za+zb)/2 - r.z
	dx, half := x-r.x, (zb-za)/2
	// q = dx^2 + middle^2 - (middle -+ half)^2 = dx^2 +- 2 middle half - half^2
	qa, qb := dx*dx+2*middle*half-half*half, dx*dx-2*middle*half-half*half
	if !(qa >= 0 && qb >= 0 && qa+qb > 0) {
		return 0, false
	}
	return math.Copysign(1, dx) * -4 * middle * half / (math.Sqrt(qa) + math.Sqrt(qb)), true
}

// ringsOf checks and returns how the rings lie.
func ringsOf(in *Input, notes *method.Notes) (rings, error) {
	p := &in.Rings
	switch {
	case p.Pith != nil && len(p.Readings) > 0:
		return rings{}, exact.Contradictory("rings", "give the pith or ring angles, not both")
	case p.Pith != nil:
		err := exact.Check(notes, rowMatch, exact.Named("pith_x", p.Pith.X), exact.Named("pith_z", p.Pith.Z))
		return rings{circular: true, x: float64(p.Pith.X), z: float64(p.Pith.Z)}, err
	case len(p.Readings) == 0:
		return rings{}, &method.Error{Code: method.Missing, Input: "rings",
			Detail: "give the pith, or the ring angle at one or two places of face 1"}
	case len(p.Readings) > 2:
		return rings{}, exact.OutOfRange("rings", "give one or two ring angles", method.Between(1, 2, ""))
	}
	for _, reading := range p.Readings {
		if err := checkReading(reading, notes); err != nil {
			return rings{}, err
		}
	}
	first := p.Readings[0]
	if len(p.Readings) == 1 {
		return planeRings(first.Angle, p.Lean, notes)
	}
	second := p.Readings[1]
	if first.Z != second.Z {
		return rings{}, exact.Contradictory("z2", "two readings at different depths are not answered")
	}
	if first.X != second.X && math.Abs(float64(first.Angle-second.Angle)) < 1e-9 {
		return planeRings(first.Angle, p.Lean, notes)
	}
	fix, err := resaw.PithFromAngles(first.X, first.Angle, second.X, second.Angle)
	if err != nil {
		return rings{}, err
	}
	notes.Merge(fix.Notes)
	if fix.OnQuarter {
		return planeRings((first.Angle+second.Angle)/2, p.Lean, notes)
	}
	z := float64(fix.Depth)
	if p.PithBeforeFace1 {
		z = -z
	}
	return rings{circular: true, x: float64(fix.X), z: float64(first.Z) + z}, nil
}

func checkReading(r RingReading, notes *method.Notes) error {
	if err := exact.Check(notes, rowMatch, exact.Named("x", r.X), exact.Named("z", r.Z)); err != nil {
		return err
	}
	return notes.Use(rowMatch, "ring_angle", math.Round(r.Angle.Degrees()*1e9)/1e9)
}

func planeRings(a quantity.Angle, lean LineLean, notes *method.Notes) (rings, error) {
	r := rings{plane: steepness{a.Sin(), math.Max(0, a.Cos())}}
	switch lean {
	case LeansFar:
		r.sign = 1
	case LeansNear:
		r.sign = -1
	case UnknownLean:
	default:
		return rings{}, &method.Error{Code: method.Unknown, Input: "lean", Detail: "lean must be near or far",
			Limit: method.OneOf(LeansNear, LeansFar)}
	}
	notes.Warn(method.Warning{
		Code: method.Assumption, Method: rowMatch.ID, Input: "ring_angle",
		Detail: "the rings are taken as planes of one ring angle over the whole billet; it changes across a leaf " +
			"and from leaf to leaf",
	})
	return r, nil
}
