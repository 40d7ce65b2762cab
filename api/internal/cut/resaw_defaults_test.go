package cut_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

const dryingPart = asking.OkPlanPart + `, "flattening": "0 mm", "final_condition": {"mc_pct": 8}`

// sawnWidth is the width to saw of the first part and what is told of the angle it
// dries at.
func sawnWidth(t *testing.T, billets, part string) (width float64, told string) {
	t.Helper()
	billets = strings.ReplaceAll(billets, `"length"`, `"wood": "maple-sugar", "condition": {"mc_pct": 14}, "length"`)
	a := planOf(t, planBody(billets, asking.OkPlanSaw, part, ""))
	for _, w := range a.Warnings {
		if w.Input == "/parts/0/shrinkage_ring_angle_deg" {
			assert.EqualValues(t, "default_used", w.Code)
			told += w.Detail
		}
	}
	return a.Result.Parts[0].Width.Value, told
}

// A part that dries is taken to have the rings that its billets state; a guess is told.
func TestPartsDryAtTheRingAngleOfTheirBillets(t *testing.T) {
	at := func(angle string) string { return asking.OkPlanBillet + `, "rings": {"angle_deg": ` + angle + `}` }
	flat, told := sawnWidth(t, asking.OkPlanBillet, dryingPart+`, "shrinkage_ring_angle_deg": 30`)
	assert.Empty(t, told)
	quartered, told := sawnWidth(t, asking.OkPlanBillet, dryingPart+`, "shrinkage_ring_angle_deg": 90`)
	assert.Empty(t, told)
	require.Greater(t, flat, quartered+1, "maple shrinks more along its rings")

	got, told := sawnWidth(t, at("30"), dryingPart)
	assert.Empty(t, told, "the billet states it")
	assert.InDelta(t, flat, got, 1e-9)
	got, told = sawnWidth(t, at("30")+`}, {`+at("30"), dryingPart)
	assert.Empty(t, told)
	assert.InDelta(t, flat, got, 1e-9)
	got, told = sawnWidth(t, at("30")+`}, {`+at("70"), dryingPart)
	assert.Empty(t, told, "each billet states its own")
	assert.InDelta(t, flat, got, 1e-9, "and the flatter rings cost more width")
	flattest, told := sawnWidth(t, asking.OkPlanBillet, dryingPart+`, "shrinkage_ring_angle_deg": 0`)
	assert.Empty(t, told)
	got, told = sawnWidth(t, at("30")+`}, {`+asking.OkPlanBillet, dryingPart)
	assert.Contains(t, told, "the most where the rings are not known: of thickness with rings at 90 degrees to the face, of width at 0;")
	assert.InDelta(t, flattest, got, 1e-9)
	_, told = sawnWidth(t, asking.OkPlanBillet+`, "rings": {"pith": {"y": "110 mm", "z": "-900 mm"}}`,
		dryingPart+`, "min_ring_angle_deg": 1`)
	assert.Contains(t, told, "the most that the billets may give: of thickness with rings at 6.97 degrees to the face, of width at 1;")
}

// What is told of a part of the table names its place.
func TestWhatIsToldOfAPlateNamesIt(t *testing.T) {
	told := toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw,
		`"id": "a", "part_size": "steel-string-dreadnought-back", "set_value": 2}, {"id": "b", "part_size": "steel-string-dreadnought-back", "set_value": 1`, ""))
	assert.Contains(t, told, "parts/0/min_ring_angle_deg: a: the quarter is preferred")
	assert.Contains(t, told, "parts/1/min_ring_angle_deg: b: the quarter is preferred")
}

// A plan says once how to make a tall cut.
func TestPlanCautionsOnceAboutTallCuts(t *testing.T) {
	told := toldOf(t, planBody(asking.OkPlanBillet, asking.OkPlanSaw, asking.OkPlanPart, ""))
	assert.Equal(t, 1, strings.Count(told, "high fence"))
	assert.Contains(t, told, "a plan is geometry only")
	assert.Contains(t, told, "stop rather than pull back, and follow the machine's manual")
}

// A trim given for one end replaces there what the state of the ends says.
func TestATrimOfOneEndReplacesThatOfTheEnds(t *testing.T) {
	x := func(ends string) float64 {
		r := planOf(t, onePartPlan(`"length": "800 mm", "width": "220 mm", "thickness": "60 mm", `+ends, "1 mm",
			"500 mm", "200 mm", "4 mm", "")).Result
		return r.Billets[0].Blanks[0].X.Value
	}
	both := x(`"trim": {"usual": "sealed_fresh"}`)
	assert.Greater(t, both, 3.0)
	assert.InDelta(t, 3, x(`"trim": {"usual": "sealed_fresh", "start": "3 mm"}`), 1e-9)
	assert.InDelta(t, both, x(`"trim": {"usual": "sealed_fresh", "end": "3 mm"}`), 1e-9)
}
