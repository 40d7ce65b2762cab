package moisture_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Green wood is as wet as its figure says, give or take a fifth, and nothing of its band lies
// where it would have begun to shrink.
func TestGreenIsThatOfTheWood(t *testing.T) {
	got, err := moisture.InCondition(moisture.Condition{Green: true}, &wood.Wood{Green: 1.54, FibreSaturation: 0.28})
	require.NoError(t, err)
	assert.InDelta(t, 154, got.MC.Value.Percent(), 1e-9)
	assert.InDelta(t, 154*(1-0.2*quantity.Z90), got.MC.Low.Percent(), 1e-9)
	assert.Empty(t, got.Notes.Warnings, "a published figure needs no word")

	dry, err := moisture.InCondition(moisture.Condition{Green: true}, &wood.Wood{Green: 0.32, FibreSaturation: 0.28})
	require.NoError(t, err)
	assert.Equal(t, 28*quantity.PercentMC, dry.MC.Low)
	wet, err := moisture.InCondition(moisture.Condition{Green: true}, &wood.Wood{Green: 2.4})
	require.NoError(t, err)
	assert.InDelta(t, 250, wet.MC.High.Percent(), 1e-9)

	estimated, err := moisture.InCondition(moisture.Condition{Green: true}, &wood.Wood{Green: 0.9, GreenSD: 0.27, GreenHow: "estimated"})
	require.NoError(t, err)
	assert.True(t, expect.Warned(estimated.Notes, method.DefaultUsed))
	assert.InDelta(t, 90-quantity.Z90*100*0.3245, estimated.MC.Low.Percent(), 0.1)
	unknown, err := moisture.InCondition(moisture.Condition{Green: true}, &wood.Wood{Name: "unknown"})
	require.NoError(t, err)
	assert.True(t, expect.Warned(unknown.Notes, method.DefaultUsed))
	assert.InDelta(t, 60, unknown.MC.Value.Percent(), 1e-9)
}

// The tables know the green moisture of most woods; none of it means the same for all.
func TestGreenWoodsDiffer(t *testing.T) {
	tables, err := species.Default()
	require.NoError(t, err)
	known, seen := 0, map[float64]bool{}
	for _, w := range tables.Woods() {
		if green, is := w.BestGreen().Get(); is {
			known++
			seen[green] = true
		}
	}
	assert.Greater(t, known, 100)
	assert.Greater(t, len(seen), 30)
}
