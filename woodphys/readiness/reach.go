package readiness

import (
	"math"
	"slices"

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

// Reaches returns when the forecast of the part first comes down to level (0 to
// 2.5), as a distribution over the ensemble; a piece that starts below it has
// reached it at once. Times beyond the horizon are +Inf. The wander of a real piece
// about its forecast is left out: on a flat part of the course a single dry week
// would count as arrived. ReadyDate has it in.
//
// Errors: none; a level that is no number is never reached.
// Accuracy: that of Learn; between the times of the forecast straight lines.
//
// Source: row readiness.learn.
func (p *Posterior) Reaches(level quantity.Moisture, part CoursePart) Reached {
	e := p.e
	courses := e.mean
	if part == OfCore {
		courses = e.core
	}
	when := make([]sample, p.Members)
	above := make([]float64, p.Members) // how far above the level at the time before
	for m := range when {
		when[m] = sample{math.Inf(1), e.weight[m]}
	}
	for i, at := range e.times {
		for m := range when {
			if !math.IsInf(when[m].value, 1) {
				continue
			}
			gap := float64(courses[m][i]) + float64(e.drift[m][i]) - float64(level)
			if gap <= 0 {
				when[m].value = float64(at)
				if i > 0 && above[m] > gap {
					step := float64(at - e.times[i-1])
					when[m].value = float64(at) - step*gap/(gap-above[m])
				}
			}
			above[m] = gap
		}
	}
	return reached(when)
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
