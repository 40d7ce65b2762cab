package serve_test

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

// unzipped reads a compressed body to its end.
func unzipped(t *testing.T, body []byte) string {
	t.Helper()
	reader, err := gzip.NewReader(bytes.NewReader(body))
	require.NoError(t, err)
	text, err := io.ReadAll(reader)
	require.NoError(t, err)
	return string(text)
}

// Whoever wants it gets every answer of more than 1 KB compressed: the same bytes, with
// their length and a tag of their own, and the caller who has either form is told so.
func TestAnswersAreCompressed(t *testing.T) {
	asking.OneByOne(t)
	s := asking.SharedService()
	seen := 0
	check := func(ask func(headers ...string) asking.Asked, target string) {
		plain := ask().Of(t, s)
		require.Equal(t, http.StatusOK, plain.Code, target)
		r := ask("Accept-Encoding", "br, gzip").Of(t, s)
		require.Equal(t, http.StatusOK, r.Code, target)
		assert.Contains(t, r.Header().Get("Vary"), "Accept-Encoding")
		if plain.Body.Len() <= 1024 {
			assert.Empty(t, r.Header().Get("Content-Encoding"), target)
			assert.Equal(t, plain.Body.String(), r.Body.String())
			return
		}
		seen++
		require.Equal(t, "gzip", r.Header().Get("Content-Encoding"), target)
		assert.Equal(t, strconv.Itoa(r.Body.Len()), r.Header().Get("Content-Length"), target)
		assert.Less(t, r.Body.Len(), plain.Body.Len()*2/3, target)
		assert.True(t, plain.Body.String() == unzipped(t, r.Body.Bytes()), target)
		tag := plain.Header().Get("ETag")
		if tag == "" {
			return
		}
		zipped := r.Header().Get("ETag")
		assert.NotEqual(t, tag, zipped, target)
		assert.Regexp(t, `^"[^"]+"$`, zipped)
		if strings.HasPrefix(target, "/v1/assembly-movement") { // a calculation is not conditional
			return
		}
		for _, have := range []string{tag, zipped} {
			again := ask("Accept-Encoding", "gzip", "If-None-Match", have).Of(t, s)
			assert.Equal(t, http.StatusNotModified, again.Code, target)
			assert.Equal(t, zipped, again.Header().Get("ETag"))
			assert.Empty(t, again.Header().Get("Content-Encoding"))
		}
	}
	for path, bodies := range asking.ExampleBodies(t) {
		if path == "/v1/batch" { // sent piece by piece
			continue
		}
		for _, form := range []string{"", "?as=svg", "?as=csv"} {
			if asking.Posting(path+form, string(bodies[0])).Of(t, s).Code != http.StatusOK {
				continue
			}
			check(func(headers ...string) asking.Asked { return asking.Posting(path+form, string(bodies[0]), headers...) }, path+form)
		}
	}
	for _, target := range []string{"/openapi.json", "/openapi.yaml", "/", "/page/main.js", "/v1/species", "/v1/methods", "/v1/limits", "/version", "/v1/species?limit=1"} {
		check(func(headers ...string) asking.Asked { return asking.Getting(target, headers...) }, target)
	}
	assert.Greater(t, seen, 20)
}

// Who does not name it, or forbids it, gets an answer as it is; so does everyone when as
// many answers are compressed as may be.
func TestWhoGetsCompressedAnswers(t *testing.T) {
	s := asking.SharedService()
	encoding := func(accept string) string {
		return asking.Getting("/v1/methods", "Accept-Encoding", accept).Of(t, s).Header().Get("Content-Encoding")
	}
	for accept, want := range map[string]string{"gzip": "gzip", "GZIP": "gzip", "*": "gzip", "br;q=1, gzip;q=0.2": "gzip", "deflate, *;q=0.5": "gzip",
		"": "", "br": "", "identity": "", "gzip;q=0": "", "gzip; q=0.000": "", "*;q=0": "", "gzip;q=0, *": "", "xgzip": "", "gzip;q=x": ""} {
		assert.Equal(t, want, encoding(accept), accept)
	}
	giveBack := serve.TakeZippers()
	r := asking.Getting("/v1/methods", "Accept-Encoding", "gzip").Of(t, s)
	giveBack()
	assert.Empty(t, r.Header().Get("Content-Encoding"))
	assert.Regexp(t, `^"[0-9a-f]{24}"$`, r.Header().Get("ETag"), "the tag is that of the bytes sent")
	assert.Equal(t, "gzip", encoding("gzip"))
}

// HEAD has the headers of GET here too.
func TestHeadOfCompressedAnswers(t *testing.T) {
	s := asking.SharedService()
	for _, target := range []string{"/openapi.json", "/v1/species"} {
		get := asking.Getting(target, "Accept-Encoding", "gzip").Of(t, s)
		head := asking.Asked{Verb: http.MethodHead, Target: target, Headers: []string{"Accept-Encoding", "gzip"}}.Of(t, s)
		for _, name := range []string{"Content-Encoding", "Content-Length", "ETag", "Vary"} {
			assert.Equal(t, get.Header().Get(name), head.Header().Get(name), target+" "+name)
		}
	}
}
