package readiness

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Learn returns what is known of a piece after its observations: the forecast of
// the drying chapter with the drying factor, the starting moisture, the EMC scale,
// the ovendry masses and the errors of the meters as far as the readings tell
// them. The order of the observations does not matter, and none are needed: then
// the answer rests on the setup alone, and says so.
//
// Readings that the others rule out are named in Posterior.Contradictions and
// left out of the fit. Of more than 200 readings, weights and meter readings are
// thinned evenly in time. Meter readings above 28 %MC are left out: a meter's
// level means little there.
//
// The answer is a pure function of its arguments: the draws of the ensemble follow
// from the seed of the setup.
//
// Errors: *method.Error with input "drying_factor", "start_mc_pct", ... of the row
// readiness.learn, "bodies/<n>/...", "meters/<n>/...", "observations/<n>/...", or
// those of drying.Solver.Run; code Stopped when ctx ends.
// Accuracy: COVERAGE.md.
//
// Source: rows readiness.learn, readiness.discrepancy, readiness.contradiction.
func Learn(ctx context.Context, setup Setup, observations []Observation) (*Posterior, error) {
	p := &Posterior{}
	s, err := setup.complete(&p.Notes)
	if err != nil {
		return nil, err
	}
	p.setup = s
	return learn(ctx, p, newSlab(&p.setup), observations)
}

func learn(ctx context.Context, p *Posterior, model forward, observations []Observation) (*Posterior, error) {
	s := &p.setup
	readings, err := p.gather(observations)
	if err != nil {
		return nil, err
	}
	f := p.newFit(model, readings)
	// one run at the middle of the prior checks wood, phases and exposures
	probe, err := model.run(ctx, s.hold(f.prior), []quantity.Duration{s.horizon()}, nil)
	if err != nil {
		return nil, err
	}
	p.Notes.Merge(probe.Notes)
	f.all = readings
	kept := map[*reading]bool{}
	var set []*setAside
	for range mostTries {
		var parts []*part
		if parts, set, err = p.settle(ctx, f, readings, kept); err != nil {
			return nil, err
		}
		if err := p.draw(ctx, f, parts, readings); err != nil {
			return nil, err
		}
		if !p.inOwnBand(set, kept) {
			break
		}
	}
	if err := p.edges(ctx); err != nil {
		return nil, err
	}
	p.finish(set)
	f.model = nil // its tables and workspace are no longer needed
	return p, nil
}

// draw takes the ensemble of what was found. Where it is too thin to trust, the mode that leads
// there is no good place to look from: readings that the forecast hardly allows have several. Then
// the one that is nearest to what was expected is tried as well, and the fuller ensemble is taken.
func (p *Posterior) draw(ctx context.Context, f *fit, parts []*part, readings []*reading) error {
	grid := p.grid(readings)
	place := func(all []*reading) {
		for _, r := range all {
			r.grid, _ = slices.BinarySearch(grid, quantity.Duration(r.at))
		}
	}
	for i, r := range readings {
		r.seen = i
	}
	place(readings)
	place(parts[0].peak.used)
	e, err := f.sample(ctx, parts, grid)
	if err != nil {
		return err
	}
	p.f, p.e, p.peak, p.parts = f, e, parts[0].peak, parts
	if used := parts[0].peak.used; len(used) > 0 && e.size < poor {
		f.modes = nil
		if parts, err = f.parts(ctx, used, below); err != nil {
			return err
		}
		place(parts[0].peak.used)
		if other, none := f.sample(ctx, parts, grid); none == nil && other.size > p.e.size {
			p.e, p.peak, p.parts = other, parts[0].peak, parts
		}
	}
	p.first = p.parts[0].start
	f.begin(p.first)
	p.prior = f.prior
	return nil
}

// mostTries bounds how often a reading that lies in the band printed for it is taken back.
const mostTries = 3

// gather checks the observations and returns the readings in an order of their
// own, so that the caller's does not matter.
func (p *Posterior) gather(observations []Observation) ([]*reading, error) {
	s, notes := &p.setup, &p.Notes
	if err := notes.Use(&learnRow, "observations", float64(min(len(observations), mostReadings))); err != nil {
		return nil, err
	}
	if len(observations) > mostGiven {
		return nil, &method.Error{Code: method.TooMuchWork, Input: "observations", Limit: method.AtMost(mostGiven, ""),
			Detail: fmt.Sprintf("at most %d readings; got %d", mostGiven, len(observations))}
	}
	horizon := s.horizon()
	if !(horizon > 0 && quantity.Finite(horizon.Days())) {
		return nil, &method.Error{Code: method.Missing, Input: "phases", Detail: "the phases must last longer than nothing: say where the wood has lain and will lie"}
	}
	for i, t := range s.Exact {
		if !(t >= 0 && t <= horizon) {
			return nil, &method.Error{Code: method.OutOfRange, Input: fmt.Sprintf("exact/%d", i), Limit: method.Between(0, horizon.Days(), "days"),
				Detail: "a time must lie within the phases"}
		}
	}
	var all []*reading
	for i := range observations {
		o := &observations[i]
		if o.Aside {
			continue
		}
		first := len(notes.Warnings)
		r, err := o.check(s, i, horizon, notes)
		if first < len(notes.Warnings) {
			notes.Place(first, "observations/"+strconv.Itoa(i))
		}
		if err != nil {
			return nil, err
		}
		if o.Kind == Pin && o.MC > meterTop {
			p.Ignored = append(p.Ignored, i)
			continue
		}
		all = append(all, &r)
	}
	if len(p.Ignored) > 0 {
		notes.Warn(method.Warning{Code: method.OutsideFitted, Method: learnRow.ID, Input: fmt.Sprintf("observations/%d/mc_pct", p.Ignored[0]),
			Detail: fmt.Sprintf("%d meter readings above %.0f %%MC were left out: from 25 to 30 %% up a meter says wet, and not how wet", len(p.Ignored), 100*meterTop)})
	}
	slices.SortStableFunc(all, func(a, b *reading) int {
		return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.kind, b.kind), cmp.Compare(a.body, b.body), cmp.Compare(a.meter, b.meter),
			cmp.Compare(a.depth, b.depth), cmp.Compare(a.part, b.part), cmp.Compare(a.y, b.y), cmp.Compare(a.noise, b.noise), cmp.Compare(a.index, b.index))
	})
	return p.thin(all), nil
}

// thin drops readings beyond the number of one fit, evenly along their order;
// samples and the latest tenth stay.
func (p *Posterior) thin(all []*reading) []*reading {
	over := len(all) - mostReadings
	if over <= 0 {
		return all
	}
	var loose []*reading
	last := len(all) - mostReadings/10
	for i, r := range all {
		if i < last && r.kind != Sample {
			loose = append(loose, r)
		}
	}
	drop := make(map[*reading]bool, over)
	if len(loose) <= over { // next to nothing but samples: those go as well
		loose = all[:last]
	}
	for i := range over {
		drop[loose[(2*i+1)*len(loose)/(2*over)]] = true
	}
	kept := slices.DeleteFunc(slices.Clone(all), func(r *reading) bool { return drop[r] })
	p.Thinned = len(all) - len(kept)
	p.Notes.Warn(method.Warning{Code: method.Assumption, Method: learnRow.ID, Input: "observations",
		Detail: fmt.Sprintf("%d of the readings were left out, evenly spread over time: a fit takes at most %d", p.Thinned, mostReadings)})
	return kept
}

func (p *Posterior) newFit(model forward, readings []*reading) *fit {
	s := &p.setup
	whole, _ := s.factorShares()
	f := &fit{setup: s, model: model, n: s.dims(), wide: 1, starts: s.starts(),
		prior: point{0, math.Log(s.Factor), float64(s.StartMC), math.Log(s.Pace)},
		sd:    point{s.EMCLogSD, whole * s.FactorLogSD, float64(s.StartSD), wholePace * s.PaceLogSD},
		logOD: make([]float64, len(s.Bodies))}
	for d := iStays; d < maxDims; d++ {
		f.sd[d] = 1
	}
	for i, b := range s.Bodies {
		if b.Ovendry > 0 {
			f.logOD[i] = math.Log(b.Ovendry.Kilograms())
		}
	}
	for _, r := range readings {
		if r.kind == Weight && s.Bodies[r.body].Ovendry == 0 && f.logOD[r.body] == 0 {
			// a place to start from; vagueOvendry makes it harmless
			f.logOD[r.body] = r.y - math.Log1p(float64(s.StartMC))
		}
		if r.depth >= 0 {
			depth := depthStep * float64(r.depth)
			k := slices.Index(f.depths, depth)
			if k < 0 {
				k = len(f.depths)
				f.depths = append(f.depths, depth)
			}
			r.depth = k
		}
	}
	return f
}

// gridBend makes the steps of the forecast grow from the day of stacking on.
const gridBend = 2.5

// grid returns the times of the forecast: the regular ones, those of the readings,
// the ends of the phases and the times asked for.
func (p *Posterior) grid(readings []*reading) []quantity.Duration {
	s := &p.setup
	horizon := s.horizon()
	times := make([]quantity.Duration, 0, s.Points+len(readings)+len(s.Phases)+len(s.Exact)+1)
	for i := range s.Points + 1 {
		share := math.Sinh(gridBend*float64(i)/float64(s.Points)) / math.Sinh(gridBend)
		times = append(times, min(quantity.Duration(share)*horizon, horizon))
	}
	for _, r := range readings {
		times = append(times, quantity.Duration(r.at))
	}
	times = append(times, s.Exact...)
	end := quantity.Duration(0)
	if len(s.Phases) <= mostPhaseEnds {
		for i := range s.Phases {
			end += s.Phases[i].Length
			times = append(times, min(end, horizon))
		}
	}
	times = append(times, s.dayByDay()...)
	slices.Sort(times)
	return slices.Compact(times)
}

// Small stock is followed from day to day for so long after it came to a place, in so many places.
// Own choice: it has come to rest by then.
const (
	closely      = 14
	mostFollowed = 8
)

// dayByDay are the times at which small stock is looked at beside the regular ones, so that its
// change from day to day is known: the days after it came to a place, and those about the times
// asked for.
func (s *Setup) dayByDay() []quantity.Duration {
	if s.Thickness > smallStock {
		return nil
	}
	var days []quantity.Duration
	add := func(at quantity.Duration) {
		if at >= 0 && at <= s.horizon() {
			days = append(days, at)
		}
	}
	came := quantity.Duration(0)
	for i := range s.Phases[:min(len(s.Phases), mostFollowed)] {
		for day := range closely {
			add(came + quantity.Duration(day+1)*quantity.Day)
		}
		came += s.Phases[i].Length
	}
	for _, at := range s.Exact {
		add(at - rateSpan/2)
		add(at + rateSpan/2)
	}
	return days
}

// mostPhaseEnds are given a place of their own in the forecast.
const mostPhaseEnds = 50

// finish draws up what the posterior shows.
func (p *Posterior) finish(aside []*setAside) {
	n := &p.Notes
	n.Rest(&discrepancyRow)
	p.Method, p.EffectiveSize, p.Members, p.Runs = p.e.name, p.e.size, p.setup.Members, p.f.runs
	p.Used = len(p.peak.used)
	if p.Used == 0 {
		n.Warn(method.Warning{Code: method.Assumption, Method: learnRow.ID, Input: "observations",
			Detail: "no reading of this piece stands behind the forecast; it rests on the usual figures of the wood and the place alone"})
	} else {
		n.Rest(&contradictionRow)
	}
	if p.e.name == FromPrior || p.e.size < poor {
		n.Warn(method.Warning{Code: method.Assumption, Method: learnRow.ID, Input: "observations",
			Detail: fmt.Sprintf("only about %.0f of %d forecasts agree with the readings; the bands are rough", p.e.size, p.Members)})
	}
	p.strained()
	p.strays()
	p.parameters()
	p.Foretold = p.foretold()
	p.Contradictions = p.report(aside)
	if len(p.Contradictions) > 0 {
		n.Warn(method.Warning{Code: method.Disagreement, Method: contradictionRow.ID, Input: "observations",
			Detail: "readings that the others rule out were found and left out"})
	}
}

// strained warns when the readings ask for parameters that were not expected.
func (p *Posterior) strained() {
	const beyond = 2.576 // 1 % of a normal distribution
	names := [iStays]string{"emc_factor", "drying_factor", "start_mc_pct", "pace"}
	words := [iStays]string{"the equilibrium of this wood", "the drying factor", "the moisture content on the day of stacking", "the pace of its wet stage"}
	for d, name := range names {
		if z := (p.peak.x[d] - p.prior[d]) / p.f.sd[d]; math.Abs(z) > beyond {
			p.Notes.Warn(method.Warning{Code: method.Disagreement, Method: learnRow.ID, Input: name,
				Detail: fmt.Sprintf("the readings put %s %.1f standard deviations from what was expected; check the wood, the dates and the place", words[d], z)})
		}
	}
}
