package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/species"
)

// Every wood of the tables answers a movement, a forecast from green and a plan, and says
// which of its figures were estimated. LATEWOOD_SWEEP=1 forecasts all of them, else every
// twentieth.
func TestEveryWoodAnswers(t *testing.T) {
	tables, err := species.Default()
	require.NoError(t, err)
	woods := tables.Woods()
	if testing.Short() || asking.UnderRace {
		woods = woods[:40]
	}
	everything := os.Getenv("LATEWOOD_SWEEP") != ""
	lightest, heaviest := "balsa", "blackwood-african"
	for i, w := range woods {
		for _, q := range []struct{ target, body string }{
			{"/v1/movement", `{"wood": %q, "size": "200 mm", "direction": "tangential", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 7}}`},
			{"/v1/movement", `{"wood": %q, "size": "200 mm", "direction": "radial", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 7}}`},
			{"/v1/seasoning", `{"billet": {"wood": %q, "thickness": "25 mm", "stacked_on": "2024-04-01"}, "stays": [{"station": "madison-wi", "exposure": "shed"}], "target_condition": {"mc_pct": 20}}`},
			{"/v1/resaw-plan", `{"billets": [{"wood": %q, "condition": {"mc_pct": 10, "mc_sd_points": 1}, "length": "600 mm", "width": "150 mm", "thickness": "50 mm"}], "saws": [{"usual_kerf": "bandsaw_carbide", "max_cut_height": "305 mm"}], "parts": [{"part_size": "guitar-headplate"}]}`},
		} {
			if q.target == "/v1/seasoning" && !everything && i%20 != 0 && w.ID != lightest && w.ID != heaviest {
				continue // a forecast takes a tenth of a second
			}
			reply := asking.Posting(q.target, fmt.Sprintf(q.body, w.ID)).Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, reply.Code, "%s %s: %s", q.target, w.ID, reply.Body)
			var said struct {
				Warnings []struct{ Detail string } `json:"warnings"`
			}
			require.NoError(t, json.Unmarshal(reply.Body.Bytes(), &said))
			told := fmt.Sprint(said.Warnings)
			if q.target == "/v1/seasoning" && w.Estimates.SpecificGravityGreen.Known() {
				assert.Contains(t, told, "specific gravity of "+w.Common+" is estimated", w.ID)
			}
			if q.target == "/v1/seasoning" && w.Estimates.GreenStem.Known() {
				assert.Contains(t, told, "how full of water", w.ID)
			}
		}
	}
}
