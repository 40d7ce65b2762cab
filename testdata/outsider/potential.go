package main

import "math"

const cells = 12

// potential is half a board in cells, thin at the face. Below saturation vapour flows
// by the gradient of its pressure; above it free water by a capillary conductivity that
// rises with how full the wood is.
type potential struct {
	p       piece
	s       *sorption
	draught func() float64
	mc      [cells]float64 // %, from the face to the middle
	width   [cells]float64 // m
}

func newPotential(p piece, s *sorption, draught func() float64) board {
	p.rate *= thickEase(p.thickness)
	b := &potential{p: p, s: s, draught: draught}
	sum, w := 0.0, 1.0
	for i := range b.width {
		b.width[i], b.mc[i] = w, p.start
		sum += w
		w *= 1.25
	}
	for i := range b.width {
		b.width[i] *= p.thickness / 2000 / sum
	}
	return b
}

func (b *potential) mean() float64 {
	sum, all := 0.0, 0.0
	for i, w := range b.width {
		sum += w * b.mc[i]
		all += w
	}
	return sum / all
}

// conductivity is in kg/(m s) for a difference of one percent of moisture.
func (b *potential) conductivity(mc, temp float64) float64 {
	a, slope := b.s.activity(mc, temp)
	if full := b.s.saturated(); mc > full {
		wet := math.Min(1, (mc-full)/120)
		fluid := math.Max(0.3, 1+0.025*(temp-20)) // by the viscosity of water
		return b.p.rate * b.p.density / 100 * 1e-10 * (0.2 + 3*wet) * fluid
	}
	return b.p.rate * airPermeability(temp) / resistance(b.p.hardwood, a) * saturation(temp) * slope
}

func (b *potential) step(days float64, a air) {
	left := days * 86400
	for n := 0; left > 0 && n < 200; n++ {
		left -= b.part(left, a)
	}
}

// part is one implicit step of at most so many seconds, short enough for the face.
func (b *potential) part(seconds float64, a air) float64 {
	var k [cells]float64
	for i, mc := range b.mc {
		k[i] = b.conductivity(mc, a.temp)
	}
	humid, slope := b.s.activity(b.mc[0], a.temp)
	film := 1 / (pileFilm * b.draught() * math.Sqrt(a.wind))
	way := film
	if humid < 1 {
		way += b.width[0] / 2 * resistance(b.p.hardwood, humid) / (b.p.rate * airPermeability(a.temp))
	}
	loss, cooled := leaving(humid, a, film, way)
	stiff := slope * saturation(a.temp) / cooled
	mass := b.p.density * b.width[0] / 100 // kg/m2 for one percent
	if most := 1.5 * mass; math.Abs(loss)*seconds > most {
		seconds = math.Max(most/math.Abs(loss), seconds/100)
	}
	b.solve(seconds, k, loss, stiff)
	return seconds
}

// psychrometric is by how much the air has to be warmer than a wet surface, as the
// pressure in Pa that drives its vapour off for each kelvin: 0.000800 times 101.3 kPa for
// natural draught (FAO Irrigation and Drainage Paper 56, 1998, eq. 16, from memory).
// Vapour and heat pass the same film, so it holds for spent air as well.
const psychrometric = 81.0

// leaving is the vapour that leaves a face of that humidity in kg/(m2 s), by the heat
// balance of its film: the face is as much colder than the air as the film has to bring
// heat for what evaporates, and no colder where nothing does. What passes the film passes
// the whole way; cooled is that way as if the face were as warm as the air.
func leaving(humid float64, a air, film, way float64) (loss, cooled float64) {
	drive := (humid - a.rh) * saturation(a.temp)
	colder := 0.0
	for range 4 {
		slope := saturationSlope(a.temp - colder/2)
		cooled = way + humid*slope*film/psychrometric
		loss = drive / cooled
		colder = loss * film / psychrometric
	}
	return loss, cooled
}

// solve is the tridiagonal system of one step.
func (b *potential) solve(seconds float64, k [cells]float64, loss, stiff float64) {
	var low, mid, up, rhs [cells]float64
	for i := range cells {
		store := b.p.density * b.width[i] / 100 / seconds
		mid[i], rhs[i] = store, store*b.mc[i]
		if i > 0 {
			g := (k[i-1] + k[i]) / (b.width[i-1] + b.width[i])
			mid[i] += g
			low[i] = -g
		}
		if i < cells-1 {
			g := (k[i] + k[i+1]) / (b.width[i] + b.width[i+1])
			mid[i] += g
			up[i] = -g
		}
	}
	mid[0] += stiff
	rhs[0] += stiff*b.mc[0] - loss
	for i := 1; i < cells; i++ {
		f := low[i] / mid[i-1]
		mid[i] -= f * up[i-1]
		rhs[i] -= f * rhs[i-1]
	}
	for i := cells - 1; i >= 0; i-- {
		if i < cells-1 {
			rhs[i] -= up[i] * b.mc[i+1]
		}
		b.mc[i] = math.Max(0.5, rhs[i]/mid[i])
	}
}
