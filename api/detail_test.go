package api_test

import (
	"bytes"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

// fullOnly are the members that a summary has not.
var fullOnly = []string{`"series":`, `"figures":`, `"outline":`}

// A summary is the answer without series, outlines and figures, and nothing else is
// another; an item of a batch is cut like the single answer.
func TestDetailSummary(t *testing.T) {
	asking.OneByOne(t)
	cut := 0
	for path, bodies := range asking.ExampleBodies(t) {
		for _, body := range bodies {
			full := asking.Posting(path+"?detail=full", string(body)).Of(t, asking.SharedService())
			plain := asking.Posting(path, string(body)).Of(t, asking.SharedService())
			brief := asking.Posting(path+"?detail=summary", string(body)).Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, brief.Code, brief.Body.String())
			if path != "/v1/batch" {
				assert.Equal(t, plain.Body.String(), full.Body.String(), path)
			}
			for _, member := range fullOnly {
				assert.NotContains(t, brief.Body.String(), member, path)
				if bytes.Contains(full.Body.Bytes(), []byte(member)) {
					cut++
				}
			}
			a, b := asking.Decoded[serve.Answer[map[string]any]](t, full.Body.Bytes()), asking.Decoded[serve.Answer[map[string]any]](t, brief.Body.Bytes())
			for name := range b.Result {
				assert.Contains(t, a.Result, name, path)
			}
			assert.Equal(t, a.Basis, b.Basis)
			assert.Equal(t, a.Warnings, b.Warnings)
		}
	}
	assert.Greater(t, cut, 10)
	p := asking.ProblemOf(t, asking.Posting("/v1/emc?detail=some", asking.EMCBody).Of(t, asking.SharedService()), http.StatusBadRequest)
	assert.Equal(t, "not_a_choice", p.Errors[0].Code)
}

// A compressed body is refused and not misread.
func TestCompressedBodiesAreRefused(t *testing.T) {
	for _, coding := range []string{"gzip", "br", "identity, gzip"} {
		r := asking.Posting("/v1/emc", asking.EMCBody, "Content-Encoding", coding).Of(t, asking.SharedService())
		asking.ProblemOf(t, r, http.StatusUnsupportedMediaType)
		assert.Equal(t, "identity", r.Header().Get("Accept-Encoding"))
	}
	r := asking.Posting("/v1/emc", asking.EMCBody, "Content-Encoding", "identity").Of(t, asking.SharedService())
	assert.Equal(t, http.StatusOK, r.Code)
}
