package section

import "math"

// face is a straight side of the section before the change, from its start along
// a unit vector; the section lies to its left.
type face struct {
	x, y   float64 // start
	dx, dy float64 // unit vector along it
	length float64
}

// height is the distance of the line of the face from the pith: positive when
// the pith lies on the section's side of it.
func (f *face) height(m *polar) float64 { return f.dy*(f.x-m.px) - f.dx*(f.y-m.py) }

// hollow reports whether the face becomes hollow seen from outside: away from
// the pith for k < 1, towards it for k > 1.
func (f *face) hollow(m *polar) bool { return (f.height(m) > 0) == (m.k < 1) }

func (f *face) at(m *polar, s float64) mapped { return m.at(f.x+s*f.dx, f.y+s*f.dy) }

// part returns the part of the face between two distances from its start.
func (f *face) part(from, to float64) face {
	return face{x: f.x + from*f.dx, y: f.y + from*f.dy, dx: f.dx, dy: f.dy, length: to - from}
}

const (
	// settled is the last step of a search along a face, in parts of its length.
	// The place is then known to about its square, and the figure sought is
	// stationary there.
	settled  = 1e-5
	maxSteps = 60
)

// parallel returns the distance along the face at which it becomes parallel to
// the direction (dx, dy) after the change, or the end that is nearest to that.
// The tangent turns one way along the face, dtau/dphi = k (k^2-1)/(k^2 + tan^2 phi),
// so there is one such place at most; Newton's method held inside a bracket.
func (f *face) parallel(m *polar, dx, dy float64) float64 {
	h := f.height(m)
	foot := (m.px-f.x)*f.dx + (m.py-f.y)*f.dy // of the perpendicular from the pith
	if h == 0 {                               // the face lies on a ray: straight, or folded at the pith
		return math.Min(math.Max(foot, 0), f.length)
	}
	turning := m.k * (m.k*m.k - 1) * h * h * h // dtau/dx (k^2 h^2 + x^2)(h^2 + x^2), by phi = atan(x/h)
	low, high := 0.0, f.length
	s := f.length / 2
	for range maxSteps {
		_, t := m.tangent(f.x+s*f.dx, f.y+s*f.dy, f.dx, f.dy)
		cross, dot := t[0]*dy-t[1]*dx, t[0]*dx+t[1]*dy // the tangent lacks atan2(cross, dot)
		x := s - foot
		rate := turning / ((m.k*m.k*h*h + x*x) * (h*h + x*x)) // anticlockwise turn per length
		if cross*rate > 0 {
			low = s
		} else {
			high = s
		}
		next := s + cross/dot/rate
		if !(next > low && next < high) { // also catches NaN
			next = (low + high) / 2
		}
		if math.Abs(next-s) < settled*f.length {
			return next
		}
		s = next
	}
	return s
}

// nearest returns the distance along the face of its point nearest to q after
// the change. The face is nearly straight, so (P-q).t = 0 is solved with the
// derivative |t|^2.
func (f *face) nearest(m *polar, q [2]float64, s float64) float64 {
	for range maxSteps {
		p, t := m.tangent(f.x+s*f.dx, f.y+s*f.dy, f.dx, f.dy)
		step := ((p[0]-q[0])*t[0] + (p[1]-q[1])*t[1]) / (t[0]*t[0] + t[1]*t[1])
		next := math.Min(math.Max(s-step, 0), f.length)
		if math.Abs(next-s) < settled*f.length {
			return next
		}
		s = next
	}
	return s
}

// sagitta returns how far the face stands out from its chord, negative when it
// is hollow.
func (f *face) sagitta(m, bent *polar, start, end *mapped) number {
	dx, dy := end.x-start.x, end.y-start.y
	if bent != m {
		b0, b1 := f.at(bent, 0), f.at(bent, f.length)
		dx, dy = b1.x-b0.x, b1.y-b0.y
	}
	top := f.at(m, f.parallel(bent, dx, dy))
	return offset(&top, start, end).scaled(-1) // the section is to the left of the chord
}
