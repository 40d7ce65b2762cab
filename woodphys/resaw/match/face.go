package match

import (
	"math"

	"latewood/woodphys/quantity"
)

// FaceShift is the largest miss of ring lines over the whole width of a layout, line by
// line: not only of those that cross the middle between both faces at the seam edges and in
// the middle of the width.
type FaceShift struct {
	Shift    quantity.Length // signed as in Place
	X        quantity.Length // of that line on the show face of the first leaf
	Unpaired quantity.Length // width, on the face nearer the pith, over which ring lines do not reach the other face
}

// lineShift returns how far the ring line that crosses a face at x and depth from has moved
// along x at the depth to, and whether it reaches there.
//
// On a circle (x + s - xp)^2 + (to - zp)^2 = (x - xp)^2 + (from - zp)^2; s is written as a
// quotient, so that it does not cancel.
func (r *rings) lineShift(x, from, to float64) (float64, bool) {
	dx, a, b := x-r.x, from-r.z, to-r.z
	gain := (a - b) * (a + b)
	q := dx*dx + gain
	if q < 0 {
		return 0, false
	}
	sum := math.Sqrt(q) + math.Abs(dx)
	if sum == 0 {
		return 0, true
	}
	return math.Copysign(gain/sum, dx*gain), true
}

// largest returns the largest miss of ring lines between the two faces that show. The miss
// of circular rings grows towards the pith, up to where a line no longer reaches the other
// face; that of plane rings is the same everywhere. nil where no line reaches both.
func (m *matcher) largest(l *Layout) *FaceShift {
	low, high := m.places[0], m.places[2]
	if !m.rings.circular {
		s := l.Places[1].Shift
		if s == nil {
			return nil
		}
		return &FaceShift{Shift: *s, X: l.Places[1].X}
	}
	za, zb := float64(l.ShowA), float64(l.ShowB)
	gain := (za - zb) * (za + zb - 2*m.rings.z)
	bare := math.Sqrt(math.Abs(gain)) // within this of the pith lines of one face do not reach the other
	out := &FaceShift{Unpaired: quantity.Length(math.Max(0, math.Min(high, m.rings.x+bare)-math.Max(low, m.rings.x-bare)))}
	found := false
	for _, x := range []float64{low, high, m.rings.x, m.rings.x - bare, m.rings.x + bare} {
		if x < low || x > high {
			continue
		}
		if gain < 0 && math.Abs(math.Abs(x-m.rings.x)-bare) < 1e-12 { // just reaches: to below the pith
			s := m.rings.x - x
			if !found || math.Abs(s) > math.Abs(float64(out.Shift)) {
				out.Shift, out.X, found = quantity.Length(s), quantity.Length(x), true
			}
			continue
		}
		if s, reaches := m.rings.lineShift(x, za, zb); reaches && (!found || math.Abs(s) > math.Abs(float64(out.Shift))) {
			out.Shift, out.X, found = quantity.Length(s), quantity.Length(x), true
		}
	}
	if !found {
		return nil
	}
	return out
}

// atEdge returns the larger miss of the two ring lines that meet the seam at a place: that of
// the first leaf and that of the second; nil where neither reaches the other face.
func (m *matcher) atEdge(l *Layout, place int) *quantity.Length {
	if !m.rings.circular {
		return l.Places[place].Shift
	}
	za, zb := float64(l.ShowA), float64(l.ShowB)
	onA, reachesB := m.rings.lineShift(m.places[place], za, zb)
	onB, reachesA := m.rings.lineShift(m.places[place], zb, za)
	onB = -onB // from the first leaf to the second
	switch {
	case reachesA && (!reachesB || math.Abs(onB) > math.Abs(onA)):
		return m.keep(quantity.Length(onB + 0))
	case reachesB:
		return m.keep(quantity.Length(onA + 0))
	}
	return nil
}
