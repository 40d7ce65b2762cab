package drying_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
)

// The mean of where pieces come to rest is that of ten thousand of them, at even quantiles of
// what they hold.
func TestMeanRestIsThatOfManyPieces(t *testing.T) {
	loop := drying.Loop{Driest: 0.080, Wettest: 0.090}
	for _, holds := range []quantity.Moisture{0.04, 0.078, 0.085, 0.091, 0.15} {
		for _, sd := range []quantity.Moisture{0, 0.002, 0.01, 0.05} {
			const n = 10000
			sum := 0.0
			for i := range n {
				sum += float64(loop.Rest(holds + sd*quantity.Moisture(math.Sqrt2*math.Erfinv(2*(float64(i)+0.5)/n-1))))
			}
			assert.InDelta(t, sum/n, float64(loop.MeanRest(holds, sd)), 2e-6, "%v, %v", holds, sd)
		}
	}
}
