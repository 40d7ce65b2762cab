package readiness

import (
	"math"

	"latewood/woodphys/quantity"
)

// Foreseen is what the scale will show on a day if all is well.
type Foreseen struct {
	At   quantity.Duration            // since stacking
	Mass quantity.Band[quantity.Mass] // 90 %
	// Least and Most are the ends of a band twice as wide: a weight outside is worth a
	// second look at the scale before it is written down.
	Least, Most quantity.Mass
}

// aheadDays are the days from which weights are foreseen, and between which straight lines
// do. Own choice: what is fetched before a weighing day outlives a season in a pocket.
var aheadDays = [...]float64{0, 7, 14, 30, 60, 90}

// beyond is how many half widths of its 90 % band a weight may lie from its middle: with a
// normal error one of a thousand lies further out. Own choice.
const beyond = 2

// Foresee returns the weights of the piece from a time on (0 to the horizon) up to 90 days
// later or the horizon, in order of time; none where its ovendry mass is not known.
//
// Errors: none.
// Accuracy: that of Learn, and of a scale that reads 0.1 % of the mass.
//
// Source: row readiness.next-reading.
func (p *Posterior) Foresee(from quantity.Duration) ([]Foreseen, error) {
	if !p.OvendryKnown[0] {
		return nil, nil
	}
	var all []Foreseen
	for i, days := range aheadDays {
		c := Candidate{Kind: Weight, After: quantity.Duration(days) * quantity.Day}
		if from+c.After > p.Horizon() {
			break
		}
		r, self, err := c.check(p, i, from, nil)
		if err != nil {
			return nil, err
		}
		look := p.prospect(&r, self, from)
		all = append(all, foreseen(from+c.After, p.foretell(&look)))
	}
	return all, nil
}

// foreseen is a weight of which the logarithm is foretold.
func foreseen(at quantity.Duration, log quantity.Band[float64]) Foreseen {
	mass := func(log float64) quantity.Mass { return quantity.Mass(math.Exp(log)) }
	return Foreseen{At: at, Mass: quantity.Band[quantity.Mass]{Value: mass(log.Value), Low: mass(log.Low), High: mass(log.High)},
		Least: mass(log.Value - beyond*(log.Value-log.Low)), Most: mass(log.Value + beyond*(log.High-log.Value))}
}

// ForeseenOn returns the weight on a day between those of a list in order of time, on the
// straight line between its neighbours; told is false beyond the ends.
//
// Accuracy: drying is not straight: while the wood dries fast the line lies above the course.
//
// Source: own choice.
func ForeseenOn(all []Foreseen, at quantity.Duration) (on Foreseen, told bool) {
	for i := range all {
		switch next := &all[i]; {
		case next.At == at:
			return *next, true
		case next.At > at && i == 0:
			return on, false
		case next.At > at:
			last := &all[i-1]
			share := float64((at - last.At) / (next.At - last.At))
			between := func(a, b quantity.Mass) quantity.Mass { return a + quantity.Mass(share)*(b-a) }
			return Foreseen{At: at, Least: between(last.Least, next.Least), Most: between(last.Most, next.Most),
				Mass: quantity.Band[quantity.Mass]{Value: between(last.Mass.Value, next.Mass.Value),
					Low: between(last.Mass.Low, next.Mass.Low), High: between(last.Mass.High, next.Mass.High)}}, true
		}
	}
	return on, false
}
