package match

import (
	"math"
	"slices"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// seam fills in the match with the edge at place e (0 left, 2 right) of the first
// leaf at the seam.
func (m *matcher) seam(s *Seam, l *Layout, e int) {
	other := e // place of the second leaf that meets it
	if l.Opening == resaw.SlipMatch {
		other = 2 - e
	}
	a, b := &l.Places[e], &l.Places[other]
	s.Edge, s.Kind = edgeNames[e], m.kinds[e]
	s.Shift, s.AtEdge = a.Shift, m.atEdge(l, e)
	s.AngleA, s.AngleB = a.AngleA, b.AngleB
	if a.Spacing[0] != nil && b.Spacing[1] != nil {
		s.Spacing = m.keep(quantity.Length(math.Abs(float64(*a.Spacing[0] - *b.Spacing[1]))))
	}
	m.carve(s, l, e)
	m.cure(s, l, e)
	byPith := 0.0
	for _, kind := range []EdgeKind{m.kinds[e], m.kinds[other]} {
		if kind == PithEdge {
			byPith += 0.5
		}
	}
	s.Terms = m.terms(s, l, a, byPith)
	s.Score = s.Terms.Sum()
	s.Cured = s.Score
	if !slices.Contains(s.Cure.NotCurable, "ring") {
		s.Cured -= (1 - TrimShare) * s.Terms.Ring
	}
}

// cure fills in what it takes to bring the ring lines at the seam, the flame and
// the cathedral tips into line.
func (m *matcher) cure(seam *Seam, l *Layout, e int) {
	c, at := &seam.Cure, l.Places[e].Shift
	least, most := math.Inf(1), math.Inf(-1)
	for _, s := range shifts(seam, l) {
		if s != nil {
			least, most = math.Min(least, float64(*s)), math.Max(most, float64(*s))
			if at != nil && l.Opening != resaw.SlipMatch {
				c.Residual = max(c.Residual, quantity.Length(math.Abs(float64(*s-*at))))
			}
		}
	}
	switch {
	case at == nil:
		c.NotCurable = append(c.NotCurable, "ring")
	case l.Opening == resaw.SlipMatch:
		// An equal shift only changes the period of the repeat.
		c.Residual = quantity.Length(most - least)
	default:
		c.Width = quantity.Length(math.Abs(float64(*at)))
		c.Half = m.giver(float64(*at), e)
		if c.Width > m.spare[0] {
			c.NotCurable = append(c.NotCurable, "ring")
		}
	}
	if l.BandShift != nil {
		if c.Slide = *l.BandShift; c.Slide > m.spare[1] {
			c.NotCurable = append(c.NotCurable, "flame")
		}
	}
	if l.TipShift != nil {
		if c.SlideTip = *l.TipShift; c.SlideTip > m.spare[1] {
			c.NotCurable = append(c.NotCurable, "tip")
		}
	}
}

// shifts are those at the places across the width: of the carved outside where there is one.
func shifts(s *Seam, l *Layout) [3]*quantity.Length {
	var out [3]*quantity.Length
	for i := range l.Places {
		out[i] = l.Places[i].Shift
	}
	for i := range s.Carved {
		out[i] = s.Carved[i].Shift
	}
	return out
}

// giver returns the half whose ring line lies farther from the seam: taking the
// shift off its seam edge brings the lines together.
func (m *matcher) giver(shift float64, e int) Half {
	switch {
	case math.Abs(shift) < float64(exact.Tiny):
		return NoHalf
	case !m.rings.circular && m.rings.sign == 0:
		return EitherHalf
	case (shift > 0) == (e == 0): // at the near edge larger X is farther from the seam
		return SecondHalf
	}
	return FirstHalf
}

// terms weighs what is wrong with a seam.
func (m *matcher) terms(s *Seam, l *Layout, a *Place, byPith float64) ScoreTerms {
	w := &m.weights
	weigh := func(weight float64, shift *quantity.Length, absent float64) float64 {
		v := absent
		if shift != nil {
			v = math.Abs(shift.Millimetres())
		}
		if weight == 0 || v == 0 {
			return 0
		}
		return math.Min(weight*v, w.Most)
	}
	never := math.Inf(1) // a line without a partner counts for the most
	t := ScoreTerms{
		Ray:      weigh(w.Ray, a.Ray, never),
		Band:     weigh(w.Band, l.BandShift, 0),
		Tip:      weigh(w.Tip, l.TipShift, 0),
		Spacing:  weigh(w.Spacing, s.Spacing, 0),
		PithEdge: math.Min(w.PithEdge*byPith, w.Most),
	}
	residual := &s.Cure.Residual
	for _, shift := range shifts(s, l) {
		if shift == nil {
			residual = nil
		}
	}
	t.Residual = weigh(w.Residual, residual, never)
	if l.Opening == resaw.SlipMatch {
		t.NoMirror = math.Min(w.NoMirror, w.Most)
	} else {
		t.Ring = weigh(w.Ring, s.Shift, never)
	}
	if l.Runout != nil {
		t.Runout = math.Min(w.Runout*l.Runout.Difference.Degrees(), w.Most)
	}
	return t
}

// better returns which of the two seams has the lower score once it is cured, and why. At equal
// scores the bark edge wins, then the left one.
func better(s *[2]Seam) (which int, reasons []string) {
	const same = 1e-9
	switch off := s[1].Cured - s[0].Cured; {
	case off < -same:
		which = 1
	case off <= same:
		if s[1].Kind == BarkEdge && s[0].Kind != BarkEdge {
			which = 1
		}
		reasons = append(reasons, "both edges score the same")
	}
	b, o := &s[which], &s[1-which]
	reasons = append(make([]string, 0, 4), reasons...)
	switch {
	case b.Shift == nil || o.Shift == nil:
		if b.Shift != nil {
			reasons = append(reasons, "ring lines at this edge reach both show faces")
		}
	case math.Abs(float64(*b.Shift)) < math.Abs(float64(*o.Shift))-same:
		reasons = append(reasons, "smaller ring shift at the seam, so a wider half once it is cured")
	case math.Abs(float64(*b.Shift)) > math.Abs(float64(*o.Shift))+same:
		reasons = append(reasons, "in spite of a larger ring shift at the seam")
	}
	if b.Terms.Spacing < o.Terms.Spacing-same {
		reasons = append(reasons, "ring spacings meet more evenly")
	}
	if b.Terms.Residual < o.Terms.Residual-same {
		reasons = append(reasons, "less miss left across the width once the rings meet at the seam")
	}
	switch b.Kind {
	case BarkEdge:
		reasons = append(reasons, "bark edge at the seam, the usual practice because rings are closest there")
	case PithEdge:
		reasons = append(reasons, "against the usual practice of the bark edge at the seam")
	case UnknownEdge:
	}
	return which, reasons
}
