package sawlog_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sawlog"
)

// All 150 printed cells of each rule: Doyle is printed to the whole board foot,
// International to 5.
func TestPrintedLogRules(t *testing.T) {
	_, rows := expect.Table(t, "../../testdata/published/log_rules.csv")
	require.Len(t, rows, 150)
	worst := 0.0
	for _, row := range rows {
		var v [4]float64
		for i, text := range row {
			v[i] = expect.Number(t, text)
		}
		small, length := quantity.Length(v[0])*quantity.Inch, quantity.Length(v[1])*quantity.Foot
		doyle, notes, err := sawlog.Doyle(small, length)
		require.NoError(t, err)
		assert.Empty(t, notes.Warnings, "%v", row)
		assert.InDelta(t, v[2], doyle, 0.51, "Doyle %v", row)
		international, _, err := sawlog.InternationalQuarter(small, length)
		require.NoError(t, err)
		assert.InDelta(t, v[3], international, 3, "International %v", row)
		worst = math.Max(worst, math.Abs(v[3]-international))
	}
	t.Logf("International: at most %.2f board feet from the printed cells", worst)
}

// The formula by hand: 16 in and 16 ft give 0.79 x 256 - 32 - 4 = 166.24.
func TestScribnerByHand(t *testing.T) {
	feet, _, err := sawlog.Scribner(16*quantity.Inch, 16*quantity.Foot)
	require.NoError(t, err)
	assert.InDelta(t, 166.24, feet, 1e-9)
	feet, _, err = sawlog.Scribner(3.5*quantity.Inch, 16*quantity.Foot)
	require.Error(t, err, "thinner than any log of the rule, %v", feet)
	thin, _, err := sawlog.Scribner(4*quantity.Inch, 16*quantity.Foot)
	require.NoError(t, err)
	assert.InDelta(t, 0.64, thin, 1e-9)
}
