package quantity_test

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/quantity"
)

// told writes a limit with its unit.
func told(value float64, unit string) string {
	return strconv.FormatFloat(value, 'f', -1, 64) + " " + unit
}

// 20 m is 65.6168 ft and 10 mm is 0.393701 in: a limit is rounded to where it is kept.
func TestLimitsAreRoundedToWhereTheyAreKept(t *testing.T) {
	for _, row := range []struct {
		limit         quantity.Length
		unit          string
		most, atLeast string
	}{
		{20, "ft", "65.616 ft", "65.617 ft"}, {0.02, "ft", "0.065 ft", "0.066 ft"}, {0.01, "in", "0.3937 in", "0.3938 in"}, {0.0005, "ft", "0.00164 ft", "0.00165 ft"},
		{20, "m", "20 m", "20 m"}, {0.02, "mm", "20 mm", "20 mm"}, {0.0002, "mm", "0.2 mm", "0.2 mm"}, {12 * quantity.Inch, "in", "12 in", "12 in"}, {0.25 * quantity.Inch, "mm", "6.35 mm", "6.35 mm"},
		{0, "in", "0 in", "0 in"}, {-1, "ft", "-3.281 ft", "-3.28 ft"}, {0.5, "furlong", "0.5 m", "0.5 m"},
	} {
		assert.Equal(t, row.most, told(row.limit.AtMost(row.unit)), "%v", row)
		assert.Equal(t, row.atLeast, told(row.limit.AtLeast(row.unit)), "%v", row)
	}
	// -40 C is -40 F; 373.15 K is 212 F; 100 Pa is 0.01450 psi.
	assert.Equal(t, "-40 F", told(quantity.Celsius(-40).AtLeast("F")))
	assert.Equal(t, "212 F", told(quantity.Kelvin(373.15).AtMost("F")))
	assert.Equal(t, "60 C", told(quantity.Kelvin(333.15).AtMost("C")))
	assert.Equal(t, "0.5 lb", told((0.5 * quantity.Pound).AtMost("lb")))
	assert.Equal(t, "0.0146 psi", told(quantity.Pressure(100).AtLeast("psi")))
	assert.Equal(t, "2.204 lb", told(quantity.Kilogram.AtMost("lb")))
	assert.Equal(t, "2.205 lb", told(quantity.Kilogram.AtLeast("lb")))
	assert.Equal(t, "14.6 psi", told(quantity.Pressure(101325).AtMost("psi")))
}

// What a limit says, read back, lies within it: not beyond by more than the last bits
// of a conversion, and not short of it by more than 2 % and a billionth.
func TestLimitsCanBeObeyed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := quantity.Length(rapid.Float64Range(-60, 60).Draw(t, "metres"))
		unit := rapid.SampledFrom(quantity.Units(quantity.DimensionLength)).Draw(t, "unit")
		most, err := quantity.LengthOf(l.AtMost(unit))
		require.NoError(t, err)
		least, err := quantity.LengthOf(l.AtLeast(unit))
		require.NoError(t, err)
		dust := 2e-13 * math.Abs(float64(l))
		assert.LessOrEqual(t, float64(most), float64(l)+dust)
		assert.GreaterOrEqual(t, float64(least), float64(l)-dust)
		assert.InDelta(t, float64(l), float64(most), 0.02*math.Abs(float64(l))+1e-8)
		assert.InDelta(t, float64(l), float64(least), 0.02*math.Abs(float64(l))+1e-8)
	})
}

// Two lengths of which one exceeds the other never read alike.
func TestOverReadsDifferently(t *testing.T) {
	for _, row := range []struct {
		l, most   quantity.Length
		unit      string
		is, limit string
	}{
		{39.3701 * quantity.Inch, 1, "in", "39.3701 in", "39.37 in"},
		{39.37002 * quantity.Inch, 39.37001 * quantity.Inch, "in", "39.37002 in", "39.37001 in"},
		{1.0000001, 1, "furlong", "1.0000001 m", "1 m"},
		{1, 1, "mm", "1000 mm", "1000 mm"}, // ends also where none exceeds
	} {
		is, limit, unit := row.l.Over(row.most, row.unit)
		assert.Equal(t, []string{row.is, row.limit}, []string{is, told(limit, unit)}, "%v", row)
	}
}

// A number rounded up is the least of its digits that is not less, and down the greatest that is
// not more.
func TestRoundedOneWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e5, 1e5).Draw(t, "v")
		decimals := rapid.IntRange(0, 4).Draw(t, "decimals")
		step := math.Pow10(-decimals)
		up, down := quantity.RoundedUp(v, decimals), quantity.RoundedDown(v, decimals)
		slack := 1e-8 * step
		assert.True(t, up >= v-slack && up < v+step, "%v up to %v", v, up)
		assert.True(t, down <= v+slack && down > v-step, "%v down to %v", v, down)
		assert.InDelta(t, up, quantity.Rounded(up, decimals), 0)
	})
	assert.False(t, math.Signbit(quantity.RoundedDown(0, 2)), "no negative zero")
	assert.InDelta(t, 16.7, quantity.RoundedDown(16.76, 1), 0)
	assert.InDelta(t, 16.7, quantity.RoundedUp(16.7, 1), 0)
}
