package section

import (
	"math"

	"latewood/woodphys/quantity"
)

// meanRadius is the distance from the pith that a section twists by: integral(r^2 dA) over
// integral(r dA). The moment that the part dA adds to a twist w per length is in proportion
// to r (w r - w(r) r), with w(r) = c/r its own; over the section the moments cancel at
// w = c integral(r dA)/integral(r^2 dA). Far from the pith it is the distance of the
// middle; with the pith inside it is about the mean distance, and never nought.
func (s *Section) meanRadius() quantity.Length {
	first, second := 0.0, 0.0
	for _, corner := range [...]struct{ x, y, sign float64 }{{1, 1, 1}, {-1, 1, -1}, {1, -1, -1}, {-1, -1, 1}} {
		// integrals over the rectangle from the pith to the corner, with the sign of its area
		x := corner.x*float64(s.Width)/2 - float64(s.PithX)
		y := corner.y*float64(s.Thickness)/2 - float64(s.PithY)
		one, two := toCorner(math.Abs(x), math.Abs(y))
		sign := corner.sign * math.Copysign(1, x) * math.Copysign(1, y)
		first, second = first+sign*one, second+sign*two
	}
	if far := math.Hypot(float64(s.PithX), float64(s.PithY)); far > farDiagonals*math.Hypot(float64(s.Width), float64(s.Thickness)) {
		// the corners cancel to few digits; to second order in size over distance
		return quantity.Length(far * (1 + s.roundness()/(far*far)))
	}
	return quantity.Length(second / first)
}

// farDiagonals is how many diagonals away the pith counts as far.
const farDiagonals = 50

// roundness is what a far section adds to the distance of its middle, times the distance:
// with u along the line to the pith and v across it, r = R + u + v^2/2R, so that
// integral(r^2)/integral(r) = R + (u^2 + v^2)/R - v^2/2R in the means of the squares.
func (s *Section) roundness() float64 {
	far := math.Hypot(float64(s.PithX), float64(s.PithY))
	c, d := float64(s.PithX)/far, float64(s.PithY)/far
	w, t := float64(s.Width*s.Width)/12, float64(s.Thickness*s.Thickness)/12
	across := d*d*w + c*c*t
	return w + t - across/2
}

// toCorner returns integral(r dA) and integral(r^2 dA) over the rectangle from the origin to
// (a, b), both at least 0.
func toCorner(a, b float64) (first, second float64) {
	if a == 0 || b == 0 {
		return 0, 0
	}
	d := math.Hypot(a, b)
	first = a*b*d/3 + a*a*a/6*math.Asinh(b/a) + b*b*b/6*math.Asinh(a/b)
	return first, a * b * (a*a + b*b) / 3
}
