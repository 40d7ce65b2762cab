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
	"latewood/api/internal/serve"
)

// Every reply has the headers that keep a browser from doing harm with it,
// whatever it is a reply to.
func TestSecurityHeadersOfEveryReply(t *testing.T) {
	asks := []asking.Asked{
		asking.Getting("/nowhere"), asking.Posting("/v1/air", "x"), asking.Posting("/v1/air", "{}"), asking.Getting("/v1/air"), asking.Getting("/v1/species/none"),
		asking.Getting("/v1/methods", "Accept", "image/gif"), asking.Posting("/v1/emc", "{}", "Content-Type", "text/plain"), asking.Posting("/v1/emc", strings.Repeat(" ", serve.CalculationBody+1)),
		{Verb: http.MethodDelete, Target: "/v1/air"}, {Verb: http.MethodOptions, Target: "/v1/air"}, asking.Getting("/v1/species?x=1"),
	}
	for i := range api.Routes {
		path := strings.NewReplacer(":id", "teak", ":kind", "invalid", "*", "").Replace(api.Routes[i].Path)
		asks = append(asks, asking.Asked{Verb: api.Routes[i].Method, Target: path})
	}
	closed, _ := asking.ExposedService(t, serve.Rate{}, &strings.Builder{})
	for _, a := range asks {
		for name, s := range map[string]*serve.Service{"open": asking.SharedService(), "without a token": closed} {
			h := a.Of(t, s).Header()
			at := name + " " + a.Verb + " " + a.Target
			assert.Equal(t, "nosniff", h.Get("X-Content-Type-Options"), at)
			assert.Equal(t, "no-referrer", h.Get("Referrer-Policy"), at)
			policy := h.Get("Content-Security-Policy")
			assert.Contains(t, policy, "frame-ancestors 'none'", at)
			assert.Contains(t, policy, "default-src 'none'", at)
			assert.NotContains(t, policy, "unsafe", at)
			assert.NotContains(t, policy, "*", at)
			assert.Empty(t, h.Get("Access-Control-Allow-Origin"), at)
			switch a.Target {
			case "/", "/docs", "/docs/":
			case "/b/teak", "/B/teak", "/p/teak", "/P/teak": // what a label leads to is the page
				assert.Contains(t, policy, "script-src 'self'; style-src 'self'", at)
			case "/worker.js": // it fetches the files of the page again when they change, and may do nothing else
				assert.Equal(t, "default-src 'none'; connect-src 'self'; frame-ancestors 'none'", policy, at)
			default:
				assert.Equal(t, "default-src 'none'; frame-ancestors 'none'", policy, at)
			}
		}
	}
	front := asking.Getting("/").Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, front.Code)
	assert.Contains(t, front.Header().Get("Content-Security-Policy"), "script-src 'self'; style-src 'self';")
	assert.NotRegexp(t, regexp.MustCompile(`(?i)<script>|<style|style="|\bon[a-z]+="`), front.Body.String(), "the front page has nothing inline, which the policy would stop")
}

// The policy of the documentation names the hash of every script and style
// that stands in the page, and the page has no others.
var inlineParts = regexp.MustCompile(`(?s)<(script|style)>(.*?)</(?:script|style)>`)

func TestPolicyOfTheDocumentation(t *testing.T) {
	r := asking.Getting("/docs/").Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, r.Code)
	parts := inlineParts.FindAllString(r.Body.String(), -1)
	assert.Len(t, parts, 3, "two scripts and a style")
	assert.Len(t, regexp.MustCompile(`<(script|style)\b`).FindAllString(r.Body.String(), -1), len(parts)+2, "and two scripts from files")
	assert.Equal(t, len(parts), strings.Count(r.Header().Get("Content-Security-Policy"), "'sha256-"))
}

func TestOtherOrigins(t *testing.T) {
	s, token := asking.ExposedService(t, serve.Rate{}, &strings.Builder{})
	const origin = "https://shop.example"
	preflight := func(origin string) asking.Asked {
		return asking.Asked{Verb: http.MethodOptions, Target: "/v1/emc", Body: "", Headers: []string{"Origin", origin, "Access-Control-Request-Method", "POST", "Access-Control-Request-Headers", "content-type,authorization"}}
	}
	r := preflight(origin).Of(t, s)
	assert.Equal(t, http.StatusNoContent, r.Code, "without a token: browsers send none beforehand")
	assert.Equal(t, origin, r.Header().Get("Access-Control-Allow-Origin"))
	assert.Contains(t, r.Header().Get("Access-Control-Allow-Methods"), "POST")
	for _, name := range []string{"Authorization", "Content-Type"} {
		assert.Contains(t, r.Header().Get("Access-Control-Allow-Headers"), name)
	}
	assert.Empty(t, r.Header().Get("Access-Control-Allow-Credentials"))
	assert.Contains(t, r.Header().Get("Vary"), "Origin")

	r = asking.Posting("/v1/emc", asking.EMCBody, "Origin", origin, "Authorization", "Bearer "+token).Of(t, s)
	assert.Equal(t, http.StatusOK, r.Code)
	assert.Equal(t, origin, r.Header().Get("Access-Control-Allow-Origin"))
	assert.Contains(t, r.Header().Get("Access-Control-Expose-Headers"), "Retry-After")
	r = asking.Posting("/v1/emc", asking.EMCBody, "Origin", origin).Of(t, s)
	assert.Equal(t, http.StatusUnauthorized, r.Code)
	assert.Equal(t, origin, r.Header().Get("Access-Control-Allow-Origin"), "the page may read the problem")

	for _, other := range []string{"https://shop.example.org", "http://shop.example", "https://shop.example:8443", "https://SHOP.example", "https://a.shop.example", "null", "*", "https://shop.example/"} {
		r := preflight(other).Of(t, s)
		assert.Equal(t, http.StatusUnauthorized, r.Code, other)
		assert.Empty(t, r.Header().Get("Access-Control-Allow-Origin"), other)
		assert.Contains(t, r.Header().Get("Vary"), "Origin")
	}
	r = preflight(origin).Of(t, asking.SharedService())
	assert.Empty(t, r.Header().Get("Access-Control-Allow-Origin"), "off unless origins are named")
	assert.Equal(t, "Accept, Accept-Encoding", r.Header().Get("Vary"))
}

func TestParseOrigins(t *testing.T) {
	origins, err := serve.ParseOrigins(" https://shop.example , http://127.0.0.1:3000,")
	require.NoError(t, err)
	assert.Equal(t, []string{"https://shop.example", "http://127.0.0.1:3000"}, origins)
	for _, bad := range []string{"", ",", "*", "null", "shop.example", "https://shop.example/", "https://Shop.example", "ftp://shop.example", "https://", "https://user@shop.example", "https://shop.example?x", "file:///x"} {
		_, err := serve.ParseOrigins(bad)
		assert.Error(t, err, bad)
	}
}
