package drying

import (
	"math"

	"latewood/woodphys/quantity"
)

// endLine is the course of the moisture content along a piece that dries through its faces
// and its ends: the mean of each section, from the middle of the length (0) to an end. The
// slab of the Solver is the section in the middle.
//
// Each section loses through the faces what the middle does, by the share of its own excess over
// rest in that of the middle, and along the grain by D_L at its own mean. With constant D both
// together are the product of the two solutions in one dimension. Finite volumes, one implicit
// step for each of the slab; the conductance between two sections is exact for any D(M).
type endLine struct {
	ends    *EndGrain // nil: there is no line
	ratio   float64   // the grid in hand was made for
	conduct []float64 // 1/spacing, of half the length
	volume  []float64 // sum 1
	row     diffuseRow
	film    float64 // m/s, with the coat

	m, to, phi, d, up []float64
	behind, was       float64 // middle less mean of the whole, after the step in hand and before it
	owed              float64 // along the grain, not yet taken from the slab
}

// Of the line along the grain.
const (
	endCells = 10
	// endRatio is the ratio of the widest to the narrowest interval of a piece of four thicknesses;
	// it grows with the length, since the end zone does not.
	endRatio, mostEndRatio = 8.0, 60.0
	// closeToRest is the excess of the middle, a fraction, from which on all sections, and all depths,
	// are taken to lose alike.
	closeToRest = 1e-3
	// leastDrain is what is taken from the slab at a time, a fraction.
	leastDrain = 2e-5
)

// begin sets the line for ends, which may be nil, of a piece of a thickness that starts at a mean.
func (e *endLine) begin(ends *EndGrain, thickness, mean float64) {
	e.ends, e.behind, e.was, e.owed = ends, 0, 0, 0
	if ends == nil {
		return
	}
	if ratio := min(max(endRatio*ends.length/(4*thickness), endRatio), mostEndRatio); e.ratio != ratio {
		e.ratio = ratio
		g := newGrid(endCells, ratio)
		e.conduct, e.volume = g.conduct, make([]float64, endCells+1)
		for i := range endCells {
			half := (g.x[i+1] - g.x[i]) / 2
			e.volume[i] += half
			e.volume[i+1] += half
		}
		for _, v := range []*[]float64{&e.m, &e.to, &e.phi, &e.d, &e.up} {
			*v = make([]float64, endCells+1)
		}
	}
	for i := range e.m {
		e.m[i] = mean
	}
}

// mean is that of the whole.
func (e *endLine) mean() float64 { return dot(e.volume, e.m) }

// at is the middle less the mean of the whole at the share u of the step in hand.
func (e *endLine) at(u float64) float64 { return e.was + u*(e.behind-e.was) }

// loopIn is the loop in the air of at, of which s.air has the temperature.
func (s *Solver) loopIn(at *moment) Loop {
	if s.linear != nil {
		return Loop{quantity.Moisture(at.h), quantity.Moisture(at.h)}
	}
	curve := s.tables.wood.curve(quantity.Celsius(s.air.c))
	rest := curve.At(at.h)
	if s.history == NoHysteresis {
		return Loop{rest, rest}
	}
	return Loop{rest - HalfBand, quantity.Moisture(float64(rest)*(1+s.fresh*(at.above-1)) + (1-s.fresh)*halfBand)}
}

// shares is by how much what is at m loses of what loses 1 at an average: by its excess over rest.
func (l Loop) shares(average float64) (rest, perExcess float64) {
	rest = float64(l.Rest(quantity.Moisture(average)))
	if excess := average - rest; math.Abs(excess) > closeToRest {
		return rest, 1 / excess
	}
	return rest, 0
}

// endExchange is the conductance of the end at m to its rest (1/s, per half length): the secant of
// the flux, with which no step is too long.
func (s *Solver) endExchange(at *moment, m, rest float64) float64 {
	drive := at.drive * s.half / (s.line.ends.length / 2) * s.line.film / s.film
	if s.linear != nil {
		return drive
	}
	const least = 1e-5 // nearer to rest the secant has no digits left
	edge := s.upper
	if m < rest {
		edge, m = s.lower, min(m, rest-least)
	} else {
		m = max(m, rest+least)
	}
	a, _ := edge(at, m)
	return max(drive*(a-at.h)/(m-rest), 0)
}

// blend sets the potential along the grain for the air of at.
func (e *endLine) blend(s *Solver, at *moment) {
	half := e.ends.length / 2
	if s.linear != nil {
		s.linear.fill(&e.row, s.linear.along/(half*half))
		return
	}
	e.ends.tables.blend(s.air.c, s.factor*s.quicker*s.slowed(at.core)*frost(s.air.c)/(half*half), &e.row)
}

// follow takes the line over a step of h, at whose end the air is at, and in which the middle
// lost so much through its faces. It returns what that lost along the grain.
func (e *endLine) follow(s *Solver, at *moment, rests Loop, h, faces float64) float64 {
	e.blend(s, at)
	for i, m := range e.m {
		e.phi[i], e.d[i] = e.row.at(m)
	}
	rest, perExcess := rests.shares(e.m[0])
	n, left := len(e.m)-1, 0.0
	for i, m := range e.m {
		share := 1.0
		if perExcess != 0 {
			share = min(max((m-rest)*perExcess, 0), 1.5)
		}
		var right float64
		volume := e.volume[i]
		rhs, diag := volume*(m-faces*share), volume+left
		if i < n {
			right = h * e.conduct[i] * e.between(i)
		} else {
			own := float64(rests.Rest(quantity.Moisture(m)))
			right = h * s.endExchange(at, m, own)
			rhs += right * own
		}
		diag += right
		if i > 0 {
			diag -= left * e.up[i-1]
			rhs += left * e.to[i-1]
		}
		e.up[i], e.to[i] = right/diag, rhs/diag
		left = right
	}
	for i := n - 1; i >= 0; i-- {
		e.to[i] += e.up[i] * e.to[i+1]
	}
	along := e.m[0] - faces - e.to[0]
	e.m, e.to = e.to, e.m
	e.was, e.behind = e.behind, e.m[0]-e.mean()
	return along
}

// between is the diffusivity between section i and the next, by Kirchhoff's potential.
func (e *endLine) between(i int) float64 {
	if gap := e.m[i+1] - e.m[i]; math.Abs(gap) > 1e-4 {
		return (e.phi[i+1] - e.phi[i]) / gap
	}
	return (e.d[i] + e.d[i+1]) / 2
}

// throughEnds takes the line over the step in hand, and from the trial profile what flows off along
// the grain.
func (s *Solver) throughEnds(h float64) {
	e, at := &s.line, s.end()
	if e.ends == nil {
		return
	}
	rests := s.loopIn(at)
	e.owed += e.follow(s, at, rests, h, s.out)
	if math.Abs(e.owed) < leastDrain {
		return
	}
	rest, perExcess := rests.shares(dot(s.grid.weight, s.trial))
	if e.owed*perExcess <= 0 {
		perExcess = 0
	}
	for i, m := range s.trial {
		share := 1.0
		if perExcess != 0 {
			share = (m - rest) * perExcess
		}
		s.trial[i] -= e.owed * share
	}
	s.out += e.owed
	e.owed = 0
	s.qtrial, s.dqtrial = s.balance(at, s.trial, s.ftrial, s.dtrial)
}
