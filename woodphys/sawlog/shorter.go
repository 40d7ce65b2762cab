package sawlog

import (
	"math"

	"latewood/woodphys/quantity"
)

// Shorter is a length of billets into which a log is crosscut that gives some, where it gives
// none as long as it was asked for.
type Shorter struct {
	Length  quantity.Length // of a billet between its end trims
	Lengths int             // of the log
	Billets int             // that they give
}

const (
	mostParts    = 12                       // into which a length is crosscut, at most, to see whether that helps
	leastBillets = 50 * quantity.Millimetre // length, see row sawlog.billets
)

// shorter is the longest that gives a billet, of the lengths in two, three and more equal parts:
// a shorter piece bends and tapers less. Nil where there are billets, or none would be had.
func (s *sawing) shorter(plan *Plan) *Shorter {
	l := &s.q.Log
	if len(plan.Billets) > 0 || s.q.Pattern != Wedges && math.Hypot(s.minWidth, s.thickness) > 2*math.Max(l.radius(0), l.radius(1)) {
		return nil // no section is large enough
	}
	whole := plan.Bolts[0].Length
	for parts := 2; parts <= mostParts; parts++ {
		q, other, out := *s.q, *s, Plan{}
		each := (whole - quantity.Length(parts-1)*q.Crosscut) / quantity.Length(parts)
		q.Wanted.Length = each - 2*q.Wanted.EndTrim
		if q.Wanted.Length < leastBillets || q.bolts(&out) != nil || len(out.Bolts)*q.slots(plan.GreenThickness) > MostBillets {
			return nil
		}
		other.q = &q
		for i := range out.Bolts {
			other.take(&out, i)
		}
		if len(out.Billets) > 0 {
			return &Shorter{q.Wanted.Length, len(out.Bolts), len(out.Billets)}
		}
	}
	return nil
}
