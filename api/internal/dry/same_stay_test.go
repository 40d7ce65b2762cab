package dry_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/dry"
)

const thinMaple = `"wood": "sugar maple", "length": "2000 mm", "width": "150 mm", "thickness": "7 mm", "stacked_on": "2025-02-13"`

// judged is what is told of a piece today: its moisture, its verdicts and its dates.
func judged(r *dry.ReadinessResult) []any {
	told := []any{r.Moisture.MC, r.Moisture.Shell, r.Moisture.Core, r.Target}
	for i := range r.Verdicts {
		told = append(told, r.Verdicts[i])
	}
	return told
}

// One stay told in two or three parts is one stay: nothing of the answer changes, wherever today is.
func TestAStayToldInPartsIsOneStay(t *testing.T) {
	for _, place := range []string{
		`"air": {"temperature": "22 C", "rh_pct": 49}`,
		`"station": "columbus-oh", "exposure": "shed"`,
		`"station": "columbus-oh", "heated_to": "20 C"`,
		`"station": "zurich", "exposure": "open_stack", "until": "2025-09-01"}, {"air": {"temperature": "20 C", "rh_pct": 45}`,
	} {
		for _, today := range []string{"2025-02-28", "2025-05-01", "2025-10-20"} {
			whole := readinessOf(t, thinMaple, today, `{`+place+`}`, "").Result
			first := strings.Split(place, `, "until"`)[0]
			parts := `{` + first + `, "until": "2025-03-05"}, {` + first + `, "until": "2025-06-01"}, {` + place + `}`
			split := readinessOf(t, thinMaple, today, parts, "").Result
			assert.Equal(t, judged(&whole), judged(&split), "%s on %s", place, today)
			assert.Equal(t, whole.Summary, split.Summary)
		}
	}
}

// Wood that lies in the room of its target is as ready there as it is, wherever it goes next year:
// what the air of that room really is belongs to both.
func TestWhereWoodGoesNextDoesNotCountToday(t *testing.T) {
	const room = `{"air": {"temperature": "20 C", "rh_pct": 45}`
	stays := room + `}`
	stay := readinessOf(t, thinMaple, "2025-04-28", stays, "").Result
	require.Equal(t, "ready", stay.Verdicts[2].Verdict)
	for _, next := range []string{`{"station": "columbus-oh", "exposure": "shed"}`, `{"air": {"temperature": "22 C", "rh_pct": 60}}`} {
		goes := readinessOf(t, thinMaple, "2025-04-28", room+`, "until": "2026-04-01"}, `+next, "").Result
		for i := range stay.Verdicts {
			assert.Equal(t, stay.Verdicts[i].Verdict, goes.Verdicts[i].Verdict, next)
			assert.InDelta(t, stay.Verdicts[i].Probability, goes.Verdicts[i].Probability, 0.05, "%s, then %s", stay.Verdicts[i].Step, next)
		}
	}
}

// A percent of humidity more or less in the room where it lies does not turn a verdict on wood that
// is wanted in another that is nearly the same.
func TestAPercentOfHumidityDoesNotTurnAVerdict(t *testing.T) {
	for _, step := range []struct {
		from, to, by float64
		air          string
	}{{37, 53, 1, `"temperature": "20 C", "rh_pct": %g`}, {14, 26, 0.75, `"temperature": "%g C", "rh_pct": 45`}} {
		before := []float64{}
		for at := step.from; at <= step.to; at += step.by {
			r := readinessOf(t, `"wood": "walnut-black", "length": "2000 mm", "width": "200 mm", "thickness": "24 mm", "stacked_on": "2026-01-01"`,
				"2026-08-01", `{"air": {`+fmt.Sprintf(step.air, at)+`}}`, "").Result
			now := []float64{}
			for i := range r.Verdicts {
				now = append(now, r.Verdicts[i].Probability)
				if len(before) > i {
					assert.InDelta(t, before[i], now[i], 0.15, "%s at %g", r.Verdicts[i].Step, at)
				}
			}
			before = now
		}
	}
}
