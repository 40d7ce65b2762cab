package readiness

import "math"

// Cut is a loss of mass between two weights that is no drying: from a weight on, all are
// lighter by one share than those before lead to expect. Wood that was cut off or planed
// away makes such a step.
type Cut struct {
	Index int     // of the observation from which on
	Share float64 // of the mass that went
}

// When a step of the weights is told. Own choice: 3.5 standard deviations, more than a
// hundredth of the mass, at least two weights on its far side, and nearly as good a story
// as one wrong weight, of its chi-square this share.
const (
	cutGain   = 12.0
	cutShare  = 0.7
	leastCut  = 0.01
	fewestCut = 2
)

// cut looks for a step of the weights of the piece itself with the problem made linear
// about a mode: the step at which a shift of unknown size takes most off the squares of
// what is not foretold.
func (f *fit) cut(p *peak) *Cut {
	n := len(p.used)
	var weights []int
	for i, r := range p.used {
		if r.kind == Weight && r.body == 0 {
			weights = append(weights, i)
		}
	}
	if len(weights) < 1+fewestCut || len(p.loo) != n {
		return nil
	}
	v, r := f.foreseen(p)
	if !cholesky(v, n) {
		return nil
	}
	lowerSolve(v, r)
	best, gain, share := -1, cutGain, 0.0
	step := make([]float64, n)
	for k := 1; k+fewestCut <= len(weights); k++ {
		clear(step)
		for _, i := range weights[k:] {
			step[i] = 1
		}
		lowerSolve(v, step)
		size := dot(step, r) / dot(step, step)
		if g := size * size * dot(step, step); g > gain && 1-math.Exp(size) > leastCut {
			best, gain, share = weights[k], g, 1-math.Exp(size)
		}
	}
	for _, z := range p.loo {
		if cutShare*z*z > gain {
			return nil
		}
	}
	if best < 0 {
		return nil
	}
	return &Cut{Index: p.used[best].index, Share: share}
}
