package drying

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

func testTransport(tb testing.TB, g float64) *Transport {
	tb.Helper()
	tr, err := NewTransport(wood.Wood{SpecificGravity: wood.Published(g)})
	require.NoError(tb, err)
	return tr
}

func mustConstant(tb testing.TB, c, rh float64) *Climate {
	tb.Helper()
	cl, err := Constant(quantity.Celsius(c), rh)
	require.NoError(tb, err)
	return cl
}

// linearRun runs the linear mode of the solver: half thickness 1 (scaled), D 1
// per unit of fo, excess from 1 to 0, and returns mean, middle and face.
func linearRun(t *testing.T, s *Solver, bi, fo float64, set Setting) (mean, middle, face float64, c Course) {
	t.Helper()
	const half = 0.0125
	d := 1e-10
	s.linear = &linearLaw{d: d, coefficient: bi * d / half, equilibrium: 0}
	defer func() { s.linear = nil }()
	seconds := fo * half * half / d
	job := Job{
		Transport: testTransport(t, 0.5), Thickness: 2 * half, Factor: 1, Initial: 1, History: NoHysteresis,
		Phases: []Phase{{Length: quantity.Duration(seconds), Climate: mustConstant(t, 20, 0.5), Exposure: OpenStack()}},
		Times:  []quantity.Duration{quantity.Duration(seconds)}, Depths: []float64{0.5}, Setting: set,
	}
	c, err := s.Run(context.Background(), &job)
	require.NoError(t, err)
	return float64(c.Mean[0]), float64(c.Depth[0][0]), float64(c.Surface[0]), c
}

// The solver against the series. Tolerance 1e-4 is the aim for every one.
func TestLinearModeMeetsSeriesSolution(t *testing.T) {
	var s Solver
	set := Setting{Cells: 24, Tolerance: 1e-6}
	worst := 0.0
	for _, bi := range []float64{0.1, 0.5, 1, 2, 5, 10, 20, 100} {
		for _, fo := range []float64{0.05, 0.1, 0.2, 0.5, 1, 2} {
			mean, middle, face, c := linearRun(t, &s, bi, fo, set)
			wantMean := seriesMean(bi, fo)
			wantMiddle := seriesLocal(bi, fo, 0)
			wantFace := seriesLocal(bi, fo, 1)
			assert.InDelta(t, wantMean, mean, 1e-4, "mean Bi %g Fo %g", bi, fo)
			assert.InDelta(t, wantMiddle, middle, 1e-4, "middle Bi %g Fo %g", bi, fo)
			assert.InDelta(t, wantFace, face, 1e-4, "face Bi %g Fo %g", bi, fo)
			assert.Less(t, c.Imbalance, 1e-10, "conservation")
			worst = math.Max(worst, math.Max(math.Abs(mean-wantMean), math.Max(math.Abs(middle-wantMiddle), math.Abs(face-wantFace))))
		}
	}
	t.Logf("48 cases of Bi 0.1 to 100, Fo 0.05 to 2: largest difference %.1e", worst)
}

func TestSeriesPublished(t *testing.T) {
	for bi, want := range map[float64][]float64{ // Leach, Essentials of Applied Mathematics, table A.1 (read)
		0.1: {0.3111, 3.1731, 6.2991}, 0.5: {0.6533, 3.2923, 6.3616}, 1: {0.8603, 3.4256, 6.4373}, 2: {1.0769, 3.6436, 6.5783},
		5: {1.3138, 4.0336, 6.9096}, 10: {1.4289, 4.3058, 7.2281}, 20: {1.4961, 4.4915, 7.4954},
	} {
		assert.InDeltaSlice(t, want, seriesRoots(bi, 3), 6e-5, "Bi %g; printed to four decimals", bi)
	}
	inf := math.Inf(1)
	// Crank 1975 eqs. 4.53, 4.50 and, for infinite Bi, 4.18, of 200 terms, computed apart
	// from this code
	for _, c := range []struct{ bi, fo, want float64 }{
		{1, 0.2, 0.85160}, {1, 1, 0.47040}, {5, 0.2, 0.64902}, {5, 0.5, 0.38517}, {10, 0.1, 0.72612}, {10, 0.5, 0.31502},
		{inf, 0.05, 0.74769}, {inf, 0.2, 0.49591}, {inf, 0.5, 0.23605},
	} {
		assert.InDelta(t, c.want, seriesMean(c.bi, c.fo), 1e-5, "Bi %g Fo %g", c.bi, c.fo)
	}
	assert.InDelta(t, 0.77253, seriesLocal(1, 0.5, 0), 1e-5)
	assert.InDelta(t, 0.50452, seriesLocal(1, 0.5, 1), 1e-5)
	// one-term plane wall coefficients (Cengel, Incropera tables; from memory)
	assert.InDelta(t, 1.0161, seriesShare(seriesRoots(0.1, 1)[0]), 1e-4)
	assert.InDelta(t, 1.2620, seriesShare(seriesRoots(10, 1)[0]), 1e-4)
	// half-time: D t/thickness^2 = -(1/pi^2) ln(pi^2/16 - (pi^2/16)^9/9), Crank 1975 ch. 10
	// (from memory); Fo is over half the thickness squared
	assert.InDelta(t, 0.5, seriesMean(inf, 4*0.04919), 5e-5)
}

// Order in space: error against the series for 6 to 48 cells on an even grid
// ratio, with a tiny time tolerance.
func TestOrderInSpace(t *testing.T) {
	errors := []float64{}
	for _, cells := range []int{6, 12, 24, 48} {
		var s Solver
		s.fixedStep = 0
		mean, _, _, _ := linearRun(t, &s, 5, 0.3, Setting{Cells: cells, Tolerance: 1e-9, MaxSteps: 2_000_000})
		want := seriesMean(5, 0.3)
		errors = append(errors, math.Abs(mean-want))
	}
	order := math.Log2(errors[0]/errors[2]) / 2
	t.Logf("errors %.2e, order from 6 to 24 cells %.2f", errors, order)
	assert.GreaterOrEqual(t, order, 1.9)
}

// Order in time: fixed steps on one grid against a fine run of the same grid, on
// the nonlinear problem with seasons, started from a smooth profile.
func TestOrderInTime(t *testing.T) {
	job := seasonJob(t)
	job.History = NoHysteresis
	job.Phases[0].Length, job.Times = 30*quantity.Day, nil
	var first Solver // past the first transient, which no fixed step follows
	_, err := first.Run(context.Background(), &job)
	require.NoError(t, err)
	job.Profile = first.MoistureAt
	job.Phases[0].Climate, err = Station(madison(), 150)
	require.NoError(t, err)
	job.Phases[0].Length = 80 * quantity.Day
	run := func(days float64) float64 {
		var s Solver
		s.fixedStep = days * day
		c, err := s.Run(context.Background(), &job)
		require.NoError(t, err)
		return float64(c.Final)
	}
	fine := run(0.03125)
	errors := []float64{}
	for _, h := range []float64{4, 2, 1, 0.5} {
		errors = append(errors, math.Abs(run(h)-fine))
	}
	order := math.Log2(errors[0]/errors[3]) / 3
	t.Logf("errors %.2e, order %.2f", errors, order)
	assert.GreaterOrEqual(t, order, 1.9)
}

func madison() Normals {
	// Madison WI, monthly means of temperature 1981-2010 and of relative humidity,
	// NOAA NCEI Comparative Climatic Data 2018 (read), as in the station table.
	n := Normals{HasTemperature: true, RH: [12]float64{.74, .73, .71, .665, .67, .69, .705, .74, .74, .715, .74, .765}}
	for i, c := range []float64{-7.3, -4.9, 1.1, 8.1, 14.1, 19.4, 21.8, 20.7, 16.1, 9.4, 2.3, -5.0} {
		n.Temperature[i] = quantity.Celsius(c)
	}
	return n
}

// seasonJob is three years in an open stack at Madison, stacked on 1 May.
func seasonJob(tb testing.TB) Job {
	tb.Helper()
	cl, err := Station(madison(), 120)
	require.NoError(tb, err)
	job := Job{
		Transport: testTransport(tb, 0.56), Thickness: 25.4 * quantity.Millimetre, Factor: 0.5, Initial: 0.72,
		Phases:  []Phase{{Length: 1095 * quantity.Day, Climate: cl, Exposure: OpenStack()}},
		Setting: Standard(),
	}
	for d := 5.0; d <= 1095; d += 5 {
		job.Times = append(job.Times, quantity.Duration(d)*quantity.Day)
	}
	return job
}

// The error of the settings against a fine run, every five days for three years,
// with hysteresis and frost. The mean is what the settings promise.
func TestSettingsKeepTheirError(t *testing.T) {
	for _, mm := range []float64{10, 25.4, 52, 100} {
		job := seasonJob(t)
		job.Thickness = quantity.Length(mm) * quantity.Millimetre
		var s, reference Solver
		job.Setting = Setting{Cells: 96, Tolerance: 1e-7, MaxSteps: 1_000_000}
		fine, err := reference.Run(context.Background(), &job)
		require.NoError(t, err)
		for _, set := range []struct {
			name    string
			setting Setting
			allowed float64 // %MC of the mean
		}{{"standard", Standard(), 0.02}, {"coarse", Coarse(), 0.1}} {
			job.Setting = set.setting
			c, err := s.Run(context.Background(), &job)
			require.NoError(t, err)
			assert.Less(t, c.Imbalance, 1e-10, "conservation")
			var mean, shell, core float64
			for i := range c.Mean {
				mean = math.Max(mean, math.Abs((c.Mean[i] - fine.Mean[i]).Percent()))
				shell = math.Max(shell, math.Abs((c.Shell[i] - fine.Shell[i]).Percent()))
				core = math.Max(core, math.Abs((c.Core[i] - fine.Core[i]).Percent()))
			}
			t.Logf("%5.1f mm %-8s: %d steps (+%d again), fine %d; worst mean %.4f, shell %.4f, core %.4f %%MC; imbalance %.0e",
				mm, set.name, c.Steps, c.Rejected, fine.Steps, mean, shell, core, c.Imbalance)
			assert.LessOrEqual(t, mean, set.allowed, "%s, %g mm", set.name, mm)
		}
	}
}

// dailyLog is the seasons of Madison with weather: changes from day to day drawn
// with a fixed seed, a memory of about three days, 4 K and 9 %RH wide.
func dailyLog(tb testing.TB, days int) *Climate {
	tb.Helper()
	base, err := Station(madison(), 120)
	require.NoError(tb, err)
	random := rand.New(rand.NewPCG(1, 2))
	rows, dt, dh := make([]Reading, days+1), 0.0, 0.0
	for i := range rows {
		dt, dh = 0.7*dt+0.71*4*random.NormFloat64(), 0.7*dh+0.71*0.09*random.NormFloat64()
		at := quantity.Duration(i) * quantity.Day
		c, h := base.At(at)
		rows[i] = Reading{Time: at, Temperature: c.Add(quantity.TemperatureDifference(dt)), RH: min(max(h+dh, 0.2), 1)}
	}
	cl, err := Logged(rows)
	require.NoError(tb, err)
	return cl
}

func BenchmarkThreeYearsDailyLog(b *testing.B) {
	job := seasonJob(b)
	job.Phases[0].Climate = dailyLog(b, 1095)
	var s Solver
	ctx := context.Background()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Run(ctx, &job); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(s.course.Steps), "steps")
}

// The case of testdata/drying/slab_timing.txt, which scipy's BDF was timed on.
func BenchmarkThreeYearsNoHysteresis(b *testing.B) {
	job := seasonJob(b)
	job.History = NoHysteresis
	var s Solver
	ctx := context.Background()
	for b.Loop() {
		if _, err := s.Run(ctx, &job); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(s.course.Steps), "steps")
}

func BenchmarkOneYearCoarse(b *testing.B) {
	job := seasonJob(b)
	job.Setting, job.Phases[0].Length, job.Times = Coarse(), 365*quantity.Day, []quantity.Duration{365 * quantity.Day}
	var s Solver
	ctx := context.Background()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Run(ctx, &job); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(s.course.Steps), "steps")
}

func BenchmarkThreeYearsSeasons(b *testing.B) {
	for name, set := range map[string]Setting{"standard": Standard(), "coarse": Coarse()} {
		b.Run(name, func(b *testing.B) {
			job := seasonJob(b)
			job.Setting = set
			var s Solver
			ctx := context.Background()
			b.ReportAllocs()
			for b.Loop() {
				if _, err := s.Run(ctx, &job); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(s.course.Steps), "steps")
		})
	}
}
