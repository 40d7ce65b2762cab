package serve_test

import (
	"bytes"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

func TestTokens(t *testing.T) {
	var log bytes.Buffer
	s, token := asking.ExposedService(t, serve.Rate{}, &log)
	for _, right := range []string{"Bearer " + token, "bearer " + token, "BEARER   " + token} {
		assert.Equal(t, http.StatusOK, asking.Posting("/v1/emc", asking.EMCBody, "Authorization", right).Of(t, s).Code, right[:8])
	}
	assert.Contains(t, log.String(), `"key":"bench"`)
	for name, wrong := range map[string]string{
		"no scheme": token, "another scheme": "Basic " + token, "empty": "", "scheme alone": "Bearer", "empty token": "Bearer ",
		"one letter less": "Bearer " + token[:len(token)-1], "one letter more": "Bearer " + token + "x", "another letter": "Bearer " + strings.ToUpper(token),
		"the hash": "Bearer " + asking.SHA256Hex(token), "the key id": "Bearer bench", "trailing blank": "Bearer " + token + " ",
		"too long": "Bearer " + strings.Repeat("x", 10_000), "two": "Bearer " + token + ", Bearer " + token,
	} {
		log.Reset()
		r := asking.Posting("/v1/emc", asking.EMCBody, "Authorization", wrong).Of(t, s)
		p := asking.ProblemOf(t, r, http.StatusUnauthorized)
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

func TestNewTokenFitsItsLine(t *testing.T) {
	seen := map[string]bool{}
	for range 100 {
		token, line, err := serve.NewToken("bench-2")
		require.NoError(t, err)
		assert.Regexp(t, `^latewood_[A-Za-z0-9_-]{43}$`, token, "32 random bytes")
		assert.Equal(t, "bench-2 "+asking.SHA256Hex(token), line)
		assert.False(t, seen[token])
		seen[token] = true
		keys, err := serve.ParseKeys("# of the bench\n\n  " + line + "\r\n")
		require.NoError(t, err)
		id, ok := keys.Find(token)
		assert.True(t, ok)
		assert.Equal(t, "bench-2", id)
	}
	for _, bad := range []string{"", "two words", "a/b", strings.Repeat("x", 65)} {
		_, _, err := serve.NewToken(bad)
		assert.Error(t, err, bad)
	}
}

func TestWrongTokenLines(t *testing.T) {
	hash := asking.SHA256Hex("x")
	for text, says := range map[string]string{
		"":                                 "no token",
		"# nothing\n":                      "no token",
		"bench":                            "line 1",
		"bench " + hash[1:]:                "64 hex digits",
		"bench " + hash + " more":          "line 1",
		"bench " + strings.Repeat("g", 64): "64 hex digits",
		"be/nch " + hash:                   "line 1",
		"a " + hash + "\nb " + hash:        "line 2",
		"a " + hash + "\na " + asking.SHA256Hex("y"): "line 2",
	} {
		_, err := serve.ParseKeys(text)
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), says)
		assert.NotContains(t, err.Error(), hash[1:], "a line is never repeated")
	}
	var lines strings.Builder
	for i := range serve.MostKeys + 1 {
		fmt.Fprintf(&lines, "k%d %s\n", i, asking.SHA256Hex(fmt.Sprint(i)))
	}
	_, err := serve.ParseKeys(lines.String())
	assert.ErrorContains(t, err, "more than 1000")
}
