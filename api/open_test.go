package api_test

import (
	"io"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

// Without a token every path is closed, even those that do not exist, but for
// the probes and what is the same for everybody: page, documents, contract. The
// list stands here once more on purpose: whoever opens a route has to say so twice.
func TestWhatIsOpenWithoutAToken(t *testing.T) {
	s, token := asking.ExposedService(t, serve.Rate{}, io.Discard)
	open := map[string]int{
		"/livez": http.StatusOK, "/readyz": http.StatusOK, "/": http.StatusOK, "/page/": http.StatusNotFound, "/worker.js": http.StatusOK,
		"/openapi.json": http.StatusOK, "/openapi.yaml": http.StatusOK, "/docs": http.StatusMovedPermanently, "/docs/": http.StatusOK, "/problems/invalid": http.StatusOK, "/guides": http.StatusOK, "/guides/guide": http.StatusOK, "/b/teak": http.StatusOK, "/B/teak": http.StatusOK, "/p/teak": http.StatusOK, "/P/teak": http.StatusOK, "/licences": http.StatusOK,
	}
	found := 0
	ask := func(method, path string) {
		r := (asking.Asked{Verb: method, Target: path}).Of(t, s)
		if status, ok := open[path]; ok {
			found++
			if method == http.MethodDelete {
				status = http.StatusMethodNotAllowed
			}
			assert.Equal(t, status, r.Code, method+" "+path)
			return
		}
		asking.ProblemOf(t, r, http.StatusUnauthorized)
		assert.Equal(t, `Bearer realm="latewood"`, r.Header().Get("WWW-Authenticate"), path)
	}
	for i := range api.Routes {
		path := strings.NewReplacer(":id", "teak", ":kind", "invalid", ":name", "guide", "*", "").Replace(api.Routes[i].Path)
		ask(api.Routes[i].Method, path)
		ask(http.MethodDelete, path)
	}
	assert.Equal(t, 2*len(open), found, "every path named here exists")
	for _, path := range []string{"/nowhere", "/guides/", "/page", "/page/", "/page/other.js", "/openapi", "/problems", "/problems/", "/v1", "/v1/", "//", "/docs/../v1/limits", "/docs/../metrics", "/./metrics"} {
		r := asking.Getting(path).Of(t, s)
		if strings.HasPrefix(path, "/docs/") || strings.HasPrefix(path, "/page/") { // falls to the files of the documents or of the page, which hold no such file
			asking.ProblemOf(t, r, http.StatusNotFound)
			continue
		}
		asking.ProblemOf(t, r, http.StatusUnauthorized)
	}
	ask(http.MethodOptions, "/v1/emc")
	for _, path := range []string{"/", "/page/main.js", "/openapi.json"} {
		assert.Equal(t, http.StatusOK, asking.Getting(path, "Authorization", "Bearer wrong").Of(t, s).Code, "a token that nobody asked for is not looked at")
	}
	rated, _ := asking.ExposedService(t, serve.Rate{PerSecond: 1, Burst: 100}, io.Discard)
	assert.NotEmpty(t, asking.Getting("/").Of(t, rated).Header().Get("RateLimit"), "what is open is charged to the address all the same")
	table := asking.Getting("/v1/species/maple-sugar", "Authorization", "Bearer "+token).Of(t, s)
	require.Equal(t, http.StatusOK, table.Code)
	assert.Equal(t, "private, max-age=3600", table.Header().Get("Cache-Control"), "a cache between does not hand it to those without a token")
	assert.Equal(t, "public, max-age=3600", asking.Getting("/").Of(t, s).Header().Get("Cache-Control"))
	assert.Equal(t, http.StatusNotFound, asking.Getting("/nowhere", "Authorization", "Bearer "+token).Of(t, s).Code)
}

// The list of the guides leads to each of them, by the heading that it has.
func TestGuidesAreListed(t *testing.T) {
	list := asking.LookUp[serve.GuideList](t, "/guides")
	assert.GreaterOrEqual(t, len(list.Items), 6)
	for _, one := range list.Items {
		r := asking.Getting(one.Path).Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, r.Code, one.Path)
		assert.True(t, strings.HasPrefix(r.Body.String(), "# "+one.Title+"\n"), one.Title)
	}
}

// A link of a guide leads on where it is served; what lies in the source alone is told as a
// place, not as a link to nothing.
func TestLinksOfGuidesLeadOn(t *testing.T) {
	link := regexp.MustCompile(`\]\(([^)]+)\)`)
	followed := 0
	for _, guide := range asking.LookUp[serve.GuideList](t, "/guides").Items {
		text := asking.Getting(guide.Path).Of(t, asking.SharedService()).Body.String()
		for _, found := range link.FindAllStringSubmatch(text, -1) {
			target, _, _ := strings.Cut(found[1], "#")
			if strings.Contains(target, "://") {
				continue
			}
			followed++
			r := asking.Getting(target).Of(t, asking.SharedService())
			assert.Equal(t, http.StatusOK, r.Code, "%s leads to %s", guide.Name, found[1])
		}
	}
	assert.GreaterOrEqual(t, followed, 4)
}
