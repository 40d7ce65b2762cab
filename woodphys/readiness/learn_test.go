package readiness

import (
	"context"
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

func weightOf(at, grams float64) Observation {
	return Observation{Kind: Weight, At: quantity.Duration(at) * quantity.Day, Weighing: moisture.Weighing{Mass: quantity.Mass(grams) * quantity.Gram, Resolution: quantity.Gram}}
}

// series is weights of a piece of ovendry mass od (g) that follows the forecast of
// parameters x.
func series(t testing.TB, s Setup, x point, od float64, days ...float64) []Observation {
	t.Helper()
	full, err := s.complete(new(method.Notes))
	require.NoError(t, err)
	times := make([]quantity.Duration, len(days))
	for i, d := range days {
		times[i] = quantity.Duration(d) * quantity.Day
	}
	c, err := newSlab(&full).run(context.Background(), x, times, nil)
	require.NoError(t, err)
	var list []Observation
	for i, d := range days {
		list = append(list, weightOf(d, od*(1+float64(c.Mean[i]))))
	}
	return list
}

// A billet of two years, weighed eight times, with readings that follow a known
// course: what was put in comes out, and every answer hangs together.
func TestWeighingsTellTheCourse(t *testing.T) {
	s := billet(t)
	now := 500 * quantity.Day
	s.Exact = []quantity.Duration{now}
	list := series(t, s, point{0.02, math.Log(0.62), 0.72}, 4000, 0, 30, 60, 120, 200, 300, 400, 500)
	p, err := Learn(context.Background(), s, list)
	require.NoError(t, err)
	assert.Empty(t, p.Contradictions)
	assert.Equal(t, FromMode, p.Method)
	assert.Equal(t, 8, p.Used)
	assert.Greater(t, p.EffectiveSize, 35.0)
	for _, c := range []struct {
		name             string
		truth, low, high float64
	}{
		{"factor", 0.62, p.Factor.Low, p.Factor.High}, {"start", 0.72, float64(p.StartMC.Low), float64(p.StartMC.High)},
		{"scale", math.Exp(0.02), p.EMCScale.Low, p.EMCScale.High}, {"ovendry", 4, float64(p.Ovendry[0].Low), float64(p.Ovendry[0].High)},
	} {
		assert.Less(t, c.low, c.truth, c.name)
		assert.Greater(t, c.high, c.truth, c.name)
	}
	prior, err := Learn(context.Background(), s, nil)
	require.NoError(t, err)
	assert.Less(t, p.Factor.High-p.Factor.Low, 0.85*(prior.Factor.High-prior.Factor.Low))

	c, err := p.Now(now)
	require.NoError(t, err)
	before, err := prior.Now(now)
	require.NoError(t, err)
	assert.Less(t, c.Mean.High-c.Mean.Low, 0.8*(before.Mean.High-before.Mean.Low))
	assert.Greater(t, c.Core.Value, c.Shell.Value)
	// the mass on the day is known to a gram, so the ovendry mass and the moisture
	// content say the same
	assert.InEpsilon(t, list[7].Weighing.Mass.Kilograms(), float64(p.Ovendry[0].Value)*(1+float64(c.Mean.Value)), 0.006)

	course, err := p.Course(regular(p, 100))
	require.NoError(t, err)
	for i, b := range course.Mean {
		assert.True(t, b.Low <= b.Value && b.Value <= b.High)
		assert.LessOrEqual(t, course.Shell[i].Value, course.Core[i].Value+0.03)
	}
	assert.Less(t, course.Mean[99].High, course.Mean[0].Low)

	for _, step := range Steps() {
		limits := LimitsFor(step, s.Thickness)
		v, notes, err := p.Judge(step, limits, room(), now)
		require.NoError(t, err)
		assert.Equal(t, NotReady, v.Outcome, "outdoors at the end of summer it is above the shop")
		assert.Equal(t, 1, v.Failed)
		assert.Contains(t, v.Detail, "points from the target")
		assert.Contains(t, notes.Basis, "readiness.joint")
		d, err := p.ReadyDate(limits, room(), now, 0)
		require.NoError(t, err)
		assert.Greater(t, d.Median.At, 730*quantity.Day, "not before it is brought in")
		a, err := p.NextReading(limits, room(), now)
		require.NoError(t, err)
		require.Len(t, a.Options, 5)
		for _, o := range a.Options {
			assert.GreaterOrEqual(t, o.Gain, 0.0)
			assert.LessOrEqual(t, float64(o.SpreadAfter), 1.03*float64(o.Spread))
			assert.LessOrEqual(t, a.Options[a.Best].Gain, 1.0)
			assert.NotEmpty(t, o.IfAbove.Detail)
			assert.NotContains(t, o.IfAbove.Detail+o.IfBelow.Detail, "about 0 days")
			if o.Kind == Weight {
				assert.Less(t, o.Mass.Low, o.Mass.High)
				assert.InEpsilon(t, 4.6, float64(o.Mass.Value), 0.03)
			}
		}
		assert.NotEqual(t, Pin, a.Options[a.Best].Kind, "a meter errs by more than is open")
	}
}

// An answer scores itself: weights that follow the forecast fall into the bands foretold
// of them, weights that jump about do not.
func TestWeightsAreForetold(t *testing.T) {
	s := billet(t)
	days := []float64{0, 30, 60, 120, 200, 300, 400, 500}
	list := series(t, s, point{0.02, math.Log(0.62), 0.72}, 4000, days...)
	p, err := Learn(context.Background(), s, list)
	require.NoError(t, err)
	assert.Equal(t, 7, p.Foretold.Of, "of the first nothing is foretold")
	assert.GreaterOrEqual(t, p.Foretold.Held, 6)
	for i := range list {
		list[i].Weighing.Mass *= quantity.Mass(1 + 0.03*float64(i%2*2-1))
	}
	p, err = Learn(context.Background(), s, list)
	require.NoError(t, err)
	assert.Less(t, p.Foretold.Held, p.Foretold.Of)
	p, err = Learn(context.Background(), s, list[:3])
	require.NoError(t, err)
	assert.Zero(t, p.Foretold)
}

// Readings at several depths: the core reads wetter than the shell, and both
// inform the mean.
func TestDepthsAreTold(t *testing.T) {
	s := billet(t)
	s.Phases = season(t, "madison", 100, 200*quantity.Day, 0)
	at := 40 * quantity.Day
	prior, err := Learn(context.Background(), s, nil)
	require.NoError(t, err)
	c, err := prior.Now(at)
	require.NoError(t, err)
	require.Greater(t, c.Gradient.Value, quantity.Moisture(0.05))
	deep, err := Learn(context.Background(), s, []Observation{
		{Kind: Sample, At: at, MC: c.Core.Value, SD: 0.01, Depth: 0.5, DepthKnown: true},
		{Kind: Sample, At: at, MC: c.Shell.Value, SD: 0.01, Part: moisture.Shell},
	})
	require.NoError(t, err)
	require.Empty(t, deep.Contradictions)
	got, err := deep.Now(at)
	require.NoError(t, err)
	assert.InDelta(t, float64(c.Mean.Value), float64(got.Mean.Value), 0.02)
	assert.Less(t, got.Mean.High-got.Mean.Low, c.Mean.High-c.Mean.Low)
	// the same figure from a meter of which the depth is not known tells less
	known, err := Learn(context.Background(), s, []Observation{{Kind: Sample, At: at, MC: c.Mean.Value, SD: 0.01}})
	require.NoError(t, err)
	spot, err := Learn(context.Background(), s, []Observation{{Kind: Sample, At: at, MC: c.Mean.Value, SD: 0.01, Part: moisture.Spot}})
	require.NoError(t, err)
	a, err := known.Now(at)
	require.NoError(t, err)
	b, err := spot.Now(at)
	require.NoError(t, err)
	assert.Less(t, a.Mean.High-a.Mean.Low, b.Mean.High-b.Mean.Low)
}

// Twenty readings over three years are answered on one core in 150 ms and 8 MiB;
// the allocation is asserted, the time is left to the benchmark.
func TestAllocationIsBounded(t *testing.T) {
	s := billet(t)
	var days []float64
	for i := range 20 {
		days = append(days, float64(i)*25)
	}
	list := series(t, s, point{0.05, math.Log(0.62), 0.72}, 4000, days...)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := Learn(context.Background(), s, list)
	runtime.ReadMemStats(&after)
	require.NoError(t, err)
	bytes := after.TotalAlloc - before.TotalAlloc
	t.Logf("%.1f MiB", float64(bytes)/(1<<20))
	assert.Less(t, bytes, uint64(8<<20))
}

// A hundred and eighty weights of which ten are wrong: the most work a fit can be.
func BenchmarkLearnManyWrong(b *testing.B) {
	s := billet(b)
	var days []float64
	for i := range 180 {
		days = append(days, float64(i)*3)
	}
	list := series(b, s, point{0.05, math.Log(0.62), 0.72}, 4000, days...)
	for i := range 10 {
		list[i*17+3].Weighing.Mass *= quantity.Mass(1.05 + 0.02*float64(i))
	}
	b.ReportAllocs()
	for b.Loop() {
		p, err := Learn(context.Background(), s, list)
		require.NoError(b, err)
		require.Len(b, p.Contradictions, 10)
	}
}

func BenchmarkLearn(b *testing.B) { learning(b, billet(b)) }

// BenchmarkLearnWithEnds is BenchmarkLearn of a piece of 200 mm with bare ends.
func BenchmarkLearnWithEnds(b *testing.B) {
	s := billet(b)
	var notes method.Notes
	var err error
	s.Ends, err = drying.NewEndGrain(s.Wood, 200*quantity.Millimetre, drying.BareEnds, s.Factor, 1, &notes)
	require.NoError(b, err)
	learning(b, s)
}

func learning(b *testing.B, s Setup) {
	b.Helper()
	var days []float64
	for i := range 20 {
		days = append(days, float64(i)*25)
	}
	obs := series(b, s, point{0.05, math.Log(0.62), 0.72}, 4000, days...)
	b.ReportAllocs()
	for b.Loop() {
		p, err := Learn(context.Background(), s, obs)
		require.NoError(b, err)
		limits := LimitsFor(Glue, s.Thickness)
		_, _, err = p.Judge(Glue, limits, room(), 500*quantity.Day)
		require.NoError(b, err)
		_, err = p.ReadyDate(limits, room(), 500*quantity.Day, 0)
		require.NoError(b, err)
		_, err = p.NextReading(limits, room(), 500*quantity.Day)
		require.NoError(b, err)
		if b.N == 1 {
			b.Logf("%d runs %s %.0f", p.Runs, p.Method, p.EffectiveSize)
		}
	}
}
