package dry_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/dry"
)

func metered(t *testing.T, today string, readings string) dry.ReadinessResult {
	t.Helper()
	return readinessOf(t, `"wood": "walnut-black", "length": "2000 mm", "width": "200 mm", "thickness": "30 mm", "stacked_on": "2026-01-01"`,
		today, benchRoom, `, "readings": [`+readings+`]`).Result
}

func core(day string, shows float64) string {
	return fmt.Sprintf(`{"kind": "pin_meter", "date": "%s", "reading_mc_pct": %g, "wood_temperature": "20 C", "depth": "15 mm"}`, day, shows)
}

// A meter that shows more never makes wood drier or readier: what is more than it can tell says that
// the wood is wet, however dry the forecast has it. Where that has it wet as well, it tells nothing.
func TestAWetterMeterNeverMakesWoodReadier(t *testing.T) {
	for _, today := range []string{"2026-05-01", "2027-05-01"} {
		before, ready := 0.0, 1.0
		for _, shows := range []float64{8, 12, 16, 20, 24, 27, 28, 30, 40, 60} {
			if today == "2027-05-01" && shows > 12 && shows < 28 {
				continue // so far off that the law counts for little, and the band is wide
			}
			r := metered(t, today, core(today, shows))
			assert.Greater(t, r.Moisture.MC.Value, before-0.6, "%g %% on %s", shows, today)
			assert.Less(t, r.Verdicts[0].Probability, ready+0.03, "%g %% on %s", shows, today)
			before, ready = r.Moisture.MC.Value, r.Verdicts[0].Probability
		}
		assert.Less(t, ready, 0.1, "no wood is resawn that a meter calls wet")
	}
	wet := metered(t, "2026-01-10", core("2026-01-10", 45))
	assert.InDelta(t, metered(t, "2026-01-10", "").Moisture.MC.Value, wet.Moisture.MC.Value, 0.01, "the forecast has it wet as well")
}

// The order in which readings of a meter are told does not matter, nor does one that is too wet to
// be told make the others less sure.
func TestTheOrderOfMeterReadingsDoesNotMatter(t *testing.T) {
	dryOne := core("2026-05-01", 13)
	alone := metered(t, "2026-05-01", dryOne)
	for _, shows := range []float64{26, 45} {
		wet := core("2026-02-01", shows)
		a, b := metered(t, "2026-05-01", wet+","+dryOne), metered(t, "2026-05-01", dryOne+","+wet)
		require.Equal(t, judged(&a), judged(&b), "%g %%", shows)
		require.Equal(t, a.Calibration.Meters, b.Calibration.Meters)
		if shows > 28 {
			assert.Equal(t, judged(&alone), judged(&a))
		}
	}
}
