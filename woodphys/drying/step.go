package drying

import "math"

// step is the workspace of the time stepping.
//
// Rodas3 in the form of Hairer and Wanner IV.7 with the mass matrix B:
//
//	(B/(gamma h) - J) u_i = F(t + alpha_i h, y + sum a_ij u_j) + B sum c_ij u_j/h + gamma_i h F_t
//	gamma 1/2; alpha 0 0 1 1; gamma_i 1/2 3/2 0 0
//	a31 = 2, a41 = 2, a43 = 1; c21 = 4, c31 = 1, c32 = -1, c41 = 1, c42 = -1, c43 = -8/3
//	new y = y + 2 u1 + u3 + u4, error estimate u4
//
// Source: Sandu, Verwer, Blom, Spee, Carmichael and Potra 1997, Atmospheric
// Environment 31, 3459-3472, Rodas3 (from memory; the order is tested).
type step struct {
	y, f, d         []float64 // state, balances and diffusivities at the start of the step
	ft              []float64 // time derivative of the balances
	u1, u2, u3, u4  []float64
	trial, ftrial   []float64 // end of the step and its balances
	low, up, inv    []float64 // factors of the step matrix
	work            []float64
	dtrial          []float64
	q, dq           float64 // flux through the face and its slope at the start
	qtrial, dqtrial float64 // and at the end
	h               float64 // next step, s
	lost            float64 // integral of the flux so far
	out             float64 // the same over the step in hand
	moving          bool    // the air changes within the step in hand
}

func (s *step) resize(n int) {
	for _, v := range []*[]float64{&s.y, &s.f, &s.d, &s.ft, &s.u1, &s.u2, &s.u3, &s.u4, &s.trial, &s.ftrial, &s.low, &s.up, &s.inv, &s.work, &s.dtrial} {
		*v = make([]float64, n)
	}
}

// balance fills f with the gain of each row at profile y and d, unless nil, with
// the diffusivities; it returns the flux through the face and its slope.
func (s *Solver) balance(m *moment, y, f, d []float64) (q, dq float64) {
	n := len(y)
	conduct := s.grid.conduct[: n-1 : n-1]
	f = f[:n]
	phi, diff := m.row.at(y[0])
	if d != nil {
		d[0] = diff
	}
	before := 0.0 // gradient on the side of the middle
	for i, g := range conduct {
		ahead, diff := m.row.at(y[i+1])
		if d != nil {
			d[i+1] = diff
		}
		slope := g * (ahead - phi)
		f[i] = slope - before
		before, phi = slope, ahead
	}
	q, dq = s.flux(m, y[n-1])
	f[n-1] = -before - q
	return q, dq
}

const (
	gammaRodas = 0.5
	probeShare = 1e-3 // of the step, for the time derivative
)

// attempt computes one step from t over h and returns its estimated error, a
// root mean square over the thickness.
func (s *Solver) attempt(cl *Climate, t, h float64) float64 {
	qt := s.drift(cl, t, h)
	end := s.end()
	s.factorise(1 / (gammaRodas * h))
	ih := 1 / h
	g1, g2 := s.firstStages(h, qt)

	for i := range s.y {
		s.trial[i] = s.y[i] + 2*s.u1[i]
		s.work[i] = ih * (s.u1[i] - s.u2[i])
	}
	g3 := s.lastStage(end, s.u3, h, ih*(g1-g2))

	for i := range s.y {
		s.trial[i] += s.u3[i]
		s.work[i] -= ih * (8.0 / 3) * s.u3[i]
	}
	g4 := s.lastStage(end, s.u4, h, ih*(g1-g2-(8.0/3)*g3))
	s.out = -(2*g1 + g3 + g4)

	sum := 0.0
	for i, e := range s.u4 {
		s.trial[i] += e
		sum += s.grid.weight[i] * e * e
	}
	s.qtrial, s.dqtrial = s.balance(end, s.trial, s.ftrial, s.dtrial)
	return math.Sqrt(sum)
}

// drift sets the derivatives by time of what the air does over a step, with the air at
// its end, and returns that of the flow through the face.
func (s *Solver) drift(cl *Climate, t, h float64) float64 {
	c, dc, rh, drh := cl.at(t, &s.cursor)
	core, rate := dot(s.takes[coreTake].take, s.y), 0.0
	s.moving = cl.changes()
	if s.lnPace != 0 {
		// The pace follows the middle, and is taken as a function of time within the step:
		// held over a step it would cost some three times the steps.
		rate = dot(s.takes[coreTake].rate, s.f)
		s.moving = s.moving || s.wetness(core) != s.wetness(core+h*rate)
	}
	if !s.moving {
		s.now.core = core // of the same pace
	}
	if !s.moving {
		clear(s.ft)
		return 0
	}
	tau := probeShare * h
	s.fill(s.aux, c+dc*tau, min(max(rh+drh*tau, 0), 1), s.now.core+rate*tau)
	q, _ := s.balance(s.aux, s.y, s.ft, nil)
	for i := range s.ft {
		s.ft[i] = (s.ft[i] - s.f[i]) / tau
	}
	c, _, rh, _ = cl.at(t+h, &s.cursor)
	s.fill(s.next, c, rh, core+h*rate)
	return (q - s.q) / tau
}

// firstStages solves the two stages at the start of a step into u1 and u2 and returns
// what each sends through the face.
func (s *Solver) firstStages(h, qt float64) (g1, g2 float64) {
	ih := 1 / h
	for i := range s.y {
		s.u1[i] = s.f[i] + 0.5*h*s.ft[i]
	}
	s.solve(s.u1)
	g1 = s.through(h, -s.q-0.5*h*qt, s.u1)

	for i, u := range s.u1 {
		s.work[i] = 4 * ih * u
	}
	s.grid.mass(s.work, s.u2)
	for i := range s.y {
		s.u2[i] += s.f[i] + 1.5*h*s.ft[i]
	}
	s.solve(s.u2)
	return g1, s.through(h, -s.q+4*ih*g1-1.5*h*qt, s.u2)
}

// lastStage solves a stage at the end of a step, from the trial and the work, into u and
// returns what it sends through the face, where the stages before it sent so much.
func (s *Solver) lastStage(end *moment, u []float64, h, sent float64) float64 {
	q, _ := s.balance(end, s.trial, s.ftrial, nil)
	s.grid.mass(s.work, u)
	for i := range s.y {
		u[i] += s.ftrial[i]
	}
	s.solve(u)
	return s.through(h, -q+sent, u)
}

// end returns the instant at the end of the step in hand.
func (s *Solver) end() *moment {
	if s.moving {
		return s.next
	}
	return s.now
}

// through returns what a stage adds to the mean, from the face alone: the sum of
// the rows of the stage. rhs is the sum of its right side.
func (s *Solver) through(h, rhs float64, u []float64) float64 {
	return gammaRodas * h * (rhs - s.dq*u[len(u)-1])
}

// factorise prepares solving with B/(gamma h) - J, scale = 1/(gamma h).
func (s *Solver) factorise(scale float64) {
	g := s.grid
	n := len(s.y)
	left, prevUp, prevInv := 0.0, 0.0, 0.0
	for i := range n {
		right := 0.0
		if i < n-1 {
			right = g.conduct[i]
		}
		diag := scale*g.diag[i] + (left+right)*s.d[i]
		if i == n-1 {
			diag += s.dq
		}
		if i > 0 {
			low := (scale*g.lower[i] - left*s.d[i-1]) * prevInv
			diag -= low * prevUp
			s.low[i] = low
		}
		prevInv = 1 / diag
		s.inv[i] = prevInv
		if i < n-1 {
			prevUp = scale*g.upper[i] - right*s.d[i+1]
			s.up[i] = prevUp
		}
		left = right
	}
}

// solve replaces the right side v by the solution.
func (s *Solver) solve(v []float64) {
	n := len(v)
	low, up, inv := s.low[:n], s.up[:n], s.inv[:n]
	last := v[0]
	for i := 1; i < n; i++ {
		last = v[i] - low[i]*last
		v[i] = last
	}
	last *= inv[n-1]
	v[n-1] = last
	for i := n - 2; i >= 0; i-- {
		last = (v[i] - up[i]*last) * inv[i]
		v[i] = last
	}
}

// mass fills out with B v.
func (g *grid) mass(v, out []float64) {
	n := len(v)
	lower, diag, upper, out := g.lower[:n], g.diag[:n], g.upper[:n], out[:n]
	out[0] = diag[0]*v[0] + upper[0]*v[1]
	for i := 1; i < n-1; i++ {
		out[i] = lower[i]*v[i-1] + diag[i]*v[i] + upper[i]*v[i+1]
	}
	out[n-1] = lower[n-1]*v[n-2] + diag[n-1]*v[n-1]
}
