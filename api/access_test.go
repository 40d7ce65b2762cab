package api

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// exposedService has all that a service has that others can reach: a hundred
// tokens, a rate, an origin. token is that of the key id "bench".
func exposedService(t testing.TB, rate Rate, log io.Writer) (s *Service, token string) {
	t.Helper()
	token, lines, err := NewToken("bench")
	require.NoError(t, err)
	for i := range 99 {
		_, line, err := NewToken(fmt.Sprintf("other-%d", i))
		require.NoError(t, err)
		lines = line + "\n" + lines
	}
	keys, err := ParseKeys(lines)
	require.NoError(t, err)
	s, err = New(Config{Version: "test", Log: slog.New(slog.NewJSONHandler(log, nil)), Keys: keys, Origins: []string{"https://shop.example"}, Rate: rate})
	require.NoError(t, err)
	return s, token
}

const emcBody = `{"air": {"dry_bulb": "20 C", "rh_pct": 50}}`

func TestTokens(t *testing.T) {
	var log bytes.Buffer
	s, token := exposedService(t, Rate{}, &log)
	for _, right := range []string{"Bearer " + token, "bearer " + token, "BEARER   " + token} {
		assert.Equal(t, http.StatusOK, posting("/v1/emc", emcBody, "Authorization", right).of(t, s).Code, right[:8])
	}
	assert.Contains(t, log.String(), `"key":"bench"`)
	for name, wrong := range map[string]string{
		"no scheme": token, "another scheme": "Basic " + token, "empty": "", "scheme alone": "Bearer", "empty token": "Bearer ",
		"one letter less": "Bearer " + token[:len(token)-1], "one letter more": "Bearer " + token + "x", "another letter": "Bearer " + strings.ToUpper(token),
		"the hash": "Bearer " + sha256Hex(token), "the key id": "Bearer bench", "trailing blank": "Bearer " + token + " ",
		"too long": "Bearer " + strings.Repeat("x", 10_000), "two": "Bearer " + token + ", Bearer " + token,
	} {
		log.Reset()
		r := posting("/v1/emc", emcBody, "Authorization", wrong).of(t, s)
		p := problemOf(t, r, http.StatusUnauthorized)
		assert.Equal(t, "/problems/unauthorised", p.Type, name)
		assert.Equal(t, `Bearer realm="latewood", error="invalid_token"`, r.Header().Get("WWW-Authenticate"), name)
		said := "the token is not one this service knows"
		switch name {
		case "no scheme", "another scheme", "empty", "scheme alone", "empty token":
			said = "this service takes a bearer token: Authorization: Bearer TOKEN"
		}
		assert.Equal(t, said, p.Detail, name)
		assert.NotContains(t, log.String(), token[9:20], name)
		assert.NotContains(t, log.String(), `"key"`, name)
		assert.Contains(t, log.String(), `"from"`, "who has no token is named by address")
	}
	log.Reset()
	request, err := http.NewRequest(http.MethodGet, "/version", http.NoBody)
	require.NoError(t, err)
	request.Header["Authorization"] = []string{"Bearer " + token, "Bearer " + token}
	recorder := &keeping{header: http.Header{}}
	s.ServeHTTP(recorder, request)
	assert.Equal(t, http.StatusUnauthorized, recorder.status, "two headers are none")
}

type keeping struct {
	header http.Header
	status int
}

func (k *keeping) Header() http.Header         { return k.header }
func (k *keeping) Write(b []byte) (int, error) { return len(b), nil }
func (k *keeping) WriteHeader(status int)      { k.status = status }

func sha256Hex(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

// Without a token every path is closed, even those that do not exist, but for
// the probes and what is the same for everybody: page, documents, contract. The
// list stands here once more on purpose: whoever opens a route has to say so twice.
func TestWhatIsOpenWithoutAToken(t *testing.T) {
	s, token := exposedService(t, Rate{}, io.Discard)
	open := map[string]int{
		"/livez": http.StatusOK, "/readyz": http.StatusOK, "/": http.StatusOK, "/page/page.css": http.StatusOK, "/page/page.js": http.StatusOK,
		"/openapi.json": http.StatusOK, "/openapi.yaml": http.StatusOK, "/docs": http.StatusMovedPermanently, "/docs/": http.StatusOK, "/problems/invalid": http.StatusOK,
	}
	found := 0
	ask := func(method, path string) {
		r := (asked{verb: method, target: path}).of(t, s)
		if status, ok := open[path]; ok {
			found++
			if method == http.MethodDelete {
				status = http.StatusMethodNotAllowed
			}
			assert.Equal(t, status, r.Code, method+" "+path)
			return
		}
		problemOf(t, r, http.StatusUnauthorized)
		assert.Equal(t, `Bearer realm="latewood"`, r.Header().Get("WWW-Authenticate"), path)
	}
	for i := range routes {
		path := strings.NewReplacer(":id", "teak", ":kind", "invalid", "*", "").Replace(routes[i].path)
		ask(routes[i].method, path)
		ask(http.MethodDelete, path)
	}
	assert.Equal(t, 2*len(open), found, "every path named here exists")
	for _, path := range []string{"/nowhere", "/page", "/page/", "/page/other.js", "/openapi", "/problems", "/problems/", "/v1", "/v1/", "//", "/docs/../v1/limits", "/docs/../metrics", "/./metrics"} {
		r := getting(path).of(t, s)
		if strings.HasPrefix(path, "/docs/") { // falls to the files of the documents, which hold no such file
			assert.Equal(t, http.StatusNotFound, r.Code, path)
			continue
		}
		problemOf(t, r, http.StatusUnauthorized)
	}
	ask(http.MethodOptions, "/v1/emc")
	for _, path := range []string{"/", "/page/page.js", "/openapi.json"} {
		assert.Equal(t, http.StatusOK, getting(path, "Authorization", "Bearer wrong").of(t, s).Code, "a token that nobody asked for is not looked at")
	}
	rated, _ := exposedService(t, Rate{PerSecond: 1, Burst: 100}, io.Discard)
	assert.NotEmpty(t, getting("/").of(t, rated).Header().Get("RateLimit"), "what is open is charged to the address all the same")
	table := getting("/v1/species/maple-sugar", "Authorization", "Bearer "+token).of(t, s)
	require.Equal(t, http.StatusOK, table.Code)
	assert.Equal(t, "private, max-age=3600", table.Header().Get("Cache-Control"), "a cache between does not hand it to those without a token")
	assert.Equal(t, "public, max-age=3600", getting("/").of(t, s).Header().Get("Cache-Control"))
	assert.Equal(t, http.StatusNotFound, getting("/nowhere", "Authorization", "Bearer "+token).of(t, s).Code)
}

func TestNewTokenFitsItsLine(t *testing.T) {
	seen := map[string]bool{}
	for range 100 {
		token, line, err := NewToken("bench-2")
		require.NoError(t, err)
		assert.Regexp(t, `^latewood_[A-Za-z0-9_-]{43}$`, token, "32 random bytes")
		assert.Equal(t, "bench-2 "+sha256Hex(token), line)
		assert.False(t, seen[token])
		seen[token] = true
		keys, err := ParseKeys("# of the bench\n\n  " + line + "\r\n")
		require.NoError(t, err)
		id, ok := keys.find(token)
		assert.True(t, ok)
		assert.Equal(t, "bench-2", id)
	}
	for _, bad := range []string{"", "two words", "a/b", strings.Repeat("x", 65)} {
		_, _, err := NewToken(bad)
		assert.Error(t, err, bad)
	}
}

func TestWrongTokenLines(t *testing.T) {
	hash := sha256Hex("x")
	for text, says := range map[string]string{
		"":                                    "no token",
		"# nothing\n":                         "no token",
		"bench":                               "line 1",
		"bench " + hash[1:]:                   "64 hex digits",
		"bench " + hash + " more":             "line 1",
		"bench " + strings.Repeat("g", 64):    "64 hex digits",
		"be/nch " + hash:                      "line 1",
		"a " + hash + "\nb " + hash:           "line 2",
		"a " + hash + "\na " + sha256Hex("y"): "line 2",
	} {
		_, err := ParseKeys(text)
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), says)
		assert.NotContains(t, err.Error(), hash[1:], "a line is never repeated")
	}
	var lines strings.Builder
	for i := range mostKeys + 1 {
		fmt.Fprintf(&lines, "k%d %s\n", i, sha256Hex(fmt.Sprint(i)))
	}
	_, err := ParseKeys(lines.String())
	assert.ErrorContains(t, err, "more than 1000")
}

// A right token takes as long wherever it stands in the list, and a wrong one
// as long as a right one. A comparison that stopped early would be hundreds of
// times faster for the first of a thousand. The fastest of many rounds is taken,
// which other work on the machine does not touch.
func TestTokensAreComparedInConstantTime(t *testing.T) {
	var lines strings.Builder
	for i := range mostKeys {
		fmt.Fprintf(&lines, "k%d %s\n", i, sha256Hex(fmt.Sprint(i)))
	}
	keys, err := ParseKeys(lines.String())
	require.NoError(t, err)
	least := map[string]time.Duration{"0": time.Hour, "999": time.Hour, "none": time.Hour}
	for range 400 {
		for token := range least {
			start := time.Now()
			for range 5 {
				_, ok := keys.find(token)
				require.Equal(t, token != "none", ok)
			}
			least[token] = min(least[token], time.Since(start))
		}
	}
	fastest, slowest := min(least["0"], least["999"], least["none"]), max(least["0"], least["999"], least["none"])
	assert.Less(t, float64(slowest), 1.5*float64(fastest), "%v", least)
	for i := range mostKeys {
		id, ok := keys.find(fmt.Sprint(i))
		assert.True(t, ok)
		assert.Equal(t, fmt.Sprint("k", i), id)
	}
}
