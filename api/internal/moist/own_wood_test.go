package moist_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/woodphys/method"
)

// A wood of the caller's own takes the figures that a wood of the tables has: with those of
// Norway spruce it answers as each printed form does.
func TestOwnWoodTakesAllFigures(t *testing.T) {
	const own = `{"wood": {"radial_shrinkage_pct": 3.8, "tangential_shrinkage_pct": 7.8, "fibre_saturation_mc_pct": 30, "tangential_coefficient": 0.0026, "tangential_swelling_pct_per_point": 0.39, "volumetric_swelling_pct_per_point": 0.39, "longitudinal_shrinkage_pct": 0.3}, "size": "100 mm", `
	r := asking.AnswerTo[moist.MovementResult](t, "/v1/movement", own+`"direction": "tangential", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 8}}`).Result
	assert.InDelta(t, -4*0.26, asking.FormOf(t, r.Forms, "coefficient").Change.Value, 1e-9)
	assert.InDelta(t, -4*0.39, asking.FormOf(t, r.Forms, "differential_shrinkage").Change.Value, 1e-9)
	assert.InDelta(t, -4*0.39*7.8/11.6, asking.FormOf(t, r.Forms, "volumetric_swelling").Change.Value, 0.06, "of the green size")
	assert.Equal(t, "combined", r.Form)
	assert.Less(t, r.Change.Low, -4*0.39)
	assert.Greater(t, r.Change.High, -4*0.26)
	along := asking.AnswerTo[moist.MovementResult](t, "/v1/movement", own+`"direction": "longitudinal", "from_condition": {"mc_pct": 30}, "to_condition": {"mc_pct": 0}}`).Result
	assert.InDelta(t, -0.3, along.Change.Value, 1e-9)
	alone := asking.AnswerTo[moist.MovementResult](t, "/v1/movement", `{"wood": {"tangential_swelling_pct_per_point": 0.39}, "size": "100 mm", "direction": "tangential", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 8}}`).Result
	assert.InDelta(t, -4*0.39, alone.Change.Value, 1e-9, "the one figure that is known")
	assert.Equal(t, "differential_shrinkage", alone.Form)
}

// A figure that nothing can be made of is told, not passed over; with what it needs it is not.
func TestVolumetricSwellingNeedsBothShrinkages(t *testing.T) {
	for shrinkage, idle := range map[string]bool{"": true, `"radial_shrinkage_pct": 3.8, `: true, `"radial_shrinkage_pct": 3.8, "tangential_shrinkage_pct": 7.8, `: false} {
		told := asking.AnswerTo[moist.MovementResult](t, "/v1/movement", `{"wood": {`+shrinkage+`"tangential_swelling_pct_per_point": 0.39, "volumetric_swelling_pct_per_point": 0.39}, "size": "100 mm", "direction": "tangential", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 8}}`)
		pointers := []string{}
		for _, w := range told.Warnings {
			if w.Code == method.NotUsed {
				pointers = append(pointers, w.Input)
			}
		}
		assert.Equal(t, idle, slices.Contains(pointers, "/wood/volumetric_swelling_pct_per_point"), shrinkage)
	}
}
