package readiness

import (
	"math"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Reading a course by one of its parts.
type (
	// CoursePart is a part of the thickness that a course follows.
	CoursePart int
	// Reached is when a course first comes down to a moisture content.
	Reached struct {
		Early, Middle, Late quantity.Duration // 5, 50 and 95 % of cases are earlier; +Inf beyond the horizon
		Never               float64           // probability that it is not within the horizon
	}
)

// Parts that a course follows.
const (
	OfMean CoursePart = iota // the whole thickness
	OfCore                   // the middle fifth
)

// Reaches returns when the forecast of the part first comes within above (0 to
// 2.5) of the target, from above or, where it starts drier than that, from below, as a
// distribution over the ensemble; a piece that starts there has reached it at once. Times beyond the horizon are +Inf. A wood that
// settles higher than others does so in the build room too: target.WoodShare says
// how much of that is shared. The wander of a real piece about its forecast is
// left out: on a flat part of the course a single dry week would count as arrived.
// ReadyDate has it in.
//
// Errors: *method.Error out_of_range for "target_pct", "target_sd_pct" and
// "wood_share"; an above that is no number is never reached.
// Accuracy: that of Learn; between the times of the forecast straight lines.
//
// Source: row readiness.learn.
func (p *Posterior) Reaches(target Target, above quantity.Moisture, part CoursePart) (Reached, error) {
	if err := target.check(&method.Notes{}); err != nil {
		return Reached{}, err
	}
	level := make([]float64, p.Members)
	for m := range level {
		mean, sd := target.of(p, m)
		level[m] = mean + sd*p.e.aim[m] + float64(above)
	}
	e := p.e
	courses := e.mean
	if part == OfCore {
		courses = e.core
	}
	when := make([]sample, p.Members)
	gaps := make([]float64, p.Members) // how far above the level at the time before
	below := make([]bool, p.Members)   // it starts below the target by more than that
	for m := range when {
		when[m] = sample{math.Inf(1), e.weight[m]}
	}
	for i, at := range e.times {
		for m := range when {
			if !math.IsInf(when[m].value, 1) {
				continue
			}
			gap := float64(courses[m][i]) + float64(e.drift[m][i]) - level[m]
			if i == 0 {
				below[m] = gap < -2*float64(above)
			}
			if below[m] { // from the other side
				gap = -gap - 2*float64(above)
			}
			if gap <= 0 {
				when[m].value = float64(at)
				if i > 0 && gaps[m] > gap {
					step := float64(at - e.times[i-1])
					when[m].value = float64(at) - step*gap/(gap-gaps[m])
				}
			}
			gaps[m] = gap
		}
	}
	return reached(when), nil
}

// reached sums up times of which some are infinite.
func reached(when []sample) Reached {
	slices.SortFunc(when, func(a, b sample) int {
		switch {
		case a.value < b.value:
			return -1
		case a.value > b.value:
			return 1
		}
		return 0
	})
	var r Reached
	total := 0.0
	for _, s := range when {
		total += s.weight
		if math.IsInf(s.value, 1) {
			r.Never += s.weight
		}
	}
	r.Never /= total
	at := func(share float64) quantity.Duration {
		sum := 0.0
		for _, s := range when {
			if sum += s.weight; sum >= share*total {
				return quantity.Duration(s.value)
			}
		}
		return quantity.Duration(math.Inf(1))
	}
	r.Early, r.Middle, r.Late = at(bandShares[0]), at(bandShares[1]), at(bandShares[2])
	return r
}
