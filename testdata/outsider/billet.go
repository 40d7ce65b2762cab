package main

import (
	"math"
	"math/rand/v2"
	"time"
)

// billet is one board with its course, and what its maker knows of it.
type billet struct {
	id       int
	wood     *wood
	course   []float64 // mean moisture at noon of each day from stacking, %
	spot     []float64 // temperature there
	stacked  time.Time
	told     map[string]any
	stays    []any
	asOf     int // days from stacking
	target   float64
	dry      float64 // kg
	division float64 // of the scale, kg
	readings []reading
}

const horizon = 1825

var stations = []string{"madison-wi", "columbus-oh", "asheville-nc", "portland-or", "albany-ny",
	"minneapolis-st-paul-mn", "zurich", "dublin", "knoxville-tn"}

func pick[T any](r *rand.Rand, of []T) T { return of[r.IntN(len(of))] }

func within(r *rand.Rand, sd, most float64) float64 { return clamp(sd*r.NormFloat64(), -most, most) }

func date(t time.Time) string { return t.Format("2006-01-02") }

// story is where a billet lies: outdoors for some days, then in a room. Days are by
// the maker's rules of thumb, and know nothing of how this billet dries.
type story struct {
	station, first string
	outdoors       int // days; 0: indoors all along
	room           float64
	stays          bool // outdoors to the end
	asOf           int
}

func newStory(r *rand.Rand, thickness float64) story {
	s := story{station: pick(r, stations), first: pick(r, []string{"open_stack", "small_stack", "small_stack", "shed", "shed"}),
		room: pick(r, []float64{40, 45, 50})}
	size := math.Pow(thickness/25.4, 1.35)
	outside, inside := 170*size*math.Exp(0.5*r.NormFloat64()), 110*size
	switch u := r.Float64(); {
	case u < 0.20:
		s.stays, s.outdoors = true, horizon
		s.asOf = int(outside * (0.3 + 1.2*r.Float64()))
	case u < 0.38:
		if u < 0.28 {
			s.first = "closed_room"
		} else {
			s.first = "moving_air"
		}
		s.asOf = int(inside * (0.3 + 1.4*r.Float64()))
	default:
		s.outdoors = int(clamp(outside, 40, 1200))
		s.asOf = int(float64(s.outdoors)*0.4 + r.Float64()*(0.6*float64(s.outdoors)+inside*1.3))
	}
	s.asOf = int(clamp(float64(s.asOf), 25, 1400))
	return s
}

// air is the real one around the billet.
func (s story) air(r *rand.Rand, places map[string]place, from int) []air {
	off := offset{within(r, 1, 2), within(r, 4, 8)}
	in := offset{within(r, 1, 2), within(r, 2.5, 5)}
	all := places[s.station].outdoors(from, min(s.outdoors, horizon), off, r)
	if s.first == "shed" { // a roof and walls: evener air
		for i, a := range all {
			all[i].wind = math.Sqrt(a.wind)
		}
	}
	if s.outdoors < horizon {
		all = append(all, indoors(20, s.room, from+s.outdoors, horizon-s.outdoors, in, r)...)
	}
	return all
}

// told is the list of stays as the maker writes it down.
func (s story) told(r *rand.Rand, stacked time.Time) []any {
	room := map[string]any{"air": map[string]any{"temperature": "20 C", "rh_pct": s.room}, "exposure": "closed_room"}
	if s.stays {
		return []any{map[string]any{"station": s.station, "exposure": s.first}}
	}
	if s.outdoors == 0 {
		room["exposure"] = s.first
		return []any{room}
	}
	until := s.outdoors
	if until < s.asOf { // what is yet to come is done on the day it is planned
		until += r.IntN(3) - 1
	}
	return []any{map[string]any{"station": s.station, "exposure": s.first, "until": date(stacked.AddDate(0, 0, until))}, room}
}

// newBillet makes one billet of a truth, lets it dry and asks its maker to read it.
func newBillet(l law, id int, r *rand.Rand, places map[string]place) *billet {
	b := &billet{id: id, wood: pick(r, theWoods())}
	thickness := pick(r, []float64{20, 27, 27, 34, 40, 52, 65, 80})
	s := newStory(r, thickness)
	b.asOf = s.asOf
	b.stacked = time.Date(2021, 1, 1+r.IntN(730), 0, 0, 0, 0, time.UTC)
	start, told := startOf(r, b.wood)
	width := clamp(4*thickness, 180, 320) * (0.9 + 0.2*r.Float64())
	p := piece{thickness: thickness, density: 1000 * b.wood.grav * (1 + within(r, 0.08, 0.2)), start: start,
		hardwood: b.wood.hardwood, sorption: math.Exp(0.03 + 0.05*r.NormFloat64())}
	// Edges are open as well: between a film's share and that of diffusion.
	p.rate = b.wood.rates[l.name] * math.Exp(0.25*r.NormFloat64()) * (1 + 0.5*thickness/width)
	stray := math.Exp(0.25 * r.NormFloat64())
	day := 0
	draught := func() float64 {
		where := s.first
		if s.outdoors > 0 && day >= s.outdoors {
			where = "closed_room"
		}
		return stray * l.draught[where]
	}
	b.dryOut(l.board(p, draught), s.air(r, places, b.stacked.YearDay()-1), &day)
	length := 500 + 700*r.Float64()
	b.dry = p.density * thickness * width * length * 1e-9
	b.tell(r, s, thickness, width, length, told)
	b.read(r)
	return b
}

// startOf is how wet the wood is when it is stacked, and what its maker says of it.
func startOf(r *rand.Rand, w *wood) (start float64, told any) {
	if r.Float64() >= 0.2 {
		return w.green * math.Exp(0.2*r.NormFloat64()), nil
	}
	start = 22 + 23*r.Float64()
	if r.Float64() < 0.33 {
		return start, nil
	}
	guess := math.Round(start * (1 + 0.12*r.NormFloat64()))
	return start, map[string]any{"mc_pct": guess, "mc_sd_points": math.Round(0.12 * guess)}
}

func (b *billet) dryOut(board board, around []air, day *int) {
	for *day = 0; *day < horizon; *day++ {
		for k := range stepsPerDay {
			a := around[*day*stepsPerDay+k]
			board.step(1.0/stepsPerDay, a)
			if k == 1 {
				b.course, b.spot = append(b.course, board.mean()), append(b.spot, a.temp)
			}
		}
	}
}

// tell writes down sizes as a tape shows them today.
func (b *billet) tell(r *rand.Rand, s story, thickness, width, length float64, start any) {
	shrunk := 1 - 0.055*clamp(30-b.course[b.asOf], 0, 30)/30
	mm := func(x, step, off float64) map[string]any {
		return map[string]any{"value": math.Round((x+off*r.NormFloat64())/step) * step, "unit": "mm"}
	}
	b.told = map[string]any{
		"wood": b.wood.id, "thickness": mm(thickness*shrunk, 0.5, 0.4), "width": mm(width*shrunk, 1, 1),
		"length": mm(length, 1, 2), "end_seal": "sealed_fresh",
	}
	if start != nil {
		b.told["start_condition"] = start
	}
	on := b.stacked
	if r.IntN(3) == 0 {
		on = on.AddDate(0, 0, r.IntN(5)-2)
	}
	b.told["stacked_on"] = date(on)
	b.stays = s.told(r, b.stacked)
	b.target = map[float64]float64{40: 9, 45: 10, 50: 11}[s.room]
	if s.stays {
		b.target = 17
	}
}

// limits of level alone, so that what is ready follows from the mean moisture.
var limits = map[string]float64{"resaw": 4, "thickness": 1.5, "glue": 1}

const below = 3.0

// there tells whether the true moisture of a day lies within the limits of a step.
func (b *billet) there(step string, day int) bool {
	mc := b.course[day]
	return mc <= b.target+limits[step] && mc >= b.target-below
}

// readyOn is the first day from the day of the question on, or -1.
func (b *billet) readyOn(step string) int {
	for day := b.asOf; day < horizon; day++ {
		if b.there(step, day) {
			return day
		}
	}
	return -1
}
