package main

import "math"

// board is a drying board of one truth. Moisture is in % of the ovendry mass.
type board interface {
	step(days float64, a air)
	mean() float64
}

// piece is what a truth has to know of a board.
type piece struct {
	thickness float64 // mm
	density   float64 // ovendry mass over green volume, kg/m3
	start     float64 // %
	hardwood  bool
	sorption  float64 // over the ordinary isotherm
	rate      float64 // of the wood and the piece, in the units of the truth
}

// law is one truth.
type law struct {
	name  string
	about string
	of    isotherm
	make  func(p piece, s *sorption, draught func() float64) board
	rates [2]float64 // between which the rate of a wood is looked for
	// draught is how the air reaches the wood in a kind of place, over a wide yard pile,
	// for which spans are published. Own judgement, but for the small stack: sugar maple
	// in packages took 90 days where its national span is about 130.
	draught map[string]float64
}

func (l law) board(p piece, draught func() float64) board {
	return l.make(p, newSorption(l.of, p.sorption), draught)
}

var (
	filmDraught = map[string]float64{"open_stack": 1, "small_stack": 2.5, "shed": 1.5, "closed_room": 0.8, "moving_air": 15}
	rateDraught = map[string]float64{"open_stack": 1, "small_stack": 1.4, "shed": 1.15, "closed_room": 1.3, "moving_air": 2.2}
)

func laws() []law {
	return []law{
		{"potential", "vapour diffuses down its pressure by published resistance factors, free water by capillarity, behind a film of air",
			gab, newPotential, [2]float64{0.02, 10}, filmDraught},
		{"two-part", "a fast shell and a slow core, each relaxing exponentially, paced by the vapour pressure of saturation",
			rule, newTwoPart, [2]float64{0.002, 0.5}, rateDraught},
		{"front", "an evaporating front recedes into green wood behind a dry shell; then the shell evens out",
			masea, newFront, [2]float64{0.02, 10}, filmDraught},
		{"curve", "one characteristic drying curve under the wet-bulb deficit of the air",
			henderson, newCurve, [2]float64{0.05, 20}, rateDraught},
	}
}

// twoPart is shell and core with an exponential of their own each. The shell gives off
// by the first power of the thickness, the core to it by 1.7, so that the time goes as
// about 1.35, the mean of what is published (1.19, 1.32, 1.52).
type twoPart struct {
	s           *sorption
	draught     func() float64
	shell, core float64
	out, inward float64 // per day at 20 C
}

const shellShare = 0.35

func newTwoPart(p piece, s *sorption, draught func() float64) board {
	thin := 25.4 / p.thickness
	return &twoPart{s: s, draught: draught, shell: p.start, core: p.start,
		out: p.rate * thin, inward: p.rate * math.Pow(thin, 1.7)}
}

func (b *twoPart) mean() float64 { return shellShare*b.shell + (1-shellShare)*b.core }

func (b *twoPart) step(days float64, a air) {
	pace := days * b.draught() * math.Pow(saturation(a.temp)/saturation(20), 0.65)
	out, in := pace*b.out/shellShare, pace*b.inward
	// Both at once, implicit: shell(1+out+in/f) - in/f core = shell + out E; and so on.
	toShell, toCore := in/shellShare, in/(1-shellShare)
	a11, a22 := 1+out+toShell, 1+toCore
	r1, r2 := b.shell+out*b.s.settled(a), b.core
	det := a11*a22 - toShell*toCore
	b.shell, b.core = (r1*a22+toShell*r2)/det, (a11*r2+toCore*r1)/det
}

// curve is the characteristic drying curve: Keey R.B. 1978, Introduction to industrial
// drying operations, ch. 8 (from memory): the rate over that of a wet surface is a
// function of the moisture over the critical one, here that itself. The wet surface
// loses by the deficit of the wet bulb.
type curve struct {
	s       *sorption
	draught func() float64
	mc      float64
	rate    float64 // % a day under 300 Pa
}

const critical = 60.0 // %; the start where it is below

func newCurve(p piece, s *sorption, draught func() float64) board {
	return &curve{s, draught, p.start, p.rate * math.Pow(25.4/p.thickness, 1.35)}
}

func (b *curve) mean() float64 { return b.mc }

func (b *curve) step(days float64, a air) {
	settled := b.s.settled(a)
	deficit := math.Max(saturation(wetBulb(a.temp, a.rh))-a.rh*saturation(a.temp), 0.04*saturation(a.temp))
	full := days * b.draught() * b.rate * deficit / 300
	phi := (b.mc - settled) / (critical - settled)
	if phi >= 1 {
		b.mc -= full
		return
	}
	b.mc = settled + (b.mc-settled)*math.Exp(-full/(critical-settled))
}
