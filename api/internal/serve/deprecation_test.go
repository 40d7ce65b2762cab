package serve_test

import (
	"encoding/json"
	"net/http"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/contract"
	"latewood/api/internal/serve"
)

// A route that goes tells it with every reply, and in the contract; none of those that stay
// does.
func TestARouteThatGoesTellsIt(t *testing.T) {
	old := serve.Route{Method: http.MethodGet, Path: "/v1/old", ID: "getOld", Tag: "service", Result: serve.Health{}, Description: "Once.", Handler: serve.Plain(serve.Livez),
		Deprecated: &serve.Deprecation{Since: time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC), Gone: time.Date(2028, 1, 2, 0, 0, 0, 0, time.UTC), Instead: "/livez"}}
	s := serve.New(serve.Config{Version: "test"}, asking.SharedService().Tables(), []serve.Route{old}, nil)
	for _, verb := range []string{http.MethodGet, http.MethodPost, http.MethodOptions} {
		header := asking.Asked{Verb: verb, Target: "/v1/old"}.Of(t, s).Header()
		assert.Equal(t, "@1798761600", header.Get("Deprecation"), verb)
		assert.Equal(t, "Sun, 02 Jan 2028 00:00:00 GMT", header.Get("Sunset"), verb)
		assert.Equal(t, []string{`</docs/>; rel="deprecation"; type="text/html"`, `</livez>; rel="successor-version"`}, header.Values("Link"), verb)
	}
	source := contract.Source{Routes: []serve.Route{old}, Limits: []serve.RouteLimits{{Method: http.MethodGet, Route: "/v1/old"}}, Service: s, Examples: asking.ExampleFiles()}
	text, err := source.Document()
	require.NoError(t, err)
	var document map[string]any
	require.NoError(t, json.Unmarshal(text, &document))
	operation := contract.Dig(document, "paths", "/v1/old", "get")
	assert.Equal(t, true, operation["deprecated"])
	assert.Equal(t, "Once. It goes on 2028-01-02; use /livez.", operation["description"])
	assert.Empty(t, asking.Getting("/livez").Of(t, asking.SharedService()).Header().Get("Deprecation"))
}
