package dry_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
)

// A weight and a size alone do not tell wet from dry, and the summary names no number that would be
// taken for a reading; a meter at the face and at the core does, however light the piece is.
func TestLightWoodIsNotCalledDry(t *testing.T) {
	of := func(readings string) dry.ReadinessResult {
		return asking.InFull[dry.ReadinessResult](t, "/v1/readiness", `{"billet": {"wood": "white oak", "length": "2000 mm", "width": "200 mm", "thickness": "27 mm"},
			"target_condition": `+benchRoom+`, "readings": [{"kind": "weight", "date": "2026-11-01", "mass": "7.2 kg"},
			{"kind": "weight", "date": "2026-11-28", "mass": "7.2 kg"}`+readings+`]}`).Result
	}
	alone := of("")
	assert.Contains(t, alone.Summary, "somewhere from 0 to 47")
	for _, depth := range []string{"2 mm", "13 mm"} {
		assert.NotContains(t, of(`, {"kind": "pin_meter", "reading_mc_pct": 12, "depth": "`+depth+`"}`).Summary, "0 % (")
	}
	both := of(`, {"kind": "pin_meter", "reading_mc_pct": 12, "depth": "2 mm"}, {"kind": "pin_meter", "reading_mc_pct": 12, "depth": "13 mm"}`)
	assert.InDelta(t, 12, both.Moisture.MC.Value, 0.5)
	assert.NotNil(t, both.Moisture.Gradient)
	wet := of(`, {"kind": "pin_meter", "reading_mc_pct": 40, "depth": "13 mm"}`)
	for _, v := range wet.Verdicts {
		assert.Equal(t, "not_ready", v.Verdict, "its core is wet: %s", v.Step)
	}
}
