package dry_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
)

// Heat that spoils green wood inside is in the summary, and the caution about heaters stands
// where wood is heated; a room that people live in is none.
func TestHeatIsToldWithItsDangers(t *testing.T) {
	of := func(wood, air string) (summary, warnings string) {
		a := asking.InFull[dry.SeasoningResult](t, "/v1/seasoning", `{"billet": {"wood": "`+wood+`", "thickness": "52 mm", "width": "200 mm",
			"stacked_on": "2026-11-28"}, "stays": [`+air+`], "target_condition": {"mc_pct": 8}}`)
		for i := range a.Warnings {
			warnings += a.Warnings[i].Detail + "; "
		}
		return a.Result.Summary, warnings
	}
	const kiln, room = `{"air": {"temperature": "60 C", "rh_pct": 20}}`, `{"station": "madison-wi", "heated_to": "20 C"}`
	summary, warnings := of("white oak", kiln)
	assert.Contains(t, summary, "honeycomb and collapse")
	assert.Contains(t, warnings, "never leave a heater")
	summary, warnings = of("white oak", room)
	assert.NotContains(t, summary, "so hot")
	assert.Contains(t, summary, "in air so dry while it is wet it may honeycomb", "green oak in a heated room in winter")
	assert.NotContains(t, warnings, "heater")
	summary, warnings = of("sitka spruce", kiln)
	assert.False(t, strings.Contains(summary, "collapse"), "softwoods stand it")
	assert.Contains(t, warnings, "never leave a heater")
}
