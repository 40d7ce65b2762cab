package dry_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
	"latewood/woodphys/method"
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

// The heat of what is told to be a kiln is not doubted, wherever its air stands; that of a room is.
func TestHeatOfAKilnIsNotDoubted(t *testing.T) {
	doubts := func(stay string) bool {
		a := asking.InFull[dry.SeasoningResult](t, "/v1/seasoning", `{"billet": {"wood": "white oak", "thickness": "27 mm",
			"stacked_on": "2026-11-28", "start_condition": {"mc_pct": 20}}, "stays": [`+stay+`], "target_condition": {"mc_pct": 7}}`)
		return strings.Contains(wordsOf(a.Warnings), "is that the unit that was meant")
	}
	const hot = `"air": {"temperature": "60 C", "rh_pct": 30}`
	assert.True(t, doubts(`{`+hot+`}`))
	assert.True(t, doubts(`{`+hot+`, "exposure": "closed_room"}`))
	for _, kiln := range []string{"kiln", "dehumidifier", "solar_kiln"} {
		assert.False(t, doubts(`{`+hot+`, "exposure": "`+kiln+`"}`), kiln)
	}
	assert.False(t, doubts(`{"phases": [{`+hot+`, "days": 10}]}, {"air": {"temperature": "20 C", "rh_pct": 45}}`))
}

// Sun and wind are warned of where they come to the wood: not in a room, a kiln or film.
func TestSunIsWarnedOfOutdoors(t *testing.T) {
	for stay, sun := range map[string]bool{
		`{"station": "columbus-oh", "exposure": "open_stack"}`: true, `{"station": "columbus-oh", "exposure": "shed"}`: true,
		`{"station": "columbus-oh", "exposure": "wrapped"}`: false, `{"air": {"temperature": "20 C", "rh_pct": 45}}`: false,
		`{"air": {"temperature": "45 C", "rh_pct": 70}, "exposure": "kiln"}`: false, `{"station": "columbus-oh", "heated_to": "20 C"}`: false,
	} {
		a := asking.InFull[dry.SeasoningResult](t, "/v1/seasoning", `{"billet": {"wood": "sugar maple", "thickness": "52 mm",
			"stacked_on": "2026-06-01"}, "stays": [`+stay+`], "target_condition": {"mc_pct": 9}}`)
		assert.Equal(t, sun, strings.Contains(wordsOf(a.Warnings), "sun and wind on a single afternoon"), stay)
	}
}

func wordsOf(list []method.Warning) string {
	var all []string
	for i := range list {
		all = append(all, list[i].Detail)
	}
	return strings.Join(all, "; ")
}
