package section

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Heart is what happens to a section that holds the pith. It has no stress-free
// shape unless both changes are equal.
type Heart struct {
	// Opening is the angle by which the full circle fails to close. Positive: it
	// opens, in one check or shared by several. Negative: wood is crowded outside
	// and pulled near the pith, and nothing opens.
	Opening quantity.Band[quantity.Angle]
	Opens   bool
	// Gap is how wide one check from the pith square to a side opens at that side
	// if it takes all of the opening; 0 where nothing opens.
	Gap Sides
}

// heart: 2 pi (1 - k), k = b/a; gap over the ring of radius r, after the change,
// 2 pi (1 - k) a r = 2 pi r (a - b).
func heart(s *Section, e *Strains) Heart {
	a, b := 1+e.Radial.Value, 1+e.Tangential.Value
	opening := e.band(number{v: 2 * math.Pi * (1 - b/a), a: 2 * math.Pi * b / (a * a), b: -2 * math.Pi / a})
	if h := opening.Value; h > 0 { // of one wood the rings move more than the radius, by however little
		opening.Low = math.Max(opening.Low, 0)
	} else {
		opening.High = math.Min(opening.High, 0)
	}
	h := Heart{Opening: angle(opening)}
	h.Opens = h.Opening.Value > 0
	gap := func(r quantity.Length) quantity.Band[quantity.Length] {
		around := 2 * math.Pi * float64(r)
		return length(e.band(number{v: around * (a - b), a: around, b: -around}).Clamp(0, math.Inf(1)))
	}
	h.Gap = Sides{
		Lower: gap(s.Thickness/2 + s.PithY), Upper: gap(s.Thickness/2 - s.PithY),
		Left: gap(s.Width/2 + s.PithX), Right: gap(s.Width/2 - s.PithX),
	}
	return h
}

func (h *Heart) warning() method.Warning {
	w := method.Warning{Code: method.Assumption, Method: heartRow.ID, Input: "pith"}
	switch {
	case h.Opens:
		w.Detail = "the pith is inside this section (boxed heart): the rings want to become shorter than they can, no stress-free shape exists and a check will open"
	case h.Opening.Value < 0:
		w.Detail = "the pith is inside this section (boxed heart): the rings want to become longer than they can, no stress-free shape exists; nothing opens, and old checks close"
	default:
		w.Detail = "the pith is inside this section (boxed heart): with equal radial and tangential change nothing opens"
	}
	return w
}
