package dry_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
	"latewood/api/internal/serve"
)

const benchRoom = `{"air": {"temperature": "20 C", "rh_pct": 45}}`

func readinessOf(t *testing.T, billet, asOf, stays, more string) serve.Answer[dry.ReadinessResult] {
	t.Helper()
	return asking.InFull[dry.ReadinessResult](t, "/v1/readiness", `{"billet": {`+billet+`}, "as_of": "`+asOf+`", "stays": [`+stays+`],
		"target_condition": `+benchRoom+more+`}`)
}

// Wet wood that goes on drying too fast is told so wherever its course is: by seasoning, by
// readiness and by the answer about the time to resaw, with the same index.
func TestHarmAheadIsToldWhereverWoodDriesOn(t *testing.T) {
	const oak = `"wood": "white oak", "length": "1000 mm", "width": "220 mm", "thickness": "80 mm", "stacked_on": "2026-11-28"`
	const hot, shed = `{"air": {"temperature": "24 C", "rh_pct": 25}}`, `{"station": "columbus-oh", "exposure": "shed"}`
	seasoned := asking.InFull[dry.SeasoningResult](t, "/v1/seasoning", `{"billet": {`+strings.Replace(oak, `"length": "1000 mm", `, "", 1)+`},
		"stays": [`+hot+`], "target_condition": `+benchRoom+`}`).Result
	r := readinessOf(t, oak, "2026-11-29", hot, "").Result
	require.NotNil(t, r.Checks)
	require.NotNil(t, seasoned.Checks)
	assert.Equal(t, "high", r.Checks.Risk)
	assert.InEpsilon(t, seasoned.Checks.Ratio, r.Checks.Ratio, 0.05)
	kinds := kindsOf(r.Defects)
	assert.Contains(t, kinds, "honeycomb")
	assert.Equal(t, kindsOf(seasoned.Defects), kinds, "stacked a day before")
	assert.Contains(t, r.Summary, "risk of surface checks: high; in air so dry while it is wet it may honeycomb")
	assert.Contains(t, r.Advice[0], "the air there is too dry")
	assert.Contains(t, strings.Join(r.Advice, "; "), "honeycomb")

	r = readinessOf(t, oak, "2026-11-29", shed, "").Result
	assert.NotContains(t, kindsOf(r.Defects), "honeycomb", "air-dried, as such stock should be")
	r = readinessOf(t, strings.Replace(oak, "2026-11-28", "2022-04-01", 1), "2026-11-29", shed+"", "").Result
	assert.Nil(t, r.Checks, "it has long been dry")
	assert.Empty(t, r.Defects)
	timing := asking.InFull[dry.ResawTimingResult](t, "/v1/resaw-timing", `{"billet": {`+strings.Replace(oak, `, "stacked_on": "2026-11-28"`, "", 1)+`},
		"moisture_profile": {"mean_mc_pct": 60}, "as_of": "2026-11-29", "stays": [`+hot+`], "target_condition": `+benchRoom+`,
		"saw": {"kerf": "1.2 mm"}, "part": {"length": "560 mm", "width": "190 mm", "final_thickness": "4 mm"}}`).Result
	assert.Contains(t, strings.Join(timing.DryWhole.Risks, "; "), "honeycomb")
}

// A step that cannot be said and of which half of the cases are ready today has no day to wait for.
func TestWhatMayBeReadyTodayHasNoDate(t *testing.T) {
	r := readinessOf(t, `"wood": "walnut-black", "length": "1000 mm", "width": "220 mm", "thickness": "52 mm", "stacked_on": "2024-04-01"`,
		"2026-07-20", `{"station": "columbus-oh", "exposure": "shed"}`, "").Result
	resaw := r.Verdicts[0]
	require.Equal(t, "cannot_say", resaw.Verdict)
	require.GreaterOrEqual(t, resaw.Probability, 0.5)
	assert.Empty(t, resaw.ReadyOn.Value)
	assert.Empty(t, resaw.ReadyOn.Low)
	assert.Empty(t, resaw.ReadyOn.High)
	assert.Equal(t, "not_known", resaw.ReadyOn.Undated)
	assert.Contains(t, resaw.ReadyOn.Detail, "may be ready today")
	assert.Contains(t, r.Summary, "resaw: cannot say, may be ready today")
	assert.Contains(t, r.Target.Detail, "drying side of the sorption loop")
}

// No step has today for its day unless it is ready today, whenever it is asked.
func TestNoUnsettledStepIsReadyToday(t *testing.T) {
	unsettled := 0
	for _, thickness := range []string{"1", "10", "20"} {
		for _, day := range []string{"2026-11-21", "2026-11-24", "2026-11-27", "2026-11-29", "2026-12-02", "2026-12-09", "2026-12-20"} {
			r := readinessOf(t, thinWalnut(thickness), day, benchRoom, "").Result
			for _, v := range r.Verdicts {
				if v.Verdict != "ready" {
					unsettled++
					assert.NotEqual(t, day, v.ReadyOn.Value, "%s mm, %s", thickness, v.Step)
				}
			}
		}
	}
	assert.Greater(t, unsettled, 10)
}

// thinWalnut is a leaf that comes from the next room, where it held 12 %.
func thinWalnut(thickness string) string {
	return `"wood": "walnut-black", "length": "600 mm", "width": "150 mm", "thickness": "` + thickness + ` mm", "stacked_on": "2026-11-20",
		"start_condition": {"mc_pct": 12, "mc_sd_points": 1}`
}

// A veneer has settled within a day, and is not said to change by what it lost a week ago; thicker
// stock takes longer.
func TestAVeneerIsAtRestWithinDays(t *testing.T) {
	verdict := func(thickness, day string) string {
		return readinessOf(t, thinWalnut(thickness), day, benchRoom, "").Result.Verdicts[1].Verdict
	}
	assert.Equal(t, "not_ready", verdict("1", "2026-11-20"))
	assert.Equal(t, "ready", verdict("1", "2026-11-24"))
	assert.Equal(t, "ready", verdict("3", "2026-11-24"))
	assert.NotEqual(t, "ready", verdict("10", "2026-11-24"))
	assert.Equal(t, "ready", verdict("10", "2026-12-01"))
}

// Advice and warnings look at the length: a short block dries through its ends, and has no place
// far from them.
func TestShortPiecesAreToldOfTheirEnds(t *testing.T) {
	of := func(length, seal string) (warned, advised bool, all string) {
		a := readinessOf(t, `"wood": "walnut-black", "length": "`+length+`", "width": "100 mm", "thickness": "80 mm", "stacked_on": "2024-04-01"`+seal,
			"2026-07-20", `{"station": "columbus-oh", "exposure": "shed"}`, "")
		for i := range a.Warnings {
			warned = warned || strings.Contains(a.Warnings[i].Detail, "dries through its end grain")
		}
		all = strings.Join(a.Result.Advice, "; ")
		return warned, strings.Contains(all, "300 mm"), all
	}
	warned, advised, all := of("60 mm", "")
	assert.True(t, warned)
	assert.False(t, advised)
	assert.Contains(t, all, "too short to cut a sample from")
	warned, advised, all = of("500 mm", "")
	assert.True(t, warned, "six times as long as thick")
	assert.False(t, advised)
	assert.Contains(t, all, "from mid-length")
	warned, advised, _ = of("2000 mm", "")
	assert.False(t, warned)
	assert.True(t, advised)
	counted := func(length, seal string) string {
		a := readinessOf(t, `"wood": "walnut-black", "length": "`+length+`", "width": "100 mm", "thickness": "80 mm", "stacked_on": "2024-04-01"`+seal,
			"2026-07-20", `{"station": "columbus-oh", "exposure": "shed"}`, "")
		all := ""
		for i := range a.Warnings {
			assert.NotEqual(t, "not_used", a.Warnings[i].Code, a.Warnings[i].Detail)
			all += a.Warnings[i].Detail
		}
		return all
	}
	assert.Contains(t, counted("60 mm", `, "end_seal": "sealed_fresh"`), "its ends count as sealed")
	assert.Contains(t, counted("400 mm", `, "end_seal": "bare"`), "its ends count as bare")
	assert.NotContains(t, counted("2000 mm", `, "end_seal": "bare"`), "dries through its end grain")
}

// The same short piece is dry on the same day and as wet in the mean, whichever question is asked: its ends
// count in all of them, and the more the less they are sealed.
func TestEndsCountInEveryQuestion(t *testing.T) {
	const room = `{"air": {"temperature": "20 C", "rh_pct": 45}}`
	season := func(seal string) dry.SeasoningResult {
		return asking.InFull[dry.SeasoningResult](t, "/v1/seasoning", `{"billet": {"wood": "walnut-black", "length": "200 mm", "width": "150 mm", "thickness": "50 mm",
			"stacked_on": "2026-04-01", "start_condition": {"mc_pct": 80}`+seal+`}, "stays": [{"station": "columbus-oh", "exposure": "shed"}], "target_condition": `+room+`}`).Result
	}
	readiness := func(seal string) dry.ReadinessResult {
		return asking.InFull[dry.ReadinessResult](t, "/v1/readiness", `{"billet": {"wood": "walnut-black", "length": "200 mm", "width": "150 mm", "thickness": "50 mm",
			"stacked_on": "2026-04-01", "start_condition": {"mc_pct": 80}`+seal+`}, "stays": [{"station": "columbus-oh", "exposure": "shed"}], "as_of": "2026-07-10", "target_condition": `+room+`}`).Result
	}
	onDay := func(r dry.SeasoningResult) float64 {
		const today = 100.0 // days after stacking
		for i := 1; i < len(r.Series); i++ {
			if a, b := r.Series[i-1], r.Series[i]; b.Days >= today {
				return a.Mean.Value + (b.Mean.Value-a.Mean.Value)*(today-a.Days)/(b.Days-a.Days)
			}
		}
		return 0
	}
	before, unsealed, whole := 100.0, readiness("").Moisture.MC.Value, onDay(season(""))
	for _, seal := range []string{"", `, "end_seal": "sealed_fresh"`, `, "end_seal": "sealed_late"`, `, "end_seal": "bare"`} {
		mean := readiness(seal).Moisture.MC.Value
		assert.InDelta(t, onDay(season(seal))-whole, mean-unsealed, 0.6, "%s: what the ends take off, between points of the course and of as many draws", seal)
		assert.Less(t, mean, before, seal)
		t.Logf("%s: %.1f %%", seal, mean)
		before = mean
	}
}

// A band that is cut where there is no water left cuts what follows from it.
func TestBandsEndWhereTheMoistureDoes(t *testing.T) {
	r := asking.InFull[dry.ReadinessResult](t, "/v1/readiness", `{"billet": {"wood": "walnut-black", "length": "1000 mm", "width": "220 mm", "thickness": "52 mm"},
		"target_condition": {"mc_pct": 8.5}, "readings": [{"kind": "weight", "mass": "7.0 kg", "date": "2026-11-01"}]}`).Result
	require.Zero(t, r.Moisture.MC.Low)
	most, least := 7.0*1.085, 7.0*1.085/(1+r.Moisture.MC.High/100)
	assert.LessOrEqual(t, r.WeightAt.Mass.High, most*1.002, "the scale has a step")
	assert.GreaterOrEqual(t, r.WeightAt.Mass.Low, least*0.998)
	for _, m := range r.Movement {
		assert.Less(t, m.Change.High, 0.035*m.Now.Value, "%s %s: swelling from no water at all", m.Dimension, m.Rings)
	}
}

// What is planned for flattening decides about the sets only where the answer says so.
func TestFlatteningThatDecidesIsTold(t *testing.T) {
	of := func(flattening string) dry.ResawTimingResult {
		return asking.InFull[dry.ResawTimingResult](t, "/v1/resaw-timing", `{"billet": {"wood": "maple-sugar", "length": "700 mm", "width": "200 mm", "thickness": "60 mm"},
			"part": {"length": "560 mm", "width": "190 mm", "final_thickness": "4 mm"`+flattening+`}, "saw": {"kerf": "1.2 mm"}, "moisture_profile": {"mean_mc_pct": 16},
			"as_of": "2026-11-29", "stays": [{"station": "columbus-oh", "exposure": "shed", "until": "2027-05-01"}, `+benchRoom+`], "target_condition": `+benchRoom+`}`).Result
	}
	usual := of("")
	require.Equal(t, "saw_now", usual.Recommendation.Way)
	assert.Contains(t, strings.Join(usual.Recommendation.Reasons, "; "), "the thickness planned for flattening decides that")
	whole := usual.DryWhole.Cup
	require.True(t, whole.Exceeds)
	assert.InDelta(t, usual.DryWhole.Leaf.Thickness.Value+whole.Cup.Value-whole.Allowance.Value, whole.FlatLeaf.Value, 0.02)
	assert.Equal(t, 3, whole.FlatSets)
	planned := of(`, "flattening": "2 mm"`)
	assert.Equal(t, "dry_whole", planned.Recommendation.Way)
	assert.NotContains(t, strings.Join(planned.Recommendation.Reasons, "; "), "decides that")
}

// Weights that stay as they are for six weeks say that the piece is nearly at rest, also where the
// law has it drying on: the trend that is told is that of the piece.
func TestEqualWeightsTellOfRest(t *testing.T) {
	of := func(readings string) dry.ReadinessResult {
		return asking.InFull[dry.ReadinessResult](t, "/v1/readiness", `{"billet": {"wood": "walnut-black", "thickness": "54 mm", "width": "200 mm", "length": "2 m", "stacked_on": "2024-04-01"},
			"as_of": "2026-11-29", "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "stays": [{"station": "columbus-oh", "exposure": "shed", "until": "2026-10-15"},
			{"air": {"temperature": "20 C", "rh_pct": 45}}]`+readings+`}`).Result
	}
	unread := of("").Moisture.Trend.Mass
	require.Less(t, unread.Value, -0.005, "%% a day: it was brought in six weeks ago")
	read := of(`, "readings": [{"kind": "weight", "date": "2026-10-15", "mass": "12.00 kg"}, {"kind": "weight", "date": "2026-11-01", "mass": "12.00 kg"},
		{"kind": "weight", "date": "2026-11-29", "mass": "12.00 kg"}]`).Moisture.Trend.Mass
	assert.Less(t, math.Abs(read.Value), 0.5*math.Abs(unread.Value))
	assert.Greater(t, read.High, -0.002, "the weights show 0, give or take 0.002 %% a day")
}

// Wood that lost its water far more slowly than the air it is told to lie in allows leaves no room
// for a middle: what is drawn of it still speaks with many voices, and says that it is too wet.
func TestWoodThatHardlyDriesIsNotLeftToAFew(t *testing.T) {
	a := asking.InFull[dry.ReadinessResult](t, "/v1/readiness", `{"billet": {"wood": "sitka spruce", "length": "1040 mm", "width": "275 mm", "thickness": "40 mm", "rings": {"angle_deg": 20}, "stacked_on": "2025-01-25"},
		"target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "as_of": "2026-11-27", "scale_division": "10 g",
		"stays": [{"station": "madison-wi", "exposure": "shed", "until": "2026-05-01"}, {"air": {"temperature": "20 C", "rh_pct": 45}}],
		"readings": [{"kind": "weight", "date": "2025-02-14", "mass": "7.10 kg"}, {"kind": "weight", "date": "2025-05-24", "mass": "6.50 kg"},
			{"kind": "weight", "date": "2025-08-19", "mass": "6.08 kg"}, {"kind": "weight", "date": "2025-12-05", "mass": "5.71 kg"},
			{"kind": "weight", "date": "2026-02-13", "mass": "5.49 kg"}, {"kind": "weight", "date": "2026-05-09", "mass": "5.21 kg"},
			{"kind": "weight", "date": "2026-08-08", "mass": "4.72 kg"}, {"kind": "weight", "date": "2026-11-09", "mass": "4.48 kg"},
			{"kind": "ovendry_sample", "date": "2026-11-27", "wet_mass": "116.8 g", "ovendry_mass": "100.0 g", "scale_division": "0.1 g"}]}`).Result
	assert.Greater(t, a.Calibration.Effective, 40.0)
	assert.InDelta(t, 16.8, a.Moisture.MC.Value, 0.6, "as the oven has it")
	for _, v := range a.Verdicts {
		assert.Equal(t, "not_ready", v.Verdict, v.Step)
	}
}
