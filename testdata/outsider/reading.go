package main

import (
	"math"
	"math/rand/v2"
	"slices"
	"time"
)

// reading is one entry of the request.
type reading struct {
	day      int
	entry    map[string]any
	careless bool // a slice from near an end
}

// told is a text of what the maker tells.
func told(of map[string]any, member string) string {
	text, _ := of[member].(string)
	return text
}

const most = 15

// read lets the maker weigh and measure on up to fifteen days until today. Fewer
// readings are a thinning of these.
func (b *billet) read(r *rand.Rand) {
	scale := r.Float64() < 0.7
	gain, bias := 1+0.002*r.NormFloat64(), 1.3*r.NormFloat64()
	b.division = scaleStep(r, b.dry)
	slice := -1
	if scale && r.Float64() < 0.5 {
		slice = r.IntN(most - 1)
	}
	warmth := r.Float64() < 0.7
	days := readingDays(r, b.asOf)
	for len(b.readings) < most {
		i := len(b.readings)
		day := days[i]
		told := b.stacked.AddDate(0, 0, clampDay(day+slipOfDay(r), b.asOf))
		if first := b.toldStacked(); told.Before(first) {
			told = first
		}
		switch {
		case i == slice:
			b.readings = append(b.readings, b.slice(r, day, told))
			b.readings = append(b.readings, b.weight(r, day, told, gain))
		case (r.Float64() < 0.28) == scale && b.spot[day] > -5:
			b.readings = append(b.readings, b.pins(r, day, told, bias, warmth))
		default:
			b.readings = append(b.readings, b.weight(r, day, told, gain))
		}
	}
	b.order()
}

func (b *billet) toldStacked() time.Time {
	return time.Unix(day(told(b.told, "stacked_on"))*86400, 0).UTC()
}

// order keeps what the contract asks: by date, one weight a day.
func (b *billet) order() {
	slices.SortStableFunc(b.readings, func(x, y reading) int {
		return int(day(told(x.entry, "date")) - day(told(y.entry, "date")))
	})
	seen := map[string]bool{}
	var kept []reading
	for _, x := range b.readings {
		if on := told(x.entry, "date"); x.entry["kind"] == "weight" {
			if seen[on] {
				continue
			}
			seen[on] = true
		}
		kept = append(kept, x)
	}
	b.readings = kept
}

func day(text string) int64 {
	t, err := time.Parse("2006-01-02", text)
	if err != nil {
		panic(err)
	}
	return t.Unix() / 86400
}

func readingDays(r *rand.Rand, asOf int) []int {
	days := make([]int, most)
	for i := range days {
		days[i] = int(float64(asOf) * (float64(i) + r.Float64()) / most)
	}
	days[most-1] = max(0, asOf-r.IntN(8))
	return days
}

func slipOfDay(r *rand.Rand) int {
	if r.Float64() < 0.15 {
		return pick(r, []int{-2, -1, 1, 2})
	}
	return 0
}

func clampDay(day, asOf int) int { return max(0, min(day, asOf)) }

func scaleStep(r *rand.Rand, mass float64) float64 {
	var fit []float64
	for _, step := range []float64{0.005, 0.01, 0.02, 0.05} {
		if step <= 0.01*mass || step == 0.005 {
			fit = append(fit, step)
		}
	}
	return pick(r, fit)
}

func (b *billet) weight(r *rand.Rand, day int, told time.Time, gain float64) reading {
	mass := b.dry*(1+b.course[day]/100)*gain + b.division/3*r.NormFloat64()
	mass = math.Round(mass/b.division) * b.division
	return reading{day: day, entry: map[string]any{"kind": "weight", "date": date(told),
		"mass": map[string]any{"value": math.Round(mass*1e4) / 1e4, "unit": "kg"}}}
}

// pins read on their Douglas-fir scale at a fifth of the thickness, cold wood low by
// 0.09 points a kelvin at 12 % (handbook rule, 0.5 points in 5.6 K). Above 26 % they
// say wet and little more.
func (b *billet) pins(r *rand.Rand, day int, told time.Time, bias float64, warmth bool) reading {
	mc, temp := b.course[day], b.spot[day]
	shown := mc + bias + 0.8*r.NormFloat64() + 0.09*(temp-22)*clamp(mc, 6, 25)/12
	if mc > 26 {
		shown = 26 + bias + 0.35*(mc-26) + 3*r.NormFloat64()
	}
	entry := map[string]any{"kind": "pin_meter", "date": date(told), "meter": "pins",
		"reading_mc_pct": math.Round(2*clamp(shown, 4.5, 60)) / 2,
		"depth":          map[string]any{"value": math.Round(0.21 * thicknessOf(b)), "unit": "mm"}}
	if warmth {
		entry["wood_temperature"] = map[string]any{"value": math.Round(clamp(temp, -15, 40)), "unit": "C"}
	}
	return reading{day: day, entry: entry}
}

func thicknessOf(b *billet) float64 {
	size, _ := b.told["thickness"].(map[string]any)
	mm, _ := size["value"].(float64)
	return mm
}

// slice is cut and dried in an oven; slices of one board differ by 3 % of what they
// hold, and one in ten was cut near an end, where the wood is drier by up to a quarter.
func (b *billet) slice(r *rand.Rand, day int, told time.Time) reading {
	mc := b.course[day]
	careless := r.IntN(10) == 0
	held := mc * (1 + 0.03*r.NormFloat64())
	if careless {
		held *= 1 - 0.1 - 0.15*r.Float64()
	}
	dry := 0.05 + 0.06*r.Float64()
	gram := func(kg float64) map[string]any {
		return map[string]any{"value": math.Round(kg*1e4) / 10, "unit": "g"}
	}
	return reading{day: day, careless: careless, entry: map[string]any{"kind": "ovendry_sample", "date": date(told),
		"wet_mass": gram(dry * (1 + held/100)), "ovendry_mass": gram(dry), "scale_division": "0.1 g"}}
}

// few are n of the readings, spread over the time, the last among them.
func (b *billet) few(n int) []reading {
	all := len(b.readings)
	if n >= all {
		return b.readings
	}
	var out []reading
	for i := range n {
		out = append(out, b.readings[all-1-(n-1-i)*(all-1)/max(1, n)])
	}
	return out
}
