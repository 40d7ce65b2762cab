package main

import "math"

// Film of a wide yard pile in kg/(m2 s Pa). A plate of 0.2 m in 1 m/s would have 6e-8
// (laminar plate, Sherwood 0.664 Re^0.5 Sc^0.33); the air inside a pile is nearly still
// and nearly spent. Set with the spans, seasons, rooms and kilns of the anchors in view.
const (
	pileFilm  = 8e-9 // of the potential
	frontFilm = 7e-9
)

// airPermeability is that of still air in kg/(m s Pa): EN ISO 12572, eq. of annex
// (2.0e-10 at 0 C, from memory).
func airPermeability(temp float64) float64 {
	return 2.0e-10 * math.Pow((temp+273.15)/273.15, 0.81)
}

// resistance is the vapour resistance factor at a humidity: MASEA softwood, and wood of
// 600 kg/m3 of a public library of building materials.
func resistance(hardwood bool, rh float64) float64 {
	if hardwood {
		return line([]float64{0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1},
			[]float64{485, 352.5, 220, 163.5, 107, 81, 55, 40}, rh)
	}
	return line([]float64{0, 0.25, 0.5, 0.6, 0.7, 0.9, 1}, []float64{200, 180, 65, 45, 30, 20, 10}, rh)
}

// thickEase is how much better thick stock passes than its diffusion would have it: it
// brings 50 over 25 mm from 3.8 to the published 2.3 to 2.9.
func thickEase(thickness float64) float64 { return math.Pow(thickness/25.4, 0.45) }

// wicking keeps the front nearer to the face than the water that is gone would put it,
// as capillarity feeds it; faceDays is how slowly the face of a board in a yard pile at
// 20 C follows. Both set with the anchors in view.
const (
	wicking  = 1.5
	faceDays = 3
)

// front is a receding front: free water evaporates where wet wood begins, and its
// vapour passes a shell that holds half of what saturates it and half of what its
// surface settles at. When the front is at the middle the board evens out as one, past as
// much wood as the front had come to stand behind, so that nothing leaps there.
type front struct {
	p       piece
	s       *sorption
	draught func() float64
	mc      float64
	surface float64 // humidity there, that of the last days
	half    float64 // m
}

func newFront(p piece, s *sorption, draught func() float64) board {
	p.rate *= thickEase(p.thickness)
	return &front{p: p, s: s, draught: draught, mc: p.start, surface: 0.8, half: p.thickness / 2000}
}

func (b *front) mean() float64 { return b.mc }

func (b *front) step(days float64, a air) {
	film := 1 / (frontFilm * b.draught() * math.Sqrt(a.wind))
	outside := a.rh * saturation(a.temp)
	settled := b.s.factor * warm(a.temp) * b.s.of(b.surface)
	shell := (b.s.saturated() + settled) / 2
	// What evaporates at the front, or inside when there is none, cools it (leaving).
	var loss float64 // kg/(m2 s)
	if b.p.start > shell && b.mc > shell {
		depth := b.half * math.Pow((b.p.start-b.mc)/(b.p.start-shell), wicking)
		mid := resistance(b.p.hardwood, (1+b.surface)/2)
		toSurface := depth * mid / (b.p.rate * airPermeability(a.temp))
		loss, _ = leaving(1, a, film, film+toSurface)
	} else {
		inside, _ := b.s.activity(b.mc, a.temp)
		mid := resistance(b.p.hardwood, (inside+b.surface)/2)
		toSurface := b.half * mid / (b.p.rate * airPermeability(a.temp))
		loss, _ = leaving(inside, a, film, film+toSurface)
	}
	now := clamp((outside+loss*film)/saturation(a.temp), 0.05, 1)
	// The face follows as fast as its film carries.
	carries := b.draught() * saturation(a.temp) / saturation(20)
	b.surface += (now - b.surface) * (1 - math.Exp(-days*carries/faceDays))
	change := 100 * loss * days * 86400 / (b.p.density * b.half)
	// No step goes past what the air settles it at.
	if end := b.s.settled(a); loss > 0 {
		b.mc = math.Max(b.mc-change, math.Min(b.mc, end))
	} else {
		b.mc = math.Min(b.mc-change, math.Max(b.mc, end))
	}
}
