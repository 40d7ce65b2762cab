package api

import (
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every reply has the headers that keep a browser from doing harm with it,
// whatever it is a reply to.
func TestSecurityHeadersOfEveryReply(t *testing.T) {
	asks := []asked{
		getting("/nowhere"), posting("/v1/air", "x"), posting("/v1/air", "{}"), getting("/v1/air"), getting("/v1/species/none"),
		getting("/v1/methods", "Accept", "image/gif"), posting("/v1/emc", "{}", "Content-Type", "text/plain"), posting("/v1/emc", strings.Repeat(" ", calculationBody+1)),
		{verb: http.MethodDelete, target: "/v1/air"}, {verb: http.MethodOptions, target: "/v1/air"}, getting("/v1/species?x=1"),
	}
	for i := range routes {
		path := strings.NewReplacer(":id", "teak", ":kind", "invalid", "*", "").Replace(routes[i].path)
		asks = append(asks, asked{verb: routes[i].method, target: path})
	}
	closed, _ := exposedService(t, Rate{}, &strings.Builder{})
	for _, a := range asks {
		for name, s := range map[string]*Service{"open": sharedService(), "without a token": closed} {
			h := a.of(t, s).Header()
			at := name + " " + a.verb + " " + a.target
			assert.Equal(t, "nosniff", h.Get("X-Content-Type-Options"), at)
			assert.Equal(t, "no-referrer", h.Get("Referrer-Policy"), at)
			policy := h.Get("Content-Security-Policy")
			assert.Contains(t, policy, "frame-ancestors 'none'", at)
			assert.Contains(t, policy, "default-src 'none'", at)
			assert.NotContains(t, policy, "unsafe", at)
			assert.NotContains(t, policy, "*", at)
			assert.Empty(t, h.Get("Access-Control-Allow-Origin"), at)
			if a.target != "/" && a.target != "/docs" && a.target != "/docs/" {
				assert.Equal(t, "default-src 'none'; frame-ancestors 'none'", policy, at)
			}
		}
	}
	front := getting("/").of(t, sharedService())
	require.Equal(t, http.StatusOK, front.Code)
	assert.Contains(t, front.Header().Get("Content-Security-Policy"), "script-src 'self'; style-src 'self';")
	assert.NotRegexp(t, regexp.MustCompile(`(?i)<script>|<style|style="|\bon[a-z]+="`), front.Body.String(), "the front page has nothing inline, which the policy would stop")
}

// The policy of the documentation names the hash of every script and style
// that stands in the page, and the page has no others.
func TestPolicyOfTheDocumentation(t *testing.T) {
	r := getting("/docs/").of(t, sharedService())
	require.Equal(t, http.StatusOK, r.Code)
	parts := inlineParts.FindAllString(r.Body.String(), -1)
	assert.Len(t, parts, 3, "two scripts and a style")
	assert.Len(t, regexp.MustCompile(`<(script|style)\b`).FindAllString(r.Body.String(), -1), len(parts)+2, "and two scripts from files")
	assert.Equal(t, len(parts), strings.Count(r.Header().Get("Content-Security-Policy"), "'sha256-"))
}

func TestOtherOrigins(t *testing.T) {
	s, token := exposedService(t, Rate{}, &strings.Builder{})
	const origin = "https://shop.example"
	preflight := func(origin string) asked {
		return asked{http.MethodOptions, "/v1/emc", "", []string{"Origin", origin, "Access-Control-Request-Method", "POST", "Access-Control-Request-Headers", "content-type,authorization"}}
	}
	r := preflight(origin).of(t, s)
	assert.Equal(t, http.StatusNoContent, r.Code, "without a token: browsers send none beforehand")
	assert.Equal(t, origin, r.Header().Get("Access-Control-Allow-Origin"))
	assert.Contains(t, r.Header().Get("Access-Control-Allow-Methods"), "POST")
	for _, name := range []string{"Authorization", "Content-Type"} {
		assert.Contains(t, r.Header().Get("Access-Control-Allow-Headers"), name)
	}
	assert.Empty(t, r.Header().Get("Access-Control-Allow-Credentials"))
	assert.Contains(t, r.Header().Get("Vary"), "Origin")

	r = posting("/v1/emc", emcBody, "Origin", origin, "Authorization", "Bearer "+token).of(t, s)
	assert.Equal(t, http.StatusOK, r.Code)
	assert.Equal(t, origin, r.Header().Get("Access-Control-Allow-Origin"))
	assert.Contains(t, r.Header().Get("Access-Control-Expose-Headers"), "Retry-After")
	r = posting("/v1/emc", emcBody, "Origin", origin).of(t, s)
	assert.Equal(t, http.StatusUnauthorized, r.Code)
	assert.Equal(t, origin, r.Header().Get("Access-Control-Allow-Origin"), "the page may read the problem")

	for _, other := range []string{"https://shop.example.org", "http://shop.example", "https://shop.example:8443", "https://SHOP.example", "https://a.shop.example", "null", "*", "https://shop.example/"} {
		r := preflight(other).of(t, s)
		assert.Equal(t, http.StatusUnauthorized, r.Code, other)
		assert.Empty(t, r.Header().Get("Access-Control-Allow-Origin"), other)
		assert.Contains(t, r.Header().Get("Vary"), "Origin")
	}
	r = preflight(origin).of(t, sharedService())
	assert.Empty(t, r.Header().Get("Access-Control-Allow-Origin"), "off unless origins are named")
	assert.Equal(t, "Accept", r.Header().Get("Vary"))
}

func TestParseOrigins(t *testing.T) {
	origins, err := ParseOrigins(" https://shop.example , http://127.0.0.1:3000,")
	require.NoError(t, err)
	assert.Equal(t, []string{"https://shop.example", "http://127.0.0.1:3000"}, origins)
	for _, bad := range []string{"", ",", "*", "null", "shop.example", "https://shop.example/", "https://Shop.example", "ftp://shop.example", "https://", "https://user@shop.example", "https://shop.example?x", "file:///x"} {
		_, err := ParseOrigins(bad)
		assert.Error(t, err, bad)
	}
}
