package readiness

import (
	"math"

	"latewood/woodphys/drying"
)

// A sample that is the only one may have been cut too near an end, where wood that dries is
// drier than the piece, and nothing tells: neither the weights nor the forecast are that
// sure. Two samples check each other. Own choice, no source: one in ten, drier by 15 % of
// what the piece holds, give or take 8 %.
const (
	nearEnd       = 0.1
	nearEndDrier  = 0.15
	nearEndSpread = 0.08
)

// loneCut is the index of the only sample that was cut and oven-dried, or -1.
func loneCut(used []*reading) int {
	lone := -1
	for i, r := range used {
		if r.kind != Sample {
			continue
		}
		if lone >= 0 {
			return -1
		}
		lone = i
	}
	if lone >= 0 && !used[lone].cut {
		return -1
	}
	return lone
}

// weigher solves the residuals of members for their covariance; of a lone sample for both
// of what it may be.
type weigher struct {
	best *peak
	lone int       // index of the sample; -1: none
	end  []float64 // factor of the covariance of the readings if that was cut near an end
	log  float64   // logarithm of the root of the ratio of the determinants
	work []float64
}

func (f *fit) weigher(best *peak) *weigher {
	w := &weigher{best: best, lone: loneCut(best.used)}
	if w.lone < 0 || f.setup.normal {
		w.lone = -1
		return w
	}
	n := len(best.used)
	w.end, w.work = make([]float64, n*n), make([]float64, n)
	f.setup.covariance(best.used, w.end)
	spread := nearEndSpread * best.used[w.lone].y
	w.end[(n+1)*w.lone] += spread * spread
	if !cholesky(w.end, n) {
		w.lone = -1
		return w
	}
	w.log = logDet(best.c, n) - logDet(w.end, n)
	return w
}

// solve turns the residuals of a member into C^-1 r, of both cases by their weights, and
// returns the logarithm of their likelihood.
func (w *weigher) solve(c *drying.Course, r []float64) float64 {
	if w.lone >= 0 {
		copy(w.work, r)
		sample := w.best.used[w.lone]
		w.work[w.lone] += nearEndDrier * sample.moistureOf(c, sample.grid)
	}
	lowerSolve(w.best.c, r)
	sound := -0.5 * dot(r, r)
	upperSolve(w.best.c, r)
	if w.lone < 0 {
		return sound
	}
	lowerSolve(w.end, w.work)
	ended := math.Log(nearEnd/(1-nearEnd)) + w.log - 0.5*dot(w.work, w.work)
	upperSolve(w.end, w.work)
	share := 1 / (1 + math.Exp(sound-ended))
	for i := range r {
		r[i] += share * (w.work[i] - r[i])
	}
	most := max(sound, ended)
	return most + math.Log(math.Exp(sound-most)+math.Exp(ended-most))
}
