package drying

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/air"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// What others measured of drying wood. The law was chosen while looking at these figures,
// so they are regressions and no proof: they say that one set of numbers meets them all.
// What it foretells of figures that fitted nothing is tested in package seasoning. Each
// test has its source, its mark (read or memory) and the tolerance that was fixed for it.
//
// Not here: the kiln schedules of oak, maple and walnut, of which the steps were not at
// hand.

// kilnRule is the red oak rule of Tschernitz and Simpson 1979 (memory): boards of a
// thickness in air of a temperature and a relative humidity lose their excess over
// equilibrium with this time constant in days.
func kilnRule(inches, c float64) float64 {
	mercury := air.SaturationPressureOverWater(quantity.Celsius(c)).Pascals() / 133.322
	return math.Pow(inches, 1.52) / (0.0575 + 0.00142*mercury)
}

// dried is how many days a board of a wood takes from one moisture content to another;
// pace is that of a wide pile.
func dried(t *testing.T, gravity, k, pace, mm, from, to float64, cl *Climate, e Exposure) float64 {
	t.Helper()
	f, err := ForThickness(Factor{Median: k}, quantity.Length(mm)*quantity.Millimetre)
	require.NoError(t, err)
	job := Job{Transport: testTransport(t, gravity), Thickness: quantity.Length(mm) * quantity.Millimetre, Factor: f.Median, Pace: pace,
		Initial: quantity.Moisture(from / 100), StopAt: quantity.Moisture(to / 100), History: NoHysteresis, Setting: Standard(),
		Phases: []Phase{{Length: 12 * yearDays * quantity.Day, Climate: cl, Exposure: e}}}
	var s Solver
	c, err := s.Run(context.Background(), &job)
	require.NoError(t, err)
	require.True(t, c.Reached, "%g mm from %g to %g", mm, from, to)
	return c.ReachedAt.Days()
}

const oakGravity, oakPace = 0.56, 0.44 // northern red oak; 0.44 meets its spans and its dates

// 320 cases of the kiln rule, from wet until a fifth of the excess is left, and from 20 and
// 30 % until 0.15 are (as at 7 % from 20 % at 65 C and 30 %). Mean ratio 0.9 to 1.15 in both halves, and 300 of
// 320 within 0.7 to 1.4.
func TestOutsideKilnRule(t *testing.T) {
	logs, inside, all := map[bool]float64{}, 0, 0
	for _, mm := range []float64{19.05, 25.4, 50.8, 76.2} {
		for _, c := range []float64{45, 55, 65, 75} {
			for _, rh := range []float64{0.3, 0.4, 0.5, 0.6, 0.7} {
				rest := sorption.NewIsotherm(quantity.Celsius(c)).At(rh).Percent()
				for _, from := range []float64{20, 30, 60, 80} {
					wet, left := from > 40, 0.15
					if wet {
						left = 0.2
					}
					got := dried(t, oakGravity, hardFactor, oakPace, mm, from, rest+left*(from-rest), mustConstant(t, c, rh), Kiln())
					ratio := got / (kilnRule(mm/25.4, c) * math.Log(1/left))
					logs[wet] += math.Log(ratio) / 160
					all++
					if ratio > 0.7 && ratio < 1.4 {
						inside++
					}
				}
			}
		}
	}
	t.Logf("mean ratio wet %.2f, dry %.2f; %d of %d within 0.7 to 1.4", math.Exp(logs[true]), math.Exp(logs[false]), inside, all)
	require.Equal(t, 320, all)
	assert.GreaterOrEqual(t, inside, 300)
	for _, half := range logs {
		assert.Greater(t, math.Exp(half), 0.9)
		assert.Less(t, math.Exp(half), 1.15)
	}
}

// Diffusion at 20 to 23 C and 8 to 16 %MC: 0.5 to 2 of Norway spruce by sorption (0.94 and
// 1.00e-10 m2/s, Sanchez-Ferrer and Engelhardt 2026, read) and of half of what the vapour
// resistance factors of EN ISO 10456 give (memory: 50 dry and 20 wet at 450 kg/m3, 200
// and 50 at 700), which is what unsteady diffusion measures (Sonderegger and others 2011,
// read); spruce 2 to 3.2 times beech (the same).
func TestOutsideDiffusivity(t *testing.T) {
	at := func(k, gravity, m float64) float64 {
		d, err := diffusivity(mediumAt(gravity), quantity.Moisture(m), quantity.Celsius(20), transverse)
		require.NoError(t, err)
		return k * d
	}
	for _, m := range []float64{0.08, 0.12, 0.16} {
		ratio := at(softFactor, 0.38, m) / 0.97e-10
		t.Logf("spruce at %g %%: %.2f of sorption", 100*m, ratio)
		assert.InDelta(t, 1.25, ratio, 0.75)
		among := at(softFactor, 0.38, m) / at(hardFactor, 0.57, m)
		assert.Greater(t, among, 2.0)
		assert.Less(t, among, 3.2)
	}
	const inAir = 2e-10 // kg/(m s Pa), permeability of air at 20 degC
	curve := sorption.NewIsotherm(quantity.Celsius(20))
	ps := air.SaturationPressureOverWater(quantity.Celsius(20)).Pascals()
	for _, c := range []struct{ density, k, gravity, mu, h float64 }{
		{450, softFactor, 0.40, 50, 0.30}, {450, softFactor, 0.40, 20, 0.75}, {700, hardFactor, 0.58, 200, 0.30}, {700, hardFactor, 0.58, 50, 0.75},
	} {
		steady := inAir / c.mu * ps / (1000 * c.gravity * curve.Slope(c.h))
		ratio := at(c.k, c.gravity, float64(curve.At(c.h))) / (steady / 2)
		t.Logf("%g kg/m3, resistance %g: %.2f of half of it", c.density, c.mu, ratio)
		assert.Greater(t, ratio, 0.5)
		assert.Less(t, ratio, 2.0)
	}
}

// White oak of 25 mm from 20 to 7 % in a kiln of 65 C and 30 %: one to two weeks (trade
// column, read).
func TestOutsideWhiteOakToSeven(t *testing.T) {
	days := dried(t, 0.60, hardFactor, 0.38, 25.4, 20, 7, mustConstant(t, 65, 0.3), Kiln())
	t.Logf("%.1f days", days)
	assert.Greater(t, days, 7.0)
	assert.Less(t, days, 14.0)
}

// The committed paces against the spans they were fitted to: 50 of 64 meet both ends
// within 1.25 and 58 within 1.4; none is above 1.2; sugar maple in Upper Michigan takes 90
// days in the mean of the months (Peck 1957, read), within a tenth.
func TestOutsideSpans(t *testing.T) {
	paces := committedPaces(t)
	tight, near := 0, 0
	for _, c := range fitCases(t) {
		low, mean, high := ends(c.days(t, paces[c.wood].Factor))
		miss := math.Max(math.Max(low/c.min, c.min/low), math.Max(high/c.max, c.max/high))
		if miss <= 1.25 {
			tight++
		}
		if miss <= 1.4 {
			near++
		}
		assert.Less(t, paces[c.wood].Factor, 1.2, c.wood)
		if c.wood == "maple-sugar" {
			assert.InEpsilon(t, 90, mean, 0.1)
		}
	}
	t.Logf("%d of 64 within 1.25, %d within 1.4", tight, near)
	assert.GreaterOrEqual(t, tight, 50)
	assert.GreaterOrEqual(t, near, 58)
}

// Red oak of 25 mm at Madison, stacked on three days: 82, 154 and 184 days (an article that
// quotes the laboratory's estimates, read second hand; its end is taken as 20 %). With
// its pace of 0.44 each within 0.8 to 1.25.
func TestOutsideOakDates(t *testing.T) {
	for day, want := range map[float64]float64{90: 82, 243: 154, 273: 184} {
		cl, err := Station(madison(), day)
		require.NoError(t, err)
		days := dried(t, oakGravity, hardFactor, oakPace, 25.4, 80, 20, cl, OpenStack())
		t.Logf("day %g: %.0f, printed %.0f", day, days, want)
		assert.Greater(t, days/want, 0.8)
		assert.Less(t, days/want, 1.25)
	}
}

// Twice the thickness takes 2.3 to 2.9 times as long: printed 2.28 (mahogany, solar dryer,
// ITF-2, read), 2.5 (hardwoods, Wengert, read) and 2.87 (kiln rule, memory).
func TestOutsideThickness(t *testing.T) {
	for name, ratio := range map[string]float64{
		"kiln": dried(t, oakGravity, hardFactor, oakPace, 50.8, 60, 10, mustConstant(t, 65, 0.4), Kiln()) /
			dried(t, oakGravity, hardFactor, oakPace, 25.4, 60, 10, mustConstant(t, 65, 0.4), Kiln()),
		"room, dry half": dried(t, oakGravity, hardFactor, oakPace, 50.8, 18, 10, mustConstant(t, 20, 0.45), ClosedRoom()) /
			dried(t, oakGravity, hardFactor, oakPace, 25.4, 18, 10, mustConstant(t, 20, 0.45), ClosedRoom()),
		"room": dried(t, oakGravity, hardFactor, oakPace, 50.8, 60, 10, mustConstant(t, 20, 0.45), ClosedRoom()) /
			dried(t, oakGravity, hardFactor, oakPace, 25.4, 60, 10, mustConstant(t, 20, 0.45), ClosedRoom()),
	} {
		t.Logf("%s: %.2f", name, ratio)
		assert.Greater(t, ratio, 2.3, name)
		assert.LessOrEqual(t, ratio, 2.9, name)
	}
}

// Mahogany in a solar dryer at Rio Piedras from 50 to 12 %: 18, 25 and 41 days for 25, 32
// and 51 mm (ITF-2, 1966, read). By how much the dryer was warmer than the place is not
// told; over 5 to 10 K the level is 0.6 to 1.6 of the print, 32/25 mm 1.2 to 1.6 and 51/25
// mm 2.0 to 2.9. San Juan, yearly mean: 27 C and 76 % (NOAA 2018, read).
func TestOutsideMahogany(t *testing.T) {
	outdoors := mustConstant(t, 27, 0.76)
	for _, warmer := range []float64{5, 7, 10} {
		cl, err := Heated(outdoors, quantity.Celsius(27+warmer), new(quantity.Pressure))
		require.NoError(t, err)
		var days [3]float64
		for i, mm := range []float64{25.4, 31.75, 50.8} {
			days[i] = dried(t, 0.45, hardFactor, 0.37, mm, 50, 12, cl, Kiln())
			assert.InDelta(t, 1.1, days[i]/[3]float64{18, 25, 41}[i], 0.5, "%g K, %g mm", warmer, mm)
		}
		t.Logf("%g K: %.0f days", warmer, days)
		assert.InDelta(t, 1.4, days[1]/days[0], 0.2)
		assert.InDelta(t, 2.45, days[2]/days[0], 0.45)
	}
}

// Red oak of 102 mm in a yard takes two to five years to 15.5 % (an inch a year is what the
// trade says; common practice, no source).
func TestOutsideThickOak(t *testing.T) {
	cl, err := Station(madison(), 90)
	require.NoError(t, err)
	years := dried(t, oakGravity, hardFactor, oakPace, 101.6, 80, 15.5, cl, OpenStack()) / yearDays
	t.Logf("%.1f years", years)
	assert.Greater(t, years, 2.0)
	assert.Less(t, years, 5.0)
}

// In steady air wood never dries faster as it goes on: no published curve has a second
// rise. Allowed is a rise of 3 %; a pace of 0.2, below all but seven of the woods, gives 6.
func TestDailyLossFalls(t *testing.T) {
	for _, pace := range []float64{0.2, 0.4, 0.7, 1} {
		for _, gravity := range []float64{0.37, 0.56, 0.65} {
			w := wood.Wood{SpecificGravity: wood.Published(gravity)}
			tr, err := NewTransport(w)
			require.NoError(t, err)
			job := Job{Transport: tr, Thickness: quantity.Inch, Factor: 1, Pace: pace, Initial: 0.9, Setting: Setting{Cells: 40, Tolerance: 1e-6},
				Phases: []Phase{{Length: 300 * quantity.Day, Climate: mustConstant(t, 20, 0.6), Exposure: OpenStack()}}}
			for d := 3.0; d <= 300; d += 3 {
				job.Times = append(job.Times, quantity.Duration(d)*quantity.Day)
			}
			var s Solver
			c, err := s.Run(context.Background(), &job)
			require.NoError(t, err)
			last, worst := math.Inf(1), 0.0
			for i := 1; i < len(c.Mean); i++ {
				loss := float64(c.Mean[i-1] - c.Mean[i])
				if last > 0.001 {
					worst = math.Max(worst, loss/last-1)
				}
				last = loss
			}
			allowed := 0.03
			if pace < 0.3 {
				allowed = 0.07
			}
			assert.Less(t, worst, allowed, "pace %g, G %g", pace, gravity)
		}
	}
}
