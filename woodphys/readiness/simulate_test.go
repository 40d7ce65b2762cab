package readiness

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// simulated is a billet whose truth is known: drawn from the setup it is later
// judged with, dried with the standard setting of the solver and both discrepancies, and
// read with errors as the package takes them.
type simulated struct {
	setup  Setup
	target Target
	now    quantity.Duration
	step   Step
	bent   bool
	rng    *rand.Rand

	plain    bool // no law but the model's: neither a lasting discrepancy nor errors of stays
	x        point
	aim      float64 // true target
	days     []quantity.Duration
	mean     []float64 // true, with the discrepancy
	model    []float64 // without
	gradient []float64
	ovendry  float64 // g
	bias     float64 // of the meter
}

// woods of the simulation: specific gravity and drying factor, rounded figures of
// spruce, poplar, walnut, maple and oak.
var simulatedWoods = [][2]float64{{0.37, 0.25}, {0.40, 0.28}, {0.51, 0.25}, {0.56, 0.5}, {0.57, 0.3}}

func simulate(t testing.TB, seed uint64) *simulated {
	t.Helper()
	return simulateBy(t, seed, simulated{})
}

// simulateBy dries the truth as told: with all that the setup allows for, with nothing
// beside the model and its weather if plain, and by another model if bent: no hysteresis,
// half the film coefficient, weather that lasts twice as long and strays by half as much
// again.
func simulateBy(t testing.TB, seed uint64, as simulated) *simulated {
	t.Helper()
	b := &as
	b.rng = rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15))
	u := func(low, high float64) float64 { return low + (high-low)*b.rng.Float64() }
	w := simulatedWoods[b.rng.IntN(len(simulatedWoods))]
	station := []string{"madison", "portland", "dry"}[b.rng.IntN(3)]
	outdoors := math.Round(u(250, 900))
	b.setup = Setup{
		Wood: wood.Wood{SpecificGravity: wood.Published(w[0])}, Factor: w[1], Thickness: quantity.Length(math.Round(u(20, 80))) * quantity.Millimetre,
		Phases:  season(t, station, math.Floor(u(0, 365)), quantity.Duration(outdoors)*quantity.Day, 1000*quantity.Day),
		StartMC: quantity.Moisture(u(0.5, 0.9)), StartSD: quantity.Moisture(u(0.03, 0.1)),
		Meters: []Meter{{BiasSD: 1.49 * quantity.PercentMC}},
	}
	b.ovendry = math.Exp(u(math.Log(500), math.Log(10000)))
	if b.rng.IntN(3) == 0 {
		b.setup.Bodies = []Body{{Ovendry: quantity.Mass(b.ovendry*math.Exp(0.02*b.rng.NormFloat64())) * quantity.Gram, OvendrySD: 0.02}}
	}
	b.target = Target{Mean: 0.084, SD: 0.003, WoodShare: DefaultWoodShare}
	b.step = []Step{Resaw, Resaw, Thickness, Glue}[b.rng.IntN(4)]
	s, err := b.setup.complete(new(method.Notes))
	require.NoError(t, err)
	b.setup = s

	wpart := math.Sqrt(DefaultWoodShare) * s.EMCLogSD * b.rng.NormFloat64()
	place := math.Sqrt(1-DefaultWoodShare) * s.EMCLogSD * b.rng.NormFloat64()
	b.x = point{wpart + place, math.Log(s.Factor) + wholeFactor*s.FactorLogSD*b.rng.NormFloat64(), float64(s.StartMC) + float64(s.StartSD)*b.rng.NormFloat64(),
		math.Log(s.Pace)}
	if !b.plain {
		b.x[iPace] += wholePace * s.PaceLogSD * b.rng.NormFloat64()
		for d := iStays; d < s.dims(); d++ {
			b.x[d] = b.rng.NormFloat64()
		}
	}
	b.x = s.hold(b.x)
	b.aim = float64(b.target.Mean)*math.Exp(wpart) + float64(b.target.SD)*b.rng.NormFloat64()
	b.bias = float64(s.Meters[0].BiasSD) * b.rng.NormFloat64()
	b.dry(t)
	b.now = b.days[int(u(20, outdoors+60))]
	return b
}

// dry runs the truth day by day.
func (b *simulated) dry(t testing.TB) {
	n := int(b.setup.horizon().Days())
	for d := range n + 1 {
		b.days = append(b.days, quantity.Duration(d)*quantity.Day)
	}
	w := b.setup.Wood
	w.EMCFactor = w.EMCScale() * math.Exp(b.x[iEMC])
	tr, err := drying.NewTransport(w)
	require.NoError(t, err)
	job := drying.Job{Transport: tr, Thickness: b.setup.Thickness, Factor: math.Exp(b.x[iFactor]), Pace: math.Exp(b.x[iPace]),
		Initial: quantity.Moisture(b.x[iStart]), History: b.setup.History, Phases: newSlab(&b.setup).until(&b.x, b.setup.horizon()),
		Times: b.days, Setting: drying.Standard()}
	keep, more := math.Exp(-1/b.setup.Discrepancy.Time.Days()), 1.0
	if b.bent {
		job.History, keep, more = drying.NoHysteresis, math.Sqrt(keep), 1.5
		job.Phases = slices.Clone(job.Phases)
		for i := range job.Phases {
			job.Phases[i].Exposure.FilmCoefficient /= 2
		}
	}
	var solver drying.Solver
	c, err := solver.Run(context.Background(), &job)
	require.NoError(t, err)
	wander, law := b.rng.NormFloat64(), b.lasting()
	for d := range b.days {
		m := float64(c.Mean[d])
		b.model = append(b.model, m)
		b.mean = append(b.mean, m+more*b.setup.quick(float64(b.days[d]), m)*wander+b.setup.lasts(float64(b.days[d]), m)*law.here)
		law.step(b.rng)
		b.gradient = append(b.gradient, float64(c.Core[d]-c.Shell[d]))
		wander = keep*wander + math.Sqrt(1-keep*keep)*b.rng.NormFloat64()
	}
}

// lasting is a path of the lasting discrepancy in its standard deviations, from day to
// day: the state (value, slope) that has the correlation of smooth.
type lasting struct {
	here, slope float64
	keep        [2][2]float64
	stir        [3]float64 // factor of what comes new: value, slope by value, slope
}

func (b *simulated) lasting() *lasting {
	if b.plain {
		return &lasting{}
	}
	l := math.Sqrt(3) / b.setup.Discrepancy.Lasting.Time.Days()
	e := math.Exp(-l)
	out := &lasting{here: b.rng.NormFloat64(), slope: l * b.rng.NormFloat64(), keep: [2][2]float64{{e * (1 + l), e}, {-e * l * l, e * (1 - l)}}}
	k := &out.keep
	among := func(i, j int) float64 { return k[i][0]*k[j][0] + l*l*k[i][1]*k[j][1] } // of what is kept
	out.stir[0] = math.Sqrt(1 - among(0, 0))
	out.stir[1] = -among(1, 0) / out.stir[0]
	out.stir[2] = math.Sqrt(max(l*l-among(1, 1)-out.stir[1]*out.stir[1], 0))
	return out
}

func (l *lasting) step(rng *rand.Rand) {
	a, b := rng.NormFloat64(), rng.NormFloat64()
	l.here, l.slope = l.keep[0][0]*l.here+l.keep[0][1]*l.slope+l.stir[0]*a, l.keep[1][0]*l.here+l.keep[1][1]*l.slope+l.stir[1]*a+l.stir[2]*b
}

func (b *simulated) today() int { return int(math.Round(b.now.Days())) }

// read returns n readings up to now: the first and the last of them weights, of
// the others seven tenths, two tenths meter and one tenth ovendry.
func (b *simulated) read(n int) []Observation {
	var list []Observation
	ends := 0.0 // by how much all samples lie from the piece, as a share
	if !b.plain {
		ends = sampleShare * b.rng.NormFloat64()
	}
	sample := reading{kind: Sample, ahead: sampleAhead}
	for i := range n {
		day := b.rng.IntN(b.today() + 1)
		if i == n-1 {
			day = b.today()
		}
		kind := b.rng.Float64()
		noise := b.rng.NormFloat64()
		m := b.near(day)
		switch {
		case i == 0 || i == n-1 || kind < 0.7:
			mass := b.ovendry * (1 + m) * (1 + scaleRepeats*noise)
			division := 1.0
			list = append(list, Observation{Kind: Weight, At: b.days[day], Weighing: moisture.Weighing{Mass: quantity.Mass(math.Round(mass/division)*division) * quantity.Gram, Resolution: quantity.Mass(division) * quantity.Gram}})
		case kind < 0.9:
			sd := 0.92 * quantity.PercentMC
			list = append(list, Observation{Kind: Pin, At: b.days[day], MC: quantity.Moisture(max(m+b.bias+float64(sd)*noise, 0.01)), SD: sd})
		default:
			sd := 0.6 * quantity.PercentMC
			list = append(list, Observation{Kind: Sample, At: b.days[day], MC: quantity.Moisture(max(sample.expect(m)+m*ends+float64(sd)*noise, 0.01)), SD: sd})
		}
	}
	return list
}

// near is what is read on a day that is written down: of another, by the usual error.
func (b *simulated) near(day int) float64 {
	if b.plain {
		return b.mean[day]
	}
	at := min(max(float64(day)+dayOff.Days()*b.rng.NormFloat64(), 0), float64(len(b.mean)-2))
	i := int(at)
	return b.mean[i] + (at-float64(i))*(b.mean[i+1]-b.mean[i])
}

// ready returns the true day from now on which the limits are first met, infinite
// for never.
func (b *simulated) ready(limits Limits) float64 {
	last := len(b.days) - 1
	for d := b.today(); d <= last; d++ {
		half := int(limits.span().Days() / 2)
		from, to := max(d-half, 0), min(d+half, last)
		rate := math.Abs(b.model[to]-b.model[from]) / float64(to-from)
		perDay, asked := limits.rest(b.model[d])
		gap := b.mean[d] - b.aim
		if gap >= -float64(limits.Below) && gap <= float64(limits.Above) && math.Abs(b.gradient[d]) <= float64(limits.Gradient) && !(asked && rate > perDay) {
			return float64(d)
		}
	}
	return math.Inf(1)
}

// score is what one fit of a simulated billet gave.
type score struct {
	readings                     int
	heldMC, heldDate, heldFactor bool
	proper                       bool    // the date is a date: hardly already, hardly never
	rank                         float64 // of the true date among those of the ensemble, ties at random; uniform if all is well
	widthMC, widthDate           float64
	size                         float64
	method                       string
	alarms                       int
}

func (b *simulated) score(t testing.TB, observations []Observation) score {
	p, err := Learn(context.Background(), b.setup, observations)
	require.NoError(t, err)
	c, err := p.Now(b.now)
	require.NoError(t, err)
	limits := LimitsFor(b.step, b.setup.Thickness)
	d, err := p.ReadyDate(limits, b.target, b.now, 0)
	require.NoError(t, err)
	holds := func(low, value, high float64) bool { return value >= low && value <= high }
	s := score{readings: len(observations), size: p.EffectiveSize, method: p.Method, alarms: len(p.Contradictions)}
	s.heldMC = holds(float64(c.Mean.Low), b.mean[b.today()], float64(c.Mean.High))
	s.heldFactor = holds(p.Factor.Low, math.Exp(b.x[iFactor]), p.Factor.High)
	s.widthMC = (c.Mean.High - c.Mean.Low).Percent()
	end := func(d Date) float64 {
		if !d.Within {
			return math.Inf(1)
		}
		return d.At.Days()
	}
	s.proper = d.Already+d.Never < 0.05
	s.heldDate = holds(end(d.Low)-0.5, b.ready(limits), end(d.High)+1) // the truth is told by whole days
	truth := b.ready(limits)
	below, equal := 0.0, 0.0
	for m, at := range p.dates(limits, &b.target, b.now, p.Horizon()) {
		switch day := math.Ceil(at / float64(quantity.Day)); {
		case day < truth:
			below += p.e.weight[m]
		case day == truth:
			equal += p.e.weight[m]
		}
	}
	s.rank = below + equal*b.rng.Float64()
	s.widthDate = end(d.High) - end(d.Low)
	return s
}

func median(v []float64) float64 {
	v = slices.Clone(v)
	slices.Sort(v)
	if len(v) == 0 {
		return math.NaN()
	}
	return v[len(v)/2]
}

func share(s []score, of func(score) bool) float64 {
	n := 0
	for i := range s {
		if of(s[i]) {
			n++
		}
	}
	return float64(n) / float64(max(len(s), 1))
}

func where(s []score, of func(score) bool) []score {
	return slices.DeleteFunc(slices.Clone(s), func(x score) bool { return !of(x) })
}
