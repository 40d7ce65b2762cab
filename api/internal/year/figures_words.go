package year

import (
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/laminate"
	"latewood/woodphys/quantity"
)

func describeFigures(room *lived, parts []*part, req *AssemblyMovementRequest, f *inservice.Figures,
	report wire.Reporter) *AssemblyMovementResult {
	r := &AssemblyMovementResult{Parts: make([]PartFigures, 0, len(parts)), Pairs: make([]PairFigures, 0, len(req.Pairs))}
	on := func(quantity.Duration) Day { return Day{} }
	if room != nil {
		used := room.describe(report)
		r.Room, on = &used, room.on
	}
	for i, p := range parts {
		one := &f.Parts[i]
		figures := PartFigures{
			ID: p.id, Name: p.req.Name, Wood: p.wood.Used(partFigures...), Build: wire.MoistureBandOf(p.MadeAt),
			Driest:  FigureState{on(one.Dry.At), wire.MoistureBandOf(one.Dry.Mean)},
			Wettest: FigureState{on(one.Wet.At), wire.MoistureBandOf(one.Wet.Mean)},
			PerPoint: PerPoint{wire.PercentAPoint(one.PerPoint.Longitudinal), wire.PercentAPoint(one.PerPoint.Radial),
				wire.PercentAPoint(one.PerPoint.Tangential)},
			Sizes: make([]SizeFigures, 0, len(one.Sizes)), called: p.Name,
		}
		for k := range one.Sizes {
			figures.Sizes = append(figures.Sizes, describeSize(&one.Sizes[k], report))
		}
		r.Parts = append(r.Parts, figures)
	}
	for i := range f.Meetings {
		p := describePair(&f.Meetings[i], report)
		p.ID, p.Name = shelf.IDOf(req.Pairs[i].ID, i), req.Pairs[i].Name
		p.called = calledBy(p.Name, req.Pairs[i].ID, "pair", i)
		r.Pairs = append(r.Pairs, p)
	}
	for i := range f.Joints {
		r.Glued = append(r.Glued, describeJoint(&f.Joints[i], &req.Glued[i], i, report))
	}
	r.Summary = figuresSummary(r, f)
	return r
}

func describeSize(s *inservice.SizeFigures, report wire.Reporter) SizeFigures {
	return SizeFigures{
		Dimension: string(s.Dimension), PerPoint: report.LengthBand(s.PerPoint), Build: report.Cut(s.Build),
		Driest: report.LengthBand(s.Dry.Final), Wettest: report.LengthBand(s.Wet.Final),
		ToDriest: report.LengthBand(s.Dry.Change), ToWettest: report.LengthBand(s.Wet.Change),
		Swing: report.LengthBand(s.Swing),
	}
}

// fitWords say how to fit two parts.
var fitWords = map[laminate.Fit]string{
	laminate.NoFit:  "no clearance keeps both limits: what never binds comes to gape; allow a wider gap, or take wood that moves less",
	laminate.AnyFit: "the parts move alike; fit it as you like between the limits",
	laminate.Snug:   "widest in the dry season: the least serves, for 95 of 100 pairs; the usual adds a little for the bench",
	laminate.Loose:  "tightest in the dry season: the least keeps it from binding then, for 95 of 100 pairs; the usual adds a little for the bench",
}

func describePair(c *laminate.Clearance, report wire.Reporter) PairFigures {
	return PairFigures{
		Feasible: c.Possible,
		AtBuild:  BuildClearance{report.Length(c.Least), report.Length(c.Usual), report.Length(c.Greatest)},
		Short:    report.Length(c.Short), ToDriest: report.LengthBand(c.Dry), ToWettest: report.LengthBand(c.Wet),
		Detail: fitWords[c.Fit],
	}
}

// figuresSummary tells the widest swing in percent, and the pairs that cannot hold.
func figuresSummary(r *AssemblyMovementResult, f *inservice.Figures) string {
	text := "the " + string(f.Most) + " of " + r.Parts[f.MostOf].called + " moves most: " +
		quantity.FormatNumber(f.MostPct, 1) + " % between driest and wettest"
	var bad []string
	for i := range r.Pairs {
		if !r.Pairs[i].Feasible {
			bad = append(bad, r.Pairs[i].called)
		}
	}
	switch {
	case len(bad) > 0:
		text += "; cannot keep its limits: " + strings.Join(bad, ", ")
	case len(r.Pairs) > 0:
		text += "; all " + strconv.Itoa(len(r.Pairs)) + " pairs can keep their limits"
		if len(r.Pairs) == 1 {
			text = strings.Replace(text, "all 1 pairs can keep their limits", "the pair can keep its limits", 1)
		}
	}
	return text + gluedSummary(r)
}

// gluedSummary tells the glued joint that bears most, and those at risk.
func gluedSummary(r *AssemblyMovementResult) string {
	if len(r.Glued) == 0 {
		return ""
	}
	most, risky := &r.Glued[0], []string(nil)
	for i := range r.Glued {
		g := &r.Glued[i]
		if g.Share.Value > most.Share.Value {
			most = g
		}
		if g.Risk == string(inservice.High) {
			risky = append(risky, g.called)
		}
	}
	if len(risky) > 0 {
		return "; glued and may crack or open: " + strings.Join(risky, ", ")
	}
	return "; of " + wire.CountOf(len(r.Glued), "glued joint") + " " + most.called + " bears most, " +
		quantity.FormatNumber(most.Share.Value, 0) + " % of what wood begins to fail at"
}
