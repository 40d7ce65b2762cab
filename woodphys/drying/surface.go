package drying

import (
	"math"

	"latewood/woodphys/air"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// History says what the wood went through before, for the hysteresis of sorption.
type History int

// Histories.
const (
	FromGreen    History = iota // never dry before: the desorption curve until it first takes up moisture
	Unknown                     // within the dead band about the middle curve
	NoHysteresis                // the middle curve, without a band; for comparisons
)

// HalfBand is half the dead band on reversal, about 1 %MC in all (Wengert, read): wood
// that was dry before rests so far above the middle curve where it comes from the wet
// side, and so far below where it comes from the dry one.
const HalfBand quantity.Moisture = halfBand

const halfBand = 0.005

// moment is what the scheme needs of one instant: potential, air and surface.
type moment struct {
	row   diffuseRow
	act   activityAt
	h     float64 // relative humidity of the air, at most 0.98
	drive float64 // flux per unit of activity, 1/s: beta p_s/(R_v T rho_0 L)
	above float64 // desorption over middle curve
	core  float64 // moisture content of the middle that the pace was taken at
}

// linearLaw replaces the nonlinear laws by constant D, surface coefficient and
// equilibrium, for the comparison with the series solution.
type linearLaw struct {
	d, coefficient, equilibrium float64 // m2/s, m/s, fraction
	along                       float64 // D along the grain, m2/s
}

// fill makes the potential of a constant D.
func (*linearLaw) fill(row *diffuseRow, d float64) {
	row.fsp = 1
	row.space()
	for j := range row.phi {
		row.slope[j] = d
		row.phi[j] = d * float64(j) / (diffuseKnots - 1)
	}
}

// fill makes m for the air of c degC and relative humidity h, while the middle of the
// wood is at core.
func (s *Solver) fill(m *moment, c, h, core float64) {
	m.core = core
	if s.linear != nil {
		s.linear.fill(&m.row, s.linear.d/(s.half*s.half))
		m.drive, m.h = s.linear.coefficient/s.half, s.linear.equilibrium
		return
	}
	s.air.c, s.air.rh = c, h
	s.tables.blend(c, s.factor*s.quicker*s.slowed(core)*frost(c)/(s.half*s.half), &m.row)
	m.act = s.tables.activityFor(c)
	m.h = min(max(h+s.damper, 0), sorption.HighestSurfaceHumidity)
	t := quantity.Celsius(c)
	m.drive = s.film * saturatedVapour(c) / (s.density * s.half)
	m.above = sorption.BranchFactor(sorption.Desorption, t)
}

// vapourTable is the density of saturated vapour (kg/m3) every half kelvin from a kelvin
// below the coldest air to a kelvin above the hottest: two exponentials fewer in each of
// three instants of a step.
var vapourTable = func() (table [2*(highestAirC-lowestAirC+2) + 1]float64) {
	for i := range table {
		t := quantity.Celsius(lowestAirC - 1 + float64(i)/2)
		table[i] = air.SaturationPressureOverWater(t).Pascals() / (vapourConstant * t.Kelvin())
	}
	return table
}()

// saturatedVapour reads it by a cubic through four points, within 1e-7 as a share.
func saturatedVapour(c float64) float64 {
	u := 2 * (c - (lowestAirC - 1))
	i := min(max(int(u)-1, 0), len(vapourTable)-4)
	s := u - float64(i)
	a, b, d, e := s, s-1, s-2, s-3
	return -b*d*e/6*vapourTable[i] + a*d*e/2*vapourTable[i+1] - a*b*e/2*vapourTable[i+2] + a*b*d/6*vapourTable[i+3]
}

// exchange is what the face does. It is held during a step, so that the scheme
// meets no kink, and chosen anew at its end; a step that oversteps the change by
// more than the tolerance is taken again, shorter.
type exchange int

const (
	drying  exchange = iota // on the upper edge of the loop
	resting                 // within the dead band: nothing passes
	wetting                 // on the lower edge
)

// forgotten is the uptake, as a change of the mean, after which wood has lost the
// memory of having been green; assumed, half the dead band. Between, the upper
// edge moves from the desorption curve to half a point above the middle curve in
// proportion, so that the answer depends smoothly on the course of the air.
const forgotten = halfBand

// take notes what passed the face in a step.
func (s *Solver) take(out float64) {
	if out < 0 && s.fresh > 0 {
		s.fresh = math.Max(s.fresh+out/forgotten, 0)
	}
}

// upper and lower return the activity of the edges of the loop at surface
// moisture y, and their slopes.
func (s *Solver) upper(m *moment, y float64) (a, slope float64) {
	if s.history == NoHysteresis {
		return m.act.at(y)
	}
	// y = EMC (1 + fresh (above - 1)) + (1 - fresh) halfBand, solved for EMC
	stretch := 1 / (1 + s.fresh*(m.above-1))
	a, slope = m.act.at((y - (1-s.fresh)*halfBand) * stretch)
	return a, slope * stretch
}

func (s *Solver) lower(m *moment, y float64) (a, slope float64) { return m.act.at(y + halfBand) }

// flux returns what leaves through the face (1/s, per half thickness) at surface
// moisture y, and its slope.
func (s *Solver) flux(m *moment, y float64) (q, slope float64) {
	if s.linear != nil {
		return m.drive * (y - m.h), m.drive
	}
	switch s.exchange {
	case resting:
		return 0, 0
	case wetting:
		a, da := s.lower(m, y)
		return m.drive * (a - m.h), m.drive * da
	case drying:
	}
	a, da := s.upper(m, y)
	return m.drive * (a - m.h), m.drive * da
}

// choose returns the exchange that belongs to surface moisture y.
func (s *Solver) choose(m *moment, y float64) exchange {
	if s.linear != nil || s.history == NoHysteresis {
		return drying
	}
	if a, _ := s.upper(m, y); a > m.h {
		return drying
	}
	if a, _ := s.lower(m, y); a < m.h {
		return wetting
	}
	return resting
}

// overstep returns by how much, as a change of the mean, the exchange held
// during the step is wrong by its end: a flux of the wrong sign, or a rest that
// should have ended (its excess counts as deep as diffusion reaches in the step).
func (s *Solver) overstep(m *moment, y, q, h float64) float64 {
	switch {
	case s.linear != nil || s.history == NoHysteresis:
		return 0
	case s.exchange == drying:
		return max(-q*h, 0)
	case s.exchange == wetting:
		return max(q*h, 0)
	}
	reach := math.Min(math.Sqrt(s.d[len(s.d)-1]*h), 1)
	if a, da := s.upper(m, y); a > m.h {
		return (a - m.h) / math.Max(da, 0.1) * reach
	}
	if a, da := s.lower(m, y); a < m.h {
		return (m.h - a) / math.Max(da, 0.1) * reach
	}
	return 0
}

// crossing returns the share of the step, 0.1 to 0.8, at which the exchange at
// the face should change, by a straight line.
func (s *Solver) crossing() float64 {
	before, after := s.q, s.qtrial
	if s.exchange == resting {
		last, end := len(s.y)-1, s.end()
		a, _ := s.upper(s.now, s.y[last])
		b, _ := s.upper(end, s.trial[last])
		if before, after = a-s.now.h, b-end.h; after <= 0 {
			a, _ = s.lower(s.now, s.y[last])
			b, _ = s.lower(end, s.trial[last])
			before, after = a-s.now.h, b-end.h
		}
	}
	if u := before / (before - after); u >= 0 && u <= 1 {
		return min(max(1.05*u, 0.1), 0.8)
	}
	return 0.4
}
