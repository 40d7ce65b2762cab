package plan

import (
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// volume returns the volume of the rough wood over a rectangle: its area inside
// the outline at mid-length times the thickness at its centre, which is exact for
// a billet without taper in width, to the rounding of that thickness.
func (t *writer) volume(x0, x1, y0, y1 nm) exact.Cubic {
	w := t.w
	mid := x0 + (x1-x0)/2
	low, high := w.edges(mid, mid)
	y0, y1 = max(y0, low), min(y1, high)
	if y1 <= y0 {
		return exact.Cubic{}
	}
	at := y0 + (y1-y0)/2
	return exact.Box(x1-x0, y1-y0, max(0, w.thinnest(mid, mid, at, at)))
}

// shares adds up. The offcuts are what is left of the whole.
func (t *writer) shares() resaw.Shares {
	s := resaw.Shares{Whole: t.whole(), Plate: t.plate, Kerf: t.dust, Shavings: t.shave}
	used := s.Plate.Plus(s.Kerf).Plus(s.Shavings)
	if used.Compare(s.Whole) > 0 {
		s.Whole = used // by the rounding of a tapered billet used to the last
	}
	s.Offcut = s.Whole.Minus(used)
	return s
}

// whole returns the volume of the rough billet: exact for a box; for a tapered
// one Simpson's rule over its length, exact for the quadratic that the area of
// the section is, to floating point.
func (t *writer) whole() exact.Cubic {
	w := t.w
	if w.w0 == w.w1 && w.t == w.tx && w.t == w.ty {
		return exact.Box(w.l, w.w0, w.t)
	}
	area := func(share float64) float64 {
		width := float64(w.w0) + share*float64(w.w1-w.w0)
		thick := float64(w.t) + share*float64(w.tx-w.t)
		return width*thick + float64(w.ty-w.t)*width*width/(2*float64(w.w0))
	}
	return exact.CubicOf(float64(w.l) * (area(0) + 4*area(0.5) + area(1)) / 6)
}
