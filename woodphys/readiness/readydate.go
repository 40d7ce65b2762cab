package readiness

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Date is a quantile of the ready date.
type Date struct {
	At     quantity.Duration // since stacking
	Within bool              // false: not within the horizon; At is the horizon then
}

// ReadyDate is when a step is first ready: every criterion met at once. Outdoors
// a piece may be ready in one season and no longer in the next; the date is the
// first, and Kept says how far it holds.
type ReadyDate struct {
	Low, Median, High Date    // 5, 50 and 95 % quantiles
	Already           float64 // probability that it is ready at the time asked from
	Never             float64 // probability that it is not within the horizon
	// Kept is the probability that it is still ready KeptFor after the date, or at the
	// horizon, where it has one; 0 where it has none.
	Kept  float64
	Notes method.Notes
}

// KeptFor is how long a step is to stay ready for a date to be kept: time to do the work in.
// Own choice.
const KeptFor = 28 * quantity.Day

// Holds reports that a date is one to plan by: more cases than not are still ready KeptFor
// after theirs.
//
// Accuracy: that of ReadyDate. Source: own choice.
func (d *ReadyDate) Holds() bool { return d.Kept >= 0.5 }

// Planned returns the date as one to plan by: with no day where it would not be kept, unless
// it is ready on the day asked from, which a verdict of the step says. Probabilities stay.
//
// Accuracy: that of ReadyDate. Source: own choice.
func (d *ReadyDate) Planned(horizon quantity.Duration) ReadyDate {
	planned := *d
	if !d.Holds() && d.Already < readyFrom {
		planned.Low, planned.Median, planned.High = Date{At: horizon}, Date{At: horizon}, Date{At: horizon}
	}
	return planned
}

// ReadyDate returns when step s is first ready, from a time on, up to horizon (0
// means the end of the phases); both between 0 and the horizon of the posterior.
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
	s := make([]sample, p.Members)
	dates := p.dates(limits, &target, from, horizon)
	d.Kept = p.kept(limits, &target, dates, horizon)
	for m, at := range dates {
		w := p.e.weight[m]
		s[m] = sample{at, w}
		switch {
		case at <= float64(from):
			d.Already += w
		case math.IsInf(at, 1):
			d.Never += w
			s[m].value = far
		}
	}
	var q [3]float64
	quantiles(s, bandShares[:], q[:])
	for i, to := range [...]*Date{&d.Low, &d.Median, &d.High} {
		*to = Date{At: quantity.Duration(q[i]), Within: true}
		// a quantile among those that never are, or between one and a date
		if q[i] > float64(horizon) {
			*to = Date{At: horizon}
		}
	}
	if d.Never >= 1-bandShares[0] {
		d.Low = Date{At: horizon}
	}
	return d, nil
}

// kept is the share of the members with a date that are still ready KeptFor later.
func (p *Posterior) kept(limits Limits, target *Target, dates []float64, horizon quantity.Duration) float64 {
	ever, still := 0.0, 0.0
	for m, at := range dates {
		w := p.e.weight[m]
		if w == 0 || math.IsInf(at, 1) {
			continue
		}
		ever += w
		later := min(quantity.Duration(at)+KeptFor, horizon)
		g := p.gauge(later)
		if later <= quantity.Duration(at) || p.meets(limits, target, &g, m) {
			still += w
		}
	}
	if ever == 0 {
		return 0
	}
	return still / ever
}

// far stands for never in seconds; finite, so that quantiles can be drawn.
const far = 1e15

// dates returns the ready date of each member in seconds, infinite for never.
func (p *Posterior) dates(limits Limits, target *Target, from, horizon quantity.Duration) []float64 {
	times := []quantity.Duration{from}
	for _, t := range p.e.times {
		if t > from && t < horizon {
			times = append(times, t)
		}
	}
	if horizon > from {
		times = append(times, horizon)
	}
	gauges := make([]gauge, len(times))
	for i, t := range times {
		gauges[i] = p.gauge(t)
	}
	dates := make([]float64, p.Members)
	for m := range dates {
		dates[m] = math.Inf(1)
		if p.e.weight[m] == 0 {
			continue
		}
		for i := range times {
			if !p.meets(limits, target, &gauges[i], m) {
				continue
			}
			dates[m] = float64(times[i])
			if i > 0 {
				dates[m] = p.between(limits, target, m, times[i-1], times[i])
			}
			break
		}
	}
	return dates
}

// between looks for the moment between a time that fails and one that passes, to
// a hundredth of their distance.
func (p *Posterior) between(limits Limits, target *Target, m int, fails, passes quantity.Duration) float64 {
	for range 7 {
		mid := (fails + passes) / 2
		g := p.gauge(mid)
		if p.meets(limits, target, &g, m) {
			passes = mid
		} else {
			fails = mid
		}
	}
	return float64(passes)
}
