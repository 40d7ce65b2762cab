package dry

import (
	"fmt"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

// word fills in the answer.
func (h *history) word(judged *seasoning.Judged, r *ReadinessResult) {
	a := judged.HistoryAnswer
	h.now(&a.Now, &r.Moisture)
	h.question.Target, h.target.MC = a.Target, wire.MoistureBandOf(a.Target)
	r.Target = h.target.from(a.Now.Mean.Value)
	for i := range a.Verdicts {
		step := describeVerdict(&a.Verdicts[i])
		step.perhaps = a.Dates[i].Perhaps
		step.ReadyOn = h.readyOn(&a.Verdicts[i], &a.Dates[i])
		r.Verdicts = append(r.Verdicts, step)
	}
	r.Next, r.Weights = h.next(&a.Next), h.weightsAhead(a.Weights)
	r.Calibration = h.learned(a.Posterior)
	for i := range a.Posterior.Contradictions {
		r.Rejected = append(r.Rejected, h.setAside(&a.Posterior.Contradictions[i]))
	}
	for i := range a.Impossible {
		r.Rejected = append(r.Rejected, h.cannotBe(&a.Impossible[i]))
	}
	r.Series = h.stay.course(&a.Course)
	r.Checks, r.Defects = h.stay.checks(judged.Checks), h.stay.defects(judged.Defects)
	r.Advice = append(harmAhead(r.Checks, judged.Defects), wanted(a.Wants, h.report)...)
	r.harm = inDanger(r.Checks, judged.Defects)
	if a.Moved != nil {
		r.Advice = append(r.Advice, h.bring(a.Moved))
	}
	r.chart = func(width int) []byte { return h.chart(a, r, width).Draw() }
}

// wedge tells as what a wedge is dried, and what else is to be known of it.
func wedge(b *shelf.Billet, setup *readiness.Setup, more string, report wire.Reporter, notes *method.Notes) {
	edges := setup.Edges
	if edges == nil {
		return
	}
	long := func(l quantity.Length) string { return l.Format(report.LengthUnit) }
	notes.Warn(method.Warning{Code: method.Assumption, Input: b.Wedge(), Method: "drying.taper", Detail: "the whole is dried " +
		"as a board of " + long(setup.Thickness) + ", the thickness that its wood lies in on average; where it is thinnest, " + long(edges.Thin.Thickness) + ", and thickest, " + long(edges.Thick.Thickness) +
		", it is dried beside that" + more})
}

// gradientMeans says what the sense of a gradient means.
var gradientMeans = map[moisture.Sense]string{
	moisture.NotTold:     "the band of the fitted course holds no difference as well",
	moisture.CoreWetter:  "the core is wetter than the shell: a leaf sawn now changes shape as it evens out",
	moisture.ShellWetter: "the shell is wetter than the core: the surface has taken up moisture",
}

// now shows the moisture content today.
func (h *history) now(c *readiness.Condition, m *MoistureNow) {
	shell, core := wire.MoistureBandOf(c.Shell), wire.MoistureBandOf(c.Core)
	*m = MoistureNow{MC: wire.MoistureBandOf(c.Mean), SDPct: c.Mean.SD().Percent(), Shell: &shell, Core: &core,
		Estimates: []shelf.Estimate{}}
	if c.Thin != nil {
		thin, thick := wire.MoistureBandOf(*c.Thin), wire.MoistureBandOf(*c.Thick)
		m.Thinnest, m.Thickest = &thin, &thick
	}
	for i := range h.sources {
		if e := h.sources[i].mc; e.How != "" {
			m.Estimates = append(m.Estimates, shelf.DescribeEstimate(e, h.sources[i].date))
		}
	}
	sense := c.Sense()
	m.Gradient = &shelf.Gradient{CoreMinusShell: wire.PointsBandOf(c.Gradient), Sense: string(sense),
		Detail: gradientMeans[sense]}
	m.Trend = &WeightTrend{Mass: wire.PercentADay(c.MassPerDay),
		MC: wire.PointsADay(c.MCPerDay), SpanDays: readiness.TrendSpan.Days()}
}

// readingNames name what is read next, for programs.
var readingNames = map[readiness.Kind]string{
	readiness.Weight: "weight", readiness.Sample: "ovendry_sample", readiness.Pin: "pin_meter",
}

// next shows the reading worth taking next.
func (h *history) next(a *readiness.Advice) *NextReading {
	best := &a.Options[a.Best]
	n := &NextReading{Kind: readingNames[best.Kind], Date: h.stay.date(best.At), Detail: h.why(a),
		Above: best.IfAbove.Detail, Below: best.IfBelow.Detail}
	if best.Kind == readiness.Weight {
		mass := h.report.MassBand(best.Mass)
		n.ExpectMass = &mass
	} else {
		mc := wire.MoistureBandOf(best.MC)
		n.ExpectMC = &mc
	}
	return n
}

// weightsAhead shows what the scale will show.
func (h *history) weightsAhead(all []readiness.Foreseen) []ExpectedWeight {
	told := make([]ExpectedWeight, 0, len(all))
	for i := range all {
		f := &all[i]
		told = append(told, ExpectedWeight{Date: h.stay.date(f.At), Mass: h.report.MassBand(f.Mass), Plausible: h.report.MassRange(f.Least, f.Most)})
	}
	return told
}

// why says what the best reading would tell.
func (h *history) why(a *readiness.Advice) string {
	o := &a.Options[a.Best]
	what := map[readiness.Kind]string{readiness.Weight: "weigh it", readiness.Pin: "read the meter",
		readiness.Sample: "cut and oven-dry a sample"}[o.Kind]
	if o.Kind == readiness.Sample && h.question.Billet.TooShortToCut() {
		what = "oven-dry an offcut of the same board that lay beside it, for it is too short to cut a sample from,"
	}
	if o.Part != "" && o.Kind != readiness.Weight {
		what += " (" + string(o.Part) + ")"
	}
	when := "now"
	if days := (o.At - h.question.Today).Days(); days > 0 {
		when = fmt.Sprintf("in %.0f days", days)
	}
	expected := quantity.FormatNumber(o.MC.Low.Percent(), 1) + " to " +
		quantity.FormatNumber(o.MC.High.Percent(), 1) + " %MC"
	if o.Kind == readiness.Weight {
		expected = h.report.SaidMasses(o.Mass.Low, o.Mass.High)
	}
	text := fmt.Sprintf("%s %s; %s is to be expected. It is expected to remove %.0f %% of the "+
		"uncertainty of the %s", what, when, expected, 100*o.Gain, a.By)
	if a.Little {
		text = "no reading tells much now; the best is to " + text
	}
	return text
}

// learned shows what the readings taught.
func (h *history) learned(p *readiness.Posterior) *Calibration {
	out := &Calibration{
		Factor: shelf.FactorUsed{Value: p.Factor.Value, Low: p.Factor.Low, High: p.Factor.High, Unit: wire.UnitRatio,
			Detail: "learned from the readings"},
		Pace: shelf.FactorUsed{Value: p.Pace.Value, Low: p.Pace.Low, High: p.Pace.High, Unit: wire.UnitRatio,
			Detail: "learned from the readings"},
		FactorBefore: h.before, StartMC: wire.MoistureBandOf(p.StartMC),
		EMCScale: wire.Band{Value: p.EMCScale.Value, Low: p.EMCScale.Low, High: p.EMCScale.High, Unit: wire.UnitRatio},
		Meters:   []MeterBias{}, ReadingsUsed: p.Used, Method: p.Method, Effective: p.EffectiveSize, Members: p.Members,
	}
	if p.Foretold.Of > 0 {
		out.Foretold = &Foretold{InBand: p.Foretold.Held, Weighings: p.Foretold.Of}
	}
	if p.Used == 0 {
		out.Factor.Detail = "no reading to learn from"
		out.Pace.Detail = out.Factor.Detail
	}
	if p.OvendryKnown[0] {
		mass := h.report.MassBand(p.Ovendry[0])
		out.Ovendry = &mass
	}
	for i := range h.question.Setup.Meters {
		out.Meters = append(out.Meters, MeterBias{h.question.Setup.Meters[i].Name, wire.PointsBandOf(p.MeterBias[i])})
	}
	return out
}

// setAside shows a reading that the others rule out.
func (h *history) setAside(c *readiness.Contradiction) RejectedReading {
	from := &h.sources[c.Index]
	s := RejectedReading{Pointer: from.pointer, Date: from.date, Detail: h.explain(c), Slip: c.Slip, Undecided: c.Undecided}
	if c.Undecided && c.With >= 0 {
		s.With = h.sources[c.With].pointer
	}
	return s
}

// cannotBe shows a weight that a billet of its size and wood cannot have.
func (h *history) cannotBe(m *readiness.Impossible) RejectedReading {
	from := &h.sources[m.Index]
	return cannotBe(m, from.pointer, from.date, from.unit, h.report)
}

// warned is the warning of a weight that cannot be.
func (r *RejectedReading) warned() method.Warning {
	return method.Warning{Code: method.Disagreement, Method: "readiness.possible-mass", Input: r.Pointer[1:], Detail: r.Detail}
}

func cannotBe(m *readiness.Impossible, pointer, date, unit string, report wire.Reporter) RejectedReading {
	said := func(mass quantity.Mass) string {
		if report.Speaks(unit) {
			return mass.Format(unit)
		}
		return report.SaidMass(mass)
	}
	text := said(m.Given) + " is more than a billet of this size and wood weighs with every void full of water, " + said(m.Can.Most)
	if m.Given < m.Can.Least {
		text = said(m.Given) + " is less than a billet of this size and wood weighs without any water, " + said(m.Can.Least)
	}
	return RejectedReading{Pointer: pointer, Date: date,
		Detail: text + "; it was left out. Check the weight and its unit, the sizes and the wood"}
}

// explain says what a reading was and what the others lead to expect.
func (h *history) explain(c *readiness.Contradiction) string {
	given, expected := h.givenAndExpected(c)
	text := given + " does not fit: the others lead to expect " + expected + "; it was left out"
	switch {
	case c.Undecided && c.With >= 0:
		text = given + " and another reading contradict each other, and nothing tells which is wrong; both were left " +
			"out. Without them " + expected +
			" is expected; one more reading settles it"
	case c.Undecided:
		text = given + " lies far from what the wood, its start and its place lead to expect, " + expected +
			"; either may be wrong, and it was left out. One more reading settles it"
	}
	if c.Slip != "" {
		text += ". " + c.Slip
	}
	return text
}

// givenAndExpected are a reading and what the others lead to expect in its place. A
// weight is told in the unit it was written in; where the answer does not speak that
// unit, with the number as it was written, by which the maker finds it.
func (h *history) givenAndExpected(c *readiness.Contradiction) (given, expected string) {
	if c.Kind != readiness.Weight {
		return quantity.FormatNumber(h.sources[c.Index].mc.MC.Value.Percent(), 1) + " %",
			quantity.FormatNumber(c.ExpectedMC.Low.Percent(), 1) + " to " +
				quantity.FormatNumber(c.ExpectedMC.High.Percent(), 1) + " %"
	}
	low, high := c.ExpectedMass.Low, c.ExpectedMass.High
	if unit := h.sources[c.Index].unit; h.report.Speaks(unit) {
		return c.GivenMass.Format(unit), wire.MassSpan(low, high, unit)
	}
	given = h.report.SaidMass(c.GivenMass) + " (written as " + h.question.Observations[c.Index].Written + ")"
	return given, h.report.SaidMasses(low, high)
}
