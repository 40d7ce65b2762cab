package api

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWrongRequests(t *testing.T) {
	require.GreaterOrEqual(t, len(wrongRequests), 75)
	for _, w := range wrongRequests {
		t.Run(w.name, func(t *testing.T) {
			p := problemOf(t, w.of(t, sharedService()), w.status)
			var got []string
			for _, e := range p.Errors {
				at := e.Pointer
				if e.Parameter != "" {
					assert.Empty(t, e.Pointer, "a parameter is not in the body")
					at = "?" + e.Parameter
				}
				got = append(got, at+" "+e.Code)
			}
			assert.Equal(t, w.wants, got)
			said := p.Detail
			if len(p.Errors) > 0 {
				said = p.Errors[0].Detail
				assert.Contains(t, p.Detail, said, "the detail of the problem is that of its first error")
			}
			assert.Contains(t, said, w.says)
		})
	}
}

// The names of the rows are what a failing test prints.
func TestWrongRequestsAreNamed(t *testing.T) {
	seen := map[string]bool{}
	routed := map[string]bool{}
	for _, w := range wrongRequests {
		assert.False(t, seen[w.name], w.name)
		seen[w.name] = true
		path, _, _ := strings.Cut(w.target, "?")
		routed[path] = true
	}
	for i := range routes {
		if routes[i].request != nil {
			assert.True(t, routed[routes[i].path], "no wrong request for "+routes[i].path)
		}
	}
}

func TestWrongMethodNamesTheRightOnes(t *testing.T) {
	r := getting("/v1/yield").of(t, sharedService())
	problemOf(t, r, http.StatusMethodNotAllowed)
	assert.Contains(t, r.Header().Get("Allow"), http.MethodPost)
	assert.NotContains(t, r.Header().Get("Allow"), http.MethodGet)
	r = posting("/v1/species", "{}").of(t, sharedService())
	problemOf(t, r, http.StatusMethodNotAllowed)
	assert.Contains(t, r.Header().Get("Allow"), http.MethodGet)
	assert.Contains(t, r.Header().Get("Allow"), http.MethodHead)
}

func TestRefusedFormsAreOffered(t *testing.T) {
	p := problemOf(t, getting("/v1/methods", "Accept", "text/html").of(t, sharedService()), http.StatusNotAcceptable)
	assert.Contains(t, p.Offers, "application/json")
	p = problemOf(t, posting("/v1/air", "{}", "Content-Type", "text/xml").of(t, sharedService()), http.StatusUnsupportedMediaType)
	assert.Equal(t, []string{"application/json"}, p.Offers)
}

// A caller gets the whole list of what is wrong, but not without end.
func TestErrorsAreBounded(t *testing.T) {
	body := `{"readings": [` + strings.TrimSuffix(strings.Repeat(`{"stated": {"mc_pct": "x", "sd_pct": "y"}},`, 50), ",") + `]}`
	p := problemOf(t, posting("/v1/moisture", body).of(t, sharedService()), http.StatusUnprocessableEntity)
	assert.Len(t, p.Errors, maxFieldErrors)
}

// What is quoted back stays short whatever was sent.
func TestRepliesToLongNamesAreShort(t *testing.T) {
	long := strings.Repeat("n", 100_000)
	for _, request := range []asked{
		posting("/v1/air", `{"`+long+`": 1}`),
		posting("/v1/air", `{"air": {"dry_bulb": "1 `+long+`", "rh_pct": 5}}`),
		posting("/v1/air", `{"air": {"dry_bulb": {"value": 1, "unit": "`+long+`"}, "rh_pct": 5}}`),
		posting("/v1/emc", `{"species": "`+long+`", "dry_bulb": "20 C", "wanted_emc_pct": 8}`),
		posting("/v1/air", "{}", "Content-Type", long),
		getting("/v1/species?" + long + "=1"),
		getting("/v1/species?limit=" + long),
		getting("/v1/species/" + long),
		posting("/v1/air", strings.Repeat("[", 100_000)),
		posting("/v1/air", strings.Repeat(`{"air":`, 10_000)),
		posting("/v1/air", strings.Repeat(`{"air":`, 5_000)+"null"+strings.Repeat("}", 5_000)),
	} {
		r := request.of(t, sharedService())
		assert.GreaterOrEqual(t, r.Code, 400)
		assert.Less(t, len(strings.ReplaceAll(r.Body.String(), `"parameter":"`+long+`"`, "")), 2000, request.target[:min(30, len(request.target))])
	}
}
