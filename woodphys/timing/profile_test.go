package timing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
)

// The parabola has the mean, and the difference between the middle fifth and the outer
// tenth, that it was made from; 41 points and straight lines between them are good to a
// hundredth of the difference.
func TestParabolaKeepsWhatWasRead(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		mean := quantity.Moisture(rapid.Float64Range(0.15, 0.6).Draw(r, "mean"))
		apart := quantity.Moisture(rapid.Float64Range(-0.1, 0.1).Draw(r, "apart"))
		p := parabola(mean, apart)
		within := 0.01*math.Abs(float64(apart)) + 1e-12
		assert.InDelta(r, float64(apart), float64(p.core()-p.shell()), within)
		assert.InDelta(r, float64(mean), float64(p.mean(0, 0.5)), within)
		assert.InDelta(r, math.Abs(float64(apart)), float64(p.gap()), within)
		for _, depth := range []float64{0, 0.1, 0.3, 0.5} {
			assert.InDelta(r, float64(p.at(depth)), float64(p.at(1-depth)), 1e-12, "alike from both faces")
		}
		assert.InDelta(r, float64(max(p.at(0), p.at(0.5))), float64(p.wettest()), 1e-12)
	})
	assert.InDelta(t, driestWood, float64(parabola(0.05, 0.3).at(0)), 1e-12, "never drier than wood gets")
	assert.Equal(t, seasoning.Wettest, parabola(1.39, 0.5).at(0.5))
}

// Wood has the profile that drying down from green leaves; wood that is as wet as green wood is
// even, and so is wood that does not come down to its moisture content where it lies.
func TestHowTheProfileIsKnown(t *testing.T) {
	q := asked(t)
	dried := weighed(t, q)
	assert.Equal(t, ProfileDried, dried.How)
	assert.Less(t, dried.Shell.High, dried.Core.Low)
	assert.Less(t, dried.Shell.Value, q.Moisture.Mean)
	assert.Greater(t, dried.Core.Value, q.Moisture.Mean)

	q.Moisture.CoreOverShell = over(4)
	read := weighed(t, q)
	assert.Equal(t, ProfileRead, read.How)
	assert.InDelta(t, 4, (read.Core.Value - read.Shell.Value).Percent(), 0.05)

	q = asked(t)
	q.Moisture.Mean = 1.20
	wet := weighed(t, q)
	assert.Equal(t, ProfileEven, wet.How)
	assert.InDelta(t, float64(wet.Core.Value), float64(wet.Shell.Value), 1e-12)
	assert.InDelta(t, wet.Now.High.Percent(), wet.Core.High.Percent(), 1, "as well known as the mean")

	q = asked(t)
	damp, err := drying.Constant(quantity.Celsius(20), 0.93)
	require.NoError(t, err)
	q.Lay = func(from quantity.Duration) (seasoning.Piece, error) {
		return seasoning.Piece{Wood: q.Wood, RingAngle: q.RingAngle, Phases: []drying.Phase{{Length: q.Horizon - from, Climate: damp, Exposure: drying.ClosedRoom()}}}, nil
	}
	assert.Equal(t, ProfileEven, weighed(t, q).How)
}
