package drying

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// What makes wood dry slower never makes it faster: thicker, denser, damper air,
// colder, a smaller factor, a coat. Compared at several times from green in
// steady air and under the seasons. Allowed: 0.02 %MC, the error of the setting.
func TestSlowerNeverDriesFaster(t *testing.T) {
	var s Solver
	rapid.Check(t, func(t *rapid.T) {
		c, rh := rapid.Float64Range(-5, 50).Draw(t, "c"), rapid.Float64Range(0.2, 0.85).Draw(t, "rh")
		g := rapid.Float64Range(0.3, 0.75).Draw(t, "g")
		mm, k := rapid.Float64Range(8, 80).Draw(t, "mm"), rapid.Float64Range(0.1, 1).Draw(t, "k")
		more := rapid.Float64Range(0.01, 0.5).Draw(t, "more")
		from := quantity.Moisture(rapid.Float64Range(0.4, 1).Draw(t, "from"))
		run := func(c, rh, g, mm, k, coat float64) []quantity.Moisture {
			tr, err := NewTransport(wood.Wood{SpecificGravity: wood.Published(g)})
			require.NoError(t, err)
			cl, err := Constant(quantity.Celsius(c), rh)
			require.NoError(t, err)
			e := OpenStack()
			e.CoatResistance = coat
			job := Job{
				Transport: tr, Thickness: quantity.Length(mm) * quantity.Millimetre, Factor: k, Initial: from,
				Phases: []Phase{{Length: 300 * quantity.Day, Climate: cl, Exposure: e}},
				Times:  []quantity.Duration{3 * quantity.Day, 30 * quantity.Day, 120 * quantity.Day, 300 * quantity.Day}, Setting: Standard(),
			}
			course, err := s.Run(context.Background(), &job)
			require.NoError(t, err)
			return slices.Clone(course.Mean)
		}
		base := run(c, rh, g, mm, k, 0)
		// Not below 5 C: under that the extrapolated EMC falls with the temperature, so
		// that cold wood ends a little drier, though later.
		colder := math.Min(c, math.Max(c-30*more, 5))
		for name, slower := range map[string][]quantity.Moisture{
			"thicker": run(c, rh, g, mm*(1+more), k, 0), "denser": run(c, rh, math.Min(g*(1+more), 0.9), mm, k, 0),
			"damper": run(c, math.Min(rh+more/4, 0.97), g, mm, k, 0), "factor": run(c, rh, g, mm, k/(1+more), 0),
			"coated": run(c, rh, g, mm, k, 1000*more), "colder": run(colder, rh, g, mm, k, 0),
		} {
			for i := range base {
				assert.GreaterOrEqual(t, float64(slower[i]), float64(base[i])-4e-4, "%s at time %d", name, i)
			}
		}
	})
}

// Under the seasons the days to 20 %MC rise with thickness, with an exponent
// between 1 (all at the face) and 2 (all inside); published 1.32 to 1.52.
func TestThicknessExponent(t *testing.T) {
	job := seasonJob(t)
	job.Times, job.StopAt = nil, 0.20
	job.Phases[0].Climate = mustConstant(t, 20, 0.65)
	job.Phases[0].Length = 4000 * quantity.Day
	var s Solver
	days := map[float64]float64{}
	for _, inch := range []float64{1, 2} {
		job.Thickness = quantity.Length(inch) * quantity.Inch
		c, err := s.Run(context.Background(), &job)
		require.NoError(t, err)
		require.True(t, c.Reached)
		days[inch] = c.ReachedAt.Days()
	}
	exponent := math.Log2(days[2] / days[1])
	t.Logf("steady air: %.0f and %.0f days, exponent %.2f", days[1], days[2], exponent)
	assert.Greater(t, exponent, 1.3)
	assert.Less(t, exponent, 2.001)
}

// Every row has what the registry shows, once.
func TestMethodRows(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range Methods() {
		assert.False(t, seen[m.ID], m.ID)
		seen[m.ID] = true
		assert.Equal(t, "drying", m.Chapter)
		for _, text := range []string{m.Summary, m.Equation, m.Accuracy, m.Source, string(m.Checked)} {
			assert.NotEmpty(t, text, m.ID)
		}
		for _, in := range m.Inputs {
			assert.LessOrEqual(t, in.Limit.Low, in.Fitted.Low, m.ID+" "+in.Name)
			assert.GreaterOrEqual(t, in.Limit.High, in.Fitted.High, m.ID+" "+in.Name)
			_, err := m.Check(in.Name, math.NaN())
			assert.Error(t, err)
		}
	}
}
