package drying

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/quantity"
)

// Twelve boards against scipy's BDF on the same published equations written
// again (testdata/drying/slab_oracle.py): 240 cells of plain finite volumes,
// rtol 1e-7. Allowed: 0.02 %MC of the mean, what the standard setting promises, and 0.15
// of the middle while the steep front of free water passes between two nodes.
func TestAgainstIndependentIntegrator(t *testing.T) {
	var s Solver
	worstMean, worstMiddle, rows := 0.0, 0.0, 0
	for _, r := range expect.Named(t, "../../testdata/drying/slab_oracle.csv") {
		cl, err := Station(madison(), 120)
		require.NoError(t, err)
		if r["climate"] != "madison" {
			cl = mustConstant(t, expect.Number(t, r["temp_c"]), expect.Number(t, r["rh"]))
		} else {
			require.Equal(t, "120", r["day_of_year"])
		}
		at := quantity.Duration(expect.Number(t, r["day"])) * quantity.Day
		job := Job{
			Transport: testTransport(t, expect.Number(t, r["specific_gravity"])), Thickness: quantity.Length(expect.Number(t, r["thickness_mm"])) * quantity.Millimetre,
			Factor: expect.Number(t, r["factor"]), Pace: expect.Number(t, r["pace"]), Initial: quantity.Moisture(expect.Number(t, r["initial_mc"])), History: NoHysteresis,
			Phases: []Phase{{Length: at, Climate: cl, Exposure: Exposure{FilmCoefficient: expect.Number(t, r["film_m_s"])}}},
			Times:  []quantity.Duration{at}, Depths: []float64{0.5}, Setting: Standard(),
		}
		c, err := s.Run(context.Background(), &job)
		require.NoError(t, err)
		mean := math.Abs(float64(c.Mean[0]) - expect.Number(t, r["mean_mc"]))
		middle := math.Abs(float64(c.Depth[0][0]) - expect.Number(t, r["middle_mc"]))
		assert.LessOrEqual(t, mean, 2e-4, "mean %v", r)
		assert.LessOrEqual(t, middle, 1.5e-3, "middle %v", r)
		worstMean, worstMiddle, rows = math.Max(worstMean, mean), math.Max(worstMiddle, middle), rows+1
	}
	require.Equal(t, 96, rows)
	t.Logf("%d values of 12 boards: worst mean %.4f, middle %.4f %%MC", rows, 100*worstMean, 100*worstMiddle)
}
