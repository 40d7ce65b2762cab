package match

import (
	"math"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// Carved leaves. The two halves are joined flat along the seam, their show faces up, and the
// outside is then carved to an arch: at the seam it stays at the show face, towards the other
// edge it falls by the height of the arch, along the arc of a circle that lies level at the
// seam,
//
//	c(s) = R - sqrt(R^2 - s^2),  R = (W^2 + h^2)/(2 h)
//
// s the distance from the seam, W that of the other edge, h the height. So at s the outside of
// a half lies c(s) deeper in its leaf than the show face that was sawn: in a bookmatch the two
// outsides lie d + 2 c apart in the billet, in a pair whose outer faces show d - 2 c, and in a
// slip-match each at the depth of its own s. A ring line is where a ring comes through that
// outside, seen from above the plate.

// CarvedPlace is the match at one place of the carved outside.
type CarvedPlace struct {
	At             Edge            // of the billet
	X              quantity.Length // of the first leaf
	DepthA, DepthB quantity.Length // of the outside below the show faces
	// Shift is that of the ring midway between the two outsides, as Place.Shift; nil where it
	// does not come through both.
	Shift          *quantity.Length
	AngleA, AngleB quantity.Angle // between ring line and carved outside, 0 to 90 degrees
}

// CarvedDepth returns how deep below the show face the outside of a carved half lies at a
// distance from the seam, 0 to half: the arc of a circle that is level at the seam and has
// fallen by arch (0 to half) at half, the width of the half.
//
// Accuracy: exact for that arc; a real arch is hollowed out towards its edge.
//
// Source: the circle through three points, derived; that an arch is such an arc is our own
// choice.
func CarvedDepth(arch, half, from quantity.Length) quantity.Length {
	if arch <= 0 {
		return 0
	}
	h, w, s := float64(arch), float64(half), float64(from)
	radius := (w*w + h*h) / (2 * h)
	return quantity.Length(s * s / (radius + math.Sqrt(math.Max(radius*radius-s*s, 0))))
}

// outside is the carved outside of one leaf of a pair.
type outside struct {
	show, into float64 // depth of the show face, and 1 or -1 for the way into the leaf
	seam       float64 // x of the edge at the seam
	arch, half quantity.Length
}

func (o *outside) depth(x float64) float64 {
	return float64(CarvedDepth(o.arch, o.half, quantity.Length(math.Abs(x-o.seam))))
}

func (o *outside) z(x float64) float64 { return o.show + o.into*o.depth(x) }

// slope is dz/dx of the outside.
func (o *outside) slope(x float64) float64 {
	const step = 1e-7 // m
	return (o.z(x+step) - o.z(x-step)) / (2 * step)
}

// outsides are those of the two leaves with the edge at place e (0 near, 2 far) of the first
// at the seam.
func (m *matcher) outsides(l *Layout, e int) (a, b outside) {
	other := e
	if l.Opening == resaw.SlipMatch {
		other = 2 - e
	}
	intoA, intoB := -1.0, 1.0 // in a bookmatch the faces at the cut show
	if l.Opening == resaw.SlipMatch || l.Opening == resaw.WrongWay {
		intoA = 1
	}
	if l.Opening == resaw.WrongWay {
		intoB = -1
	}
	half := quantity.Length(m.places[2] - m.places[0])
	return outside{float64(l.ShowA), intoA, m.places[e], m.in.Arch, half},
		outside{float64(l.ShowB), intoB, m.places[other], m.in.Arch, half}
}

// carve fills in the match of the carved outside with the edge at place e at the seam.
func (m *matcher) carve(s *Seam, l *Layout, e int) {
	if m.in.Arch == 0 {
		return
	}
	a, b := m.outsides(l, e)
	s.Carved = make([]CarvedPlace, 0, len(m.places))
	for _, i := range [...]int{e, 1, 2 - e} {
		x := m.places[i]
		middle := (a.z(x) + b.z(x)) / 2
		p := CarvedPlace{At: edgeNames[i], X: quantity.Length(x), DepthA: quantity.Length(a.depth(x)), DepthB: quantity.Length(b.depth(x)),
			AngleA: m.rings.on(&a, x), AngleB: m.rings.on(&b, x)}
		onA, okA := m.rings.through(&a, x, middle)
		onB, okB := m.rings.through(&b, x, middle)
		if okA && okB {
			p.Shift = m.keep(quantity.Length(onB - onA + 0))
		}
		s.Carved = append(s.Carved, p)
	}
}

// through returns where the ring through (x, z) comes through an outside, near x.
func (r *rings) through(o *outside, x, z float64) (at float64, ok bool) {
	// off is how far (at, z(at)) lies off the ring, and its slope with at
	off := func(at float64) (miss, slope float64) {
		zAt, tilt := o.z(at), o.slope(at)
		if !r.circular {
			s := r.plane
			sign := r.sign
			if sign == 0 {
				sign = 1
			}
			// (at - x) sin = sign (z - zx) cos
			return (at-x)*s.sin - sign*(zAt-z)*s.cos, s.sin - sign*tilt*s.cos
		}
		// with r^2 at (x, z): (at-xp)^2 + (z(at)-zp)^2 - r^2, over twice the radius
		radius := math.Hypot(x-r.x, z-r.z)
		dx, dz := at-r.x, zAt-r.z
		return ((at-x)*(at+x-2*r.x) + (zAt-z)*(zAt+z-2*r.z)) / (2 * radius), (dx + dz*tilt) / radius
	}
	at = x
	for range 40 {
		miss, slope := off(at)
		if math.Abs(slope) < 1e-6 || math.IsNaN(miss) {
			return 0, false
		}
		next := at - miss/slope
		if math.Abs(next-o.seam) > 2*float64(o.half) {
			return 0, false
		}
		if math.Abs(next-at) < float64(exact.Tiny)/10 {
			return next, true
		}
		at = next
	}
	return 0, false
}

// on returns the angle between the ring line and an outside at x.
func (r *rings) on(o *outside, x float64) quantity.Angle {
	s, sign := r.at(x, o.z(x))
	if sign == 0 {
		sign = 1
	}
	// the ring line runs along (sign cos, sin), the outside along (1, slope)
	tilt := o.slope(x)
	cross, along := sign*s.cos*tilt-s.sin, sign*s.cos+s.sin*tilt
	return quantity.Angle(math.Atan2(math.Abs(cross), math.Abs(along)))
}
