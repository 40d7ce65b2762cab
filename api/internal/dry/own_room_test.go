package dry_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a board holds after years in its own room is where it rests: every step is ready whatever it held first, and its target lies between
// the two edges of the sorption loop, on the side that it came from. What it went through
// before it came into the room does not count by how it began, but by what it held then.
func TestYearsInItsOwnRoomAreReady(t *testing.T) {
	const stacked = `{"billet": {"wood": "%s", "length": "800 mm", "width": "150 mm", "thickness": "30 mm", "stacked_on": "2020-03-01"%s},
		"target_condition": {"air": {"temperature": "20 C", "rh_pct": %d}}, "as_of": "2026-03-01", "stays": [%s]}`
	for _, wood := range []string{"maple-sugar", "spruce-sitka"} {
		for _, rh := range []int{30, 45, 60} {
			room := fmt.Sprintf(`{"air": {"temperature": "20 C", "rh_pct": %d}}`, rh)
			lay := func(start float64, stays string) float64 {
				began := ""
				if start != 0 {
					began = fmt.Sprintf(`, "start_condition": {"mc_pct": %g}`, start)
				}
				r, _ := advised(t, fmt.Sprintf(stacked, wood, began, rh, stays))
				for _, v := range r.Verdicts {
					assert.Equal(t, "ready", v.Verdict, "%s in %d %% from %g %%: %s", wood, rh, start, v.Step)
				}
				assert.InDelta(t, r.Moisture.MC.Value, r.Target.MC.Value, 0.15, "%s in %d %% from %g %%", wood, rh, start)
				return r.Target.MC.Value
			}
			driest, before := lay(3, room), 0.0
			for _, start := range []float64{3, 6, 7, 8, 9, 10, 11, 12, 16, 24} {
				rests := lay(start, room)
				assert.GreaterOrEqual(t, rests, before-0.03, "%s in %d %%: what began wetter does not rest drier", wood, rh)
				before = rests
			}
			assert.InDelta(t, 1, before-driest, 0.15, "the dead band is a point wide (row drying.hysteresis)")
			damp := lay(3, `{"air": {"temperature": "15 C", "rh_pct": 85}, "until": "2023-03-01"}, `+room)
			assert.InDelta(t, before, damp, 0.1, "it came from the damp")
			assert.GreaterOrEqual(t, lay(0, room), before, "wood that was never dry before rests no lower")
		}
	}
}
