package dry_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
)

// What a reading is told to mean is what comes out when it is taken and asked again: of wood of
// which nothing was read, the ends of the band are where few cases lie, and one of them alone
// does not stand for all that is not known.
func TestReadingMeansWhatComesOut(t *testing.T) {
	const (
		shed = `{"station": "columbus-oh", "exposure": "shed"}`
		room = `{"air": {"temperature": "20 C", "rh_pct": 45}}`
		ask  = `{"billet": {"wood": "%s", "length": "1200 mm", "width": "300 mm", "thickness": "%s", "stacked_on": "%s"}, "as_of": "2026-11-29",
			"target_condition": ` + room + `, "stays": [%s], "readings": [%s]}`
		never = "not ready within the forecast"
	)
	for _, c := range []struct{ wood, thickness, stacked, stays string }{
		{"maple-sugar", "80 mm", "2026-10-01", shed},
		{"walnut-black", "100 mm", "2025-10-01", shed},
		{"walnut-black", "50 mm", "2026-08-01", room},
		{"cherry-black", "50 mm", "2026-03-01", strings.Replace(shed, `"exposure"`, `"until": "2026-11-01", "exposure"`, 1) + ", " + room},
	} {
		name := c.wood + " of " + c.thickness
		of := func(readings string) *dry.ReadinessResult {
			r := asking.AnswerTo[dry.ReadinessResult](t, "/v1/readiness", fmt.Sprintf(ask, c.wood, c.thickness, c.stacked, c.stays, readings)).Result
			return &r
		}
		before := of("")
		if !assert.NotNil(t, before.Next.ExpectMC, name) {
			continue
		}
		for text, mc := range map[string]float64{before.Next.Above: before.Next.ExpectMC.High, before.Next.Below: before.Next.ExpectMC.Low} {
			after := of(fmt.Sprintf(`{"kind": "ovendry_sample", "date": "2026-11-29", "wet_mass": "%.1f g", "ovendry_mass": "1000 g"}`, 1000+10*mc))
			on := after.Verdicts[0].ReadyOn // resaw, which is the first that is open
			t.Logf("%s, %.1f %%: %s; %s", name, mc, text, on.Value+on.Detail)
			assert.Equal(t, on.Value == "" && after.Verdicts[0].Probability < 0.5, strings.Contains(text, never), "%s, %.1f %%: %s; %s", name, mc, text, on.Detail)
		}
	}
}
