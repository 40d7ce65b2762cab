package dry_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
	"latewood/woodphys/method"
)

// tapering asks about a billet of walnut in a room since half a year, sizes in mm.
func tapering(t *testing.T, sizes, more string) *dry.ReadinessResult {
	t.Helper()
	a := asking.InFull[dry.ReadinessResult](t, "/v1/readiness", fmt.Sprintf(`{"billet": {"wood": "walnut-black", "length": "700 mm", "width": "200 mm",
		%s, "start_condition": {"mc_pct": 25}, "stacked_on": "2025-09-01"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}},
		"as_of": "2026-02-01", "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}]%s}`, sizes, more))
	return &a.Result
}

// A wedge is its thin side, its thick side and what lies between: wherever the thickness is
// measured, and whichever way it tapers.
func TestAWedgeIsJudgedByItsShape(t *testing.T) {
	const weighed = `, "readings": [{"kind": "weight", "date": "2026-02-01", "mass": "3.9 kg"}]`
	board := tapering(t, `"thickness": "40 mm"`, weighed)
	assert.Nil(t, board.Moisture.Thickest)
	wedge := tapering(t, `"thickness": "60 mm", "far_thickness": "20 mm"`, weighed)
	require.NotNil(t, wedge.Moisture.Thickest)
	for name, turned := range map[string]string{
		"edge for edge": `"thickness": "20 mm", "far_thickness": "60 mm"`, "along": `"thickness": "60 mm", "end_thickness": "20 mm"`,
		"end for end": `"thickness": "20 mm", "end_thickness": "60 mm"`,
	} {
		same := tapering(t, turned, weighed)
		assert.InDelta(t, wedge.Moisture.MC.Value, same.Moisture.MC.Value, 1e-6, name)
		assert.InDelta(t, wedge.Moisture.Thickest.Value, same.Moisture.Thickest.Value, 1e-6, name)
		for i := range wedge.Verdicts {
			assert.InDelta(t, wedge.Verdicts[i].Probability, same.Verdicts[i].Probability, 1e-6, name)
		}
	}
	// the same volume, and so the same guess of its ovendry mass
	assert.InEpsilon(t, board.Calibration.Ovendry.Value, wedge.Calibration.Ovendry.Value, 0.03)
	assert.Less(t, wedge.Moisture.Thinnest.Value, wedge.Moisture.MC.Value)
	assert.Greater(t, wedge.Moisture.Thickest.Value, wedge.Moisture.MC.Value+0.5)
	for i := range wedge.Verdicts {
		assert.LessOrEqual(t, wedge.Verdicts[i].Probability, board.Verdicts[i].Probability+0.02, "the thick side is the last to be ready")
	}
}

// The wetter the thick side, the later the date: between that of a board as thick as the
// wedge is on average and one as thick as its thick side.
func TestAWedgeIsReadyWithItsThickSide(t *testing.T) {
	days := func(sizes string) float64 {
		on := tapering(t, sizes, "").Verdicts[1].ReadyOn
		require.NotNil(t, on.ValueDays, sizes)
		return *on.ValueDays
	}
	wedge := days(`"thickness": "60 mm", "far_thickness": "20 mm"`)
	assert.Greater(t, wedge, days(`"thickness": "43 mm"`))
	assert.InDelta(t, days(`"thickness": "60 mm"`), wedge, 25, "the thick side decides")
	assert.InDelta(t, days(`"thickness": "40 mm"`), days(`"thickness": "40 mm", "far_thickness": "39.9 mm"`), 3, "next to a board it is one")
}

func TestAWedgeIsTold(t *testing.T) {
	const body = `{"billet": {"wood": "walnut-black", "length": "700 mm", "width": "200 mm", "thickness": "60 mm", "far_thickness": "20 mm"%s},
		"target_condition": {"mc_pct": 8}%s, "readings": [{"kind": "stated", "mc_pct": 9}]}`
	const stays = `, "as_of": "2026-02-01", "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}]`
	for _, c := range []struct{ billet, more, says string }{
		{"", "", "as of the whole wedge"}, {`, "stacked_on": "2025-01-01"`, stays, "as a board of 43.33 mm"},
	} {
		a := asking.AnswerTo[dry.ReadinessResult](t, "/v1/readiness", fmt.Sprintf(body, c.billet, c.more))
		found := false
		for _, w := range a.Warnings {
			found = found || w.Code == method.Assumption && w.Input == "/billet/far_thickness" && strings.Contains(w.Detail, c.says)
		}
		assert.True(t, found, c.says)
	}
	asking.AnswerTo[dry.ReadinessResult](t, "/v1/readiness", fmt.Sprintf(strings.Replace(body, `"20 mm"`, `"0 mm"`, 1), `, "stacked_on": "2025-01-01"`, stays))
}
