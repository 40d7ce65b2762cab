package moisture

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Printed tables of the chi-square and Student distributions (any statistics
// handbook), to their printed digits.
func TestDistributions(t *testing.T) {
	for _, c := range []struct {
		df   int
		x, p float64
	}{{1, 3.841, 0.05}, {1, 6.635, 0.01}, {2, 5.991, 0.05}, {2, 9.210, 0.01}, {3, 7.815, 0.05}, {4, 13.277, 0.01}, {5, 11.070, 0.05}, {10, 23.209, 0.01}, {11, 19.675, 0.05}, {30, 43.773, 0.05}, {100, 135.807, 0.01}} {
		assert.InDelta(t, c.p, chiSquareSurvival(c.x, c.df), 2e-5, c)
	}
	assert.InDelta(t, 1, chiSquareSurvival(0, 7), 1e-12)
	assert.Zero(t, chiSquareSurvival(1e6, 999))
	for df, want := range map[int]float64{1: 6.314, 2: 2.920, 3: 2.353, 4: 2.132, 5: 2.015, 6: 1.943, 8: 1.860, 10: 1.812, 20: 1.725, 30: 1.697, 120: 1.658} {
		assert.InDelta(t, want, studentT95(df), 0.001, df)
	}
}
