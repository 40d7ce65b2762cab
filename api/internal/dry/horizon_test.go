package dry_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
	"latewood/api/internal/serve"
)

// Wood that was stacked long ago is judged as other wood: the forecast reaches from then to
// today and on. Where horizon_days or the longest forecast ends before today, that is said.
func TestWoodOfYearsAgoIsJudged(t *testing.T) {
	of := func(stacked, rest string) string {
		return `{"billet": {"wood": "black cherry", "length": "600 mm", "width": "200 mm", "thickness": "30 mm", "stacked_on": "` + stacked + `"},
			"target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "as_of": "2026-11-28",
			"stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}], "readings": []` + rest + `}`
	}
	for _, stacked := range []string{"2021-12-01", "2019-04-01", "2017-01-01"} {
		a := asking.InFull[dry.ReadinessResult](t, "/v1/readiness", of(stacked, ""))
		assert.InDelta(t, a.Result.Target.MC.Value, a.Result.Moisture.MC.Value, 1, stacked)
		assert.Equal(t, "ready", a.Result.Verdicts[0].Verdict, stacked)
	}
	problem := asking.Posting("/v1/readiness", of("2019-04-01", `, "horizon_days": 1825`)).Of(t, asking.SharedService())
	assert.Contains(t, problem.Body.String(), "which horizon_days sets: let it be 2798 or more")
}

// Wood that has lain for longer than a forecast lasts is judged at rest in the air where it lies,
// which no reading confirms; stays and readings from before do not count, and what is wrong with
// those that do is told where they were sent.
func TestOldWoodIsJudgedAtRest(t *testing.T) {
	ask := func(stays, rest string) asking.Asked {
		return asking.Posting("/v1/readiness", `{"billet": {"wood": "black cherry", "length": "600 mm", "width": "200 mm", "thickness": "30 mm", "stacked_on": "1998-04-01"},
			"target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "as_of": "2026-11-28", "stays": [`+stays+`]`+rest+`}`)
	}
	told := func(stays, rest string) (dry.ReadinessResult, string) {
		a := asking.Decoded[serve.Answer[dry.ReadinessResult]](t, ask(stays, rest).Of(t, asking.SharedService()).Body.Bytes())
		var said []string
		for _, w := range a.Warnings {
			said = append(said, w.Input+" "+w.Detail)
		}
		return a.Result, strings.Join(said, "\n")
	}
	const yard, room = `{"station": "madison-wi", "until": "2001-06-01"}`, `{"air": {"temperature": "20 C", "rh_pct": 45}}`
	r, said := told(yard+","+room, "")
	assert.InDelta(t, r.Target.MC.Value, r.Moisture.MC.Value, 0.5)
	assert.Greater(t, r.Moisture.MC.High-r.Moisture.MC.Low, 1.5, "the air and the wood are not known closely")
	assert.Equal(t, "ready", r.Verdicts[0].Verdict)
	assert.Contains(t, said, "/billet/stacked_on the wood has lain for longer than a forecast lasts")
	assert.Contains(t, said, "No reading confirms that")

	damp, said := told(yard+`, {"station": "astoria-or", "exposure": "shed"}`, `, "horizon_days": 900, "readings": [
		{"kind": "weight", "date": "1999-04-01", "mass": "3 kg"}, {"kind": "weight", "date": "2026-11-01", "mass": "2.4 kg"}]`)
	assert.Greater(t, damp.Moisture.MC.Value, r.Moisture.MC.Value+3)
	assert.NotContains(t, said, "No reading confirms")
	assert.Contains(t, said, "/readings/0 this is from before that day")
	assert.Contains(t, said, "/horizon_days")
	assert.Equal(t, 1, damp.Calibration.ReadingsUsed)

	p := asking.ProblemOf(t, ask(yard+`, {"station": "no-such-place"}`, "").Of(t, asking.SharedService()), 422)
	require.Len(t, p.Errors, 1)
	assert.Equal(t, "/stays/1/station", p.Errors[0].Pointer)
}

// What is told of a date, of drying and of readings, as strangers asked it: a day in midwinter on
// which outdoor wood gets wetter, a start drier than the target, a wedge, a slip in one of many
// weights.
func TestAnswersThatAMakerCanTrust(t *testing.T) {
	asking.OneByOne(t)
	walnut := asking.AnswerTo[dry.ReadinessResult](t, "/v1/readiness", `{"billet":{"wood":"black walnut","length":"1200 mm","width":"220 mm","thickness":"52 mm","stacked_on":"2024-05-01"},
		"target_condition":{"air":{"temperature":"20 C","rh_pct":45}},"as_of":"2026-11-28","stays":[{"station":"madison-wi","exposure":"shed"}],"readings":[]}`).Result
	for _, v := range walnut.Verdicts {
		assert.Empty(t, v.ReadyOn.Value, v.Step)
		assert.NotEmpty(t, v.ReadyOn.Undated, v.Step)
	}
	resaw := walnut.Verdicts[0].ReadyOn
	require.NotNil(t, resaw.Likeliest)
	assert.Less(t, *resaw.Likeliest, 0.5)
	for _, day := range []string{resaw.From, resaw.Until} {
		assert.True(t, day[5:] > "04-15" && day[5:] < "10-15", "it is driest in summer: "+day)
	}
	assert.Contains(t, resaw.Detail, "on no day are half of the cases")
	assert.Contains(t, strings.Join(walnut.Advice, " "), "bring it into the room")

	up := seasoningOn(t, `"billet": {"wood": "maple-sugar", "thickness": "27 mm", "stacked_on": "2025-10-01", "start_condition": {"mc_pct": 4}}, "stays": [{"air": {"temperature": "20 C", "rh_pct": 60}}], "target_condition": {"air": {"temperature": "20 C", "rh_pct": 60}}`)
	require.NotNil(t, up.UpTo)
	assert.InDelta(t, up.Target.Value-1, *up.UpTo, 0.01)
	assert.Contains(t, up.Summary, "up to 9.5 %")
	passing := seasoningOn(t, `"billet": {"wood": "oak-northern-red", "thickness": "27 mm", "stacked_on": "2025-10-01", "start_condition": {"mc_pct": 7}}, "stays": [{"station": "astoria-or", "exposure": "shed"}], "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}`)
	require.NotNil(t, passing.Passes)
	assert.Contains(t, passing.Summary, "does not stay there")
	require.Less(t, passing.MeanDry.NotReached, 0.05, "it is there on the first day")
	assert.Empty(t, passing.MeanDry.High, "and hardly later")
	assert.Contains(t, passing.Summary, "does not stay there")
	assert.NotContains(t, passing.Summary, "perhaps", "nothing is open about whether it comes to it")

	const spruce = `"stays": [{"station": "madison-wi", "exposure": "shed"}], "target_condition": {"mc_pct": 16}, "billet": {"wood": "sitka spruce", "thickness": "60 mm", "stacked_on": "2025-10-01"`
	board, wedge := seasoningOn(t, spruce+`}`), seasoningOn(t, spruce+`, "far_thickness": "15 mm"}`)
	assert.Nil(t, board.ThickDry)
	require.NotNil(t, wedge.ThickDry)
	assert.Less(t, wedge.MeanDry.Value, wedge.ThickDry.Value)
	assert.Less(t, wedge.MeanDry.Value, board.MeanDry.Value)
	assert.InDelta(t, *board.MeanDry.ValueDays, *wedge.ThickDry.ValueDays, 30, "its thick edge is as thick as the board")
	assert.Contains(t, wedge.Summary, "where it is thickest")

	var weights []string
	for month := 1; month <= 8; month++ {
		mass := 3.2 - 0.05*float64(month)
		if month == 5 {
			mass *= 10
		}
		weights = append(weights, fmt.Sprintf(`{"kind": "weight", "date": "2026-%02d-01", "mass": "%.2f kg"}`, month, mass))
	}
	slip, _ := advised(t, `{"billet": {"wood": "sitka spruce", "length": "600 mm", "width": "200 mm", "thickness": "60 mm"},
		"target_condition": {"mc_pct": 8}, "readings": [`+strings.Join(weights, ",")+`, {"kind": "stated", "mc_pct": 9}]}`)
	require.Len(t, slip.Rejected, 1)
	assert.Equal(t, "/readings/4", slip.Rejected[0].Pointer)
	assert.Contains(t, slip.Rejected[0].Detail, "every void full of water")
	require.NotNil(t, slip.Moisture.Trend)
	assert.Less(t, slip.Moisture.Trend.Mass.Value, 0.0, "of the others")
}

// Thick wood, and wood that is wrapped, is not at rest because it is old: a day more does not make it
// ready. What dries in less time is judged at rest, as before, and so is thick wood in the end.
func TestThickWoodIsNotAtRestForBeingOld(t *testing.T) {
	told := func(thick, stay, stacked string) (dry.ReadinessResult, string) {
		a := asking.InFull[dry.ReadinessResult](t, "/v1/readiness", `{"billet": {"wood": "white oak", "length": "3000 mm", "width": "300 mm", "thickness": "`+thick+`",
			"stacked_on": "`+stacked+`"}, "target_condition": {"mc_pct": 15}, "as_of": "2026-11-29", "stays": [`+stay+`]}`)
		return a.Result, wordsOf(a.Warnings)
	}
	const pile, film = `{"station": "zurich", "exposure": "open_stack"}`, `{"station": "zurich", "exposure": "wrapped"}`
	for _, c := range []struct{ thick, stay string }{{"200 mm", pile}, {"300 mm", pile}, {"52 mm", film}} {
		young, _ := told(c.thick, c.stay, "2017-03-03") // 3558 days
		old, said := told(c.thick, c.stay, "2017-02-26")
		assert.Contains(t, said, "as if it had been stacked on")
		assert.Greater(t, old.Moisture.MC.Value, young.Moisture.MC.Value-0.3, c.thick)
		assert.Less(t, old.Verdicts[0].Probability, young.Verdicts[0].Probability+0.03, c.thick)
	}
	for _, c := range []struct{ thick, stacked string }{{"30 mm", "2017-02-26"}, {"200 mm", "1930-01-01"}} {
		r, said := told(c.thick, pile, c.stacked)
		assert.Contains(t, said, "it is taken to be at rest since", c.thick)
		assert.InDelta(t, 14, r.Moisture.MC.Value, 1.5, c.thick)
	}
}
