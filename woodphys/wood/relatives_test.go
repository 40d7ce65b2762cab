package wood_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/wood"
)

// Two genera of two woods, by hand: within 2 (sums of squares 2 and 2 over 2 degrees), the
// means 1 and 9 about 5: apart 64; between (64-2)/(4-8/4) = 31.
func TestRelativesByHand(t *testing.T) {
	r := wood.RelativesOf(map[string][]float64{"A": {0, 2}, "B": {8, 10}})
	share := 2 * 31.0 / (2*31 + 2)
	middle, sd := r.Of("A")
	assert.InDelta(t, 5-share*4, middle, 1e-12)
	meanVariance := (31 + 2.0/2) / 2 // two genera of one weight
	assert.InDelta(t, math.Sqrt(2+(1-share)*31+(1-share)*(1-share)*meanVariance), sd, 1e-12)
	middle, sd = r.Of("C")
	assert.InDelta(t, 5, middle, 1e-12)
	assert.InDelta(t, math.Sqrt(31+2+meanVariance), sd, 1e-12)
	assert.True(t, r.Has("A"))
	assert.False(t, r.Has("C"))
}

// Where genera are alike relatives count no more than others; where the woods of a genus are
// alike their mean is all there is to know.
func TestRelativesAtTheirEnds(t *testing.T) {
	alike := wood.RelativesOf(map[string][]float64{"A": {-3, 3}, "B": {-2, 2}, "C": {-1, 1}})
	middle, _ := alike.Of("A")
	other, _ := alike.Of("D")
	assert.InDelta(t, other, middle, 1e-12)
	apart := wood.RelativesOf(map[string][]float64{"A": {4, 4}, "B": {7, 7, 7}})
	middle, sd := apart.Of("A")
	assert.InDelta(t, 4, middle, 1e-12)
	assert.InDelta(t, 0, sd, 1e-6)
}

// Of many woods made with known variances, nine of ten that were left out lie in the band,
// those with relatives and those without; and the middle of a genus errs by less with
// relatives.
func TestRelativesOfMadeWoods(t *testing.T) {
	draw := rand.New(rand.NewPCG(4, 7))
	const between, within = 0.3, 0.2
	inside, alone, kinError, groupError, n := 0, 0, 0.0, 0.0, 0
	for range 400 {
		genera := map[string][]float64{}
		for g := range 14 {
			of := between * draw.NormFloat64()
			for range 1 + draw.IntN(5) {
				genera[strconv.Itoa(g)] = append(genera[strconv.Itoa(g)], of+within*draw.NormFloat64())
			}
		}
		genera["x"] = []float64{0, 0, 0}
		effect := between * draw.NormFloat64()
		for i := range genera["x"] {
			genera["x"][i] = effect + within*draw.NormFloat64()
		}
		truth := effect + within*draw.NormFloat64()
		r := wood.RelativesOf(genera)
		middle, sd := r.Of("x")
		group, wide := r.Of("none of them")
		if math.Abs(middle-truth) < 1.645*sd {
			inside++
		}
		if math.Abs(group-truth) < 1.645*wide { // the truth is of a genus drawn like the others
			alone++
		}
		kinError, groupError, n = kinError+(middle-truth)*(middle-truth), groupError+(group-truth)*(group-truth), n+1
	}
	assert.InDelta(t, 0.9, float64(inside)/float64(n), 0.04)
	assert.InDelta(t, 0.9, float64(alone)/float64(n), 0.04)
	assert.Less(t, kinError, 0.6*groupError, "in truth (0.04+0.04/3*0.87)/0.13 = 0.4")
}
