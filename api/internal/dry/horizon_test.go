package dry_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
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
	for rest, says := range map[string]string{of("2019-04-01", `, "horizon_days": 1825`): "which horizon_days sets: let it be 2798 or more",
		of("2014-04-01", ""): "leave out stays and as_of"} {
		problem := asking.Posting("/v1/readiness", rest).Of(t, asking.SharedService())
		assert.Contains(t, problem.Body.String(), says)
	}
}
