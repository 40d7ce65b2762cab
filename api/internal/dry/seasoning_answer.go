package dry

import (
	"context"
	"math"
	"strconv"
	"strings"
	"time"

	"latewood/api/internal/drawing"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// forecast is the work on one request.
type forecast struct {
	tables    *shelf.Tables
	notes     *method.Notes
	report    wire.Reporter
	in        seasoned
	setup     readiness.Setup
	stay      *storage
	used      shelf.FactorUsed
	posterior *readiness.Posterior
	solver    drying.Solver
}

// prepare draws up what is known beforehand.
func (f *forecast) prepare() (err error) {
	f.setup, f.stay, f.used, err = setupOf(f.tables, &f.in, f.notes)
	return err
}

// learn fuses what is known with the readings, if there are any.
func (f *forecast) learn(ctx context.Context, readings []readiness.Observation) (err error) {
	f.simulateWith(shelf.Simulation(ctx))
	if f.posterior, err = readiness.Learn(ctx, f.setup, readings); err != nil {
		return forecastError(err)
	}
	f.notes.Merge(f.posterior.Notes)
	return nil
}

// simulateWith puts all runs of the forecast on one budget.
func (f *forecast) simulateWith(work *drying.Work) { f.setup.Work, f.solver.Work = work, work }

// forecastError points at the members of the request.
func forecastError(err error) error {
	if domain, ok := wire.AsDomain(err); ok {
		if rest, is := strings.CutPrefix(domain.Input, "phases/"); is {
			stay, _, _ := strings.Cut(rest, "/")
			moved := *domain
			moved.Input = "storage/" + stay
			return &moved
		}
	}
	return wire.Under("", err, [2]string{"mc_pct", "start_mc_pct"}, [2]string{"specific_gravity", "wood/specific_gravity"},
		[2]string{"phases", "storage"}, [2]string{"drying_factor", "drying_factor/median"}, [2]string{"drying_factor_log_sd", "drying_factor/ratio"}, [2]string{"max_steps", "horizon_days"})
}

// middle is the job of the middle forecast.
func (f *forecast) middle() (drying.Job, error) {
	transport, err := drying.NewTransport(f.setup.Wood)
	if err != nil {
		return drying.Job{}, forecastError(err)
	}
	return drying.Job{Transport: transport, Thickness: f.setup.Thickness, Factor: f.setup.Factor, Initial: f.setup.StartMC,
		History: f.setup.History, Phases: f.setup.Phases, Setting: drying.Coarse()}, nil
}

// answer fills in the course, the dates and the tables.
func (f *forecast) answer(ctx context.Context, r *SeasoningResult, target quantity.Band[quantity.Moisture], dry quantity.Moisture) error {
	r.Series = f.series()
	r.points = r.Series
	for _, part := range []struct {
		of readiness.CoursePart
		to *ReachedOn
	}{{readiness.OfMean, &r.MeanDry}, {readiness.OfCore, &r.CoreDry}} {
		when, err := f.posterior.Reaches(aim(target), dry-target.Value, part.of)
		if err != nil {
			return wire.Under("", err, [2]string{"target_pct", "build_room"}, [2]string{"target_sd_pct", "build_room"})
		}
		*part.to = f.reached(when)
	}
	job, err := f.middle()
	if err != nil {
		return err
	}
	if err := f.lowest(ctx, job, r, dry); err != nil {
		return err
	}
	if err := f.byMonth(ctx, job, r, dry); err != nil {
		return err
	}
	if err := f.byThickness(ctx, job, r, dry); err != nil {
		return err
	}
	r.chart = func() []byte { return f.chart(r).Draw() }
	return nil
}

// lookAhead is how far the lowest moisture content is looked for.
const lookAhead = 3650 * quantity.Day

// lowest runs the middle forecast on for ten years, if the air of the last
// place is known so long.
func (f *forecast) lowest(ctx context.Context, job drying.Job, r *SeasoningResult, dry quantity.Moisture) error {
	last := len(job.Phases) - 1
	before := quantity.Duration(0)
	for _, p := range job.Phases[:last] {
		before += p.Length
	}
	total := before + job.Phases[last].Length
	if end := job.Phases[last].Climate.End(); end > total {
		phases := append([]drying.Phase{}, job.Phases...)
		phases[last].Length = min(lookAhead, end) - before
		job.Phases, total = phases, min(lookAhead, end)
	}
	for at := quantity.Duration(0); at <= total; at += 5 * quantity.Day {
		job.Times = append(job.Times, at)
	}
	course, err := f.solver.Run(ctx, &job)
	if err != nil {
		return forecastError(err)
	}
	lowest := quantity.Moisture(math.Inf(1))
	for _, m := range course.Mean {
		lowest = min(lowest, m)
	}
	r.Lowest = LowestEver{MCPct: lowest.Percent(), Enough: lowest <= dry}
	return nil
}

// daysTo is when the mean of the job is dry, nil if not within it.
func (f *forecast) daysTo(ctx context.Context, job *drying.Job, dry quantity.Moisture) (*float64, error) {
	job.StopAt = dry
	course, err := f.solver.Run(ctx, job)
	if err != nil {
		return nil, forecastError(err)
	}
	if !course.Reached {
		return nil, nil //nolint:nilnil // not within the forecast
	}
	days := course.ReachedAt.Days()
	return &days, nil
}

// byMonth stacks the piece on the first of each month of the year that follows,
// with all stays as long as they are. A record of air has only its own dates, so
// there the table stays empty.
func (f *forecast) byMonth(ctx context.Context, job drying.Job, r *SeasoningResult, dry quantity.Moisture) error {
	r.ByMonth = []MonthRow{}
	for i := range f.in.storage {
		if f.in.storage[i].Station == "" && f.in.storage[i].Air == nil {
			return nil
		}
	}
	for month := time.January; month <= time.December; month++ {
		start := time.Date(f.stay.start.Year(), month, 1, 0, 0, 0, 0, time.UTC)
		job.Phases = append([]drying.Phase{}, f.setup.Phases...)
		for i := range job.Phases {
			climate, _, _, err := climateOf(f.tables, &f.in.storage[i], start, f.notes)
			if err != nil {
				return wire.Under("storage/"+strconv.Itoa(i), err)
			}
			job.Phases[i].Climate = climate
		}
		days, err := f.daysTo(ctx, &job, dry)
		if err != nil {
			return err
		}
		r.ByMonth = append(r.ByMonth, MonthRow{Month: int(month), Days: days})
	}
	return nil
}

// factorFor is the drying factor of the same wood in another thickness; the
// caller's own factor stays.
func (f *forecast) factorFor(thickness quantity.Length) (float64, error) {
	if f.in.factor != nil {
		return f.setup.Factor, nil
	}
	here, err := drying.ForThickness(drying.Factor{Median: f.setup.Factor}, f.setup.Thickness)
	if err != nil {
		return 0, err
	}
	there, err := drying.ForThickness(drying.Factor{Median: f.setup.Factor}, thickness)
	return f.setup.Factor * there.Median / here.Median, err
}

// thinnestDried is the thinnest stock that is simulated.
const thinnestDried = 0.5 * quantity.Millimetre

// byThickness dries other thicknesses beside the piece.
func (f *forecast) byThickness(ctx context.Context, job drying.Job, r *SeasoningResult, dry quantity.Moisture) (err error) {
	for _, share := range []float64{0.25, 0.5, 0.75, 1, 1.5, 2} {
		job.Thickness = f.setup.Thickness * quantity.Length(share)
		if job.Thickness < thinnestDried {
			continue
		}
		if job.Factor, err = f.factorFor(job.Thickness); err != nil {
			return forecastError(err)
		}
		days, err := f.daysTo(ctx, &job, dry)
		if err != nil {
			return err
		}
		r.ByThickness = append(r.ByThickness, ThicknessRow{Thickness: f.report.Length(job.Thickness), Days: days})
	}
	return nil
}

// series is the course at times chosen to keep its shape.
func (f *forecast) series() []CoursePoint {
	course, err := f.posterior.Course(f.times())
	if err != nil {
		return []CoursePoint{} // the times lie within the horizon
	}
	points := make([]CoursePoint, 0, len(course.Times))
	for i, at := range course.Times {
		points = append(points, CoursePoint{
			Date: f.stay.date(at), Days: at.Days(), Mean: wire.MoistureBandOf(course.Mean[i]),
			ShellPct: course.Shell[i].Value.Percent(), CorePct: course.Core[i].Value.Percent(),
		})
	}
	return points
}

// seriesLength is how many points a course is shown with.
const seriesLength = 160

// times are close at first, where the curve bends, and even in the seasons
// after: the square root of the share of the time.
func (f *forecast) times() []quantity.Duration {
	horizon := f.posterior.Horizon()
	times := make([]quantity.Duration, 0, seriesLength)
	for i := range seriesLength {
		share := float64(i) / (seriesLength - 1)
		times = append(times, min(horizon*quantity.Duration(0.6*share*share+0.4*share), horizon))
	}
	return times
}

// reached puts dates to a distribution of times.
func (f *forecast) reached(r readiness.Reached) ReachedOn {
	out := ReachedOn{Never: r.Never}
	for _, one := range []struct {
		at   quantity.Duration
		date *string
		days **float64
	}{{r.Early, &out.Early, &out.EarlyDays}, {r.Middle, &out.Middle, &out.MiddleDays}, {r.Late, &out.Late, &out.LateDays}} {
		if quantity.Finite(float64(one.at)) {
			days := one.at.Days()
			*one.date, *one.days = f.stay.date(one.at), &days
		}
	}
	return out
}

// fastestDried is the largest drying factor that is simulated.
const fastestDried = 20

// surfaceChecks holds the fastest daily loss of a fast piece against what the
// wood takes. Wood that starts below 25 % has passed the time when checks start.
func (f *forecast) surfaceChecks(ctx context.Context, r *SeasoningResult) error {
	if f.in.wood.Row == nil || f.setup.StartMC < driedBefore {
		return nil
	}
	safe, known := f.in.wood.Row.SafeLoss.Get()
	if !known {
		return nil
	}
	job, err := f.middle()
	if err != nil {
		return err
	}
	job.Factor = min(f.used.High, fastestDried) // the fast end of the band is what may crack
	span := min(120*quantity.Day, f.posterior.Horizon())
	for at := quantity.Duration(0); at <= span; at += quantity.Day {
		job.Times = append(job.Times, at)
	}
	course, err := f.solver.Run(ctx, &job)
	if err != nil {
		return forecastError(err)
	}
	risk, err := drying.SurfaceCheckRisk(course, f.setup.Thickness, wire.FromPercent(safe))
	if err != nil {
		return forecastError(err)
	}
	f.notes.Merge(risk.Notes)
	r.Checks = &SurfaceChecks{
		FastestPctPerDay: risk.Fastest.Percent(), Date: f.stay.date(risk.When), SafePctPerDay: risk.Safe.Percent(), Ratio: risk.Ratio, Risk: string(risk.Severity),
		WhatToDo: map[drying.Severity]string{
			drying.RiskLow:      "nothing special; keep sun and rain off",
			drying.RiskModerate: "shade the stack and keep it out of the wind in the first weeks",
			drying.RiskHigh:     "slow it down: cover the stack, shade it, use thinner stickers, or stack in a cooler month",
		}[risk.Severity],
	}
	return nil
}

// edges dries the piece in two dimensions beside a wide board.
func (f *forecast) edges(ctx context.Context, width *wire.Length, r *SeasoningResult, dry quantity.Moisture) error {
	if width == nil {
		return nil
	}
	job, err := f.middle()
	if err != nil {
		return err
	}
	job.History = drying.NoHysteresis
	r.Edges = &EdgeDrying{}
	if r.Edges.DaysWide, err = f.daysTo(ctx, &job, dry); err != nil {
		return err
	}
	angle := 45 * quantity.Degree
	if f.in.ringAngle != nil {
		angle = quantity.Angle(*f.in.ringAngle) * quantity.Degree
	}
	// the two directions carry the ring angle themselves
	job.Factor /= drying.DirectionFactor(float64(angle))
	section := drying.Rectangle{Work: f.solver.Work}
	course, err := section.Run(ctx, &drying.RectangleJob{Job: job, Width: width.SI, RingAngle: angle})
	if err != nil {
		return forecastError(err)
	}
	f.notes.Merge(course.Notes)
	if course.Reached {
		days := course.ReachedAt.Days()
		r.Edges.Days = &days
		if wide := r.Edges.DaysWide; wide != nil && *wide > 0 {
			share := days / *wide
			r.Edges.Share = &share
		}
	}
	return nil
}

// Of the end zone: how long after stacking it is looked at, and from how much on
// an end counts as ahead.
const (
	endsAfter = 120 * quantity.Day
	endsAhead = 1 * quantity.PercentMC
)

// ends tells what the ends usually lose and how far they run ahead of the middle
// in the first months, when checks form.
func (f *forecast) ends(ctx context.Context, req *SeasoningRequest, r *SeasoningResult) error {
	if req.Ends == "" {
		return nil
	}
	reach, err := drying.UsualCheckReach(drying.EndSeal(req.Ends))
	if err != nil {
		return wire.Under("", err, [2]string{"end_seal", "ends"})
	}
	r.Ends = &EndAdvice{TrimLow: f.report.Length(reach.Low), TrimHigh: f.report.Length(reach.High), Remark: reach.Source}
	if req.Length == nil {
		return nil
	}
	job, err := f.middle()
	if err != nil {
		return err
	}
	first := job.Phases[0]
	first.Length = min(first.Length, endsAfter)
	job.Phases = []drying.Phase{first}
	zone, err := f.solver.EndZone(ctx, &job, req.Length.SI, drying.EndSeal(req.Ends), endsAhead)
	if err != nil {
		return forecastError(err)
	}
	f.notes.Merge(zone.Notes)
	ahead, days := f.report.Length(zone.Depth), first.Length.Days()
	r.Ends.Ahead, r.Ends.AheadDays = &ahead, &days
	return nil
}

// conclude puts the answer into words.
func (f *forecast) conclude(r *SeasoningResult) {
	dry := quantity.FormatNumber(r.DryAtPct, 1) + " %"
	switch {
	case r.MeanDry.Middle != "" && r.MeanDry.Late != "":
		r.Summary = dry + " about " + wire.PlainDate(r.MeanDry.Middle) + " (90 %: " + wire.PlainDate(r.MeanDry.Early) + " to " + wire.PlainDate(r.MeanDry.Late) + ")"
	case r.MeanDry.Middle != "":
		r.Summary = dry + " about " + wire.PlainDate(r.MeanDry.Middle) + ", perhaps not within the forecast"
	default:
		r.Summary = "not down to " + dry + " within the forecast"
	}
	if !r.Lowest.Enough {
		place := f.stay.places[len(f.stay.places)-1]
		r.Advice = append(r.Advice, place+": the wood stays above "+quantity.FormatNumber(r.Lowest.MCPct, 1)+" % there; finish it in a drier room")
	}
	if r.Checks != nil && r.Checks.Risk != string(drying.RiskLow) {
		r.Advice = append(r.Advice, "surface checks: "+r.Checks.WhatToDo)
	}
	r.Advice = append(r.Advice, "weigh the piece now and then: three dated weights tell more than this forecast; POST /v1/readiness learns from them")
}

// chart is the drawing of the course.
func (f *forecast) chart(r *SeasoningResult) *drawing.CourseChart {
	c := &drawing.CourseChart{
		Heading: r.Wood.Common + ", " + f.in.shown,
		Finding: r.Summary,
		Start:   f.stay.start, Target: r.Target.ValuePct, DryAt: r.DryAtPct, Places: f.stay.places,
		About: []string{"Stacked " + wire.PlainDate(f.in.stackedOn) + " at " + quantity.FormatNumber(f.setup.StartMC.Percent(), 0) + " %. Drying factor " +
			quantity.FormatNumber(f.used.Median, 2) + " (" + quantity.FormatNumber(f.used.Low, 2) + " to " + quantity.FormatNumber(f.used.High, 2) + "), " + f.used.How +
			". Mean monthly air; a real year differs. A forecast, not a promise."},
	}
	follow(c, f, r.Series)
	if r.MeanDry.MiddleDays != nil {
		c.Ready = &drawing.ReadySpan{Early: *r.MeanDry.EarlyDays, Middle: *r.MeanDry.MiddleDays, Late: math.Inf(1)}
		if r.MeanDry.LateDays != nil {
			c.Ready.Late = *r.MeanDry.LateDays
		}
	}
	return c
}

// follow takes the curves of a series and the changes of place.
func follow(c *drawing.CourseChart, f *forecast, series []CoursePoint) {
	for i := range series {
		p := &series[i]
		c.Days, c.Mean = append(c.Days, p.Days), append(c.Mean, p.Mean)
		c.Shell, c.Core = append(c.Shell, p.ShellPct), append(c.Core, p.CorePct)
	}
	at := quantity.Duration(0)
	for _, phase := range f.setup.Phases[:len(f.setup.Phases)-1] {
		at += phase.Length
		c.Changes = append(c.Changes, at.Days())
	}
}

// Render draws the forecast or lists its series.
func (r *SeasoningResult) Render(name string) ([]byte, error) { //nolint:unparam // other results have forms they cannot give
	if name == wire.TableForm.Name {
		return seriesTable(r.points), nil
	}
	return r.chart(), nil
}

// seriesTable is a series as CSV (RFC 4180).
func seriesTable(points []CoursePoint) []byte {
	text := []byte("date,days,mean_pct,mean_low_pct,mean_high_pct,shell_pct,core_pct\r\n")
	for i := range points {
		p := &points[i]
		text = append(text, p.Date...)
		for _, v := range []float64{p.Days, p.Mean.ValuePct, p.Mean.LowPct, p.Mean.HighPct, p.ShellPct, p.CorePct} {
			text = append(text, ',')
			text = strconv.AppendFloat(text, v, 'f', 2, 64)
		}
		text = append(text, "\r\n"...)
	}
	return text
}
