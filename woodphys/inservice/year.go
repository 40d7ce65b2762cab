package inservice

import (
	"context"
	"math"

	"latewood/woodphys/air"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// Part is a plate, a rib, a neck: wood with two faces to the air.
type Part struct {
	Transport    *drying.Transport // the wood
	Thickness    quantity.Length   // 0.5 to 600 mm
	Factor       float64           // drying factor with the ring angle in it, 0.005 to 20
	FactorSpread float64           // standard deviation of its natural logarithm, 0 to 3
	Faces        [2]Finish         // outside and inside
	Curves       sorption.Curves   // of the wood, with the scatter of its fibre saturation
}

// Extreme is the driest or the wettest state of a part.
type Extreme struct {
	At              quantity.Duration // since the start of the room
	Mean            quantity.Band[quantity.Moisture]
	Outside, Inside quantity.Moisture // outer tenth at each face
}

// Year is the moisture content of a part in a room.
type Year struct {
	Times           []quantity.Duration // since the start of the room
	Mean            []quantity.Band[quantity.Moisture]
	Outside, Inside []quantity.Moisture // outer tenth at each face
	Dry, Wet        Extreme
	// Lag is the time constant of the part, about how far it is behind slow air.
	Lag quantity.Duration
	// Delay is how long after those of its air its extremes come, the mean of the two.
	Delay quantity.Duration
	Years int // run until the year came round
	Notes method.Notes
}

// Season computes years of parts and keeps its workspace. The zero value is
// ready. Not for two goroutines at a time.
type Season struct {
	Work    *drying.Work // counts and bounds the steps of all runs; may be nil
	solvers [2]drying.Solver
}

// Steps of the answer.
const (
	smoothStep = 5 * quantity.Day
	roughStep  = quantity.Day
	// mostYears are run; cameRound is what the mean may be off when the year
	// counts as come round, nearlyRound what is still told without a warning.
	mostYears   = 20
	cameRound   = 0.01 * quantity.PercentMC
	nearlyRound = 0.05 * quantity.PercentMC
)

// ofRoom is where errors and notes have what is said of the air of the room and of no part: it
// is called from the top.
const ofRoom = "/room"

// YearOf returns the moisture content of a part through the year of a room, or
// through a record shorter than a year.
//
// Errors: *method.Error with input "wood", "thickness", "drying_factor",
// "drying_factor_spread", "finish", "finish/outside", "finish/inside"; those of
// drying.Solver.Run.
// Accuracy: of the numbers 0.05 %MC; the band is described at the package.
//
// Source: rows inservice.year, inservice.two-faces and drying.slab.
func (s *Season) YearOf(ctx context.Context, room *Room, part *Part) (Year, error) {
	var year Year
	if err := part.check(&year.Notes); err != nil {
		return Year{}, err
	}
	year.Notes.Merge(room.notes.Below(ofRoom))
	year.Times = room.times()
	state := room.meanState(year.Times, part.Transport)
	r, err := part.resist(&state)
	if err != nil {
		return Year{}, err
	}
	year.Lag = quantity.Duration(r.timeConstant(part, asKnown))
	fast, slow := part.extremes(r)
	middle, err := s.course(ctx, room, part, r, asKnown, state.rest, &year.Notes)
	if err != nil {
		return Year{}, err
	}
	year.Years = middle.years
	rest := middle.mean[0]
	var ends [2]course
	for i, v := range [...]speed{fast, slow} {
		if ends[i], err = s.course(ctx, room, part, r, v, rest, &year.Notes); err != nil {
			return Year{}, err
		}
	}
	sd, err := scatter(&state, part.Curves, &year.Notes)
	if err != nil {
		return Year{}, err
	}
	year.fill(room, &middle, &ends, sd)
	room.leftOut(year.Lag, &year.Notes)
	return year, nil
}

// quick is the time constant below which wood follows the weather of a week. Own choice.
const quick = 10 * quantity.Day

// leftOut tells what the year of any finished work leaves out, a part or layers, of a time
// constant.
func (r *Room) leftOut(lag quantity.Duration, notes *method.Notes) {
	notes.Warn(hysteresisLeftOut)
	if !r.rough && lag < quick {
		notes.Warn(method.Warning{Code: method.Assumption, Method: roomRow.ID, Input: ofRoom + "/weekly_swing_pct",
			Detail: "thin or bare work follows the weather of a week, which monthly air does not hold; give a weekly swing or a record"})
	}
}

// hysteresisLeftOut is the same of all finished work, and told once.
var hysteresisLeftOut = method.Warning{Code: method.Assumption, Method: yearRow.ID,
	Detail: "hysteresis is left out: wood that turns round hardly responds within about a point, so real swings are up to a point smaller"}

// times are those of the answer.
func (r *Room) times() []quantity.Duration {
	step := smoothStep
	if r.rough {
		step = roughStep
	}
	return r.every(step)
}

// every is the span of the room in steps, and its end.
func (r *Room) every(step quantity.Duration) []quantity.Duration {
	var times []quantity.Duration
	for at := quantity.Duration(0); at < r.span; at += step {
		times = append(times, at)
	}
	return append(times, r.span)
}

// state is the mean air of a room and the wood at rest in it.
type state struct {
	temperature quantity.Temperature
	rh          float64
	rest        quantity.Moisture // mean of the EMC
	slope       float64           // d EMC/d RH at rest
}

func (r *Room) meanState(times []quantity.Duration, of *drying.Transport) state {
	var kelvin, rh, emc float64
	for _, at := range times {
		t, h := r.At(at)
		kelvin += t.Kelvin()
		rh += h
		emc += float64(of.Isotherm(t).Surface(h))
	}
	n := float64(len(times))
	out := state{temperature: quantity.Kelvin(kelvin / n), rh: rh / n, rest: quantity.Moisture(emc / n)}
	curve := of.Isotherm(out.temperature)
	out.slope = curve.Slope(curve.Inverse(out.rest))
	return out
}

// resist returns what stands in the way of the moisture at the mean state.
func (p *Part) resist(s *state) (resist, error) {
	d, err := p.Transport.Diffusivity(s.rest, s.temperature)
	if err != nil {
		return resist{}, err
	}
	const waterDensity, vapourConstant = 1000, 461.5 // kg/m3, J/(kg K)
	saturated := air.SaturationPressureOverWater(s.temperature).Pascals() / (vapourConstant * s.temperature.Kelvin())
	return resist{perVapour: p.Transport.SpecificGravity() * waterDensity * s.slope / saturated, d: p.Factor * d}, nil
}

// scatter is the standard deviation of the EMC over its value.
func scatter(s *state, curves sorption.Curves, notes *method.Notes) (float64, error) {
	emc, err := sorption.EquilibriumBand(s.temperature, s.rh, sorption.Middle, curves)
	if err != nil {
		return 0, err
	}
	notes.Merge(emc.Notes.Renamed([2]string{"temperature", ofRoom + "/temperature"}, [2]string{"rh_pct", ofRoom + "/rh_pct"}))
	if !(emc.Moisture.Value > 0) {
		return 0, nil
	}
	return float64(emc.Moisture.SD() / emc.Moisture.Value), nil
}

// course is one run through the room.
type course struct {
	mean, outside, inside []quantity.Moisture
	years                 int
}

// course runs the sides of a part at a speed, from wood at rest at m.
func (s *Season) course(ctx context.Context, room *Room, part *Part, r resist, v speed, m quantity.Moisture, notes *method.Notes) (course, error) {
	sides := part.sides(r, v)
	var out course
	for i := range sides {
		c, years, err := s.around(ctx, room, part, &sides[i], m)
		if err != nil {
			return course{}, err
		}
		if v == asKnown {
			notes.Merge(outward(c.Notes))
		}
		out.years = max(out.years, years)
		share := quantity.Moisture(sides[i].depth / part.Thickness)
		if len(sides) == 1 {
			share = 1
		}
		if i == 0 {
			out.mean = make([]quantity.Moisture, len(c.Mean))
		}
		faces := [2]*[]quantity.Moisture{&out.outside, &out.inside}
		*faces[sides[i].face] = append([]quantity.Moisture{}, c.Shell...)
		if len(sides) == 1 {
			far := c.Shell
			if part.Faces[0] != part.Faces[1] { // the closed face rests with the core
				far = c.Core
			}
			*faces[1-sides[i].face] = append([]quantity.Moisture{}, far...)
		}
		for k := range c.Mean {
			out.mean[k] += share * c.Mean[k]
		}
	}
	return out, nil
}

// outward leaves out what the model says of the thickness of a side, which is not
// that of the part; the part's own was checked.
func outward(n method.Notes) method.Notes {
	kept := method.Notes{Basis: n.Basis}
	for _, w := range n.Warnings {
		if w.Method != "drying.slab" || w.Input != "thickness" {
			kept.Warn(w)
		}
	}
	return kept.Renamed([2]string{"phases/0/", ofRoom + "/"})
}

// around runs one side through the room until the year comes round: where each
// year moves the profile by the same share of the year before, it is shifted on
// by what is still to come (Aitken, with the slowest mode as the direction).
func (s *Season) around(ctx context.Context, room *Room, part *Part, sd *side, m quantity.Moisture) (drying.Course, int, error) {
	job := drying.Job{
		Transport: part.Transport, Thickness: 2 * sd.depth, Factor: sd.factor, Initial: m, History: drying.NoHysteresis,
		Phases: []drying.Phase{{Length: room.span, Climate: room.climate, Exposure: sd.exposure}},
		Times:  room.times(), Setting: drying.Coarse(),
	}
	before := math.NaN()
	var leap leaps
	for n := 1; ; n++ {
		solver := &s.solvers[n%2]
		solver.Work = s.Work
		c, err := solver.Run(ctx, &job)
		if err != nil {
			return c, n, err
		}
		moved := float64(c.Final - c.Mean[0])
		ratio := moved / before
		ahead := 0.0 // still to come
		if ratio > 0 && ratio < 0.99 {
			ahead = moved * ratio / (1 - ratio)
		}
		off := math.Abs(moved) + math.Abs(ahead)
		if !room.repeats || n > 1 && off < float64(cameRound) {
			return c, n, nil
		}
		if n == mostYears {
			if off > float64(nearlyRound) {
				c.Notes.Warn(method.Warning{Code: method.Assumption, Method: yearRow.ID, Input: "thickness",
					Detail: "the part is so slow that its year has not quite come round; its mean may still drift by some tenths of a point"})
			}
			return c, n, nil
		}
		leap.landed(math.Abs(moved))
		job.Profile, before = solver.MoistureAt, moved
		if last := &s.solvers[(n+1)%2]; ahead != 0 {
			far := quantity.Moisture(leap.far(math.Abs(moved), ratio/(1-ratio)))
			job.Profile, before = extrapolated(solver, last, far), math.NaN()
		}
	}
}

// extrapolated is the profile of now, shifted on by far times its change since
// before. It is sampled at once, because both solvers go on.
func extrapolated(now, before *drying.Solver, far quantity.Moisture) func(float64) quantity.Moisture {
	const pieces = 64
	var samples [pieces + 1]quantity.Moisture
	for i := range samples {
		depth := 0.5 * float64(i) / pieces
		m := now.MoistureAt(depth)
		samples[i] = min(max(m+far*(m-before.MoistureAt(depth)), 0), 1)
	}
	return func(depth float64) quantity.Moisture {
		u := math.Min(math.Max(2*depth*pieces, 0), pieces)
		i := min(int(u), pieces-1)
		w := quantity.Moisture(u - float64(i))
		return samples[i] + w*(samples[i+1]-samples[i])
	}
}
