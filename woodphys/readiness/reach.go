package readiness

import (
	"cmp"
	"math"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Reading a course by one of its parts.
type (
	// CoursePart is a part of the thickness that a course follows.
	CoursePart int
	// Reached is when a course is down to a moisture content.
	Reached struct {
		// Early, Middle and Late are the days as ReadyDate has them; +Inf where there is none within
		// the horizon.
		Early, Middle, Late quantity.Duration
		Never               float64 // probability that it is on no day within the horizon
		Likeliest           Likeliest
	}
)

// MostlyOnce reports that nearly every case comes to it on some day, as ReadyDate.MostlyOnce does.
//
// Accuracy: that of Reaches. Source: own choice.
func (r *Reached) MostlyOnce() bool { return mostlyOnce(r.Never) }

// Parts that a course follows.
const (
	OfMean  CoursePart = iota // the whole thickness
	OfCore                    // the middle fifth
	OfThick                   // the whole thickness where a wedge is thickest; of a board OfMean
)

// Reaches returns when the forecast of the part is within above (0 to 2.5) of the target, from
// above or, where it starts drier than that, from below, as a distribution over the ensemble; a
// piece that starts there is there at once. Times beyond the horizon are +Inf. A wood that
// settles higher than others does so in the build room too: target.WoodShare says how much of
// that is shared. The wander of a real piece about its forecast is left out: on a flat part of
// the course a single dry week would count as arrived. ReadyDate has it in.
//
// Errors: *method.Error out_of_range for "target_pct", "target_sd_pct" and
// "wood_share"; an above that is no number is never reached.
// Accuracy: that of Learn; between the times of the forecast straight lines.
//
// Source: rows readiness.learn and readiness.ready-date, by whose rule the days are taken.
func (p *Posterior) Reaches(target Target, above quantity.Moisture, part CoursePart) (Reached, error) {
	if err := target.check(&method.Notes{}); err != nil {
		return Reached{}, err
	}
	e := p.e
	courses := e.mean
	if part == OfCore {
		courses = e.core
	}
	gaps := make([][]float64, p.Members) // by how much it is short of it, at times; 0 and less: it is there
	for m := range gaps {
		aim := target.of(p, m)
		level := float64(aim.Wettest) + aim.sd*e.aim[m] + float64(above)
		gap := make([]float64, len(e.times))
		for i := range gap {
			gap[i] = float64(courses[m][i]) + float64(e.drift[m][i]) - level
			if part == OfThick && e.thick != nil {
				gap[i] += float64(e.thick[m][i])
			}
		}
		if far := 2*float64(above) + float64(aim.Wettest-aim.Driest); gap[0] < -far { // from the other side
			for i := range gap {
				gap[i] = -gap[i] - far
			}
		}
		gaps[m] = gap
	}
	return p.reached(gaps), nil
}

// reached is when shares of the members, by weight, are there.
func (p *Posterior) reached(gaps [][]float64) Reached {
	e := p.e
	c := readyChances{times: e.times, share: make([]float64, len(e.times)), member: make([][]float32, p.Members)}
	var r Reached
	for m, gap := range gaps {
		c.member[m] = make([]float32, len(gap))
		ever := false
		for i := range gap {
			if gap[i] <= 0 {
				c.member[m][i], ever = 1, true
			}
		}
		if !ever {
			r.Never += e.weight[m]
		}
	}
	c.shares(e.weight)
	r.Likeliest = c.likeliest()
	shares := c.wanted(r.Never)
	r.Early, r.Middle, r.Late = p.firstOf(&c, gaps, shares[0]), p.firstOf(&c, gaps, shares[1]), p.firstOf(&c, gaps, shares[2])
	if math.IsInf(float64(r.Middle), 1) && !r.Likeliest.Open {
		r.Early = r.Middle
	}
	return r
}

// firstOf is when a share of the members is first there: within the step in which it comes to
// be, by the moments at which members cross.
func (p *Posterior) firstOf(c *readyChances, gaps [][]float64, share float64) quantity.Duration {
	i := slices.IndexFunc(c.share, func(now float64) bool { return now >= share })
	switch {
	case i < 0:
		return quantity.Duration(math.Inf(1))
	case i == 0:
		return c.times[0]
	}
	var cross []sample
	for m, gap := range gaps {
		before, now := gap[i-1], gap[i]
		if (before <= 0) == (now <= 0) {
			continue
		}
		w := p.e.weight[m]
		if now > 0 {
			w = -w
		}
		cross = append(cross, sample{before / (before - now), w})
	}
	slices.SortFunc(cross, func(a, b sample) int { return cmp.Compare(a.value, b.value) })
	there, at := c.share[i-1], 1.0
	for _, one := range cross {
		if there += one.weight; there >= share {
			at = one.value
			break
		}
	}
	return c.times[i-1] + quantity.Duration(at)*(c.times[i]-c.times[i-1])
}
