package readiness

import (
	"math"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Date is when a share of the cases is ready.
type Date struct {
	At     quantity.Duration // since stacking
	Within bool              // false: not within the horizon; At is the horizon then
}

// ReadyDate is when a step is ready: every criterion met at once. Outdoors a piece may be
// ready in one season and no longer in the next, so that what counts is how many of the cases
// are ready on a day, and not how many have been by then.
type ReadyDate struct {
	// Low and Median are the first days on which 5 and 50 % of the cases are ready that very day,
	// High the first on which 95 % are of as many as ever are; none, where those are too few to call
	// the step ready, or more than 5 % are on no day. No day is given where half of them never are, or where the day would not be kept: but for
	// Low, where more and more are up to the horizon.
	Low, Median, High Date
	Already           float64 // probability that it is ready at the time asked from, as Judge has it
	Never             float64 // probability that it is on no day within the horizon
	// Kept is the probability that a case that is ready on the day of Median, or from Likeliest on
	// where there is none, still is KeptFor later, or at the horizon.
	Kept      float64
	Likeliest Likeliest
	// Perhaps says that it may be ready at the time asked from, and that it cannot be said; there
	// is no later day then, and a reading settles it.
	Perhaps bool
	Notes   method.Notes
}

// Likeliest is the first time in which about as many cases are ready as ever are within the
// horizon.
type Likeliest struct {
	From, To quantity.Duration // since stacking
	Share    float64           // of the cases, on the best day of it
	Open     bool              // it lasts to the horizon
	// Before and After are the least shares of the cases before it and from its begin on.
	Before, After float64
}

// KeptFor is how long a step is to stay ready for a date to be kept: time to do the work in.
// Own choice.
const KeptFor = 28 * quantity.Day

// aboutMost is the share of the greatest number of ready cases that is about as many. Own
// choice.
const aboutMost = 0.9

// Holds reports that a date is one to plan by: more cases than not are still ready KeptFor
// after it.
//
// Accuracy: that of ReadyDate. Source: own choice.
func (d *ReadyDate) Holds() bool { return d.Kept >= 0.5 }

// EverSure reports that on some day of the forecast so many cases are ready that the step would be
// called ready on it without a reading.
//
// Accuracy: that of ReadyDate. Source: own choice.
func (d *ReadyDate) EverSure() bool { return d.Likeliest.Share >= readyFrom }

// MostlyOnce reports that nearly every case is ready on some day, so that what keeps it from having a
// late day is that they are so on different days.
//
// Accuracy: that of ReadyDate. Source: own choice.
func (d *ReadyDate) MostlyOnce() bool { return mostlyOnce(d.Never) }

// mostlyOnce is that of a probability that it is on no day.
func mostlyOnce(never float64) bool { return never <= 1-bandShares[2] }

// ReadyDate returns when step s is ready, from a time on, up to horizon (0 means the end of
// the phases); both between 0 and the horizon of the posterior.
//
// Errors: as Posterior.Judge, and out_of_range for "horizon_days".
// Accuracy: COVERAGE.md.
//
// Source: row readiness.ready-date.
func (p *Posterior) ReadyDate(limits Limits, target Target, from, horizon quantity.Duration) (ReadyDate, error) {
	var d ReadyDate
	d.Notes.Merge(p.Notes)
	if horizon == 0 {
		horizon = p.Horizon()
	}
	if err := p.askable(limits, &target, from, &d.Notes); err != nil {
		return ReadyDate{}, err
	}
	if err := p.within(horizon, "horizon_days"); err != nil {
		return ReadyDate{}, err
	}
	d.Notes.Rest(&readyDateRow)
	for m, first := range p.firsts(limits, &target, p.between(from, horizon)) {
		if first < 0 {
			d.Never += p.e.weight[m]
		}
	}
	c := p.chancesOf(limits, &target, from, horizon)
	c.shares(p.e.weight)
	d.Already, d.Likeliest = c.share[0], c.likeliest()
	shares := c.wanted(d.Never)
	for i, to := range [...]*Date{&d.Low, &d.Median, &d.High} {
		*to = c.first(shares[i])
	}
	on := d.Likeliest.From
	if d.Median.Within {
		on = d.Median.At
	}
	d.Kept = p.kept(limits, &target, on, horizon)
	if d.Already < readyFrom && (!d.Median.Within || !d.Holds()) {
		open := !d.Median.Within && d.Likeliest.Open
		d.Median, d.High = Date{At: horizon}, Date{At: horizon}
		if !open {
			d.Low = Date{At: horizon}
		}
	}
	return d, nil
}

// unlessToday leaves out the day of a step of which half of the cases are ready on the very day
// asked from, where that is too few to say so: it would be no day to wait for. What is not ready
// then, or of fewer than half of the cases, is so on the next day at the earliest.
func (d *ReadyDate) unlessToday(v *Verdict, today, horizon quantity.Duration) {
	tomorrow := min(today+quantity.Day, horizon)
	if v.Outcome == Ready || !d.Median.Within || d.Median.At >= tomorrow {
		return
	}
	if v.Outcome == NotReady || d.Already < bandShares[1] {
		d.Median.At, d.High.At = tomorrow, max(d.High.At, tomorrow)
		return
	}
	d.Perhaps = true
	d.Low, d.Median, d.High = Date{At: horizon}, Date{At: horizon}, Date{At: horizon}
}

// kept is the share of the members which are ready at a time that are still ready KeptFor later.
func (p *Posterior) kept(limits Limits, target *Target, on, horizon quantity.Duration) float64 {
	now, later := p.gauge(on, limits.span()), p.gauge(min(on+KeptFor, horizon), limits.span())
	ready, still := 0.0, 0.0
	for m, w := range p.e.weight {
		if w == 0 || !p.meets(limits, target, &now, m) {
			continue
		}
		ready += w
		if p.meets(limits, target, &later, m) {
			still += w
		}
	}
	if ready == 0 {
		return 0
	}
	return still / ready
}

// between are the times of the forecast from one to another, with both.
func (p *Posterior) between(from, to quantity.Duration) []quantity.Duration {
	times := []quantity.Duration{from}
	for _, t := range p.e.times {
		if t > from && t < to {
			times = append(times, t)
		}
	}
	if to > from {
		times = append(times, to)
	}
	return times
}

// firsts are the places of the first of some times at which each member is ready; -1 for none of them.
func (p *Posterior) firsts(limits Limits, target *Target, times []quantity.Duration) []int {
	gauges := make([]gauge, len(times))
	for i, t := range times {
		gauges[i] = p.gauge(t, limits.span())
	}
	firsts := make([]int, p.Members)
	for m := range firsts {
		firsts[m] = -1
		if p.e.weight[m] > 0 {
			firsts[m] = slices.IndexFunc(gauges, func(g gauge) bool { return p.meets(limits, target, &g, m) })
		}
	}
	return firsts
}

// dates returns when each member is first ready, in seconds, infinite for never.
func (p *Posterior) dates(limits Limits, target *Target, from, horizon quantity.Duration) []float64 {
	times := p.between(from, horizon)
	dates := make([]float64, p.Members)
	for m, i := range p.firsts(limits, target, times) {
		switch {
		case i < 0:
			dates[m] = math.Inf(1)
		case i == 0:
			dates[m] = float64(from)
		default:
			dates[m] = p.turns(limits, target, m, times[i-1], times[i])
		}
	}
	return dates
}

// turns looks for the moment between a time that fails and one that passes, to
// a hundredth of their distance.
func (p *Posterior) turns(limits Limits, target *Target, m int, fails, passes quantity.Duration) float64 {
	for range 7 {
		mid := (fails + passes) / 2
		g := p.gauge(mid, limits.span())
		if p.meets(limits, target, &g, m) {
			passes = mid
		} else {
			fails = mid
		}
	}
	return float64(passes)
}
