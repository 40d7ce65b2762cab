package readiness

import (
	"cmp"
	"context"
	"math"
	"slices"

	"latewood/woodphys/quantity"
)

// Cut is a step between two weights that is no drying: from a weight on, all are lighter, or
// heavier, by one share than those before lead to expect. Wood that was cut off or planed away
// makes such a step, and a sealed end or another scale.
type Cut struct {
	Index  int                    // of the observation from which on
	Before int                    // of the last weight before
	Share  quantity.Band[float64] // of the mass that went; below 0: it came
	// Apart means that the weights before were read as those of another mass. Else nothing was
	// done about it.
	Apart bool

	size float64 // logarithm of the mass after over that before
}

// When a step of the weights is told. Own choice.
const (
	// cutLooked is the gain in chi-square from which a step is tried, with the problem made
	// linear; triedCuts is how many are.
	cutLooked = 8.0
	triedCuts = 3
	// cutGain is what a step has to gain to be told, and apartGain for the weights before it
	// to be read as of another mass.
	cutGain   = 12.0
	apartGain = 18.0
	// cutShare is how much of what a step gains one wrong weight may gain.
	cutShare = 0.7
	leastCut = 0.01
	// fewestCut weights must lie on either side: one alone may be wrong as well.
	fewestCut = 2
)

// aStep is a step tried: at the weight number k of those of the piece.
type aStep struct {
	k    int
	gain float64 // in chi-square
	cost float64 // of the fit with it
	odds float64 // how many times likelier it makes the readings, of steps alike beforehand, as a logarithm
	size float64 // as a logarithm
	sd   float64
}

// cut looks for a step of the weights of the piece itself, which has to explain as much as those
// set aside do. all is the fit of all readings. Where the step is told apart, the readings before
// it are marked as earlier.
func (f *fit) cut(ctx context.Context, all *peak, readings []*reading, aside []*setAside) (*Cut, error) {
	var weights []*reading
	for _, r := range readings {
		if r.kind == Weight && r.body == 0 {
			weights = append(weights, r)
		}
	}
	best, err := f.bestStep(ctx, all, readings, weights)
	if err != nil || best == nil || best.gain < cutGain || math.Abs(1-math.Exp(best.size)) < leastCut {
		return nil, err
	}
	alone := min(best.k, len(weights)-best.k) < fewestCut
	// where nothing tells a step from a wrong weight, both are told
	surer := best.odds - explained(aside)
	undecided := math.Log(undecidedOdds)
	switch {
	case len(aside) == 0:
		for _, z := range all.loo {
			if cutShare*z*z > best.gain && !alone {
				return nil, nil
			}
		}
	case surer < -undecided && !alone:
		return nil, nil
	}
	share := func(z float64) float64 { return 1 - math.Exp(best.size+z*best.sd) }
	c := &Cut{Index: weights[best.k].index, Before: weights[best.k-1].index, size: best.size,
		Share: quantity.Band[float64]{Value: share(0), Low: share(quantity.Z90), High: share(-quantity.Z90)},
		Apart: !alone && (len(aside) == 0 || surer > undecided) && best.gain >= apartGain}
	if c.Apart {
		earlier(weights, best.k, true)
	}
	return c, nil
}

// explained is how many times likelier the readings are without those set aside, as a logarithm.
func explained(aside []*setAside) float64 {
	odds := 0.0
	for _, a := range aside {
		odds += a.odds
	}
	return odds
}

func earlier(weights []*reading, k int, is bool) {
	for _, r := range weights[:k] {
		r.earlier = is
	}
}

// bestStep tries the steps that gain most where all is linear, and returns the one with which
// the readings fit best; nil where none gains enough to be tried.
func (f *fit) bestStep(ctx context.Context, all *peak, readings, weights []*reading) (*aStep, error) {
	var tried []aStep
	for k := 1; k < len(weights); k++ {
		if s := f.stepAt(all, weights, k); s.gain >= cutLooked {
			tried = append(tried, s)
		}
	}
	slices.SortStableFunc(tried, func(a, b aStep) int { return cmp.Compare(b.gain, a.gain) })
	var best *aStep
	for i := range tried[:min(len(tried), triedCuts)] {
		one := &tried[i]
		earlier(weights, one.k, true)
		f.setup.resized = math.Abs(one.size)
		with, err := f.climb(ctx, readings, all.x)
		if err == nil { // the readings as they stand may have bent the fit far away
			var other *peak
			if other, err = f.climb(ctx, readings, f.prior); err == nil && other.cost < with.cost {
				with = other
			}
		}
		earlier(weights, one.k, false)
		f.setup.resized = 0
		if err != nil {
			return nil, err
		}
		about := f.stepAt(with, weights, one.k)
		one.gain = min(one.gain, 2*(all.cost-with.cost))
		one.cost, one.size, one.sd = with.cost, about.size, about.sd
		// a step is as large as what is wrong with a weight, not as vague as an ovendry mass
		one.odds = f.evidence(with) - f.evidence(all) + math.Log(vagueOvendry/wrongMass/float64(len(weights)-1))
		if best == nil || one.cost < best.cost {
			best = one
		}
	}
	return best, nil
}

// stepAt is the step at weight number k with the problem made linear about a mode: its size, and
// what it takes off the squares of what is not foretold.
func (f *fit) stepAt(p *peak, weights []*reading, k int) aStep {
	n := len(p.used)
	for _, r := range p.used {
		r.earlier = false
	}
	v, r := f.foreseen(p)
	if !cholesky(v, n) {
		return aStep{k: k}
	}
	lowerSolve(v, r)
	step := make([]float64, n)
	for i, one := range p.used {
		if slices.ContainsFunc(weights[k:], func(w *reading) bool { return w.index == one.index }) {
			step[i] = 1
		}
	}
	lowerSolve(v, step)
	squares := dot(step, step)
	size := dot(step, r) / squares
	return aStep{k: k, gain: size * size * squares, size: size, sd: 1 / math.Sqrt(squares)}
}
