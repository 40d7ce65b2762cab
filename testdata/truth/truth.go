// Package truth makes billets whose truth is known, dried by laws of its own, to see
// whether the bands of the service hold a truth that is not its model. It imports
// nothing of the project and shares with it neither law, code nor parameters.
//
// Four families: Law (diffusion that rises exponentially with moisture, free water of
// its own), Climate (a station that is off, weather, a shop that is off), Habits (dates
// off, coarse scales, samples near the ends, a meter that is off, wood that was not
// green) and Front (a receding front, then a single exponential). Each has the others'
// errors in a small measure.
//
// Levels come from what is published of the woods: days from green to 20 % in yards
// (Air Drying of Lumber, AH-402, from memory) and kiln days from 20 to 6 % (from memory).
package truth

import (
	"math"
	"math/rand/v2"
)

// Family is a kind of truth.
type Family string

// Families.
const (
	Law     Family = "law"
	Climate Family = "climate"
	Habits  Family = "habits"
	Front   Family = "front"
)

// Families lists the four that share a table of woods and errors; Layers stands apart.
func Families() []Family { return []Family{Law, Climate, Habits, Front} }

// Wood is what is published of a wood.
type Wood struct {
	ID           string
	Gravity      float64
	GreenPct     float64
	Least, Most  float64 // days from green to 20 % in a yard, 25 mm
	KilnDays     float64 // from 20 to 6 % at 65 C and 30 %, 25 mm
	Softwood     bool
	freeAt25     float64 // of its diffusion at saturation, found from the span
	dryAt12At20C float64 // mm2/d, found from the kiln days
}

// Woods returns the woods, from the Wood Handbook and AH-402 (from memory).
func Woods() []Wood {
	return []Wood{
		{ID: "maple-sugar", Gravity: 0.56, GreenPct: 65, Least: 50, Most: 200, KilnDays: 6},
		{ID: "oak-northern-red", Gravity: 0.56, GreenPct: 75, Least: 70, Most: 200, KilnDays: 9},
		{ID: "walnut-black", Gravity: 0.51, GreenPct: 82, Least: 70, Most: 200, KilnDays: 6},
		{ID: "cherry-black", Gravity: 0.47, GreenPct: 58, Least: 70, Most: 200, KilnDays: 5},
		{ID: "ash-white", Gravity: 0.55, GreenPct: 45, Least: 60, Most: 200, KilnDays: 5.5},
		{ID: "yellow-poplar", Gravity: 0.40, GreenPct: 95, Least: 40, Most: 150, KilnDays: 3.5},
		{ID: "spruce-sitka", Gravity: 0.37, GreenPct: 73, Least: 40, Most: 150, KilnDays: 3, Softwood: true},
		{ID: "pine-ponderosa", Gravity: 0.38, GreenPct: 75, Least: 15, Most: 150, KilnDays: 2.5, Softwood: true},
	}
}

// Place is the monthly means of a place: what the maker's station says.
type Place struct {
	ID    string
	C, RH [12]float64 // degC and %
}

// Places returns three: a cold, a mild and wet, and a dry one (rounded; the third invented).
func Places() []Place {
	return []Place{
		{"cold", [12]float64{-7, -5, 1, 8, 14, 20, 22, 21, 16, 10, 3, -5}, [12]float64{75, 74, 72, 68, 68, 69, 71, 75, 76, 74, 77, 79}},
		{"mild", [12]float64{5, 6, 9, 11, 15, 18, 21, 21, 18, 13, 8, 5}, [12]float64{81, 78, 74, 71, 68, 66, 62, 63, 67, 76, 81, 83}},
		{"dry", [12]float64{1, 3, 7, 11, 16, 21, 25, 24, 19, 12, 6, 1}, [12]float64{58, 52, 44, 38, 36, 33, 40, 45, 43, 44, 50, 57}},
	}
}

// Kinds of readings.
const (
	Weight  = "weight"
	Ovendry = "ovendry"
	Pin     = "pin"
)

// Reading is one of a billet, as the maker wrote it down.
type Reading struct {
	Kind     string
	Day      float64 // since the day of stacking as told
	Grams    float64 // of a weight
	Division float64 // g
	Pct      float64 // of a sample or a meter
}

// Billet is a billet with its truth.
type Billet struct {
	Family            Family
	Wood              Wood
	Place             Place
	ThicknessMM       float64
	WidthMM, LengthMM float64
	StackedOnDay      float64 // of the year, as told
	Outdoors          float64 // days, as told; then a shop of 20 C and 45 %
	Horizon           float64
	Now               int // days since stacking
	Yard              bool
	Readings          []Reading // by day, the last of them of today
	MeanPct           []float64 // true, by day
	GradientPct       []float64 // core minus shell, by day
	RestPct           float64   // where this billet rests in the room of 20 C and 45 % that it is wanted for
	OvendryGrams      float64
	ShopC, ShopRH     float64 // of the shop it is told to lie in
	Season            int     // month of today
	StartPct          float64
	WasGreen          bool
}

const (
	saturation = 28.0 // %
	perDay     = 4    // steps
	cells      = 14   // through half the thickness
)

// equilibrium is Oswin's curve with figures of its own.
func equilibrium(c, rh float64) float64 {
	h := min(max(rh/100, 0.03), 0.97)
	return min(9.2*math.Pow(h/(1-h), 0.424)*(1-0.004*(c-20)), 27)
}

// maker of a billet.
type maker struct {
	rng *rand.Rand
}

func (m *maker) u(low, high float64) float64 { return low + (high-low)*m.rng.Float64() }

func (m *maker) n(sd float64) float64 { return sd * m.rng.NormFloat64() }

// yearly is a monthly mean at a day of the year, by straight lines between mid-months.
func yearly(v *[12]float64, day float64) float64 {
	at := math.Mod(day+3650, 365)/365*12 - 0.5
	i := int(math.Floor(at))
	s := at - float64(i)
	return v[(i+12)%12]*(1-s) + v[(i+13)%12]*s
}

// body is what dries.
type body struct {
	half, d12, rise, energy, free, film float64
	m                                   []float64
	front                               float64 // mm dried from the face; for the front
	start                               float64
	isFront                             bool
	mean, core, shell                   float64
}

func (b *body) diffusion(m, c float64) float64 {
	warm := math.Exp(b.energy * (1/293.15 - 1/(273.15+max(c, -8))))
	if c < 0 {
		warm *= 0.35
	}
	if m > saturation {
		return b.d12 * math.Exp(b.rise*(saturation-12)/100) * b.free * warm
	}
	return b.d12 * math.Exp(b.rise*(m-12)/100) * warm
}

// step dries it for dt days in air of c with the wood's equilibrium at rest.
func (b *body) step(dt, c, rest float64) {
	if b.isFront {
		b.recede(dt, c, rest)
		return
	}
	dx := b.half / cells
	var low, diag, up, rhs [cells]float64
	for i := range cells {
		diag[i], rhs[i] = dx/dt, dx/dt*b.m[i]
	}
	for i := 1; i < cells; i++ {
		a, e := b.diffusion(b.m[i-1], c), b.diffusion(b.m[i], c)
		g := 2 * a * e / (a + e) / dx
		up[i-1], low[i] = -g, -g
		diag[i-1] += g
		diag[i] += g
	}
	skin := b.diffusion(b.m[cells-1], c)
	out := 1 / (1/b.film + dx/2/skin)
	diag[cells-1] += out
	rhs[cells-1] += out * rest
	for i := 1; i < cells; i++ {
		f := low[i] / diag[i-1]
		diag[i] -= f * up[i-1]
		rhs[i] -= f * rhs[i-1]
	}
	b.m[cells-1] = rhs[cells-1] / diag[cells-1]
	for i := cells - 2; i >= 0; i-- {
		b.m[i] = (rhs[i] - up[i]*b.m[i+1]) / diag[i]
	}
	b.mean = 0
	for _, v := range b.m {
		b.mean += v / cells
	}
	b.core, b.shell = (b.m[0]+b.m[1]+b.m[2])/3, b.m[cells-1]
}

// recede moves a front inward, then lets the rest go exponentially.
func (b *body) recede(dt, c, rest float64) {
	d := b.diffusion(14, c)
	if b.front < b.half && b.start > saturation {
		lost := b.start - (saturation+rest)/2
		b.front += dt * b.free * d * max(saturation-rest, 0) / (lost * (b.front + b.free*d/b.film + 0.5))
		b.front = min(b.front, b.half)
		share := b.front / b.half
		b.mean = b.start*(1-share) + (saturation+rest)/2*share
		b.core, b.shell = b.start, rest+(saturation-rest)*0.15
		return
	}
	b.mean += (rest - b.mean) * (1 - math.Exp(-dt*2.47*d/(b.half*b.half)))
	b.core, b.shell = b.mean+0.45*(b.mean-rest), b.mean-0.6*(b.mean-rest)
}

func newBody(w *Wood, mm, start, rise, energy float64, front bool) *body {
	b := &body{half: mm / 2, d12: w.dryAt12At20C, rise: rise, energy: energy, free: w.freeAt25, film: 30, start: start, mean: start, isFront: front}
	for range cells {
		b.m = append(b.m, start)
	}
	return b
}

// anchor finds the level of a wood under a law from its kiln days and its span.
func (w *Wood) anchor(rise, energy float64, front bool) {
	solve := func(set func(v float64), days func() float64, want float64) {
		low, high := math.Log(1e-3), math.Log(100)
		for range 22 {
			mid := (low + high) / 2
			set(math.Exp(mid))
			if days() > want {
				low = mid
			} else {
				high = mid
			}
		}
	}
	w.freeAt25 = 1
	solve(func(v float64) { w.dryAt12At20C = v }, func() float64 {
		b := newBody(w, 25.4, 20, rise, energy, front)
		t := 0.0
		for b.mean > 6 && t < 60 {
			b.step(0.125, 65, 4.2)
			t += 0.125
		}
		return t
	}, w.KilnDays)
	cold := Places()[0]
	solve(func(v float64) { w.freeAt25 = v }, func() float64 {
		sum := 0.0
		for _, day := range []float64{45, 136, 227, 318} {
			b := newBody(w, 25.4, w.GreenPct, rise, energy, front)
			t := 0.0
			for b.mean > 20 && t < 500 {
				c, rh := yearly(&cold.C, day+t), yearly(&cold.RH, day+t)
				b.step(1, c, 1.06*equilibrium(c, rh))
				t++
			}
			sum += math.Log(t) / 4
		}
		return math.Exp(sum)
	}, math.Sqrt(w.Least*w.Most)*1.03)
}
