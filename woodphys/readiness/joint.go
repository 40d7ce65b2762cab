package readiness

import (
	"fmt"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

func (t *Target) check(notes *method.Notes) error {
	for _, in := range [...]struct {
		name  string
		value float64
	}{{"target_pct", t.Mean.Percent()}, {"target_sd_pct", t.SD.Percent()}, {"wood_share", t.WoodShare}} {
		if err := notes.Use(&jointRow, in.name, in.value); err != nil {
			return err
		}
	}
	return nil
}

// aim is what a member is to come to: between two edges, which share an error with a
// standard deviation.
type aim struct {
	drying.Loop
	sd float64
}

// of returns the target of a member.
// The EMC scale is the product of a normal part of the wood and one of the place:
// given their sum, the wood's has mean w e and variance w (1 - w) s^2.
func (t *Target) of(p *Posterior, m int) aim {
	w := t.WoodShare
	scale, shift := math.Exp(w*p.e.x[m][iEMC]), 0.0
	if t.PerRH != 0 {
		in := max(len(p.setup.Phases)-1-t.Stay, 0)
		shift = t.PerRH * p.setup.airOf(in) * p.e.x[m][iStays+2*p.setup.stayOf(in)]
	}
	edges := t.Loop
	if edges == (drying.Loop{}) {
		edges = drying.Loop{Driest: t.Mean, Wettest: t.Mean}
	}
	in := func(edge quantity.Moisture) quantity.Moisture { return quantity.Moisture(float64(edge)*scale + shift) }
	return aim{drying.Loop{Driest: in(edges.Driest), Wettest: in(edges.Wettest)},
		math.Hypot(float64(t.SD), float64(t.Mean)*p.setup.EMCLogSD*math.Sqrt(w*(1-w)))}
}

// off is by how much what a member holds is above the edges, or below, where their error is
// by so many standard deviations another.
func (a aim) off(holds, deviates float64) float64 {
	holds -= a.sd * deviates
	return holds - float64(a.Rest(quantity.Moisture(holds)))
}

// Judge returns the verdict on step s at a time, 0 to the horizon. Its probability
// is that of all criteria together: a piece of which the level fits is likelier to
// be at rest as well, and the members of the ensemble know it. Unlike the plain
// Judge every criterion is known, from the forecast.
//
// Errors: *method.Error out_of_range for "at_days", "target_pct", "target_sd_pct",
// "wood_share", "above_pct", "below_pct", "gradient_pct", "rate_pct_per_day" and
// "trend_pct".
// Accuracy: 0.02 in probability with 192 members.
//
// Source: row readiness.joint.
func (p *Posterior) Judge(s Step, limits Limits, target Target, at quantity.Duration) (Verdict, method.Notes, error) {
	var notes method.Notes
	notes.Merge(p.Notes)
	if err := p.askable(limits, &target, at, &notes); err != nil {
		return Verdict{}, notes, err
	}
	g := p.gauge(at, limits.span())
	n := p.Members
	gap, gradient, rate := make([]sample, n), make([]sample, n), make([]sample, n)
	var level, even, still chances
	together := 0.0
	_, restAsked := limits.rest(0)
	for m, w := range p.e.weight {
		mean, shell, core := g.here.of(p.e.mean[m]), g.here.of(p.e.shell[m]), g.here.of(p.e.core[m])
		aim := target.of(p, m)
		l := p.level(limits, &target, &g, m)
		e, r := p.passes(limits, &g, m)
		level.add(w, l)
		even.add(w, sideOf(e, core-shell+g.steep(p.e, m)))
		still.add(w, sideOf(r, g.rate(p.e, m)))
		together += w * l.within * e * r
		gap[m] = sample{aim.off(mean+g.stray(p.e, m), p.e.aim[m]), w}
		gradient[m] = sample{core - shell + g.steep(p.e, m), w}
		rate[m] = sample{g.rate(p.e, m) / (1 + mean), w}
	}
	v := Verdict{Step: s, Probability: min(together, 1)}
	add := func(name string, met chances, measured quantity.Band[float64], allowed method.Range, detail string) {
		v.Criteria = append(v.Criteria, Criterion{Name: name, Known: true, Probability: min(met.within, 1), Outcome: met.outcome(),
			Measured: measured, Allowed: allowed, Detail: detail})
	}
	band := bandOf[float64](gap)
	add(levelCriterion, level, band, method.Range{Low: -float64(limits.Below), High: float64(limits.Above)},
		fmt.Sprintf("moisture content is %+.1f points from the target (%+.1f to %+.1f); allowed -%s to +%s points",
			band.Value*100, band.Low*100, band.High*100, points(limits.Below), points(limits.Above)))
	if limits.Gradient > 0 {
		band = bandOf[float64](gradient)
		add(gradientCriterion, even, band, method.Range{Low: -float64(limits.Gradient), High: float64(limits.Gradient)},
			fmt.Sprintf("core minus shell is %+.1f points (%+.1f to %+.1f); allowed %s points either way", band.Value*100, band.Low*100, band.High*100, points(limits.Gradient)))
	}
	if restAsked {
		now := 0.0
		for m, w := range p.e.weight {
			now += w * g.here.of(p.e.mean[m])
		}
		perDay, _ := limits.rest(now)
		perDay /= 1 + now
		band = bandOf[float64](rate)
		detail := fmt.Sprintf("the weight changes by %+.3f %% a day; allowed %s %% either way", band.Value*100, quantity.FormatNumber(perDay*100, 3))
		if limits.Trend > 0 {
			per := (1 + now) * TrendSpan.Days() * 100
			detail = fmt.Sprintf("moisture content moves by %+.1f points in two weeks (%+.1f to %+.1f); allowed %s points either way",
				band.Value*per, band.Low*per, band.High*per, quantity.FormatNumber(perDay*per, 2))
		}
		add(restCriterion, still, band, method.Range{Low: -perDay, High: perDay}, detail)
	}
	v.conclude()
	return v, notes, nil
}

// levelOf are the chances of a number between two limits; where they leave no room, a place of
// a wedge lies beyond each.
func levelOf(value, sd, low, high float64) chances {
	if low > high {
		return chances{below: 1, above: 1}
	}
	return chances{within(value, sd, low, high), within(value, sd, math.Inf(-1), low), within(value, sd, high, math.Inf(1))}
}

// sideOf are the chances of a member that passes, 1 or 0, or fails on the side of its number.
func sideOf(passes, value float64) chances {
	switch {
	case passes > 0:
		return chances{within: 1}
	case value < 0:
		return chances{below: 1}
	}
	return chances{above: 1}
}

// add adds what a member of some weight says.
func (c *chances) add(weight float64, one chances) {
	c.within += weight * one.within
	c.below += weight * one.below
	c.above += weight * one.above
}

// askable checks a question about a step.
func (p *Posterior) askable(limits Limits, target *Target, at quantity.Duration, notes *method.Notes) error {
	if err := p.within(at, "at_days"); err != nil {
		return err
	}
	if err := limits.check(); err != nil {
		return err
	}
	return target.check(notes)
}

// passes returns 1 or 0 for gradient and rest of member m; what is not asked passes.
func (p *Posterior) passes(limits Limits, g *gauge, m int) (even, still float64) {
	even, still = 1, 1
	if limits.Gradient > 0 && math.Abs(g.here.of(p.e.core[m])-g.here.of(p.e.shell[m])+g.steep(p.e, m)) > float64(limits.Gradient) {
		even = 0
	}
	if perDay, asked := limits.rest(g.here.of(p.e.mean[m])); asked && math.Abs(g.rate(p.e, m)) > perDay {
		still = 0
	}
	return even, still
}

// meets reports whether member m, with its own discrepancy and target, meets every
// criterion.
func (p *Posterior) meets(limits Limits, target *Target, g *gauge, m int) bool {
	off := target.of(p, m).off(g.here.of(p.e.mean[m])+g.stray(p.e, m), p.e.aim[m])
	driest, wettest := g.spread(p.e, m)
	if off+driest < -float64(limits.Below) || off+wettest > float64(limits.Above) {
		return false
	}
	even, still := p.passes(limits, g, m)
	return even*still > 0
}
