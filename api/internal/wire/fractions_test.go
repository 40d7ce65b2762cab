package wire

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/quantity"
)

func TestInchesInFractions(t *testing.T) {
	in := ReportIn(InchLB)
	for _, row := range []struct {
		inches     float64
		of         int
		said, cell string
	}{
		{0, 64, "0 in", "0"}, {1.0 / 64, 64, "1/64 in", "0 1/64"}, {1.0 / 64, 32, "1/32 in", "0 1/32"},
		{2.0625, 64, "2 1/16 in", "2 1/16"}, {2.999, 64, "3 in", "3"}, {-0.25, 64, "-1/4 in", "-0 1/4"},
		{-2.5, 32, "-2 1/2 in", "-2 1/2"}, {-0.001, 32, "0 in", "0"}, {11.984375, 64, "11 63/64 in", "11 63/64"},
	} {
		l := quantity.Length(row.inches) * quantity.Inch
		assert.Equal(t, row.said, in.InFractions(row.of).SaidLength(l), row)
		assert.Equal(t, row.cell, in.InFractions(row.of).LengthCell(l), row)
		assert.Equal(t, l.Format("in"), in.SaidLength(l), "without fractions")
	}
	metric := ReportIn(Metric).InFractions(64)
	assert.Equal(t, "52 mm", metric.SaidLength(52*quantity.Millimetre))
	assert.Empty(t, metric.RoundedTo())
	assert.Equal(t, "1/32 in", in.InFractions(32).RoundedTo())
}

// What is said in fractions is read back to within half a step.
func TestFractionsAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := quantity.Length(rapid.Float64Range(0, 5).Draw(t, "metres"))
		of := rapid.SampledFrom([]int{32, 64}).Draw(t, "denominator")
		said := ReportIn(InchLB).InFractions(of).SaidLength(l)
		back, err := quantity.ParseLength(said)
		require.NoError(t, err, said)
		assert.LessOrEqual(t, math.Abs(float64(back-l)), float64(quantity.Inch)/float64(2*of)+1e-12, said)
	})
}
