package main

import (
	"fmt"
	"math"
	"sort"
	"strings"
)

// homes are the stations at which the national spans are looked at.
var homes = []string{"madison-wi", "columbus-oh", "asheville-nc", "portland-or", "albany-ny"}

func constant(x float64) func() float64 { return func() float64 { return x } }

// daysTo is how long a board takes from its start to a moisture content, and 3000 where
// it does not come there.
func daysTo(b board, around []air, mc float64) float64 {
	for i := 0; i < 3000*stepsPerDay; i++ {
		b.step(1.0/stepsPerDay, around[i%len(around)])
		if b.mean() <= mc {
			return float64(i+1) / stepsPerDay
		}
	}
	return 3000
}

// months are the days of a board in a yard pile, green to 20 %, stacked on the first of
// each month, in normal years.
func months(l law, w *wood, rate, thickness float64, years ...place) []float64 {
	var days []float64
	for _, p := range years {
		for m := range 12 {
			year := p.outdoors(m*365/12, 365, offset{}, nil)
			b := l.board(piece{thickness, 1000 * w.grav, w.green, w.hardwood, 1, rate}, constant(1))
			days = append(days, daysTo(b, year, 20))
		}
	}
	return days
}

func spread(days []float64) (low, high float64) {
	d := append([]float64(nil), days...)
	sort.Float64s(d)
	at := func(q float64) float64 { return d[int(math.Round(q*float64(len(d)-1)))] }
	return at(0.05), at(0.95)
}

// fit sets the one number that each wood has in each truth: by the middle of its
// published span.
func fit(places map[string]place) {
	var years []place
	for _, name := range homes {
		years = append(years, places[name])
	}
	for _, w := range theWoods() {
		for _, l := range laws() {
			low, high := math.Log(l.rates[0]), math.Log(l.rates[1])
			for range 11 {
				mid := (low + high) / 2
				a, b := spread(months(l, w, math.Exp(mid), 25.4, years...))
				if a*b > w.soon*w.late {
					low = mid
				} else {
					high = mid
				}
			}
			w.rates[l.name] = math.Exp((low + high) / 2)
		}
	}
}

var allWoods []*wood

func theWoods() []*wood {
	if allWoods == nil {
		allWoods = woods()
		for _, w := range allWoods {
			w.rates = map[string]float64{}
		}
	}
	return allWoods
}

func woodOf(id string) *wood {
	for _, w := range theWoods() {
		if w.id == id {
			return w
		}
	}
	return nil
}

type anchor struct {
	name, source string
	low, high    float64
	got          float64
}

func (a anchor) met() bool { return a.got >= a.low && a.got <= a.high }

// anchors are what each truth is held to before it may judge anything.
func anchors(l law, places map[string]place) []anchor {
	var out []anchor
	add := func(name, source string, low, high, got float64) {
		out = append(out, anchor{name, source, low, high, got})
	}
	var years []place
	for _, name := range homes {
		years = append(years, places[name])
	}
	span := "table of air-drying times, AH-402, FPL-GTR-117, from memory"
	for _, w := range theWoods() {
		low, high := spread(months(l, w, w.rates[l.name], 25.4, years...))
		add(w.id+" soonest, d", span, w.soon/1.6, w.soon*1.6, low)
		add(w.id+" latest, d", span, w.late/1.6, w.late*1.6, high)
	}
	oak, maple, white := woodOf("oak-northern-red"), woodOf("maple-sugar"), woodOf("oak-white")
	dates := months(l, oak, oak.rates[l.name], 25.4, places["madison-wi"])
	laboratory := "Forest Products Laboratory estimates, quoted in a trade article (2025), second hand"
	add("red oak, Madison, 1 April, d", laboratory, 82/1.4, 82*1.4, dates[3])
	add("red oak, Madison, 1 September, d", laboratory, 154/1.4, 154*1.4, dates[8])
	add("red oak, Madison, 1 October, d", laboratory, 184/1.4, 184*1.4, dates[9])
	peck := "Peck E.C. 1957, FPL report 2086, summary; packages"
	upper := maplePackages(l, maple, places["sault-ste-marie-mi"])
	sort.Float64s(upper)
	mean := 0.0
	for _, d := range upper {
		mean += d / 12
	}
	add("sugar maple, Upper Michigan, soonest, d", peck, 40/1.5, 40*1.5, upper[0])
	add("sugar maple, Upper Michigan, mean, d", peck, 90/1.4, 90*1.4, mean)
	add("sugar maple, Upper Michigan, latest, d", peck, 205/1.5, 205*1.5, upper[11])
	thick := "2.28 (mahogany, Research Paper ITF-2, 1966), 2.5 (trade column), 2.87 (Tschernitz and Simpson 1979, from memory)"
	a, b := spread(months(l, oak, oak.rates[l.name], 50.8, years...))
	c, d := spread(months(l, oak, oak.rates[l.name], 25.4, years...))
	add("red oak, 50 over 25 mm in the yard", thick, 2, 3.3, math.Sqrt(a*b/c/d))
	in := func(w *wood, thickness float64, temp, rh, from, to float64, where string) float64 {
		return daysTo(l.board(piece{thickness, 1000 * w.grav, from, w.hardwood, 1, w.rates[l.name]},
			constant(l.draught[where])), indoors(temp, rh, 0, 1, offset{}, nil), to)
	}
	add("red oak, 50 over 25 mm in a room, 20 to 10 %", thick, 1.9, 3.6,
		in(oak, 50.8, 20, 45, 20, 10, "closed_room")/in(oak, 25.4, 20, 45, 20, 10, "closed_room"))
	add("white oak, kiln, 65 C and 30 %, 20 to 7 %, d", "7 to 14 d, kiln practice of air-dried oak, read in summary",
		7/1.7, 14*1.7, in(white, 25.4, 65, 30, 20, 7, "moving_air"))
	kilned := "kiln periods of 1 in lumber, 20 to 6 %, Wood Handbook and Agriculture Handbook 188, from memory; one air for all and 7 %, own judgement"
	for _, k := range []struct {
		id         string
		soon, late float64
	}{{"ash-white", 4, 7}, {"maple-sugar", 5, 8}, {"walnut-black", 5, 8}, {"yellow-poplar", 3, 5}} {
		add(k.id+", kiln, 65 C and 20 %, 20 to 7 %, d", kilned, k.soon/1.7, k.late*1.7,
			in(woodOf(k.id), 25.4, 65, 20, 20, 7, "moving_air"))
	}
	room := "kiln days times 8 (diffusion, 38 kJ/mol) for oak, a third of that and less for softwood; own judgement"
	for _, w := range theWoods() {
		low, high := 20.0, 130.0
		if !w.hardwood {
			low, high = 8, 90
		}
		add(w.id+", 20 C and 45 %, 18 to 10 %, d", room, low, high, in(w, 25.4, 20, 45, 18, 10, "closed_room"))
	}
	thumb := "trade's rule: 30 % RH = 6, 50 = 9, 65 = 12, 80 = 16"
	for _, p := range [][2]float64{{0.3, 6}, {0.5, 9}, {0.65, 12}, {0.8, 16}} {
		add(fmt.Sprintf("settles at %.0f %% RH", 100*p[0]), thumb, p[1]-1.1, p[1]+1.1, l.of(p[0]))
	}
	resting := "months of the station by the trade's rule and the Wood Handbook; within a point and a tenth, as where it settles"
	for _, station := range []string{"madison-wi", "columbus-oh", "dublin", "zurich"} {
		give := monthsGive(rule, places[station])
		add("spruce, rests outdoors at "+station, resting, give-1.1, give+1.1, restsAt(l, woodOf("spruce-sitka"), 25.4, places[station]))
	}
	return out
}

func maplePackages(l law, w *wood, p place) []float64 {
	var days []float64
	for m := range 12 {
		b := l.board(piece{25.4, 1000 * w.grav, w.green, true, 1, w.rates[l.name]}, constant(l.draught["small_stack"]))
		days = append(days, daysTo(b, p.outdoors(m*365/12, 365, offset{}, nil), 20))
	}
	return days
}

// report is a table of the anchors of all truths side by side, and whether each truth
// meets at least 85 % of its own.
func report(places map[string]place) (string, bool) {
	var out strings.Builder
	all := laws()
	var table [][]anchor
	for _, l := range all {
		table = append(table, anchors(l, places))
	}
	fmt.Fprintf(&out, "| anchor | allowed |")
	for _, l := range all {
		fmt.Fprintf(&out, " %s |", l.name)
	}
	fmt.Fprintf(&out, "\n|---|---|---|---|---|---|\n")
	for i, a := range table[0] {
		fmt.Fprintf(&out, "| %s | %.3g to %.3g |", a.name, a.low, a.high)
		for _, t := range table {
			mark := ""
			if !t[i].met() {
				mark = " (missed)"
			}
			fmt.Fprintf(&out, " %.3g%s |", t[i].got, mark)
		}
		fmt.Fprintln(&out)
	}
	good := true
	for k, t := range table {
		met := 0
		for _, a := range t {
			if a.met() {
				met++
			}
		}
		fmt.Fprintf(&out, "\n%s meets %d of %d; the rates of its woods:", all[k].name, met, len(t))
		for _, w := range theWoods() {
			fmt.Fprintf(&out, " %s %.3g", w.id, w.rates[all[k].name])
		}
		good = good && 100*met >= 85*len(t)
	}
	fmt.Fprintln(&out)
	return out.String(), good
}
