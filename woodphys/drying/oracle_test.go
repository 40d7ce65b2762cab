package drying

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
)

// readTable returns the rows of a committed table by column name.
func readTable(tb testing.TB, path string) []map[string]string {
	tb.Helper()
	f, err := os.Open(path)
	require.NoError(tb, err)
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(tb, err)
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, name := range rows[0] {
			m[name] = row[i]
		}
		out = append(out, m)
	}
	return out
}

func number(tb testing.TB, text string) float64 {
	tb.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(tb, err)
	return v
}

// Twelve boards against scipy's BDF on the same published equations written
// again (testdata/drying/slab_oracle.py): 240 cells of plain finite volumes,
// rtol 1e-7. Allowed: 0.02 %MC of the mean, what the standard setting promises, and 0.15
// of the middle while the steep front of free water passes between two nodes.
func TestAgainstIndependentIntegrator(t *testing.T) {
	var s Solver
	worstMean, worstMiddle, rows := 0.0, 0.0, 0
	for _, r := range readTable(t, "../../testdata/drying/slab_oracle.csv") {
		cl, err := Station(madison(), 120)
		require.NoError(t, err)
		if r["climate"] != "madison" {
			cl = mustConstant(t, number(t, r["temp_c"]), number(t, r["rh"]))
		} else {
			require.Equal(t, "120", r["day_of_year"])
		}
		at := quantity.Duration(number(t, r["day"])) * quantity.Day
		job := Job{
			Transport: testTransport(t, number(t, r["specific_gravity"])), Thickness: quantity.Length(number(t, r["thickness_mm"])) * quantity.Millimetre,
			Factor: number(t, r["factor"]), Pace: number(t, r["pace"]), Initial: quantity.Moisture(number(t, r["initial_mc"])), History: NoHysteresis,
			Phases: []Phase{{Length: at, Climate: cl, Exposure: Exposure{FilmCoefficient: number(t, r["film_m_s"])}}},
			Times:  []quantity.Duration{at}, Depths: []float64{0.5}, Setting: Standard(),
		}
		c, err := s.Run(context.Background(), &job)
		require.NoError(t, err)
		mean := math.Abs(float64(c.Mean[0]) - number(t, r["mean_mc"]))
		middle := math.Abs(float64(c.Depth[0][0]) - number(t, r["middle_mc"]))
		assert.LessOrEqual(t, mean, 2e-4, "mean %v", r)
		assert.LessOrEqual(t, middle, 1.5e-3, "middle %v", r)
		worstMean, worstMiddle, rows = math.Max(worstMean, mean), math.Max(worstMiddle, middle), rows+1
	}
	require.Equal(t, 96, rows)
	t.Logf("%d values of 12 boards: worst mean %.4f, middle %.4f %%MC", rows, 100*worstMean, 100*worstMiddle)
}
