package api_test

import (
	"fmt"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
)

// No example is answered with more digits than its numbers mean, in either system.
func TestAnswersAreNoFinerThanTheyMean(t *testing.T) {
	asking.OneByOne(t)
	asked := 0
	for path, bodies := range asking.ExampleBodies(t) {
		for _, body := range bodies {
			r := asking.Posting(path, string(body)).Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, r.Code, r.Body.String())
			asking.Fine(t, r.Body.Bytes())
			asked++
		}
	}
	for _, q := range asking.SameQuestions {
		for _, body := range []string{q.Metric, q.Inch} {
			r := asking.Posting(q.Path, body).Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, r.Code, r.Body.String())
			asking.Fine(t, r.Body.Bytes())
			asked++
		}
	}
	assert.Greater(t, asked, 50)
}

// Whoever sends a value of an answer on to the next question gets what one request for
// both gives, but for the resolution of the value that was sent on.
func TestValuesAreSentOn(t *testing.T) {
	for rh := 20.0; rh <= 90; rh += 3.7 {
		air := fmt.Sprintf(`{"air": {"temperature": "20 C", "rh_pct": %g}}`, rh)
		settled := asking.AnswerTo[moist.EMCResult](t, "/v1/emc", fmt.Sprintf(`{"wood": "maple-sugar", "air": {"temperature": "20 C", "rh_pct": %g}}`, rh)).Result.EMC
		const question = `{"wood": "maple-sugar", "size": "300 mm", "direction": "tangential", "from_condition": {"mc_pct": 12}, "to_condition": %s}`
		whole := asking.AnswerTo[moist.MovementResult](t, "/v1/movement", fmt.Sprintf(question, air)).Result
		sent := asking.AnswerTo[moist.MovementResult](t, "/v1/movement", fmt.Sprintf(question, fmt.Sprintf(`{"mc_pct": %g}`, settled.Value))).Result
		step := (settled.High - settled.Low) / 100 // of the moisture that was sent on
		assert.InDelta(t, whole.To.Value, sent.To.Value, step+0.01, air)
		// A point moves this size by 1.1 mm at most; both changes are rounded to their bands.
		rounded := (whole.Change.High - whole.Change.Low + sent.Change.High - sent.Change.Low) / 200
		assert.InDelta(t, whole.Change.Value, sent.Change.Value, 1.2*step+rounded+0.001, air)
	}
}
