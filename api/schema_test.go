package api_test

import (
	"bytes"
	"encoding/json"
	"net/http"
	"strconv"
	"strings"
	"testing"

	"github.com/labstack/echo/v4"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/contract"
	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
	"latewood/openapi"
)

// held holds replies and requests against the committed document with an
// independent implementation of JSON Schema 2020-12.
type held struct {
	compiler *jsonschema.Compiler
	document map[string]any
}

func loadContract(t *testing.T) *held {
	t.Helper()
	text, err := openapi.JSON()
	require.NoError(t, err)
	tree, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err)
	document, ok := tree.(map[string]any)
	require.True(t, ok)
	closeAll(document["components"])
	compiler := jsonschema.NewCompiler()
	compiler.DefaultDraft(jsonschema.Draft2020)
	compiler.AssertFormat()
	require.NoError(t, compiler.AddResource("openapi.json", document))
	return &held{compiler, document}
}

// closeAll forbids members that a schema does not name, so that a reply with an
// undocumented member fails. The document leaves replies open to additions.
func closeAll(node any) {
	switch n := node.(type) {
	case []any:
		for _, item := range n {
			closeAll(item)
		}
	case map[string]any:
		if _, has := n["properties"].(map[string]any); has && n["type"] == "object" {
			n["additionalProperties"] = false
		}
		for key, child := range n {
			if key != "examples" && key != "example" {
				closeAll(child)
			}
		}
	}
}

// check holds value against the schema found at the JSON pointer parts.
func (c *held) check(t *testing.T, value []byte, parts ...string) {
	t.Helper()
	for i, part := range parts {
		parts[i] = strings.NewReplacer("~", "~0", "/", "~1", "{", "%7B", "}", "%7D").Replace(part)
	}
	schema, err := c.compiler.Compile("openapi.json#/" + strings.Join(parts, "/"))
	require.NoError(t, err)
	instance, err := jsonschema.UnmarshalJSON(bytes.NewReader(value))
	require.NoError(t, err)
	require.NoError(t, schema.Validate(instance), string(value))
}

// Every example request, and the reply the service gives to it, matches the
// contract; so does the example of every problem.
func TestExamplesMatchContract(t *testing.T) {
	asking.OneByOne(t)
	c := loadContract(t)
	s, err := api.New(serve.Config{Version: "test", Rack: asking.Rack()})
	require.NoError(t, err)
	for i := range api.Routes {
		r := &api.Routes[i]
		if r.Asset {
			continue
		}
		if r.Uploads() || r.Gives != nil { // what is sent or given is bytes
			continue
		}
		all := contract.ExamplesOf(asking.ExampleFiles(), r)
		require.NotEmpty(t, all, r.ID)
		for _, e := range all {
			t.Run(r.ID+"/"+e.Name, func(t *testing.T) {
				operation := []string{"paths", serve.ContractPath(r.Path), strings.ToLower(r.Method)}
				sent := echo.MIMEApplicationJSON
				if r.Patches() {
					sent = serve.MergePatch
				}
				if e.Body != nil {
					c.check(t, e.Body, append(operation[:3:3], "requestBody", "content", sent, "schema")...)
				}
				status, reply := s.Ask(r.Method, e.Path, "", e.Body, e.Headers...)
				require.Equal(t, http.StatusOK, status, string(reply))
				c.check(t, reply, append(operation[:3:3], "responses", "200", "content", echo.MIMEApplicationJSON, "schema")...)
			})
		}
	}
	for name, response := range contract.Dig(c.document, "components", "responses") {
		t.Run(name, func(t *testing.T) {
			entry, ok := response.(map[string]any)
			require.True(t, ok)
			for _, e := range contract.Dig(entry, "content", refuse.JSON, "examples") {
				text, err := json.Marshal(contract.Dig(map[string]any{"e": e}, "e")["value"])
				require.NoError(t, err)
				c.check(t, text, "components", "schemas", "Problem")
			}
		})
	}
}

// What the decoder refuses, the schema refuses too, wherever a schema can say it.
func TestContractRefusesWhatTheServiceRefuses(t *testing.T) {
	c := loadContract(t)
	for i, body := range []string{
		`{"size": "330 mm"}`,
		`{"wood": "maple-sugar", "size": "330 mm", "direction": "sideways", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}`,
		`{"wood": "maple-sugar", "size": 330, "direction": "radial", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}`,
		`{"wood": "maple-sugar", "size": {"value": 330}, "direction": "radial", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}`,
		`{"wood": "maple-sugar", "size": "330 mm", "direction": "radial", "from_condition": {"mc_pct": 300}, "to_condition": {"mc_pct": 6}}`,
		`{"wood": "maple-sugar", "size": "330 mm", "direction": "radial", "from_condition": {"MC_pct": 9}, "to_condition": {"mc_pct": 6}}`,
		`{"species": null, "size": "330 mm", "direction": "radial", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}`,
	} {
		t.Run(strconv.Itoa(i), func(t *testing.T) {
			schema, err := c.compiler.Compile("openapi.json#/components/schemas/MovementRequest")
			require.NoError(t, err)
			instance, err := jsonschema.UnmarshalJSON(strings.NewReader(body))
			require.NoError(t, err)
			require.Error(t, schema.Validate(instance))
			refused := asking.Posting("/v1/movement", body).Of(t, asking.SharedService())
			require.Equal(t, http.StatusUnprocessableEntity, refused.Code, refused.Body)
		})
	}
}
