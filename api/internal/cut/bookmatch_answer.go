package cut

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/match"
)

// matchAnswer shows a match in the caller's units.
type matchAnswer struct{ report wire.Reporter }

// matchResult is the whole answer.
func matchResult(in *match.Input, a *match.Result, report wire.Reporter, standIns []shelf.Provenance) *BookmatchResult {
	m := &matchAnswer{report}
	drawn := &matchDrawing{in: in, match: a, report: report}
	r := &BookmatchResult{
		Leaves: make([]LeafRings, 0, len(a.Leaves)),
		Pairs:  make([]PairMatch, 0, len(a.Pairs)),
		Ranked: ranks(a.Ranked), Chosen: ranks(a.Chosen), Advice: []string{}, StandIns: standIns,
		drawn: drawn,
	}
	for i, l := range a.Leaves {
		r.Leaves = append(r.Leaves, LeafRings{l.Leaf, report.Cut(a.Faces[i].Front), report.Cut(a.Faces[i].Back),
			l.Near.Degrees(), l.Middle.Degrees(), l.Far.Degrees()})
	}
	if a.Pith != nil {
		r.Pith = &PithPlace{report.Length(a.Pith.X), report.Length(a.Pith.Z)}
	}
	if a.Near != "" || a.Far != "" {
		r.Edges = &shelf.EdgesInTree{Near: string(a.Near), Far: string(a.Far)}
	}
	for i := range a.Pairs {
		r.Pairs = append(r.Pairs, m.pair(&a.Pairs[i]))
	}
	r.conclude(report)
	drawn.summary = r.Summary
	return r
}

func ranks(all []match.RankedPair) []PairRank {
	out := make([]PairRank, 0, len(all))
	for _, p := range all {
		out = append(out, PairRank{p.First, p.First + 1, string(p.Opening), string(p.Edge), p.Score, p.Cured})
	}
	return out
}

func (m *matchAnswer) pair(p *match.Pair) PairMatch {
	out := PairMatch{First: p.First, Second: p.First + 1, Kerf: m.report.Length(p.Kerf),
		Openings: make([]OpeningMatch, 0, len(p.Layouts))}
	for i := range p.Layouts {
		out.Openings = append(out.Openings, m.opening(&p.Layouts[i]))
	}
	return out
}

func (m *matchAnswer) opening(l *match.Layout) OpeningMatch {
	o := OpeningMatch{
		Opening: string(l.Opening), ShowFirst: m.report.Length(l.ShowA), ShowSecond: m.report.Length(l.ShowB),
		Distance: m.report.Length(l.Distance),
		Flame:    m.optional(l.BandShift), Tips: m.optional(l.TipShift), Better: string(l.Seams[l.Better].Edge),
		Reasons: append([]string{}, l.Reasons...),
	}
	if f := l.Largest; f != nil {
		o.Largest = &LargestShift{m.report.Length(f.Shift), m.report.Length(f.X), m.report.Length(f.Unpaired)}
	}
	if l.Runout != nil {
		o.Runout = &RunoutMatch{l.Runout.Angle.Degrees(), l.Runout.Mirrored, l.Runout.Difference.Degrees()}
	}
	for i := range l.Places {
		p := &l.Places[i]
		place := PlaceMatch{
			At: string(p.At), Y: m.report.Length(p.X), Angle: p.Angle.Degrees(), AngleFirst: p.AngleA.Degrees(),
			AngleSecond: p.AngleB.Degrees(),
			Shift:       m.optional(p.Shift), Plane: m.optional(p.Plane), Circle: m.optional(p.Circle),
			Square: m.optional(p.Square), Ray: m.optional(p.Ray),
			SpacingFirst: m.optional(p.Spacing[0]), SpacingSecond: m.optional(p.Spacing[1]),
		}
		if p.Band != nil {
			b := m.report.LengthBand(*p.Band)
			place.Band = &b
		}
		o.Places = append(o.Places, place)
	}
	for i := range l.Seams {
		o.Seams = append(o.Seams, m.seam(&l.Seams[i], l))
	}
	return o
}

func (m *matchAnswer) optional(l *quantity.Length) *wire.Quantity {
	if l == nil {
		return nil
	}
	q := m.report.Length(*l)
	return &q
}

func (m *matchAnswer) seam(s *match.Seam, l *match.Layout) SeamMatch {
	out := SeamMatch{
		Edge: string(s.Edge), Faced: string(s.Kind), Shift: m.optional(s.Shift), AtEdge: m.optional(s.AtEdge), AngleFirst: s.AngleA.Degrees(),
		AngleSecond: s.AngleB.Degrees(),
		Spacing:     m.optional(s.Spacing), Score: s.Score, Cured: s.Cured, Terms: []ScoreTerm{},
		Cure: SeamCure{Half: string(s.Cure.Half), Width: m.report.Length(s.Cure.Width),
			Residual: m.report.Length(s.Cure.Residual), NotMatched: s.Cure.NotCurable},
	}
	if l.BandShift != nil {
		out.Cure.Slide = m.optional(&s.Cure.Slide)
	}
	if l.TipShift != nil {
		out.Cure.SlideTips = m.optional(&s.Cure.SlideTip)
	}
	for i := range s.Carved {
		p := &s.Carved[i]
		out.Carved = append(out.Carved, CarvedPlace{string(p.At), m.report.Length(p.X), m.report.Length(p.DepthA), m.report.Length(p.DepthB),
			p.AngleA.Degrees(), p.AngleB.Degrees(), m.optional(p.Shift)})
	}
	for _, t := range []ScoreTerm{
		{"ring", s.Terms.Ring}, {"residual", s.Terms.Residual}, {"ray", s.Terms.Ray}, {"flame", s.Terms.Band},
		{"tip", s.Terms.Tip},
		{"spacing", s.Terms.Spacing}, {"runout", s.Terms.Runout}, {"pith_edge", s.Terms.PithEdge},
		{"no_mirror", s.Terms.NoMirror},
	} {
		if t.Score != 0 {
			out.Terms = append(out.Terms, t)
		}
	}
	return out
}
