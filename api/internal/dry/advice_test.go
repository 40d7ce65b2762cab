package dry_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
)

func advised(t *testing.T, body string) (*dry.ReadinessResult, string) {
	t.Helper()
	a := asking.InFull[dry.ReadinessResult](t, "/v1/readiness", body)
	return &a.Result, strings.Join(a.Result.Advice, "\n")
}

const lain = `{"billet": {"wood": "maple-sugar", "length": "800 mm", "width": "150 mm", "thickness": "30 mm", "stacked_on": "%s"},
	"target_condition": {"air": {"temperature": "20 C", "rh_pct": %d}}, "as_of": "2026-03-01", "stays": [%s], "horizon_days": 1500%s}`

// A billet that never comes near its target where it lies is to be brought where it does, with
// the day on which it would be ready; one that is on its way is not.
func TestBringItIndoors(t *testing.T) {
	const outdoors, room = `{"station": "madison-wi", "exposure": "shed"}`, `{"air": {"temperature": "20 C", "rh_pct": 40}}`
	_, out := advised(t, fmt.Sprintf(lain, "2024-05-01", 40, outdoors, ""))
	assert.Contains(t, out, "bring it into the room it will be worked in")
	assert.Contains(t, out, "to glue about ")
	assert.NotContains(t, out, "down to 20 %")
	_, green := advised(t, fmt.Sprintf(lain, "2026-02-25", 40, outdoors, ""))
	assert.Contains(t, green, "once it is down to 20 %, about ", "wet wood checks in dry air")
	_, in := advised(t, fmt.Sprintf(lain, "2026-02-25", 40, room, ""))
	assert.NotContains(t, in, "bring it")
	_, carried := advised(t, fmt.Sprintf(lain, "2024-05-01", 40, `{"station": "madison-wi", "exposure": "shed", "until": "2026-03-01"}, `+room, ""))
	assert.NotContains(t, carried, "bring it")
	_, damp := advised(t, fmt.Sprintf(lain, "2024-05-01", 75, room, ""))
	assert.Contains(t, damp, "will hardly come above", "from the other side too")
	// the date is that of a billet that is carried in today
	r, moved := advised(t, fmt.Sprintf(lain, "2024-05-01", 40, outdoors, ""))
	require.Nil(t, r.Verdicts[2].ReadyOn.ValueDays)
	r, _ = advised(t, fmt.Sprintf(lain, "2024-05-01", 40, `{"station": "madison-wi", "exposure": "shed", "until": "2026-03-01"}, `+room, ""))
	_, told, _ := strings.Cut(moved, "to glue about ")
	there, err := time.Parse("2 January 2006", strings.Join(strings.Fields(told)[:3], " "))
	require.NoError(t, err)
	carriedOn, err := time.Parse(time.DateOnly, r.Verdicts[2].ReadyOn.Value)
	require.NoError(t, err)
	assert.InDelta(t, 0, carriedOn.Sub(there).Hours()/24, 10)
}

// What the weights leave open a sample settles, and then it is not asked for.
func TestTakeASample(t *testing.T) {
	const stays = `{"air": {"temperature": "20 C", "rh_pct": 40}}`
	_, open := advised(t, fmt.Sprintf(lain, "2025-11-15", 40, stays, ""))
	assert.Contains(t, open, "dry a sample")
	_, settled := advised(t, fmt.Sprintf(lain, "2025-11-15", 40, stays,
		`, "readings": [{"kind": "ovendry_sample", "date": "2026-03-01", "wet_mass": "109 g", "ovendry_mass": "100 g"}]`))
	assert.NotContains(t, settled, "dry a sample")
	r, weights := advised(t, `{"billet": {"wood": "maple-sugar", "length": "800 mm", "width": "150 mm", "thickness": "30 mm"},
		"target_condition": {"air": {"temperature": "20 C", "rh_pct": 40}}, "readings": [{"kind": "weight", "date": "2026-03-01", "mass": "2.6 kg"}]}`)
	assert.Contains(t, weights, "dry a sample")
	assert.Equal(t, "cannot_say", r.Verdicts[0].Verdict, "a weight alone is no evidence: %v", r.Moisture.MC)
}

// Wood at rest gets no drier by waiting.
func TestWoodAtRestIsNotToldToWait(t *testing.T) {
	ask := func(second string) string {
		_, advice := advised(t, `{"billet": {"wood": "maple-sugar", "length": "800 mm", "width": "150 mm", "thickness": "30 mm"},
			"target_condition": {"air": {"temperature": "20 C", "rh_pct": 40}}, "readings": [{"kind": "stated", "mc_pct": 14, "mc_sd_points": 0.5},
			{"kind": "weight", "date": "2026-01-01", "mass": "2.600 kg"}, {"kind": "weight", "date": "2026-02-01", "mass": "`+second+`"},
			{"kind": "weight", "date": "2026-03-01", "mass": "2.600 kg"}], "scale_division": "1 g"}`)
		return advice
	}
	assert.Contains(t, ask("2.600 kg"), "waiting there gets it no drier")
	assert.NotContains(t, ask("2.600 kg"), "wait;")
	assert.Contains(t, ask("2.750 kg"), "wait;")
}

// A weight that a billet of its size and wood cannot have is asked about, by its name and with
// the numbers, with stays and without.
func TestWeightsThatCannotBe(t *testing.T) {
	const body = `{"billet": {"wood": "maple-sugar", "length": "800 mm", "width": "150 mm", "thickness": "30 mm"%s},
		"target_condition": {"air": {"temperature": "20 C", "rh_pct": 40}}%s, "readings": [%s]}`
	const stacked, stays = `, "stacked_on": "2025-01-01"`, `, "as_of": "2026-03-01", "stays": [{"air": {"temperature": "20 C", "rh_pct": 40}}]`
	weight := func(date, mass string) string {
		return fmt.Sprintf(`{"kind": "weight", "date": %q, "mass": %q}`, date, mass)
	}
	for _, mass := range []string{"26 kg", "0.26 kg", "57 lb"} {
		for _, c := range [][2]string{{"", ""}, {stacked, stays}} {
			p := asking.ProblemOf(t, asking.Posting("/v1/readiness", fmt.Sprintf(body, c[0], c[1], weight("2026-03-01", mass))).Of(t, asking.SharedService()), 422)
			require.Len(t, p.Errors, 1)
			assert.Equal(t, "/readings/0/mass", p.Errors[0].Pointer)
			assert.Contains(t, p.Errors[0].Detail, mass)
			assert.Contains(t, p.Errors[0].Detail, map[bool]string{true: "every void full of water", false: "without any water"}[mass != "0.26 kg"])
		}
	}
	// beside weights that can be it is left out, and named
	r, _ := advised(t, fmt.Sprintf(body, stacked, stays, weight("2025-06-01", "26 kg")+","+weight("2026-03-01", "2.6 kg")))
	require.Len(t, r.Rejected, 1)
	assert.Equal(t, "/readings/0", r.Rejected[0].Pointer)
	assert.Contains(t, r.Rejected[0].Detail, "26 kg")
	assert.Equal(t, 1, r.Calibration.ReadingsUsed)
}

// The same air is the same target where the same is known of the wood, and the answer says on
// which side of the loop it is.
func TestTargetsSayTheirSide(t *testing.T) {
	const room = `{"air": {"temperature": "20 C", "rh_pct": 40}}`
	green, _ := advised(t, fmt.Sprintf(lain, "2026-02-01", 40, room, ""))
	assert.Equal(t, "drying", green.Target.Sorption)
	now := func(mc int) *dry.ReadinessResult {
		r, _ := advised(t, fmt.Sprintf(`{"billet": {"wood": "maple-sugar", "length": "800 mm", "width": "150 mm", "thickness": "30 mm"},
			"target_condition": %s, "readings": [{"kind": "stated", "mc_pct": %d}]}`, room, mc))
		return r
	}
	assert.Equal(t, "drying", now(40).Target.Sorption)
	assert.InDelta(t, green.Target.MC.Value, now(40).Target.MC.Value, 1e-9, "wood that is green")
	assert.Equal(t, "unknown", now(12).Target.Sorption)
	from := strings.Replace(fmt.Sprintf(lain, "2026-02-01", 40, room, ""), `"stacked_on"`, `"start_condition": {"mc_pct": 12}, "stacked_on"`, 1)
	begun, _ := advised(t, from)
	assert.Equal(t, "unknown", begun.Target.Sorption)
	assert.InDelta(t, begun.Target.MC.Value-0.5, now(12).Target.MC.Value, 1e-6, "half a point above the middle, from where it begins")
	assert.InDelta(t, now(5).Target.MC.Value, now(12).Target.MC.Value, 1e-9, "it is not known where it comes from")
}

// A reading of today that was set aside and would stop the work is read again; one that lies
// back, or that changes nothing, is not.
func TestNewestReadingThatIsSetAsideIsReadAgain(t *testing.T) {
	advice := func(first, second string) string {
		a := asking.InFull[dry.ReadinessResult](t, "/v1/readiness", `{"billet": {"wood": "black cherry", "length": "600 mm", "width": "200 mm",
			"thickness": "30 mm", "stacked_on": "2023-03-01"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}},
			"as_of": "2026-11-28", "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}], "readings": [
			{"kind": "pin_meter", "date": "2026-11-27", "depth": "8 mm", "reading_mc_pct": `+first+`},
			{"kind": "pin_meter", "date": "2026-11-28", "depth": "8 mm", "reading_mc_pct": `+second+`}]}`)
		return strings.Join(a.Result.Advice, "; ")
	}
	assert.Contains(t, advice("8", "25"), "read again before the work")
	assert.NotContains(t, advice("25", "8"), "read again")
	assert.NotContains(t, advice("8", "8.5"), "read again")
}
