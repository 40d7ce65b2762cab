package api_test

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

// No example is answered with more digits than its numbers mean, in either system.
func TestAnswersAreNoFinerThanTheyMean(t *testing.T) {
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
