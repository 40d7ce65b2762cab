package dry

import (
	"math"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// wayCourse is what the drawing shows of a way.
type wayCourse struct {
	days []float64
	mean []wire.PercentBand
	saw  float64 // day it is sawn
}

// leaf is the thickness of a leaf that needs no allowance for drying.
func (g *timing) leaf() error {
	l := &g.tables.Losses
	part := *g.req.Part
	if part.Allowances != nil { // shrinkage is worked out for each way, not taken from there
		a := *part.Allowances
		a.SawnAtPct, a.DriedToPct = nil, nil
		part.Allowances = &a
	}
	dry, build, err := part.Leaf(l, nil, g.usual, g.notes)
	if err != nil {
		return wire.Under("part", err)
	}
	g.dry, g.flat = dry, flatness(g.req.Part.Allowances, l)
	for _, p := range build.Parts {
		if p.Name != "oversize" { // which is worked out for each way
			g.build = append(g.build, p)
		}
	}
	if len(g.build) == 0 {
		g.build = []shelf.LeafPart{{Name: "sawn_thickness", Thickness: build.Thickness}}
	}
	g.extra = g.usual.Or(g.req.ThickAndThin, "thick_and_thin", l.LeafWet)
	if g.req.ThickAndThin == nil {
		g.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "thick_and_thin", Detail: shelf.Spoken(g.report, l.LeafWet) + " more for a leaf sawn before it is dry (common practice, no source)"})
	}
	return nil
}

// flatness is what a leaf has for flattening; one whose sawn thickness is given
// is taken to have the usual.
func flatness(a *shelf.Allowances, l *shelf.Losses) quantity.Length {
	usual, _ := l.Flatness.Get()
	if a == nil {
		return usual
	}
	return shelf.LengthOr(a.Flatness, usual)
}

// woodMember is the member that says which wood it is.
func (g *timing) woodMember() string {
	if g.req.Wood != nil {
		return "wood"
	}
	return "species"
}

// strain is the change of a dimension between two moisture contents, as a share.
func (g *timing) strain(d movement.Direction, from, to quantity.Moisture) (float64, error) {
	m, err := movement.Change(quantity.Metre, d, quantity.NormalBand(from, 0), quantity.NormalBand(to, 0), g.wood.Value)
	if err != nil {
		return 0, wire.Under("", err, [2]string{"from_mc_pct", "moisture/mean_pct"}, [2]string{"to_mc_pct", "build_room"}, [2]string{"wood", g.woodMember()},
			[2]string{"radial_pct", "wood/radial_shrinkage_pct"}, [2]string{"tangential_pct", "wood/tangential_shrinkage_pct"}, [2]string{"fibre_saturation_pct", "wood/fibre_saturation_pct"})
	}
	g.notes.Merge(m.Notes)
	return m.Strain.Value, nil
}

// cut fills in what the billet yields when it is sawn at a moisture content.
func (g *timing) cut(way *TimingWay, at quantity.Moisture, extra quantity.Length) (leaf quantity.Length, err error) {
	t, width := movement.ThicknessAt(g.angle, 0), movement.WidthAt(g.angle, 0)
	var toCome, past [2]float64 // thickness, width
	for i, d := range []movement.Direction{t, width} {
		if toCome[i], err = g.strain(d, at, g.target.Value); err != nil {
			return 0, err
		}
		if past[i], err = g.strain(d, g.now.Value, at); err != nil {
			return 0, err
		}
	}
	scaled := func(l *wire.Length, by float64) *wire.Length {
		if l == nil {
			return nil
		}
		return &wire.Length{SI: l.SI * quantity.Length(by), Unit: l.Unit}
	}
	// What will still swell is not sawn thinner for it.
	leaf = (g.dry + extra) / quantity.Length(1+math.Min(toCome[0], 0))
	part, billet := *g.req.Part, *g.req.Billet
	part.Sawn, part.Final, part.Allowances = &wire.Length{SI: leaf, Unit: "mm"}, nil, nil
	part.Width = scaled(part.Width, 1/(1+math.Min(toCome[1], 0)))
	billet.Thickness, billet.ThinEnd, billet.ThinEdge = scaled(billet.Thickness, 1+past[0]), scaled(billet.ThinEnd, 1+past[0]), scaled(billet.ThinEdge, 1+past[0])
	billet.Width = scaled(billet.Width, 1+past[1])
	yield, err := (&shelf.Cutting{Billet: &billet, Saw: g.req.Saw, Part: &part, Report: g.report}).Yield(g.tables, g.wood, g.notes)
	if err != nil {
		return 0, err
	}
	for _, s := range yield.StandIns {
		g.standIn(s)
	}
	way.Leaf = shelf.LeafBuild{Thickness: g.report.Length(leaf), Parts: append([]shelf.LeafPart{}, g.build...)}
	if extra > 0 {
		way.Leaf.Parts = append(way.Leaf.Parts, shelf.LeafPart{Name: "thick_and_thin", Thickness: g.report.Length(extra)})
	}
	if shrinks := leaf - g.dry - extra; shrinks > wire.ANanometre {
		way.Leaf.Parts = append(way.Leaf.Parts, shelf.LeafPart{Name: "oversize", Thickness: g.report.Length(shrinks)})
	}
	way.Width, way.Billet, way.BilletWidth = g.report.Length(part.Width.SI), g.report.Length(billet.Thickness.SI), g.report.Length(billet.Width.SI)
	way.Leaves, way.Sets, way.OddLeaves = yield.Leaves, yield.Sets, yield.OddLeaves
	return leaf, g.cup(way, &billet, part.Width.SI, leaf, extra)
}

// standIn notes a usual loss once.
func (g *timing) standIn(s shelf.Provenance) {
	for i := range g.usual.All {
		if g.usual.All[i].Name == s.Name {
			return
		}
	}
	g.usual.All = append(g.usual.All, s)
}

// piece forecasts a piece of a thickness from a day and a moisture content on.
func (g *timing) piece(thickness quantity.Length, from quantity.Duration, mc, sd quantity.Moisture) (*forecast, error) {
	degrees, start, spread := g.angle.Degrees(), mc.Percent(), sd.Percent()
	start = math.Max(start, 1)
	day, stays := g.req.AsOf, g.req.Storage
	if from > 0 {
		day = g.stay.date(from)
		for len(stays) > 1 && stays[0].Until <= day { // ISO dates sort as text
			stays = stays[1:]
		}
	}
	f := &forecast{tables: g.tables, notes: g.notes, report: g.report, in: seasoned{
		wood: g.wood, thickness: thickness, ringAngle: &degrees, stackedOn: day, storage: stays,
		startPct: &start, startSD: &spread, horizon: g.horizon - from, factor: g.req.Factor,
	}}
	err := f.prepare()
	if err == nil {
		err = f.learn(g.ctx, nil)
	}
	if err != nil {
		return nil, wire.Under("", err, [2]string{"stacked_on", "as_of"}, [2]string{"start_mc_pct", "moisture/mean_pct"}, [2]string{"start_sd_pct", "moisture/sd_pct"}, [2]string{"thickness", "billet/thickness"})
	}
	return f, nil
}

// ready is when a piece is first ready for a step.
func (g *timing) ready(f *forecast, step readiness.Step) (readiness.ReadyDate, error) {
	date, err := f.posterior.ReadyDate(g.limits(step, f.in.thickness), aim(g.target), 0, 0)
	if err != nil {
		return date, pointAtDay(err)
	}
	g.notes.Merge(date.Notes)
	return date, nil
}

// sawNow is the way of the leaves.
func (g *timing) sawNow(way *TimingWay) (err error) {
	extra := g.extra
	if g.isReady {
		extra = 0 // the billet is ready to resaw, and its leaves need only settle
	}
	if g.leafNow, err = g.cut(way, g.now.Value, extra); err != nil {
		return err
	}
	wettest := max(g.profile.wettest(), g.now.Value)
	f, err := g.piece(g.leafNow, 0, wettest, g.sd)
	if err != nil {
		return err
	}
	zero := 0.0
	way.SawOn = ReachedOn{Early: g.req.AsOf, Middle: g.req.AsOf, Late: g.req.AsOf, EarlyDays: &zero, MiddleDays: &zero, LateDays: &zero}
	way.SawAt = wire.MoistureBandOf(g.now)
	date, err := g.ready(f, readiness.Thickness)
	if err != nil {
		return err
	}
	way.ReadyOn = *(&learning{forecast: *f}).readyOn(&date)
	way.Series, way.Factor = f.series(), f.used
	g.way[0] = wayCourse{}
	g.way[0].follow(way.Series)
	return g.about(way, f)
}

// dryWhole is the way of the billet.
func (g *timing) dryWhole(way *TimingWay) error {
	thickness := g.req.Billet.Thickness.SI
	whole, err := g.piece(thickness, 0, g.now.Value, g.sd)
	if err != nil {
		return err
	}
	g.stay = whole.stay
	date, err := g.ready(whole, readiness.Resaw)
	if err != nil {
		return err
	}
	if err := g.waitForGradient(whole, &date); err != nil {
		return err
	}
	way.SawOn = *(&learning{forecast: *whole}).readyOn(&date)
	way.Series, way.Factor = whole.series(), whole.used
	if err := g.about(way, whole); err != nil {
		return err
	}
	limits := g.limits(readiness.Resaw, thickness)
	sawn := quantity.NormalBand(min(g.now.Value, g.target.Value+limits.Above), 0) // if it never comes so far
	at := date.Median.At
	if date.Median.Within {
		course, err := whole.posterior.Course([]quantity.Duration{at})
		if err != nil {
			return forecastError(err)
		}
		sawn = course.Mean[0]
		if err := g.profileAt(whole, at); err != nil {
			return err
		}
	} else {
		g.profile = profile{}
	}
	way.SawAt = wire.MoistureBandOf(sawn)
	leaf, err := g.cut(way, sawn.Value, 0)
	if err != nil {
		return err
	}
	g.way[1].follow(way.Series)
	g.way[1].saw = math.Inf(1)
	way.ReadyOn = ReachedOn{Never: 1}
	if !date.Median.Within {
		return nil
	}
	return g.settle(way, &date, leaf, sawn)
}

// settle adds the time the leaves of the dried billet take. Wood that dries
// slowly does so as billet and as leaf, so that early goes with early and late
// with late.
func (g *timing) settle(way *TimingWay, saw *readiness.ReadyDate, leaf quantity.Length, sawn quantity.Band[quantity.Moisture]) error {
	at := saw.Median.At
	way.Series = upTo(way.Series, at.Days())
	g.way[1] = wayCourse{saw: at.Days()}
	g.way[1].follow(way.Series)
	if g.horizon-at < 2*quantity.Day {
		return nil
	}
	f, err := g.piece(leaf, at, max(sawn.Value, g.profile.wettest()), max(sawn.SD(), 0.1*quantity.PercentMC))
	if err != nil {
		return err
	}
	date, err := g.ready(f, readiness.Thickness)
	if err != nil {
		return err
	}
	sum := readiness.ReadyDate{Never: math.Max(saw.Never, date.Never)}
	for _, one := range []struct {
		to         *readiness.Date
		saw, leafs readiness.Date
	}{{&sum.Low, saw.Low, date.Low}, {&sum.Median, saw.Median, date.Median}, {&sum.High, saw.High, date.High}} {
		total := one.saw.At + one.leafs.At
		*one.to = readiness.Date{At: min(total, g.horizon), Within: one.saw.Within && one.leafs.Within && total <= g.horizon}
	}
	l := learning{}
	l.stay = g.stay
	way.ReadyOn = *l.readyOn(&sum)
	series := f.series()
	for i := range series {
		series[i].Days += at.Days()
	}
	way.Series = append(way.Series, series...)
	g.way[1].follow(series)
	return nil
}

// upTo keeps the part of a series before a day.
func upTo(series []CoursePoint, day float64) []CoursePoint {
	for i := range series {
		if series[i].Days >= day {
			return series[:i:i]
		}
	}
	return series
}

func (c *wayCourse) follow(series []CoursePoint) {
	for i := range series {
		c.days, c.mean = append(c.days, series[i].Days), append(c.mean, series[i].Mean)
	}
}

// timeScale says how much faster a leaf settles.
func (g *timing) timeScale(s *TimeScale) error {
	billet := g.req.Billet.Thickness.SI
	s.ThicknessRatio = float64(billet / g.leafNow)
	s.Low, s.High = math.Pow(s.ThicknessRatio, 1.5), s.ThicknessRatio*s.ThicknessRatio
	whole, err := g.halfway(billet)
	if err != nil {
		return err
	}
	leaf, err := g.halfway(g.leafNow)
	if err != nil {
		return err
	}
	s.Computed = float64(whole / leaf)
	return nil
}

// halfway is how long a piece takes to lose half of its distance to the target
// in the build room; from three points above it at least.
func (g *timing) halfway(thickness quantity.Length) (quantity.Duration, error) {
	state, err := g.req.BuildRoom.State("build_room", g.notes)
	if err != nil {
		return 0, err
	}
	room, err := drying.Constant(state.DryBulb, state.RelativeHumidity)
	if err != nil {
		return 0, wire.Under("build_room", err, [2]string{"temperature", "dry_bulb"})
	}
	gravity, err := g.wood.BasicGravity(g.notes)
	if err != nil {
		return 0, err
	}
	degrees := g.angle.Degrees()
	_, _, used, err := shelf.DryingFactor(g.wood, thickness, &degrees, g.req.Factor, gravity, g.notes)
	if err != nil {
		return 0, err
	}
	transport, err := drying.NewTransport(g.wood.Value)
	if err != nil {
		return 0, forecastError(err)
	}
	const long = 100 * 365 * quantity.Day
	start := max(g.now.Value, g.target.Value+3*quantity.PercentMC)
	job := drying.Job{Transport: transport, Thickness: thickness, Factor: used.Median, Initial: start, History: drying.NoHysteresis,
		Phases: []drying.Phase{{Length: long, Climate: room, Exposure: drying.ClosedRoom()}}, StopAt: (start + g.target.Value) / 2, Setting: drying.Standard()}
	course, err := g.solver.Run(g.ctx, &job)
	if err != nil {
		return 0, wire.Under("", err, [2]string{"phases/0/temperature", "build_room"}, [2]string{"max_steps", "horizon_days"})
	}
	return max(course.ReachedAt, quantity.Minute), nil
}
