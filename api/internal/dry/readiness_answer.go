package dry

import (
	"strings"

	"latewood/api/internal/drawing"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// answer fills the result from what was learned.
func (l *learning) answer(rh float64) (*moisture.Estimate, error) {
	r := l.result
	condition, err := l.posterior.Now(l.today)
	if err != nil {
		return nil, pointAtDay(err)
	}
	now := &moisture.Estimate{MC: condition.Mean, SD: condition.Mean.SD(), How: "readiness.learn", Place: moisture.Mean}
	l.describeNow(&condition, now)
	r.Target = Target{MC: wire.MoistureBandOf(l.target), RHPct: rh * 100, GapPoints: (now.MC.Value - l.target.Value).Percent()}
	if err := l.judge(); err != nil {
		return nil, err
	}
	if err := l.nextReading(); err != nil {
		return nil, err
	}
	l.describeLearned()
	l.describeSetAside()
	r.Series = l.series()
	r.NextSteps = []string{}
	r.chart = func() []byte { return l.chart().Draw() }
	return now, nil
}

func (l *learning) describeNow(c *readiness.Condition, now *moisture.Estimate) {
	shell, core := wire.MoistureBandOf(c.Shell), wire.MoistureBandOf(c.Core)
	m := MoistureNow{MC: wire.MoistureBandOf(c.Mean), SDPct: now.SD.Percent(), Shell: &shell, Core: &core, Estimates: []shelf.Estimate{}}
	for i := range l.sources {
		if e := l.sources[i].mc; e.How != "" {
			m.Estimates = append(m.Estimates, shelf.DescribeEstimate(e, l.sources[i].date))
		}
	}
	gradient := shelf.Gradient{CoreMinusShell: wire.MoistureBandOf(c.Gradient), Sense: string(moisture.NotTold), Meaning: "the band of the fitted course holds no difference as well"}
	switch {
	case c.Gradient.Low > 0:
		gradient.Sense, gradient.Meaning = string(moisture.CoreWetter), "the core is wetter than the shell: a leaf sawn now changes shape as it evens out"
	case c.Gradient.High < 0:
		gradient.Sense, gradient.Meaning = string(moisture.ShellWetter), "the shell is wetter than the core: the surface has taken up moisture"
	}
	m.Gradient = &gradient
	m.Trend = &WeightTrend{
		MassPctPerDay: wire.PercentBandOf(c.MassPerDay),
		MCPctPerDay:   wire.MoistureBandOf(c.MCPerDay), SpanDays: readiness.TrendSpan.Days(),
	}
	l.result.Moisture = m
}

// judge gives the verdict and the date of every step.
func (l *learning) judge() error {
	target := aim(l.target)
	for _, step := range readiness.Steps() {
		limits := l.req.limits(step)
		verdict, n, err := l.posterior.Judge(step, limits, target, l.today)
		if err != nil {
			return pointAtDay(err)
		}
		l.notes.Merge(n)
		described := describeVerdict(&verdict)
		date, err := l.posterior.ReadyDate(limits, target, l.today, 0)
		if err != nil {
			return pointAtDay(err)
		}
		l.notes.Merge(date.Notes)
		described.ReadyOn = l.readyOn(&date)
		l.result.Steps = append(l.result.Steps, described)
	}
	return nil
}

func (l *learning) readyOn(d *readiness.ReadyDate) *ReachedOn {
	out := &ReachedOn{Never: d.Never}
	for _, one := range []struct {
		from readiness.Date
		date *string
		days **float64
	}{{d.Low, &out.Early, &out.EarlyDays}, {d.Median, &out.Middle, &out.MiddleDays}, {d.High, &out.Late, &out.LateDays}} {
		if one.from.Within {
			days := one.from.At.Days()
			*one.date, *one.days = l.stay.date(one.from.At), &days
		}
	}
	return out
}

// nextReading looks for the reading that tells most about the first step that
// is not settled.
func (l *learning) nextReading() error {
	steps := readiness.Steps()
	at := len(steps) - 1
	for i := range l.result.Steps {
		if l.result.Steps[i].Verdict != string(readiness.Ready) {
			at = i
			break
		}
	}
	advice, err := l.posterior.NextReading(l.req.limits(steps[at]), aim(l.target), l.today)
	if err != nil {
		return pointAtDay(err)
	}
	l.notes.Merge(advice.Notes)
	best := &advice.Options[advice.Best]
	next := &NextReading{Date: l.stay.date(best.At), Why: advice.Detail, IfAbove: best.IfAbove.Detail, IfBelow: best.IfBelow.Detail}
	switch best.Kind {
	case readiness.Weight:
		next.What = "weigh"
		low, high, value := l.report.Mass(best.Mass.Low), l.report.Mass(best.Mass.High), l.report.Mass(best.Mass.Value)
		next.ExpectMass = &wire.QuantityBand{Value: value.Value, Low: low.Value, High: high.Value, Unit: value.Unit}
	case readiness.Sample:
		next.What = "ovendry_sample"
	case readiness.Pin:
		next.What = "pin_reading_at_the_core"
	}
	if next.ExpectMass == nil {
		expect := wire.MoistureBandOf(best.MC)
		next.ExpectMC = &expect
	}
	l.result.Next = next
	return nil
}

func (l *learning) describeLearned() {
	p := l.posterior
	learned := &Learned{
		Factor:       shelf.FactorUsed{Median: p.Factor.Value, Low: p.Factor.Low, High: p.Factor.High, How: "learned from the readings"},
		FactorBefore: l.used, StartMC: wire.MoistureBandOf(p.StartMC), EMCScale: EMCScale{p.EMCScale.Value, p.EMCScale.Low, p.EMCScale.High},
		Meters: []MeterError{}, ReadingsUsed: p.Used, Method: p.Method, EffectiveSize: p.EffectiveSize, Members: p.Members,
	}
	if p.Used == 0 {
		learned.Factor.How = "no reading to learn from"
	}
	if p.OvendryKnown[0] {
		b := p.Ovendry[0]
		low, high, value := l.report.Mass(b.Low), l.report.Mass(b.High), l.report.Mass(b.Value)
		learned.Ovendry = &wire.QuantityBand{Value: value.Value, Low: low.Value, High: high.Value, Unit: value.Unit}
	}
	for i, name := range l.meters {
		learned.Meters = append(learned.Meters, MeterError{name, wire.MoistureBandOf(p.MeterBias[i])})
	}
	l.result.Learned = learned
}

func (l *learning) describeSetAside() {
	for i := range l.posterior.Contradictions {
		c := &l.posterior.Contradictions[i]
		s := SetAside{Pointer: l.sources[c.Index].pointer, Date: l.sources[c.Index].date, Detail: l.explain(c), Slip: c.Slip, Undecided: c.Undecided}
		if c.Undecided && c.With >= 0 {
			s.With = l.sources[c.With].pointer
		}
		l.result.SetAside = append(l.result.SetAside, s)
	}
}

// explain says what a reading was and what the others lead to expect, a weight in
// the unit it was written in.
func (l *learning) explain(c *readiness.Contradiction) string {
	given, expected := quantity.FormatNumber(c.GivenMC.Percent(), 1)+" %", quantity.FormatNumber(c.ExpectedMC.Low.Percent(), 1)+" to "+quantity.FormatNumber(c.ExpectedMC.High.Percent(), 1)+" %"
	if unit := l.sources[c.Index].unit; c.Kind == readiness.Weight {
		given, expected = c.GivenMass.Format(unit), c.ExpectedMass.Low.Format(unit)+" to "+c.ExpectedMass.High.Format(unit)
	}
	text := given + " does not fit: the others lead to expect " + expected + "; it was left out"
	switch {
	case c.Undecided && c.With >= 0:
		text = given + " and another reading contradict each other, and nothing tells which is wrong; both were left out. Without them " + expected + " is expected; one more reading settles it"
	case c.Undecided:
		text = given + " lies far from what the wood, its start and its place lead to expect, " + expected + "; either may be wrong, and it was left out. One more reading settles it"
	}
	if c.Slip != "" {
		text += ". " + c.Slip
	}
	return text
}

// chart is the drawing of the fitted course with the readings on it.
func (l *learning) chart() *drawing.CourseChart {
	r := l.result
	c := &drawing.CourseChart{
		Heading: r.Wood.Common + ", " + l.in.shown,
		Finding: r.Summary,
		Start:   l.stay.start, Target: l.target.Value.Percent(), Places: l.stay.places, Today: l.today.Days(),
		About: []string{"Stacked " + wire.PlainDate(l.in.stackedOn) + " at " + quantity.FormatNumber(r.Learned.StartMC.ValuePct, 0) + " %. Drying factor " +
			quantity.FormatNumber(r.Learned.Factor.Median, 2) + " (" + quantity.FormatNumber(r.Learned.Factor.Low, 2) + " to " + quantity.FormatNumber(r.Learned.Factor.High, 2) + "), " + r.Learned.Factor.How +
			". Mean monthly air; a real year differs. The band holds 90 %."},
	}
	follow(c, &l.forecast, r.Series)
	aside := map[int]bool{}
	for _, one := range l.posterior.Contradictions {
		aside[one.Index] = true
	}
	for i := range l.observed {
		if mark, ok := l.mark(i); ok {
			mark.SetAside = aside[i]
			c.Marks = append(c.Marks, mark)
		}
	}
	return c
}

// mark is where a reading stands on the chart; a weight stands where the learned
// ovendry mass puts it.
func (l *learning) mark(i int) (drawing.CourseMark, bool) {
	o := &l.observed[i]
	mark := drawing.CourseMark{Day: o.At.Days()}
	mc, half := o.MC, quantity.Moisture(quantity.Z90)*o.SD
	switch o.Kind {
	case readiness.Weight:
		if !l.posterior.OvendryKnown[o.Body] {
			return mark, false
		}
		od := l.posterior.Ovendry[o.Body]
		mc = quantity.Moisture(o.Weighing.Mass/od.Value) - 1
		half = quantity.Moisture((od.High - od.Low) / (2 * od.Value) * (o.Weighing.Mass / od.Value))
	case readiness.Pin:
		half = quantity.Moisture(quantity.Z90) * l.sources[i].mc.SD
	case readiness.Sample:
	}
	mark.Pct, mark.Low, mark.High = mc.Percent(), (mc - half).Percent(), (mc + half).Percent()
	return mark, true
}

// Render draws the course or lists it; only a billet with a history has one.
func (r *ReadinessResult) Render(name string) ([]byte, error) {
	if r.chart == nil {
		return nil, wire.Missing("history", "a drawing or a table of the course needs the history of the billet")
	}
	if name == wire.TableForm.Name {
		return seriesTable(r.Series), nil
	}
	return r.chart(), nil
}

// pointAtDay points at the members of the request.
func pointAtDay(err error) error {
	if domain, ok := wire.AsDomain(err); ok && strings.HasSuffix(domain.Input, "_days") {
		return wire.Under("", err, [2]string{"at_days", "history/as_of"}, [2]string{"horizon_days", "history/horizon_days"})
	}
	return wire.Under("", err, [2]string{"target_pct", "build_room"}, [2]string{"target_sd_pct", "build_room"},
		[2]string{"above_pct", "limits"}, [2]string{"below_pct", "limits"}, [2]string{"gradient_pct", "limits"}, [2]string{"rate_pct_per_day", "limits"}, [2]string{"trend_pct", "limits"})
}
