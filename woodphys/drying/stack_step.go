package drying

import (
	"math"

	"latewood/woodphys/sorption"
)

const highestFaceHumidity = sorption.HighestSurfaceHumidity

// gammaSDIRK2 is 1 - 1/sqrt 2: with it two implicit stages are of second order and damp the
// fastest modes at once,
//
//	Y1 = y + gamma h F(t + gamma h, Y1)
//	Y2 = y + (1 - gamma) h F1 + gamma h F(t + h, Y2), the new y
//
// Each is solved by Newton's method with a matrix that leaves out how conductances change.
const gammaSDIRK2 = 1 - 1/math.Sqrt2

const (
	solved        = 1e-7 // change of a cell, as a fraction of MC, at which a stage is solved
	mostCorrected = 20   // corrections of a stage; a step that takes more is halved
	mostHalved    = 12
)

// stackScheme is the workspace of the time stepping of a stack.
type stackScheme struct {
	phi, d, a, slope     []float64 // potential, diffusivity, activity and its slope of each cell
	capacity             []float64 // kg/m2 per unit of MC
	ahead, toA, toB      []float64 // flow to the next cell, and its slopes with this cell and the next
	outTop, outBottom    float64   // slopes of the flows through the faces
	f, base, start, flow []float64
	lower, diag, upper   []float64
	workDiag, workRight  []float64
}

func (w *stackScheme) sized(n int) {
	for _, v := range []*[]float64{&w.phi, &w.d, &w.a, &w.slope, &w.capacity, &w.ahead, &w.toA, &w.toB, &w.f, &w.base, &w.start,
		&w.flow, &w.lower, &w.diag, &w.upper, &w.workDiag, &w.workRight} {
		*v = make([]float64, n)
	}
}

// leastSlope keeps the humidity of wood that is nearly saturated from standing still.
const leastSlope = 1e-6

// balance fills f with the rate of each cell at the moment, and the flows with their slopes.
func (s *Stack) balance(f []float64) {
	w, last := &s.scheme, len(s.m)-1
	for k, m := range s.m {
		i := s.of[k]
		w.phi[k], w.d[k] = s.now.rows[i].at(m)
		w.a[k], w.slope[k] = s.now.acts[i].at(m)
		w.slope[k] = max(w.slope[k], leastSlope)
		w.capacity[k] = s.density[i] * s.width[i]
	}
	for k := range last {
		i, j := s.of[k], s.of[k+1]
		if i == j {
			g := s.density[i] / s.width[i]
			w.ahead[k], w.toA[k], w.toB[k] = g*(w.phi[k]-w.phi[k+1]), g*w.d[k], g*w.d[k+1]
			continue
		}
		g := 1 / (1/s.half(k) + s.glue/s.now.full + 1/s.half(k+1))
		w.ahead[k], w.toA[k], w.toB[k] = g*(w.a[k]-w.a[k+1]), g*w.slope[k], g*w.slope[k+1]
	}
	top, bottom := s.through(0, 0), s.through(1, last)
	w.outTop, w.outBottom = top*w.slope[0], bottom*w.slope[last]
	comes := -top * (w.a[0] - s.now.h)
	w.ahead[last] = bottom * (w.a[last] - s.now.h)
	for k, goes := range w.ahead {
		f[k] = (comes - goes) / w.capacity[k]
		comes = goes
	}
}

// half is the conductance of half a cell, kg/(m2 s) per unit of humidity.
func (s *Stack) half(k int) float64 {
	i := s.of[k]
	return s.density[i] * s.scheme.d[k] / (s.scheme.slope[k] * s.width[i] / 2)
}

// through is the conductance from the middle of the cell at a face to the air.
func (s *Stack) through(face, k int) float64 {
	return 1 / (1/s.half(k) + 1/(s.faces[face]*s.now.full))
}

// advance takes one step of h seconds from t, in halves where a stage is not solved; false
// where it leads nowhere.
func (s *Stack) advance(climate *Climate, t, h float64, halved int) bool {
	w := &s.scheme
	copy(w.start, s.m)
	copy(w.base, s.m)
	if s.stage(climate, t+gammaSDIRK2*h, gammaSDIRK2*h) {
		for k := range s.m {
			w.base[k] = w.start[k] + (1-gammaSDIRK2)/gammaSDIRK2*(s.m[k]-w.start[k])
		}
		if s.stage(climate, t+h, gammaSDIRK2*h) {
			return true
		}
	}
	if halved == mostHalved {
		return false
	}
	copy(s.m, w.start)
	return s.advance(climate, t, h/2, halved+1) && s.advance(climate, t+h/2, h/2, halved+1)
}

// stage solves m = base + gh F(t, m) from the m in hand.
func (s *Stack) stage(climate *Climate, t, gh float64) bool {
	w := &s.scheme
	c, _, rh, _ := climate.at(t, &s.cursor)
	s.fill(c, rh)
	for range mostCorrected {
		s.balance(w.f)
		s.factorise(gh)
		for k := range s.m {
			w.f[k] = w.base[k] + gh*w.f[k] - s.m[k]
		}
		w.solve(w.f, w.flow)
		most := 0.0
		for k, change := range w.flow {
			s.m[k] = min(max(s.m[k]+change, 0), highestMC)
			most = math.Max(most, math.Abs(change))
		}
		if most < solved {
			return true
		}
		if math.IsNaN(most) || math.IsInf(most, 0) {
			return false
		}
	}
	return false
}

// factorise prepares solving with I - gh J at the balances in hand.
func (s *Stack) factorise(gh float64) {
	w, last := &s.scheme, len(s.m)-1
	for k := range s.m {
		g := gh / w.capacity[k]
		w.lower[k], w.diag[k], w.upper[k] = 0, 1, 0
		if k < last {
			w.diag[k] += g * w.toA[k]
			w.upper[k] = -g * w.toB[k]
		} else {
			w.diag[k] += g * w.outBottom
		}
		if k > 0 {
			w.diag[k] += g * w.toB[k-1]
			w.lower[k] = -g * w.toA[k-1]
		} else {
			w.diag[k] += g * w.outTop
		}
	}
}

// solve fills x with the solution of the prepared tridiagonal system with the right side b.
func (w *stackScheme) solve(b, x []float64) bool {
	n := len(b)
	w.workDiag[0], w.workRight[0] = w.diag[0], b[0]
	for k := 1; k < n; k++ {
		f := w.lower[k] / w.workDiag[k-1]
		w.workDiag[k] = w.diag[k] - f*w.upper[k-1]
		w.workRight[k] = b[k] - f*w.workRight[k-1]
	}
	x[n-1] = w.workRight[n-1] / w.workDiag[n-1]
	for k := n - 2; k >= 0; k-- {
		x[k] = (w.workRight[k] - w.upper[k]*x[k+1]) / w.workDiag[k]
	}
	return !math.IsNaN(x[0]) && !math.IsInf(x[0], 0)
}

// delays are how far each cell is behind the air: what takes the change of all cells with
// the humidity to the air outside, in seconds. K delay = C with all in terms of humidity.
func (w *stackScheme) delays(s *Stack) (delay []float64, ok bool) {
	last := len(s.m) - 1
	for k := range s.m {
		w.lower[k], w.diag[k], w.upper[k] = 0, 0, 0
		if k < last {
			g := w.toA[k] / w.slope[k]
			w.diag[k], w.upper[k] = g, -g
		} else {
			w.diag[k] += w.outBottom / w.slope[k]
		}
		if k > 0 {
			g := w.toA[k-1] / w.slope[k-1]
			w.diag[k] += g
			w.lower[k] = -g
		} else {
			w.diag[k] += w.outTop / w.slope[k]
		}
		w.f[k] = w.capacity[k] / w.slope[k]
	}
	delay = make([]float64, len(s.m))
	if !w.solve(w.f, delay) {
		return nil, false
	}
	return delay, delay[0] > 0 && delay[0] < forever
}

// forever is a delay in seconds of a stack whose faces let nothing pass: ten thousand years.
const forever = 3e11
