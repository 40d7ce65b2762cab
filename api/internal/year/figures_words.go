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
	meetings []inservice.Meeting, report wire.Reporter) *AssemblyMovementResult {
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
		p := describePair(&f.Meetings[i], meetings[i].Play, report)
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
	laminate.AnyFit: "the parts move alike; fit it as you like between the limits",
	laminate.Snug:   "widest in the dry season: the least serves, for 95 of 100 pairs; the usual adds a little for the bench",
	laminate.Loose:  "tightest in the dry season: the least keeps it from binding then, for 95 of 100 pairs; the usual adds a little for the bench",
}

func describePair(c *inservice.Met, play laminate.Play, report wire.Reporter) PairFigures {
	out := PairFigures{
		Feasible: c.Possible,
		AtBuild:  BuildClearance{report.Length(c.Least), report.Length(c.Usual), report.Length(c.Greatest)},
		Short:    report.Length(c.Short), ToDriest: report.LengthBand(c.Dry), ToWettest: report.LengthBand(c.Wet),
		Detail: fitWords[c.Fit],
	}
	if !c.Possible {
		out.Detail = noFit(c, play, report)
	}
	if c.Made != nil {
		out.AsMade = describeMade(c, play, report)
	}
	return out
}

// noFit says why no clearance keeps both limits, and what to change.
func noFit(c *inservice.Met, play laminate.Play, report wire.Reporter) string {
	text := "no clearance keeps both limits: what never binds comes to gape. The gap moves by up to " +
		report.SaidLength(c.Opens.High-c.Closes.Low) + ", and the limits leave it " + report.SaidLength(play.Most-play.Least) + "; "
	if c.Wetter {
		return text + "at the build the wood is wetter than it will ever be again: let it dry first, for a wider gap does not help"
	}
	return text + "allow a wider gap, or take wood that moves less"
}

// stateWords say when a clearance is at an end.
var stateWords = map[laminate.State]string{laminate.AtTheBuild: "at the build", laminate.InDriest: "in the driest state",
	laminate.InWettest: "in the wettest state", laminate.Lagging: "while one part lags behind the other"}

// describeMade words a pair by its sizes.
func describeMade(c *inservice.Met, play laminate.Play, report wire.Reporter) *PairAsMade {
	made := c.Made
	out := &PairAsMade{Verdict: string(made.Verdict), Clearance: report.Length(made.Gap), Driest: report.LengthBand(made.Driest),
		Wettest: report.LengthBand(made.Wettest)}
	said := report.SaidLength
	when := stateWords[made.NarrowestIn]
	switch made.Verdict {
	case laminate.TooLarge:
		out.Detail = "it does not go in: the inner part is " + said(-made.Gap) + " larger than the outer"
	case laminate.Binds:
		out.Detail = "it binds: the gap of " + said(made.Gap) + " closes " + when
	case laminate.MayBind:
		out.Detail = "it may bind: the gap of " + said(made.Gap) + " can close " + when
		if low := made.Narrowest.Low; low > 0 {
			out.Detail = "it may bind: the gap of " + said(made.Gap) + " can come down to " + said(low) + " " + when
		}
	case laminate.Gapes:
		out.Detail = "it gapes: the gap of " + said(made.Gap) + " can open to " + said(made.Widest.High) + " " + stateWords[made.WidestIn] +
			", and " + said(play.Most) + " serves"
		return out
	case laminate.Fits:
		out.Detail = "it fits: the gap of " + said(made.Gap) + " keeps both limits"
		return out
	}
	if c.Possible && c.Outer > c.Usual {
		out.Detail += "; an inner part of " + said(c.Outer-c.Usual) + " keeps both limits"
	}
	return out
}

// figuresSummary tells the pairs that do not serve as they are made, the widest swing in percent,
// and the pairs that cannot hold.
func figuresSummary(r *AssemblyMovementResult, f *inservice.Figures) string {
	text := madeSummary(r) + "the " + string(f.Most) + " of " + r.Parts[f.MostOf].called + " moves most: " +
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

// madeSummary tells the pairs that do not serve by their sizes.
func madeSummary(r *AssemblyMovementResult) string {
	text := ""
	for i := range r.Pairs {
		if made := r.Pairs[i].AsMade; made != nil && made.Verdict != string(laminate.Fits) {
			text += "with the sizes given, " + r.Pairs[i].called + " " + strings.TrimPrefix(made.Detail, "it ") + ". "
		}
	}
	return text
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
