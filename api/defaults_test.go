package api_test

import (
	"encoding/json"
	"maps"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/labstack/echo/v4"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/contract"
	"latewood/api/internal/serve"
)

// defaults sends the defaults of the contract.
type defaults struct {
	maker
	t    *testing.T
	sent map[string]bool // schema and member that were sent
}

// Every default that the contract states may be sent wherever its member may stand, and
// changes nothing of the result.
func TestDefaultsMayBeSent(t *testing.T) {
	asking.OneByOne(t)
	c := loadContract(t)
	d := &defaults{maker: maker{document: c.document}, t: t, sent: map[string]bool{}}
	asked := 0
	for _, r := range api.Routes {
		if r.Request == nil || r.Path == "/v1/batch" || r.Keeps && !r.Heavy { // what is kept is given back as it was sent
			continue
		}
		schema := contract.Dig(c.document, "paths", serve.ContractPath(r.Path), "post", "requestBody", "content", "application/json", "schema")
		for _, e := range contract.ExamplesOf(asking.ExampleFiles(), &r) {
			var request any
			require.NoError(t, json.Unmarshal(e.Body, &request))
			before := d.result(e.Path, request)
			d.each(schema, request, r.ID, func(what string) {
				asked++
				assert.JSONEq(t, before, d.result(e.Path, request), "%s of %s", what, e.Name)
			})
		}
	}
	assert.Greater(t, asked, 20)
}

// each puts every default that is not given into the request, one after the other.
func (d *defaults) each(schema, value any, name string, with func(what string)) {
	s := d.open(schema)
	if s["properties"] == nil {
		for _, forms := range []string{"oneOf", "anyOf"} {
			all, _ := s[forms].([]any)
			for _, form := range all {
				d.each(form, value, name, with)
			}
		}
	}
	switch v := value.(type) {
	case []any:
		for _, entry := range v {
			d.each(s["items"], entry, name, with)
		}
	case map[string]any:
		properties := d.open(s["properties"])
		for member := range v {
			if properties[member] == nil {
				return // another form
			}
		}
		if kind, is := d.open(properties["kind"])["enum"].([]any); is && !slices.Contains(kind, v["kind"]) {
			return
		}
		for _, member := range slices.Sorted(maps.Keys(properties)) {
			p := d.open(properties[member])
			if given, is := v[member]; is {
				d.each(p, given, name+"."+member, with)
				continue
			}
			stands, is := p["default"]
			if what := name + "." + member; is && !d.sent[what] {
				d.sent[what] = true
				v[member] = stands
				with(what)
				delete(v, member)
			}
		}
	}
}

// result asks and gives back the result alone: a warning of a default may be gone.
func (d *defaults) result(path string, request any) string {
	body, err := json.Marshal(request)
	require.NoError(d.t, err)
	status, answer := asking.SharedService().Ask(http.MethodPost, path, echo.MIMEApplicationJSON, body)
	require.Equal(d.t, http.StatusOK, status, "%s\n%s\n%s", path, body, answer)
	var whole struct{ Result json.RawMessage }
	require.NoError(d.t, json.Unmarshal(answer, &whole))
	return strings.TrimSpace(string(whole.Result))
}
