package dry_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
)

// asked is the result of a question, as text.
func asked(t *testing.T, path, body string) string {
	t.Helper()
	text, err := json.Marshal(asking.AnswerTo[any](t, path, body).Result)
	require.NoError(t, err)
	return string(text)
}

// What is left out and what is said to be so are the same: green wood, how it came to an
// equilibrium, a spread of nothing, and rings read off the pith.
func TestWhatIsSaidInOtherWordsIsTheSame(t *testing.T) {
	const (
		billet = `"billet": {"wood": "maple-sugar", "thickness": "25 mm", "width": "150 mm", "stacked_on": "2025-04-01"BILLET}, `
		rest   = `"stays": [{"station": "madison-wi"}], "horizon_days": 400, "target_condition": {TARGET}`
		room   = `"air": {"temperature": "20 C", "rh_pct": 45}`
	)
	ask := func(of, target string) string {
		return asked(t, "/v1/seasoning", `{`+strings.Replace(billet, "BILLET", of, 1)+strings.Replace(rest, "TARGET", target, 1)+`}`)
	}
	green := ask("", room)
	assert.Equal(t, green, ask(`, "start_condition": {"green": true}`, room))
	assert.Equal(t, green, ask("", room+`, "sorption": "unknown"`))
	assert.Equal(t, green, ask("", room+`, "sorption": "drying"`), "wood that dries from green comes to rest on the drying side")
	assert.NotEqual(t, green, ask("", room+`, "sorption": "wetting"`))
	assert.Equal(t, ask("", `"mc_pct": 12`), ask("", `"mc_pct": 12, "mc_sd_points": 0`))
	assert.Equal(t, ask(`, "rings": {"angle_deg": 0}`, room), ask(`, "rings": {"pith": {"z": "80 mm"}}`, room), "the pith below the middle")
	assert.Equal(t, ask(`, "rings": {"angle_deg": 90}`, room), ask(`, "rings": {"pith": {"y": "-1 m", "z": "12.5 mm"}}`, room), "the pith beside the middle")
	settled := ask(`, "start_condition": {"air": {"temperature": "20 C", "rh_pct": 80}}`, room)
	assert.NotEqual(t, green, settled, "wood that had settled in a damp room")
}

// Members of a shared billet that have no bearing are taken and named, each in a warning.
func TestMembersWithoutABearingAreNamed(t *testing.T) {
	named := func(path, body string) (all []string) {
		for _, w := range asking.AnswerTo[any](t, path, body).Warnings {
			if w.Code == "not_used" {
				all = append(all, w.Input+": "+w.Detail)
			}
		}
		return all
	}
	assert.Equal(t, []string{"/billet/length: billet.length has no bearing on this answer", "/billet/cup: billet.cup has no bearing on this answer"}, named("/v1/seasoning",
		`{"billet": {"id": "W1", "wood": "maple-sugar", "thickness": "25 mm", "length": "1 m", "cup": "2 mm", "stacked_on": "2025-04-01"}, "stays": [{"station": "madison-wi"}], "horizon_days": 100, "target_condition": {"mc_pct": 12}}`))
	assert.Equal(t, []string{"/billet/end_seal: billet.end_seal has no bearing on this answer", "/billet/stacked_on: billet.stacked_on has no bearing on this answer"}, named("/v1/readiness",
		`{"billet": {"wood": "maple-sugar", "length": "1 m", "width": "200 mm", "thickness": "50 mm", "end_seal": "bare", "stacked_on": "2025-04-01"}, "target_condition": {"mc_pct": 9}, "readings": [{"kind": "stated", "mc_pct": 10}]}`))
	assert.Equal(t, []string{"/part/final_condition: part.final_condition has no bearing on this answer"}, named("/v1/resaw-timing",
		timingOf("maple-sugar", "40 mm", `"mean_mc_pct": 15`, steadyRoom, "45", `"final_thickness": "3 mm", "final_condition": {"mc_pct": 8}`, ``)))
	assert.Equal(t, []string{"/readings/1: a weight alone does not tell the moisture content; readiness takes it together with others"}, named("/v1/moisture",
		`{"readings": [{"kind": "stated", "mc_pct": 10}, {"kind": "weight", "date": "2026-03-01", "mass": "4 kg"}]}`))
}

// A target that is stated has no air of its own: readiness tells the one that keeps it, and
// the time to resaw is weighed in it.
func TestStatedTargets(t *testing.T) {
	const body = `{"billet": {"wood": "maple-sugar", "length": "1 m", "width": "200 mm", "thickness": "50 mm"}, "target_condition": {"mc_pct": MC}, "readings": [{"kind": "stated", "mc_pct": 10}]}`
	r := asking.AnswerTo[dry.ReadinessResult](t, "/v1/readiness", strings.Replace(body, "MC", "8.5", 1)).Result
	assert.InDelta(t, 8.5, r.Target.MC.Value, 1e-9)
	require.NotNil(t, r.Target.RHPct)
	assert.InDelta(t, 44, *r.Target.RHPct, 2, "Wood Handbook table 4-2, from memory: 8.5 % at 45 % and 21.1 C")
	wet := asking.AnswerTo[dry.ReadinessResult](t, "/v1/readiness", strings.Replace(body, "MC", "30", 1)).Result
	assert.Nil(t, wet.Target.RHPct, "no air keeps it so wet")

	inAir := timingAnswer(t, timingOf("maple-sugar", "40 mm", `"mean_mc_pct": 15`, steadyRoom, "45", fiveMM, ``))
	stated := strings.Replace(timingOf("maple-sugar", "40 mm", `"mean_mc_pct": 15`, steadyRoom, "45", fiveMM, ``),
		`"target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}`, `"target_condition": {"mc_pct": `+formatted(inAir.Target.Value)+`}`, 1)
	alike := timingAnswer(t, stated)
	assert.InDelta(t, inAir.Target.Value, alike.Target.Value, 1e-9)
	assert.InDelta(t, inAir.TimeScale.Value, alike.TimeScale.Value, 0.01*inAir.TimeScale.Value, "it rests in the same air")
	asking.ProblemOf(t, asking.Posting("/v1/resaw-timing", strings.Replace(stated, formatted(inAir.Target.Value), "30", 1)).Of(t, asking.SharedService()), http.StatusUnprocessableEntity)
}

// The pins of a meter are as deep as they are in the billet, where its reading does not say
// how thick the piece is.
func TestPinsAreInTheBillet(t *testing.T) {
	body := func(more string) string {
		return `{"billet": {"wood": "maple-sugar", "length": "1 m", "width": "200 mm", "thickness": "50 mm"}, "target_condition": {"mc_pct": 9},
			"readings": [{"kind": "pin_meter", "reading_mc_pct": 12, "depth": "12 mm"` + more + `}]}`
	}
	assert.Equal(t, asked(t, "/v1/readiness", body(`, "thickness": "50 mm"`)), asked(t, "/v1/readiness", body("")))
	core := asking.Posting("/v1/readiness", body(`, "thickness": "30 mm"`)).Of(t, asking.SharedService())
	asking.ProblemOf(t, core, http.StatusUnprocessableEntity) // of the core alone
}
