package mill_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
	"latewood/api/internal/mill"
)

// The bound on the bytes of an answer holds where a log is crosscut into many lengths, each with
// its cuts, and many of them give one billet or none.
func TestAnswersOfManyLengthsAreNoLongerThanTold(t *testing.T) {
	for _, pattern := range []string{"through_and_through", "quartered", "wedges"} {
		for _, sizes := range []string{`"thickness": "180 mm", "min_width": "180 mm"`, `"thickness": "40 mm", "min_width": "150 mm"`, `"thickness": "250 mm", "min_width": "340 mm"`} {
			for _, system := range []string{"metric", "inch"} {
				body := `{"log": {"wood": "black walnut", "length": "20 m", "start_diameter": "420 mm", "end_diameter": "260 mm", "sweep": "90 mm", "end_seal": "sealed_fresh"},
					"pattern": "` + pattern + `", "wanted": {` + sizes + `, "length": "270 mm", "end_trim": "15 mm"}, "saw": {"kerf": "3 mm"}, "report_in": "` + system + `"}`
				r := asking.Posting("/v1/log-plan", body).Of(t, asking.SharedService())
				if r.Code != 200 { // more billets than are answered
					continue
				}
				req := asking.Decoded[mill.LogPlanRequest](t, []byte(body))
				assert.LessOrEqual(t, r.Body.Len(), req.Bulk(), "%s %s %s", pattern, sizes, system)
			}
		}
	}
}
