package readiness

import (
	"math"
	"slices"

	"latewood/woodphys/quantity"
)

// readyChances are how likely each member is ready at the times of the forecast, and how many
// of the cases are by weights that may be others than those of the ensemble.
type readyChances struct {
	times  []quantity.Duration
	member [][]float32 // by member, at times
	share  []float64   // of the cases, at times
}

// chancesOf works them out from a time to another.
func (p *Posterior) chancesOf(limits Limits, target *Target, from, horizon quantity.Duration) *readyChances {
	c := &readyChances{times: p.between(from, horizon), member: make([][]float32, p.Members)}
	n := len(c.times)
	c.share = make([]float64, n)
	flat := make([]float32, p.Members*n)
	for m := range c.member {
		c.member[m] = flat[m*n : (m+1)*n]
	}
	for i, at := range c.times {
		g := p.gauge(at, limits.span())
		for m, w := range p.e.weight {
			if w > 0 {
				c.member[m][i] = float32(p.chance(limits, target, &g, m))
			}
		}
	}
	return c
}

// chance is how likely member m meets every criterion.
func (p *Posterior) chance(limits Limits, target *Target, g *gauge, m int) float64 {
	even, still := p.passes(limits, g, m)
	if even*still == 0 {
		return 0
	}
	return p.level(limits, target, g, m).within
}

// level are the chances of the level of member m, given the drift of its discrepancy.
func (p *Posterior) level(limits Limits, target *Target, g *gauge, m int) chances {
	aim := target.of(p, m)
	driest, wettest := g.spread(p.e, m)
	return levelOf(g.here.of(p.e.mean[m])+g.drift(p.e, m), math.Hypot(aim.sd, g.loose),
		float64(aim.Driest-limits.Below)-driest, float64(aim.Wettest+limits.Above)-wettest)
}

// shares sums the members up by weights, which need not have the sum 1.
func (c *readyChances) shares(weight []float64) {
	clear(c.share)
	total := 0.0
	for m, w := range weight {
		total += w
		if w == 0 {
			continue
		}
		for i, one := range c.member[m] {
			c.share[i] += w * float64(one)
		}
	}
	if !(total > 0) {
		return
	}
	for i := range c.share {
		c.share[i] = min(c.share[i]/total, 1)
	}
}

// wanted are the shares of an early, a middle and a late day, of cases of which a share never is
// ready. What some are now and then, as the level of each goes with the seasons, keeps no late day
// from being told, but a late day is one to plan by: on it a step would be called ready.
func (c *readyChances) wanted(never float64) [3]float64 {
	shares := bandShares
	if !mostlyOnce(never) {
		return shares
	}
	most := slices.Max(c.share)
	if shares[2] = max(shares[2]*most, readyFrom); most < readyFrom {
		shares[2] = noShare
	}
	return shares
}

// noShare is more than the cases there are.
const noShare = 2

// first is when so many of the cases are first ready, on the straight line between two times.
func (c *readyChances) first(share float64) Date {
	for i, now := range c.share {
		switch {
		case now < share:
			continue
		case i == 0:
			return Date{At: c.times[0], Within: true}
		}
		before, since := c.share[i-1], c.times[i]-c.times[i-1]
		return Date{At: c.times[i-1] + since*quantity.Duration((share-before)/(now-before)), Within: true}
	}
	return Date{At: c.times[len(c.times)-1]}
}

// likeliest is the first time in which about as many cases are ready as ever are.
func (c *readyChances) likeliest() Likeliest {
	most := slices.Max(c.share)
	about := func(now float64) bool { return now >= aboutMost*most }
	first := slices.IndexFunc(c.share, about)
	l := Likeliest{From: c.times[first], Before: slices.Min(c.share[:first+1]), After: slices.Min(c.share[first:])}
	for i := first; i < len(c.share) && about(c.share[i]); i++ {
		l.To, l.Share, l.Open = c.times[i], max(l.Share, c.share[i]), i == len(c.share)-1
	}
	return l
}
