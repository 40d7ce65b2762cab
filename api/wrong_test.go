package api_test

import (
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
)

func TestWrongRequests(t *testing.T) {
	require.GreaterOrEqual(t, len(asking.WrongRequests), 75)
	for _, w := range asking.WrongRequests {
		t.Run(w.Name, func(t *testing.T) {
			p := asking.ProblemOf(t, w.Of(t, asking.SharedService()), w.Status)
			var got []string
			for _, e := range p.Errors {
				at := e.Pointer
				if e.Parameter != "" {
					assert.Empty(t, e.Pointer, "a parameter is not in the body")
					at = "?" + e.Parameter
				}
				got = append(got, at+" "+e.Code)
			}
			assert.Equal(t, w.Wants, got)
			said := p.Detail
			if len(p.Errors) > 0 {
				said = p.Errors[0].Detail
				assert.Contains(t, p.Detail, said, "the detail of the problem is that of its first error")
			}
			assert.Contains(t, said, w.Says)
		})
	}
}

// kept matches the entry of a path of the rack.
var kept = regexp.MustCompile(`^(/v1/rack/[a-z]+)/[a-z]+-[0-9]+`)

// The names of the rows are what a failing test prints.
func TestWrongRequestsAreNamed(t *testing.T) {
	seen := map[string]bool{}
	routed := map[string]bool{}
	for _, w := range asking.WrongRequests {
		assert.False(t, seen[w.Name], w.Name)
		seen[w.Name] = true
		path, _, _ := strings.Cut(w.Target, "?")
		routed[w.Verb+" "+kept.ReplaceAllString(path, "$1/:id")] = true
	}
	for i := range api.Routes {
		if api.Routes[i].Request != nil {
			asked := api.Routes[i].Method + " " + api.Routes[i].Path
			assert.True(t, routed[asked], "no wrong request for "+asked)
		}
	}
}

func TestWrongMethodNamesTheRightOnes(t *testing.T) {
	r := asking.Getting("/v1/leaf-yield").Of(t, asking.SharedService())
	asking.ProblemOf(t, r, http.StatusMethodNotAllowed)
	assert.Contains(t, r.Header().Get("Allow"), http.MethodPost)
	assert.NotContains(t, r.Header().Get("Allow"), http.MethodGet)
	r = asking.Posting("/v1/species", "{}").Of(t, asking.SharedService())
	asking.ProblemOf(t, r, http.StatusMethodNotAllowed)
	assert.Contains(t, r.Header().Get("Allow"), http.MethodGet)
	assert.Contains(t, r.Header().Get("Allow"), http.MethodHead)
}

func TestRefusedFormsAreOffered(t *testing.T) {
	p := asking.ProblemOf(t, asking.Getting("/v1/methods", "Accept", "text/html").Of(t, asking.SharedService()), http.StatusNotAcceptable)
	assert.Contains(t, p.Offers, "application/json")
	p = asking.ProblemOf(t, asking.Posting("/v1/air", "{}", "Content-Type", "text/xml").Of(t, asking.SharedService()), http.StatusUnsupportedMediaType)
	assert.Equal(t, []string{"application/json"}, p.Offers)
}

// A caller gets the whole list of what is wrong, but not without end.
func TestErrorsAreBounded(t *testing.T) {
	body := `{"readings": [` + strings.TrimSuffix(strings.Repeat(`{"kind": "stated", "mc_pct": "x", "mc_sd_points": "y"},`, 50), ",") + `]}`
	p := asking.ProblemOf(t, asking.Posting("/v1/moisture", body).Of(t, asking.SharedService()), http.StatusUnprocessableEntity)
	assert.Len(t, p.Errors, 32)
}

// What is quoted back stays short whatever was sent.
func TestRepliesToLongNamesAreShort(t *testing.T) {
	long := strings.Repeat("n", 100_000)
	for _, request := range []asking.Asked{
		asking.Posting("/v1/air", `{"`+long+`": 1}`),
		asking.Posting("/v1/air", `{"air": {"temperature": "1 `+long+`", "rh_pct": 5}}`),
		asking.Posting("/v1/air", `{"air": {"temperature": {"value": 1, "unit": "`+long+`"}, "rh_pct": 5}}`),
		asking.Posting("/v1/emc", `{"wood": "`+long+`", "temperature": "20 C", "wanted_emc_pct": 8}`),
		asking.Posting("/v1/air", "{}", "Content-Type", long),
		asking.Getting("/v1/species?" + long + "=1"),
		asking.Getting("/v1/species?limit=" + long),
		asking.Getting("/v1/species/" + long),
		asking.Posting("/v1/air", strings.Repeat("[", 100_000)),
		asking.Posting("/v1/air", strings.Repeat(`{"air":`, 10_000)),
		asking.Posting("/v1/air", strings.Repeat(`{"air":`, 5_000)+"null"+strings.Repeat("}", 5_000)),
	} {
		r := request.Of(t, asking.SharedService())
		assert.GreaterOrEqual(t, r.Code, 400)
		assert.Less(t, len(strings.ReplaceAll(r.Body.String(), `"parameter":"`+long+`"`, "")), 2000, request.Target[:min(30, len(request.Target))])
	}
}
