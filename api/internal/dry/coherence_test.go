package dry_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"net/http"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
	"latewood/api/internal/serve"
)

// anyBillet is a random question of readiness: a board or a wedge, outdoors, indoors or carried in,
// with some readings of a piece that dries towards the air it lies in, some of them wrong.
func anyBillet(r *rand.Rand, stays bool) map[string]any {
	pick := func(list ...any) any { return list[r.IntN(len(list))] }
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	mm := func(low, high float64) string { return fmt.Sprintf("%.0f mm", between(low, high)) }
	const long, wide = 700.0, 200.0
	thick := between(12, 70)
	b := map[string]any{"wood": pick("walnut-black", "maple-sugar", "spruce-sitka", "oak-white", "mahogany-bigleaf"),
		"length": fmt.Sprintf("%.0f mm", long), "width": fmt.Sprintf("%.0f mm", wide), "thickness": fmt.Sprintf("%.0f mm", thick)}
	mean := thick
	if r.IntN(4) == 0 {
		far := between(6, 70)
		b["far_thickness"], mean = fmt.Sprintf("%.0f mm", far), (thick+far)/2
	}
	if r.IntN(2) == 0 {
		b["rings"] = map[string]any{"angle_deg": math.Round(between(0, 90))}
	}
	settled := r.IntN(3) == 0 // it is about as dry as its room keeps it, and that is read
	air := func() map[string]any {
		if settled {
			return map[string]any{"temperature": "20 C", "rh_pct": 45}
		}
		return map[string]any{"temperature": "20 C", "rh_pct": math.Round(between(30, 65))}
	}
	q := map[string]any{"billet": b, "target_condition": map[string]any{"air": air()}}
	if r.IntN(5) == 0 {
		q["target_condition"] = map[string]any{"mc_pct": math.Round(between(6, 12))}
	}
	start, age := between(40, 90), between(5, 1200)
	now := time.Date(2026, 3, 14, 0, 0, 0, 0, time.UTC)
	day := func(before float64) string { return now.AddDate(0, 0, -int(before)).Format(time.DateOnly) }
	if stays {
		b["stacked_on"], q["as_of"] = day(age), day(0)
		if r.IntN(2) == 0 {
			start = between(8, 40)
			b["start_condition"] = map[string]any{"mc_pct": math.Round(start)}
		}
		shed := map[string]any{"station": pick("columbus-oh", "zurich", "madison-wi"), "exposure": pick("shed", "open_stack")}
		room := map[string]any{"air": air()}
		switch r.IntN(3) {
		case 0:
			q["stays"] = []any{shed}
		case 1:
			q["stays"] = []any{room}
		default:
			shed["until"] = day(age * between(0.1, 0.8))
			q["stays"] = []any{shed, room}
		}
		q["horizon_days"] = math.Round(age + between(200, 1500))
	}
	var readings []any
	rest := between(7, 12)
	if settled {
		rest, start = 8.7, 12
	}
	mc := func(before float64) float64 {
		return rest + (start-rest)*math.Exp(-(age-before)/(3*mean)) + 0.5*r.NormFloat64()
	}
	dry := mean / 1000 * long / 1000 * wide / 1000 * between(450, 650)
	for n, i := r.IntN(5), 0; i < n; i++ {
		before := age * (0.9 - 0.9*float64(i)/float64(n))
		mass := dry * (1 + mc(before)/100)
		if r.IntN(15) == 0 {
			mass *= []float64{0.1, 10, 0.85}[r.IntN(3)]
		}
		readings = append(readings, map[string]any{"kind": "weight", "date": day(before), "mass": fmt.Sprintf("%.3f kg", mass)})
	}
	if r.IntN(2) == 0 {
		readings = append(readings, map[string]any{"kind": "pin_meter", "reading_mc_pct": math.Round(max(7, min(mc(0), 28))), "depth": mm(3, 6),
			"thickness": b["thickness"]})
	}
	if settled || r.IntN(3) == 0 {
		wet := 100 + mc(0)
		readings = append(readings, map[string]any{"kind": "ovendry_sample", "wet_mass": fmt.Sprintf("%.2f g", wet), "ovendry_mass": "100 g"})
	}
	if readings != nil {
		q["readings"] = readings
	}
	return q
}

// What one answer about readiness says in one place it does not deny in another:
//
//  1. A step is ready where every criterion is, and with a probability of 0.80.
//  2. A step that is not ready has a criterion that is not, and the level only where its band
//     does not lie on both sides of the limits.
//  3. A step that is ready is ready on the day asked about; one that is not has no such middle
//     date.
//  4. No date is told that is not kept, but for what is ready now.
//  5. A date of a step that is open today says what it is worth.
//  6. Where all is ready nothing is advised; nobody is told to wait whose wood is at rest.
//  7. A level that is open and known badly is to be settled by an ovendry sample.
//  8. The ovendry mass is the same wherever it is told, and the mass at the target follows.
//  9. The gap is what the wood holds less the target; the summary tells the verdicts.
//  10. Readings that count and readings that do not are all the readings.
//  11. Of a wedge the thick place, the thin one and the whole are told in order.
func coherent(t *testing.T, q map[string]any, r *dry.ReadinessResult) {
	t.Helper()
	advice := strings.Join(r.Advice, "\n")
	allReady, atRest, open := true, false, false
	for _, v := range r.Verdicts {
		missed, known := 0, true
		for _, c := range v.Criteria {
			if c.Verdict != "ready" {
				known = false
			}
			if c.Verdict == "not_ready" {
				missed++
			}
			atRest = atRest || c.Kind == "rest" && c.Verdict == "ready"
			open = open || c.Kind == "level" && c.Verdict == "cannot_say"
			if c.Kind == "level" && c.Verdict == "not_ready" && r.Moisture.Thickest == nil {
				gap := r.Moisture.MC.High - r.Moisture.MC.Low
				assert.False(t, r.Moisture.MC.Low < r.Target.MC.Value-5 && r.Moisture.MC.High > r.Target.MC.Value+5 && gap > 10,
					"2: %v of %v against %v", v.Verdict, r.Moisture.MC, r.Target.MC)
			}
		}
		switch v.Verdict {
		case "ready":
			assert.True(t, known && v.Probability >= 0.795, "1")
		case "not_ready":
			assert.Positive(t, missed, "2")
		default:
			assert.Zero(t, missed, "2")
		}
		allReady = allReady && v.Verdict == "ready"
		assert.Contains(t, r.Summary, v.Step+": "+strings.ReplaceAll(strings.Replace(v.Verdict, "cannot_say", "cannot say", 1), "_", " "), "9")
		dated(t, q, &v)
	}
	if allReady {
		assert.Empty(t, r.Advice, "6")
	}
	if atRest {
		assert.NotContains(t, advice, "wait;", "6")
	}
	if open && r.Moisture.SDPct > 1.05 {
		assert.Contains(t, advice, "dry a sample", "7")
	}
	if r.WeightAt != nil {
		assert.InEpsilon(t, r.WeightAt.Ovendry.Value*(1+r.Target.MC.Value/100), r.WeightAt.Mass.Value, 0.01, "8")
		if r.Calibration != nil {
			assert.InEpsilon(t, r.WeightAt.Ovendry.Value, r.Calibration.Ovendry.Value, 0.01, "8")
		}
	}
	assert.InDelta(t, r.Moisture.MC.Value-r.Target.MC.Value, r.Target.GapPoints,
		0.11+0.06*(r.Moisture.MC.High-r.Moisture.MC.Low), "9: up to their rounding")
	if l := r.Calibration; l != nil {
		given, _ := q["readings"].([]any)
		assert.LessOrEqual(t, l.ReadingsUsed+len(r.Rejected), len(given), "10")
	}
	if thin := r.Moisture.Thinnest; thin != nil {
		whole := r.Moisture.MC.Value
		assert.LessOrEqual(t, min(thin.Value, r.Moisture.Thickest.Value), whole+0.15, "11")
		assert.GreaterOrEqual(t, max(thin.Value, r.Moisture.Thickest.Value), whole-0.15, "11")
	}
}

// dated holds the date of a step against its verdict.
func dated(t *testing.T, q map[string]any, v *dry.StepVerdict) {
	t.Helper()
	on := v.ReadyOn
	if on == nil {
		assert.Nil(t, q["as_of"], "with stays every step has its date, or why not")
		return
	}
	today := q["as_of"]
	assert.NotEmpty(t, on.Detail, "5")
	switch {
	case v.Verdict == "ready":
		assert.Equal(t, today, on.Value, "3")
	case on.Value == "":
	default:
		require.NotNil(t, on.Kept, "4")
		assert.GreaterOrEqual(t, *on.Kept, 0.495, "4")
		if v.Verdict == "not_ready" {
			assert.NotEqual(t, today, on.Value, "3")
		} else if on.Value == today {
			assert.Contains(t, on.Detail, "too few to say so", "5")
		}
	}
}

func TestAnswersOfReadinessAgreeWithThemselves(t *testing.T) {
	plain, history := 120, 8
	switch {
	case os.Getenv("LATEWOOD_SWEEP") == "1":
		plain, history = 1000, 500
	case asking.UnderRace || testing.Short():
		plain, history = 20, 2
	}
	r := rand.New(rand.NewPCG(7, 11))
	verdicts, refused, aside := map[string]int{}, 0, 0
	for i := range plain + history {
		q := anyBillet(r, i >= plain)
		body, err := json.Marshal(q)
		require.NoError(t, err)
		reply := asking.Posting("/v1/readiness", string(body)).Of(t, asking.SharedService())
		if reply.Code != http.StatusOK { // nothing is known, or it cannot be
			require.Equal(t, http.StatusUnprocessableEntity, reply.Code, "%s\n%s", body, reply.Body)
			refused++
			continue
		}
		a := asking.Decoded[serve.Answer[dry.ReadinessResult]](t, reply.Body.Bytes())
		coherent(t, q, &a.Result)
		aside += len(a.Result.Rejected)
		for _, v := range a.Result.Verdicts {
			verdicts[v.Verdict]++
		}
		if t.Failed() {
			t.Logf("%s", body)
			return
		}
	}
	t.Logf("verdicts %v, %d refused, %d readings left out", verdicts, refused, aside)
	assert.Less(t, refused, (plain+history)/2)
	if !testing.Short() && !asking.UnderRace {
		assert.Greater(t, verdicts["ready"], plain/30)
		assert.Greater(t, verdicts["not_ready"], plain/30)
		assert.Greater(t, verdicts["cannot_say"], plain/30)
	}
}
