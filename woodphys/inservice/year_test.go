package inservice_test

import (
	"math"
	"math/cmplx"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/air"
	"latewood/woodphys/drying"
	"latewood/woodphys/inservice"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// A slab with a surface resistance under air that swings as exp(i w t) answers in
// the mean with
//
//	H = tanh(q)/q / (1 + q tanh(q)/Bi),  q = (1+i) l sqrt(w/2D), Bi = S l/D
//
// (l half the thickness), the periodic state of diffusion: Carslaw and Jaeger,
// Conduction of Heat in Solids, ch. 3 (from memory), derived anew: cosh(q x/l) in
// the slab, D dM/dx = S (M_air - M) at the face. The air swings by 3 %RH, so that
// D and the isotherm are nearly straight; the swing is compared to 2 % of the
// amplitude in the air, the lag to 2 days.
func TestPeriodicDiffusion(t *testing.T) {
	const celsius, rh, swingRH, g = 20.0, 0.5, 0.03, 0.4
	room := twoSeasons(t, celsius, rh-swingRH, rh+swingRH)
	temperature := quantity.Celsius(celsius)
	curve := sorption.NewIsotherm(temperature)
	amplitude := curve.Slope(rh) * swingRH
	omega := 2 * math.Pi / (365 * 86400)
	for _, c := range []struct {
		mm, factor float64
		finish     string
	}{
		{0.5, 0.4, "bare"},
		{1, 0.4, "varnish"},
		{3, 0.4, "bare"},
		{3, 0.4, "varnish"},
		{20, 0.5, "bare"},
		{20, 0.5, "shellac"},
		{50, 0.3, "bare"},
		{50, 0.3, "epoxy"},
		{100, 0.05, "bare"},
		{100, 0.05, "lacquer"},
		{200, 0.02, "bare"},
	} {
		f := finish(t, c.finish)
		part := partOf(t, c.mm, c.factor, f, f)
		y := yearOf(t, room, part)
		d, err := part.Transport.Diffusivity(curve.At(rh), temperature)
		require.NoError(t, err)
		d *= c.factor
		vapour := air.SaturationPressureOverWater(temperature).Pascals() / (461.5 * temperature.Kelvin())
		s := vapour / (g * 1000 * curve.Slope(rh)) / (1/0.003 + f.Resistance)
		l := c.mm / 2000
		q := cmplx.Sqrt(complex(0, omega/d)) * complex(l, 0)
		h := cmplx.Tanh(q) / q / (1 + q*cmplx.Tanh(q)/complex(s*l/d, 0))
		// the first harmonic of the answer, against a summer half a year after mid-January (day 15.5)
		var harmonic complex128
		for i, at := range y.Times[:len(y.Times)-1] {
			harmonic += cmplx.Rect(2*float64(y.Mean[i].Value)/float64(len(y.Times)-1), -omega*(at.Seconds()-(15.5+182.5)*86400))
		}
		wantLag, gotLag := -cmplx.Phase(h)/omega/86400, -cmplx.Phase(harmonic)/omega/86400
		got := cmplx.Abs(harmonic) / amplitude
		t.Logf("%5.0f mm %-8s k %.2f: amplitude %.4f (analytic %.4f), lag %.1f d (%.1f d), %d years", c.mm, c.finish, c.factor, got, cmplx.Abs(h), gotLag, wantLag, y.Years)
		assert.InDelta(t, got, swing(&y)/100/(2*amplitude), 0.02, "the extremes are those of the harmonic")
		assert.InDelta(t, cmplx.Abs(h), got, 0.02)
		if cmplx.Abs(h) > 0.05 { // below, the swing is no larger than the tolerance of the steps
			assert.InDelta(t, wantLag, gotLag, 2)
		}
	}
}

// Very thin and bare: the wood is where the EMC of the month is, to 0.1 %MC.
func TestThinAndBareFollowsTheAir(t *testing.T) {
	room := heatedRoom(t)
	y := yearOf(t, room, partOf(t, 0.6, 1, finish(t, "bare"), finish(t, "bare")))
	driest, wettest := math.Inf(1), 0.0
	for d := range 365 {
		temperature, rh := room.At(quantity.Duration(d) * quantity.Day)
		emc := sorption.NewIsotherm(temperature).At(rh)
		driest, wettest = math.Min(driest, emc.Percent()), math.Max(wettest, emc.Percent())
	}
	assert.InDelta(t, driest, y.Dry.Mean.Value.Percent(), 0.1)
	assert.InDelta(t, wettest, y.Wet.Mean.Value.Percent(), 0.1)
	assert.Greater(t, wettest-driest, 5.0, "or the room tells nothing")
}

// Very thick and closed: it hardly moves, and rests near the mean of the EMC.
func TestThickAndClosedHardlyMoves(t *testing.T) {
	f := finish(t, "epoxy")
	y := yearOf(t, heatedRoom(t), partOf(t, 200, 0.1, f, f))
	assert.Less(t, swing(&y), 0.3)
	bare := yearOf(t, heatedRoom(t), partOf(t, 2, 0.5, finish(t, "bare"), finish(t, "bare")))
	var mean float64
	for _, m := range bare.Mean {
		mean += m.Value.Percent() / float64(len(bare.Mean))
	}
	assert.InDelta(t, mean, y.Mean[0].Value.Percent(), 0.8, "a nonlinear slab rests a little off the mean")
}

// A thicker part and a closer finish never swing more, but for the 0.05 %MC of
// the numbers at each end.
func TestMonotone(t *testing.T) {
	room := heatedRoom(t)
	var s inservice.Season
	rapid.Check(t, func(rt *rapid.T) {
		mm := rapid.Float64Range(0.8, 120).Draw(rt, "mm")
		resistance := rapid.Float64Range(0, 2e5).Draw(rt, "resistance")
		factor := rapid.Float64Range(0.1, 1).Draw(rt, "factor")
		year := func(mm, resistance float64) float64 {
			f, err := inservice.OwnFinish("own", resistance)
			require.NoError(rt, err)
			y, err := s.YearOf(t.Context(), room, partOf(t, mm, factor, f, f))
			require.NoError(rt, err)
			for _, m := range y.Mean {
				require.True(rt, m.Low <= m.Value && m.Value <= m.High)
			}
			require.True(rt, y.Dry.Mean.Low <= y.Dry.Mean.Value && y.Dry.Mean.Value <= y.Dry.Mean.High)
			require.Less(rt, y.Dry.Mean.Value, y.Wet.Mean.Value)
			return swing(&y)
		}
		here := year(mm, resistance)
		require.LessOrEqual(rt, year(mm*1.3, resistance), here+0.1)
		require.LessOrEqual(rt, year(mm, resistance*1.3+1000), here+0.1)
	})
}

// A very thick part comes round as well, whatever drift a year seems to foretell: nothing rests
// damper or drier than what is a little thinner, but for some tenths.
func TestThickPartsComeRound(t *testing.T) {
	room := heatedRoom(t)
	var s inservice.Season
	last := math.NaN()
	for mm := 60.0; mm < 200; mm += 2.5 {
		f, err := inservice.OwnFinish("own", 0)
		require.NoError(t, err)
		y, err := s.YearOf(t.Context(), room, partOf(t, mm, 0.13427734375, f, f))
		require.NoError(t, err)
		mean := 0.0
		for _, m := range y.Mean {
			mean += m.Value.Percent() / float64(len(y.Mean))
		}
		if !math.IsNaN(last) {
			assert.InDelta(t, last, mean, 0.4, "%v mm", mm)
		}
		last = mean
	}
}

// The state comes round: a part that needs years is the same at the end as at
// the start, and starting it elsewhere would change nothing. Compared with a run
// of 60 years of the drying model without any extrapolation.
func TestComesRound(t *testing.T) {
	const mm, factor = 90, 0.1
	f := finish(t, "varnish")
	part := partOf(t, mm, factor, f, f)
	y := yearOf(t, heatedRoom(t), part)
	last := len(y.Mean) - 1
	assert.InDelta(t, y.Mean[0].Value.Percent(), y.Mean[last].Value.Percent(), 0.02)

	indoors := drying.Normals{HasTemperature: true}
	for m := range 12 {
		n := madison()
		outside := n.Temperature[m].Celsius()
		warm := math.Max(outside+2, 20)
		indoors.Temperature[m] = quantity.Celsius(warm)
		e := n.RH[m]*air.SaturationPressureOverWater(n.Temperature[m]).Pascals() + 300*math.Min(math.Max(1-outside/20, 0), 1)
		indoors.RH[m] = e / air.SaturationPressureOverWater(quantity.Celsius(warm)).Pascals()
	}
	climate, err := drying.Station(indoors, 0)
	require.NoError(t, err)
	var s drying.Solver
	long, err := s.Run(t.Context(), &drying.Job{Transport: part.Transport, Thickness: part.Thickness, Factor: factor, Initial: 0.14, History: drying.NoHysteresis,
		Phases: []drying.Phase{{Length: 60 * 365 * quantity.Day, Climate: climate, Exposure: drying.Exposure{FilmCoefficient: 0.003, CoatResistance: f.Resistance}}}, Setting: drying.Standard()})
	require.NoError(t, err)
	t.Logf("lag %.0f days, %d years run; end of year %.3f, after 60 years %.3f %%MC", y.Lag.Days(), y.Years, y.Mean[last].Value.Percent(), long.Final.Percent())
	assert.InDelta(t, long.Final.Percent(), y.Mean[last].Value.Percent(), 0.05)
}

// A weekly swing moves a thin bare plate and not a thick one.
func TestWeekMovesThinPlates(t *testing.T) {
	room := heatedRoom(t)
	weekly, err := room.Weekly(0.08)
	require.NoError(t, err)
	bare := finish(t, "bare")
	widened := func(mm float64) float64 {
		calm, swinging := yearOf(t, room, partOf(t, mm, 0.4, bare, bare)), yearOf(t, weekly, partOf(t, mm, 0.4, bare, bare))
		return swing(&swinging) - swing(&calm)
	}
	thin, thick := widened(2.5), widened(45)
	t.Logf("8 %%RH up and down within the week adds %.2f %%MC to 2.5 mm and %.2f to 45 mm", thin, thick)
	assert.Greater(t, thin, 1.0)
	assert.Less(t, thick, thin/5)
}

func BenchmarkYear(b *testing.B) {
	room := heatedRoom(b)
	for _, c := range []struct {
		name            string
		outside, inside string
	}{{"both faces alike", "varnish", "varnish"}, {"one face finished", "varnish", "bare"}} {
		b.Run(c.name, func(b *testing.B) {
			part := partOf(b, 3, 0.4, finish(b, c.outside), finish(b, c.inside))
			var s inservice.Season
			for b.Loop() {
				if _, err := s.YearOf(b.Context(), room, part); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A thick body behind a closed finish has a time constant of a year or more; its extremes
// come at most a quarter of a year late, as periodic diffusion has it, and are told so.
func TestDelayIsNotTheTimeConstant(t *testing.T) {
	room := heatedRoom(t)
	thin := yearOf(t, room, partOf(t, 2, 1, finish(t, "bare"), finish(t, "bare")))
	assert.Less(t, thin.Delay.Days(), 10.0)
	thick := yearOf(t, room, partOf(t, 60, 0.1, finish(t, "varnish"), finish(t, "varnish")))
	t.Logf("time constant %.0f days, delay %.0f", thick.Lag.Days(), thick.Delay.Days())
	assert.Greater(t, thick.Lag.Days(), 300.0)
	assert.Greater(t, thick.Delay.Days(), 30.0)
	assert.Less(t, thick.Delay.Days(), 100.0)
}
