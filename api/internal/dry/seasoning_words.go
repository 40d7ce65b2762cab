package dry

import (
	"math"

	"latewood/api/internal/drawing"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

// seasoningWords is what it takes to word the answer.
type seasoningWords struct {
	req    *SeasoningRequest
	wood   *shelf.Wood
	stay   *storage
	report wire.Reporter
}

// result words the answer.
func (s *seasoningWords) result(q *seasoning.Question, a *seasoning.Answer) *SeasoningResult {
	r := &SeasoningResult{
		Wood: s.wood.Used("specific_gravity_green", "green_heartwood", "green_sapwood", "green_stem", "fibre_saturation",
			"safe_daily_loss"),
		Target: wire.MoistureBandOf(q.Rest.Moisture), DryAtPct: a.DryAt.Percent(),
		MeanDry: s.stay.reached(a.Mean), CoreDry: s.stay.reached(a.Core),
		Lowest: LowestEver{MCPct: a.Lowest.Percent(), Enough: a.Enough},
		Factor: shelf.DescribeFactor(&a.Factor), Pace: shelf.DescribePace(&a.Factor.Wet, s.report), Series: s.stay.course(&a.Course),
		ByMonth: []MonthRow{}, Defects: s.stay.defects(a.Defects), Checks: s.stay.checks(a.Checks), Advice: []string{},
	}
	r.points = r.Series
	if a.Damp != 0 {
		up := a.Damp.Percent()
		r.UpTo = &up
	}
	if a.Leaves != 0 {
		last := a.Leaves.Percent()
		r.Passes = &last
	}
	if a.Setup.Edges != nil {
		thick := s.stay.reached(a.Thickest)
		r.ThickDry = &thick
	}
	for i, dry := range a.ByStacking {
		r.ByMonth = append(r.ByMonth, MonthRow{Month: i + 1, Days: daysOf(dry)})
	}
	for _, row := range a.ByThickness {
		r.ByThickness = append(r.ByThickness, ThicknessRow{Thickness: s.report.Cut(row.Thickness), Days: daysOf(row.Dry)})
	}
	r.Stress = s.stay.stress(a.Stress, s.report)
	if a.Edges != nil {
		r.Edges = &EdgeDrying{DaysWide: daysOf(a.Edges.Wide), Days: daysOf(a.Edges.Dry)}
		if a.Edges.Share > 0 {
			share := 100 * a.Edges.Share
			r.Edges.Share = &share
		}
	}
	if a.Ends != nil {
		r.Ends = endsLose(s.req.Billet.EndSeal, &a.Ends.Reach, s.report)
		if q.Length != 0 {
			ahead, days := s.report.Length(a.Ends.Ahead), a.Ends.After.Days()
			r.Ends.Ahead, r.Ends.AheadDays = &ahead, &days
		}
	}
	s.conclude(r, a)
	r.chart = func(width int) []byte { return s.chart(r, a, width).Draw() }
	return r
}

// daysOf are the days until it is dry; nil if that is not within the forecast.
func daysOf(r seasoning.Reached) *float64 {
	if !r.Known {
		return nil
	}
	days := r.At.Days()
	return &days
}

// conclude puts the answer into a sentence and says what to do.
func (s *seasoningWords) conclude(r *SeasoningResult, a *seasoning.Answer) {
	dry := quantity.FormatNumber(r.DryAtPct, 1) + " %"
	there := "down to " + dry
	if r.UpTo != nil {
		dry = "up to " + quantity.FormatNumber(*r.UpTo, 1) + " %"
		there = dry
	}
	switch {
	case r.MeanDry.Value != "" && r.MeanDry.High != "":
		r.Summary = dry + " about " + wire.PlainDate(r.MeanDry.Value) +
			" (90 %: " + wire.PlainDate(r.MeanDry.Low) + " to " + wire.PlainDate(r.MeanDry.High) + ")"
	case r.MeanDry.Value != "":
		r.Summary = dry + " about " + wire.PlainDate(r.MeanDry.Value) + noLateDate(&a.Mean, r.Passes != nil)
	default:
		r.Summary = notThere(there, &r.MeanDry)
	}
	if on := r.ThickDry; on != nil && on.Value != "" {
		r.Summary += ", where it is thickest about " + wire.PlainDate(on.Value)
	}
	if r.Passes != nil {
		r.Summary += ", and does not stay there: " + quantity.FormatNumber(*r.Passes, 1) + " % by the end of the forecast"
	}
	for _, one := range grave(a.Defects) {
		r.Summary += ", but " + one
	}
	if !r.Lowest.Enough {
		names := s.stay.names(s.report)
		r.Advice = append(r.Advice, names[len(names)-1]+": the wood stays above "+
			quantity.FormatNumber(r.Lowest.MCPct, 1)+" % there; finish it in a drier room")
	}
	r.Advice = append(r.Advice, checksAdvice(r.Checks)...)
	r.Advice = append(r.Advice, "weigh the piece now and then: three dated weights tell more than this forecast; "+
		"POST /v1/readiness learns from them")
}

// noLateDate says why there is no late date; nothing where it is said that it does not stay there.
func noLateDate(mean *readiness.Reached, passes bool) string {
	switch {
	case !mean.MostlyOnce():
		return ", perhaps not within the forecast"
	case passes:
		return ""
	}
	return ", with no late date: on no one day are most of the cases there"
}

// notThere says why there is no date.
func notThere(there string, on *wire.DateBand) string {
	never := "not " + there + " within the forecast"
	if on.Likeliest == nil {
		return never
	}
	cases := percent(*on.Likeliest) + " of the cases"
	when := likeliest(on)
	switch readiness.Undated(on.Undated) {
	case readiness.UndatedPassing:
		return there + " only in passing, if at all: at most " + cases + " are," + when
	case readiness.UndatedUnsure:
		return "perhaps not " + there + " where it lies: at most " + cases + " are," + when
	case readiness.UndatedLater:
		return never + ", more likely than not: at its end " + cases + " are"
	case readiness.UndatedNever:
	}
	return never
}

// chart is the drawing of the course.
func (s *seasoningWords) chart(r *SeasoningResult, a *seasoning.Answer, width int) *drawing.CourseChart {
	c := &drawing.CourseChart{
		On:      drawing.FrameOf(width),
		Heading: r.Wood.Common + ", " + s.req.Billet.Thickness.Called(s.report, width > 0),
		Finding: r.Summary, Target: r.Target.Value, DryAt: r.DryAtPct,
		About: []string{factorNote(stacked(s.req.Billet.StackedOn), a.Setup.StartMC.Percent(), r.Factor) +
			". Mean monthly air; a real year differs. A forecast, not a promise."},
	}
	s.stay.onto(c, r.Series, s.report)
	if r.MeanDry.ValueDays != nil {
		c.Ready = &drawing.ReadySpan{Early: *r.MeanDry.LowDays, Middle: *r.MeanDry.ValueDays, Late: math.Inf(1)}
		if r.MeanDry.HighDays != nil {
			c.Ready.Late = *r.MeanDry.HighDays
		}
	}
	return c
}
