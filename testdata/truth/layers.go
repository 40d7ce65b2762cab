package truth

import (
	"math"
	"math/rand/v2"
	"slices"
)

// Layers is a fifth family that shares nothing with the others but the table of woods: a
// board of two pools, a skin and a core, with free and bound water apart, that exchange by
// rates; a pile with a fan that is on for some weeks and off for others; air that stays for
// days and then jumps; a sorption loop of its own, in which the wood rests anywhere between
// two curves; weights by a spring balance that sticks and has a zero of its own.
const Layers Family = "layers"

// board of two pools, per unit of ovendry mass.
type board struct {
	freeSkin, freeCore float64 // free water, %
	skin, core         float64 // bound water, %
	share              float64 // of the mass in the skin
	inner, outer       float64 // rates at 20 C per day: of bound water from core to skin, from skin to air
	drain              float64 // %/d of free water that leaves the core by the skin
	spread             float64 // of the two sorption curves about their middle
}

const layerSaturation = 27.0 // %

func (b *board) mean() float64 {
	return b.share*(b.skin+b.freeSkin) + (1-b.share)*(b.core+b.freeCore)
}

// middleCurve is a straight line that bends up in damp air.
func middleCurve(c, rh float64) float64 {
	m := 2.2 + 0.148*rh
	if rh > 72 {
		m += 0.022 * (rh - 72) * (rh - 72) / 2
	}
	return min(m*loosens(c), 26)
}

// loosens is what warmth leaves of the water that wood holds in the same air.
func loosens(c float64) float64 { return 1 - 0.0065*(c-20) }

// quickens is by how much warm wood exchanges faster than at 20 C: 1.65 times for ten
// degrees, some 40 kJ/mol.
func quickens(c float64) float64 {
	warm := math.Pow(1.65, (c-20)/10)
	if c < -1 {
		warm *= 0.4
	}
	return warm
}

// step goes on for a share of a day in air of c and rh; wind multiplies what leaves the skin.
func (b *board) step(dt, c, rh, wind float64) {
	warm, middle, spread := quickens(c), middleCurve(c, rh), b.spread*loosens(c)
	rest := min(max(b.skin, middle-spread), middle+spread) // inside the loop nothing passes
	leaves := b.outer * warm * wind * (b.skin - rest)
	crosses := b.inner * warm * (b.core - b.skin)
	if b.freeSkin > 0 { // free water evaporates first
		out := min(leaves*dt, b.freeSkin)
		b.freeSkin -= out
		leaves -= out / dt
	}
	if b.freeCore > 0 {
		out := min(b.drain*warm*math.Sqrt(wind)*dt*max(1-rh/100, 0.05)/0.3, b.freeCore)
		b.freeCore -= out

		crosses = 0
		b.skin += 0.15 * (layerSaturation - b.skin) * min(dt, 1) // and keeps it damp
	}
	b.skin += dt * (crosses*(1-b.share)/b.share - leaves)
	b.core -= dt * crosses
	b.skin = min(max(b.skin, 0.5), layerSaturation)
}

// newBoard has the rates at which boards of 25 mm take the kiln days of a wood from 20 to
// 6 %, and about the middle of its span from green to 20 % in a yard.
func newBoard(w *Wood, mm, start, speed float64) *board {
	b := boardOf(w, mm, start, speed)
	b.inner *= kilnDaysOf(w) / w.KilnDays
	b.outer = 6 * b.inner * 0.7 / 0.3
	return b
}

// kilnDaysOf is how long a board of 25 mm takes by the rates of boardOf.
func kilnDaysOf(w *Wood) float64 {
	b, days := boardOf(w, 25.4, 20, 1), 0.0
	for b.mean() > 6 && days < 100 {
		b.step(0.01, 65, 30, 1.5)
		days += 0.01
	}
	return days
}

func boardOf(w *Wood, mm, start, speed float64) *board {
	thick := math.Pow(mm/25.4, 1.4)
	free := max(start-layerSaturation, 0)
	b := &board{freeSkin: free, freeCore: free, skin: min(start, layerSaturation), core: min(start, layerSaturation), share: 0.3, spread: 0.7}
	b.inner = speed * 2.2 / (w.KilnDays * quickens(65)) / thick
	b.outer = 6 * b.inner * 0.7 / 0.3
	days := math.Sqrt(w.Least * w.Most)
	b.drain = speed * (w.GreenPct - layerSaturation) / (0.6 * days) / thick * 1.3
	return b
}

// makeLayers returns n billets of the fifth family, always the same for a seed.
func makeLayers(n int, seed uint64) []*Billet {
	all := make([]*Billet, n)
	for i := range all {
		m := &maker{rng: rand.New(rand.NewPCG(seed, 1000+uint64(i)))} //nolint:gosec // not for secrets
		all[i] = m.layers()
	}
	return all
}

func (m *maker) layers() *Billet {
	woods := Woods()
	w := woods[m.rng.IntN(len(woods))]
	b := &Billet{Family: Layers, Wood: w, Place: Places()[m.rng.IntN(3)], ThicknessMM: math.Round(m.u(20, 80)), WidthMM: math.Round(m.u(120, 300)),
		LengthMM: math.Round(m.u(500, 1500)), StackedOnDay: math.Floor(m.u(0, 365)), Outdoors: math.Round(m.u(150, 800)), Horizon: 1300, Yard: m.rng.IntN(2) == 0, WasGreen: true}
	b.Now = int(m.u(30, b.Outdoors+150))
	b.StartPct = w.GreenPct * m.u(0.75, 1.3)
	board := newBoard(&w, b.ThicknessMM, b.StartPct, math.Exp(m.n(0.3)))
	scale := 1 + m.u(-0.08, 0.08)
	b.ShopC, b.ShopRH = 20+m.u(-3, 3), 45+m.u(-7, 7)
	b.RestPct = scale * (middleCurve(20, 45) + board.spread)
	c, rh, fan := 0.0, 0.0, 1.0
	for day := 0; day <= int(b.Horizon); day++ {
		b.MeanPct = append(b.MeanPct, scale*board.mean())
		b.GradientPct = append(b.GradientPct, board.core+board.freeCore-board.skin-board.freeSkin)
		if m.rng.Float64() < 0.2 { // the weather changes
			c, rh = m.u(-4, 4), m.u(-16, 16)
		}
		if m.rng.Float64() < 0.04 { // somebody turns the fan on or off
			fan = m.u(0.8, 1.6)
		}
		at := b.StackedOnDay + float64(day)
		airC, airRH, wind := yearly(&b.Place.C, at)+c, min(max(yearly(&b.Place.RH, at)+rh, 15), 98), fan
		if float64(day) >= b.Outdoors {
			airC, airRH, wind = b.ShopC, b.ShopRH+5*math.Sin(2*math.Pi*(at-110)/365), 0.8
		}
		for range 8 {
			board.step(0.125, airC, airRH, wind)
		}
	}
	b.OvendryGrams = w.Gravity * m.u(0.85, 1.17) * b.ThicknessMM * b.WidthMM * b.LengthMM / 1000
	b.springBalance(m)
	b.Season = int(math.Mod(b.StackedOnDay+float64(b.Now), 365) / 365 * 12)
	return b
}

// springBalance writes fifteen readings: weights by a balance whose pointer sticks where it
// came from and whose zero is off, a few samples and a meter that reads too wet or too dry.
func (b *Billet) springBalance(m *maker) {
	days := make([]float64, mostReadings)
	for i := range days {
		days[i] = math.Floor(m.u(0, float64(b.Now)+1))
	}
	slices.Sort(days)
	days[len(days)-1] = float64(b.Now)
	division := max(math.Round(b.OvendryGrams/2000)*10, 5) // some 1/200 of the load
	zero, tilt := m.u(-0.004, 0.004)*b.OvendryGrams, m.u(0.88, 1.12)
	for i, day := range days {
		truth := b.MeanPct[int(day)]
		r := Reading{Kind: Weight, Day: day}
		kind := m.rng.Float64()
		switch {
		case i == 0 || i == len(days)-1 || kind < 0.75:
			sticks := m.u(-0.004, 0.004) * b.OvendryGrams
			r.Division = division
			r.Grams = math.Round((b.OvendryGrams*(1+truth/100)+zero+sticks)/division) * division
		case kind < 0.88 && truth < 25:
			r.Kind, r.Pct = Pin, max(tilt*truth+m.u(-1.5, 1.5), 5)
		default:
			r.Kind, r.Pct = Ovendry, max(truth*m.u(0.95, 1.01)+m.u(-0.8, 0.8), 1)
		}
		b.Readings = append(b.Readings, r)
	}
}
