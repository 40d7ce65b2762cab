package truth

import (
	"math"
	"math/rand/v2"
	"slices"
)

// most readings of a billet.
const mostReadings = 15

// Make returns n billets of a family, always the same for a seed.
func Make(f Family, n int, seed uint64) []*Billet {
	if f == Layers {
		return makeLayers(n, seed)
	}
	front := f == Front
	woods := Woods()
	rises, energies := make([]float64, len(woods)), make([]float64, len(woods))
	spread := rand.New(rand.NewPCG(seed, 77)) //nolint:gosec // not for secrets
	for i := range woods {
		rises[i], energies[i] = 5+8*spread.Float64(), 3800+1400*spread.Float64()
		if front {
			rises[i] = 0
		}
		woods[i].anchor(rises[i], energies[i], front)
	}
	all := make([]*Billet, n)
	for i := range all {
		m := &maker{rng: rand.New(rand.NewPCG(seed, uint64(i)))} //nolint:gosec // not for secrets
		k := m.rng.IntN(len(woods))
		all[i] = m.make(f, woods[k], rises[k], energies[k])
	}
	return all
}

// errs is how far each kind of error goes in a family.
type errs struct{ climate, habits float64 }

func (m *maker) make(f Family, w Wood, rise, energy float64) *Billet {
	e := errs{climate: 0.5, habits: 0.4}
	switch f {
	case Climate:
		e.climate = 1
	case Habits:
		e.habits = 1
	case Law, Front, Layers:
	}
	b := &Billet{Family: f, Wood: w, Place: Places()[m.rng.IntN(3)], ThicknessMM: math.Round(m.u(20, 80)), WidthMM: math.Round(m.u(120, 300)),
		LengthMM: math.Round(m.u(500, 1500)), StackedOnDay: math.Floor(m.u(0, 365)), Outdoors: math.Round(m.u(150, 800)), Horizon: 1300, Yard: m.rng.IntN(2) == 0}
	b.Now = int(m.u(30, b.Outdoors+150))
	b.WasGreen = !(f == Habits && m.rng.Float64() < 0.15)
	b.StartPct = w.GreenPct * math.Exp(m.n(0.15))
	if !b.WasGreen {
		b.StartPct = m.u(9, 32)
	}
	b.dry(m, e, rise, energy)
	b.read(m, e)
	b.Season = int(math.Mod(b.StackedOnDay+float64(b.Now), 365) / 365 * 12)
	return b
}

// dry runs the truth by quarters of a day through its weather.
func (b *Billet) dry(m *maker, e errs, rise, energy float64) {
	w := b.Wood
	w.dryAt12At20C *= math.Exp(m.n(0.25)) * math.Pow(max(b.ThicknessMM/25.4, 1), 0.62)
	w.freeAt25 *= math.Exp(m.n(0.35))
	if !b.Yard {
		w.freeAt25 *= math.Exp(m.u(0, 0.6))
	}
	body := newBody(&w, b.ThicknessMM, b.StartPct, rise, energy, b.Family == Front)
	offC, offRH := e.climate*m.u(-2, 2), e.climate*m.u(-8, 8)
	b.ShopC, b.ShopRH = 20+e.climate*m.u(-2, 2), 45+e.climate*m.u(-10, 10)
	scale := math.Exp(m.n(0.05))
	b.RestPct = scale * 1.02 * equilibrium(20, 45) // of the stated build room
	moved := b.Outdoors + e.habits*math.Round(m.n(8))
	daysOff := e.habits * m.n(5)
	var quickC, quickRH, slowRH float64
	wetted := 0.0
	branch := 1.08
	for day := 0; day <= int(b.Horizon); day++ {
		b.MeanPct = append(b.MeanPct, body.mean)
		b.GradientPct = append(b.GradientPct, body.core-body.shell)
		quickC = 0.75*quickC + m.n(2.6)
		quickRH = 0.72*quickRH + m.n(6)
		slowRH = 0.975*slowRH + m.n(0.9)
		for q := range perDay {
			c, rh := b.ShopC, b.ShopRH
			if at := float64(day) + float64(q)/perDay; at < moved {
				sun := math.Sin(2 * math.Pi * (float64(q)/perDay - 0.25))
				c = yearly(&b.Place.C, b.StackedOnDay+daysOff+at) + offC + quickC + 4*sun
				rh = min(yearly(&b.Place.RH, b.StackedOnDay+daysOff+at)+offRH+quickRH+slowRH-13*sun, 97)
			} else {
				rh += 0.5 * slowRH
			}
			rest := scale * branch * equilibrium(c, rh)
			before := body.mean
			body.step(1.0/perDay, c, rest)
			if gain := body.mean - before; gain > 0 {
				wetted += gain
				branch = 1.08 - 0.06*min(wetted/1.5, 1)
			}
		}
	}
	b.OvendryGrams = b.Wood.Gravity * math.Exp(m.n(0.09)) * b.ThicknessMM * b.WidthMM * b.LengthMM / 1000
}

// read writes fifteen readings, the last of them of today.
func (b *Billet) read(m *maker, e errs) {
	days := make([]float64, mostReadings)
	for i := range days {
		days[i] = math.Floor(m.u(0, float64(b.Now)+1))
	}
	slices.Sort(days)
	days[len(days)-1] = float64(b.Now)
	division := []float64{5, 10, 20, 50}[m.rng.IntN(4)]
	if division > b.OvendryGrams/40 {
		division = 5
	}
	bias, endDrier := m.n(1.3)*(0.5+e.habits), e.habits*m.u(0, 0.06)
	for i, day := range days {
		r := Reading{Kind: Weight, Day: day}
		truth := b.MeanPct[int(min(max(day+e.habits*math.Round(m.n(2)), 0), float64(b.Now)))]
		kind := m.rng.Float64()
		switch {
		case i == 0 || i == len(days)-1 || kind < 0.7:
			grams := b.OvendryGrams * (1 + truth/100) * (1 + m.n(0.0007))
			r.Grams, r.Division = math.Round(grams/division)*division, division
		case kind < 0.9 && truth < 26:
			r.Kind, r.Pct = Pin, max(truth+bias+m.n(0.9), 5)
		default:
			r.Kind, r.Pct = Ovendry, max(truth*(1-endDrier)+m.n(0.5+0.01*truth), 1)
		}
		b.Readings = append(b.Readings, r)
	}
}

// Some returns n readings: the first and the last, and others evenly between.
func (b *Billet) Some(n int) []Reading {
	var list []Reading
	for i := range n {
		k := len(b.Readings) - 1
		if n > 1 {
			k = int(math.Round(float64(i) * float64(len(b.Readings)-1) / float64(n-1)))
		}
		list = append(list, b.Readings[k])
	}
	return list
}
