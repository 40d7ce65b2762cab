package cut

import (
	"math"

	"latewood/api/internal/drawing"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// isRough says that a step is done to wood as thick as the billet: no leaf, and nothing that was
// sawn off a taper.
func isRough(made *plan.BilletPlan, s *plan.Step) bool { return made.Places[s.Piece].Z0 == nil }

// cutsOf are the resaw cuts of every blank.
func cutsOf(made *plan.BilletPlan) [][]plan.Step {
	out := make([][]plan.Step, len(made.Blanks))
	blank := -1
	for i := range made.Steps {
		s := &made.Steps[i]
		switch {
		case s.Action == plan.FlattenBlank:
			blank++
		case s.Action == plan.Resaw && !isRough(made, s): // else a taper is sawn off
			out[blank] = append(out[blank], *s)
		}
	}
	return out
}

// zones draws those that reach into a length of the billet and matter there: not
// one that lies beyond the ends of all the blanks it would be drawn on.
func (e *endGrain) zones(b *plan.Billet, made *plan.BilletPlan, s *lengthView) {
	width, deepest := quantity.Length(e.outline[1].X), quantity.Length(math.Max(e.outline[2].Y, e.outline[3].Y))
	for i := range b.Zones {
		z := &b.Zones[i]
		if z.X1 <= s.from || z.X0 >= s.to || !matters(z, made, s) {
			continue
		}
		top, bottom := quantity.Length(0), deepest
		if z.Z0 != nil {
			top, bottom = max(0, *z.Z0), min(deepest, *z.Z1)
		}
		left, right := max(0, z.Y0), min(width, z.Y1)
		if right > left && bottom > top {
			e.d.Rectangle(e.x(left), e.y(top), e.x(right)-e.x(left), e.y(bottom)-e.y(top), fault)
		}
	}
}

// matters says whether a zone lies in a blank of the view, or beside all of them.
func matters(z *plan.Zone, made *plan.BilletPlan, s *lengthView) bool {
	beside := true
	for _, n := range s.blanks {
		k := &made.Blanks[n]
		if z.Y1 <= k.Y || z.Y0 >= k.Y+k.Width {
			continue
		}
		if z.X1 > k.X && z.X0 < k.X+k.Length {
			return true
		}
		beside = false
	}
	return beside
}

// ripKerf is where a rip cut turns wood into dust: from and to along the billet,
// left and right across it.
type ripKerf struct{ from, to, left, right quantity.Length }

// ripsOf follows the cuts of a plan and returns the kerfs of its rips.
func ripsOf(b *plan.Billet, made *plan.BilletPlan) []ripKerf {
	pieces := map[int]ripKerf{0: {0, b.Length, 0, widest(b)}}
	var out []ripKerf
	for i := range made.Steps {
		s := &made.Steps[i]
		if !isRough(made, s) {
			continue
		}
		low, high := pieces[s.Piece], pieces[s.Piece]
		switch s.Action {
		case plan.Crosscut, plan.Trim:
			low.to, high.from = s.At, s.At+s.Kerf
		case plan.Rip:
			out = append(out, ripKerf{low.from, low.to, s.At, s.At + s.Kerf})
			low.right, high.left = s.At, s.At+s.Kerf
		default: // face and thickness: the place stays
		}
		if s.Low >= 0 {
			pieces[s.Low] = low
		}
		if s.High >= 0 {
			pieces[s.High] = high
		}
	}
	return out
}

// rips draws the kerfs of the rip cuts through a length, from face to face.
func (e *endGrain) rips(b *plan.Billet, made *plan.BilletPlan, s *lengthView) {
	width, far, near := e.outline[1].X, e.outline[2].Y, e.outline[3].Y
	for _, k := range ripsOf(b, made) {
		left, right := float64(max(0, k.left)), math.Min(width, float64(k.right))
		if k.to <= s.from || k.from >= s.to || right <= left {
			continue
		}
		depth := func(y float64) quantity.Length { return quantity.Length(near + (far-near)*y/width) }
		l, r := quantity.Length(left), quantity.Length(right)
		e.d.Polygon([]drawing.Point{drawing.At(e.x(l), e.y(0)), drawing.At(e.x(r), e.y(0)),
			drawing.At(e.x(r), e.y(depth(right))), drawing.At(e.x(l), e.y(depth(left)))}, sawdust)
	}
}
