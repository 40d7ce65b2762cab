package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/species"
)

// The months of a place, sent as one's own, give what the place gives, wherever a place may
// be named; a year of eleven months is refused.
func TestOwnTwelveMonthsServeAsAStation(t *testing.T) {
	tables, err := species.Default()
	require.NoError(t, err)
	madison, _ := tables.Station("madison-wi")
	year, _ := madison.Year()
	var months []string
	for _, m := range year {
		months = append(months, fmt.Sprintf(`{"temperature": "%v C", "rh_pct": %v}`, m.Temperature.Celsius(), 100*m.RelativeHumidity))
	}
	own := `"months": [` + strings.Join(months, ", ") + `]`
	for _, q := range []struct{ target, body string }{
		{"/v1/seasoning", `{"billet": {"wood": "maple-sugar", "thickness": "25 mm", "stacked_on": "2024-04-01"}, "target_condition": {"mc_pct": 20}, "stays": [{PLACE, "exposure": "shed"}]}`},
		{"/v1/seasoning", `{"billet": {"wood": "maple-sugar", "thickness": "25 mm", "stacked_on": "2024-04-01"}, "target_condition": {"mc_pct": 12}, "stays": [{PLACE, "heated_to": "20 C"}]}`},
		{"/v1/year-in-service", `{"room": {PLACE, "heated_to": "20 C"}, "build_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "parts": [{"id": "board", "wood": "maple-sugar", "thickness": "20 mm", "width": "300 mm", "rings": {"angle_deg": 20}}]}`},
	} {
		of := func(place string) map[string]any {
			reply := asking.Posting(q.target, strings.Replace(q.body, "PLACE", place, 1)).Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, reply.Code, "%s", reply.Body)
			var said map[string]any
			require.NoError(t, json.Unmarshal([]byte(strings.NewReplacer(madison.Name, "here", "your own twelve months", "here").Replace(reply.Body.String())), &said))
			result, _ := said["result"].(map[string]any)
			return result
		}
		there := of(`"station": "madison-wi"`)
		assert.Greater(t, len(there), 3, q.target)
		assert.Equal(t, there, of(own), q.target)
		short := `"months": [` + strings.Join(months[:11], ", ") + `]`
		reply := asking.Posting(q.target, strings.Replace(q.body, "PLACE", short, 1)).Of(t, asking.SharedService())
		assert.Equal(t, http.StatusUnprocessableEntity, reply.Code)
		assert.Contains(t, reply.Body.String(), "/months")
		both := asking.Posting(q.target, strings.Replace(q.body, "PLACE", `"station": "madison-wi", `+own, 1)).Of(t, asking.SharedService())
		assert.Contains(t, both.Body.String(), "only one of station, months")
	}
}
