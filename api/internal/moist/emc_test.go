package moist_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/species"
)

// There is one general fibre saturation with one spread: without a wood, and for a wood
// that has no figure of its own. A wood with its own has its own.
func TestOneGeneralFibreSaturation(t *testing.T) {
	tables, err := species.Default()
	require.NoError(t, err)
	band := func(wood string) []float64 {
		b := asking.AnswerTo[moist.EMCResult](t, "/v1/emc", `{"air": {"temperature": "20 C", "rh_pct": 50}`+wood+`}`).Result.FibreSaturation
		return []float64{b.Value, b.Low, b.High}
	}
	general := tables.GeneralFibreSaturation()
	value, spread := general.Or(0), general.Spread.Or(0)
	assert.InDeltaSlice(t, []float64{value, value - spread, value + spread}, band(""), 1e-9)
	asked := 0
	for _, w := range tables.Woods() {
		if w.FibreSaturationGeneral == (asked < 3) { // three without a figure, then three with
			asked++
			got := band(`, "wood": "` + w.ID + `"`)
			if w.FibreSaturationGeneral {
				assert.Equal(t, band(""), got, w.ID)
			} else {
				assert.InDelta(t, w.FibreSaturation.Or(0), got[0], 1e-9, w.ID)
				assert.NotEqual(t, band(""), got, w.ID)
			}
		}
		if asked == 6 {
			break
		}
	}
	assert.Equal(t, 6, asked)
}
