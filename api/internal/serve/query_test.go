package serve_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
	"latewood/woodphys/method"
)

// Every calculation answers QUERY as it answers POST, to the byte, with a tag that the same
// question has again and no other one has; who holds the answer is told so.
func TestQueryAnswersAsPostDoes(t *testing.T) {
	asking.OneByOne(t)
	tags := map[string]string{}
	for path, bodies := range asking.ExampleBodies(t) {
		for _, body := range bodies {
			posted := asking.Posting(path, string(body), "X-Request-Id", "same").Of(t, asking.SharedService())
			queried := asking.Querying(path, string(body), "X-Request-Id", "same").Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, queried.Code, queried.Body.String())
			assert.True(t, posted.Body.String() == queried.Body.String(), path)
			assert.Equal(t, queried.Header().Get("Accept-Query"), posted.Header().Get("Accept-Query"))
			tag := queried.Header().Get("ETag")
			if path == "/v1/batch" {
				assert.Empty(t, tag, "its items may be answered otherwise the next time")
				assert.Equal(t, "no-store", queried.Header().Get("Cache-Control"))
				continue
			}
			require.Regexp(t, `^"[0-9a-f]{24}"$`, tag, "strong")
			assert.Empty(t, tags[tag], "the tag of another question")
			tags[tag] = path
			assert.Equal(t, "public, max-age=3600", queried.Header().Get("Cache-Control"))
			for _, have := range []string{tag, `"other", ` + tag, "*", strings.TrimSuffix(tag, `"`) + `-gzip"`} {
				again := asking.Querying(path, respelled(t, body), "If-None-Match", have).Of(t, asking.SharedService())
				assert.Equal(t, http.StatusNotModified, again.Code, have)
				assert.Empty(t, again.Body.String())
				assert.Contains(t, again.Header().Get("ETag"), strings.Trim(tag, `"`))
				assert.NotEmpty(t, again.Header().Get("Cache-Control"))
				assert.Contains(t, again.Header().Get("Vary"), "Accept")
			}
			other := asking.Querying(path, string(body), "If-None-Match", `"other"`).Of(t, asking.SharedService())
			assert.Equal(t, http.StatusOK, other.Code)
		}
	}
}

// respelled is the same request with its members in another order and other spaces.
func respelled(t *testing.T, body []byte) string {
	t.Helper()
	var tree any
	decoder := json.NewDecoder(bytes.NewReader(body))
	decoder.UseNumber()
	require.NoError(t, decoder.Decode(&tree))
	text, err := json.MarshalIndent(tree, " ", "\t")
	require.NoError(t, err)
	return string(text) + "\n"
}

// Each form of an answer has a tag of its own, and so has each other question.
func TestEachFormHasATagOfItsOwn(t *testing.T) {
	seen := map[string]string{}
	tagOf := func(target, body string, headers ...string) string {
		r := asking.Querying(target, body, headers...).Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, r.Code, r.Body.String())
		return r.Header().Get("ETag")
	}
	body := string(asking.ExampleBodies(t)["/v1/assembly-movement"][0])
	const path = "/v1/assembly-movement"
	for _, target := range []string{path, path + "?as=svg", path + "?as=csv", path + "?as=pairs_csv", path + "?detail=summary", path + "?work_seconds=3"} {
		tag := tagOf(target, body)
		assert.Empty(t, seen[tag], target)
		seen[tag] = target
		assert.Equal(t, tag, tagOf(target, body), "the same again")
	}
	assert.Equal(t, path+"?as=csv", seen[tagOf(path, body, "Accept", "text/csv")], "however the form is asked for")
	assert.Equal(t, path, seen[tagOf(path+"?as=json&detail=full&work_seconds=4", body)], "what is the rule may be said")
	zipped := tagOf(path, body, "Accept-Encoding", "gzip")
	assert.Regexp(t, `-gzip"$`, zipped)
	assert.Contains(t, seen, strings.TrimSuffix(zipped, `-gzip"`)+`"`)
	other, err := api.New(serve.Config{Version: "another"})
	require.NoError(t, err)
	assert.NotContains(t, seen, asking.Querying(path, body).Of(t, other).Header().Get("ETag"), "another program, another answer")
}

// Problems are told to QUERY as to POST, and have no tag, whatever tag the caller holds.
func TestProblemsOfAQueryHaveNoTag(t *testing.T) {
	s := asking.SharedService()
	tag := asking.Querying("/v1/emc", asking.EMCBody).Of(t, s).Header().Get("ETag")
	for body, status := range map[string]int{
		"": http.StatusBadRequest, "{": http.StatusBadRequest, `{"air": 1, "air": 2}`: http.StatusBadRequest,
		"{}": http.StatusUnprocessableEntity, `{"air": {"temperature": "20 C", "rh_pct": 150}}`: http.StatusUnprocessableEntity,
	} {
		for _, have := range []string{tag, "*"} {
			p := asking.ProblemOf(t, asking.Querying("/v1/emc", body, "If-None-Match", have).Of(t, s), status)
			posted := asking.ProblemOf(t, asking.Posting("/v1/emc", body).Of(t, s), status)
			assert.Equal(t, posted.Errors, p.Errors)
		}
	}
	for _, media := range []string{"text/plain", ""} {
		r := asking.Querying("/v1/emc", asking.EMCBody, "Content-Type", media).Of(t, s)
		p := asking.ProblemOf(t, r, http.StatusUnsupportedMediaType)
		assert.Equal(t, []string{"application/json"}, p.Offers)
		assert.Equal(t, "application/json", r.Header().Get("Accept-Query"))
	}
}

// Which paths are asked with QUERY is told by each of their replies, and by OPTIONS.
func TestQueryIsTold(t *testing.T) {
	s := asking.SharedService()
	for path, types := range map[string]string{"/v1/emc": "application/json", "/v1/batch": "application/json, application/x-ndjson"} {
		for _, verb := range []string{http.MethodOptions, http.MethodGet, http.MethodPost, serve.MethodQuery, http.MethodDelete} {
			r := asking.Asked{Verb: verb, Target: path}.Of(t, s)
			assert.Equal(t, types, r.Header().Get("Accept-Query"), verb)
			if r.Code == http.StatusNoContent || r.Code == http.StatusMethodNotAllowed {
				assert.Equal(t, "OPTIONS, POST, QUERY", r.Header().Get("Allow"))
			}
		}
	}
	for _, path := range []string{"/v1/species", "/livez", "/nowhere"} {
		r := asking.Asked{Verb: serve.MethodQuery, Target: path}.Of(t, s)
		assert.GreaterOrEqual(t, r.Code, http.StatusNotFound)
		assert.Empty(t, r.Header().Get("Accept-Query"))
	}
	closed, token := asking.ExposedService(t, serve.Rate{}, io.Discard)
	asking.ProblemOf(t, asking.Querying("/v1/emc", asking.EMCBody).Of(t, closed), http.StatusUnauthorized)
	r := asking.Querying("/v1/emc", asking.EMCBody, "Authorization", "Bearer "+token).Of(t, closed)
	assert.Equal(t, "private, max-age=3600", r.Header().Get("Cache-Control"), "who had to show a token keeps it alone")
	preflight := asking.Asked{Verb: http.MethodOptions, Target: "/v1/emc", Headers: []string{"Origin", "https://shop.example", "Access-Control-Request-Method", "QUERY"}}
	assert.Contains(t, preflight.Of(t, closed).Header().Get("Access-Control-Allow-Methods"), "QUERY")
	asking.ProblemOf(t, asking.Querying("/v1/emc", asking.EMCBody, "Sec-Fetch-Site", "cross-site").Of(t, s), http.StatusForbidden)
}

// An answer whose work the clock ended might be another the next time: nobody keeps it.
func TestWhatTheClockEndedIsNotKept(t *testing.T) {
	untilTheEnd := func(ctx context.Context, _ *shelf.Tables, r *moist.EMCRequest) (moist.EMCResult, method.Notes, error) {
		if r.ReportIn != "" { // the one that is asked to wait
			<-ctx.Done()
		}
		return moist.EMCResult{}, method.Notes{}, nil
	}
	work := serve.InTurn(untilTheEnd, serve.Needs{Memory: 1 << 20, Text: 1 << 10, Processor: 200 * time.Millisecond})
	row := serve.Route{Method: http.MethodPost, Path: "/v1/slow", Tag: "calculations", Safe: true, Heavy: true, Handler: work}
	row.Request, row.Result, _ = work.Types()
	s := serve.New(serve.Config{Version: "test"}, asking.SharedService().Tables(), []serve.Route{row}, nil)
	s.SetClock(func() time.Duration { return -time.Hour }) // its time is over when it begins
	whole := asking.Querying("/v1/slow", asking.EMCBody).Of(t, s)
	require.Equal(t, http.StatusOK, whole.Code, whole.Body.String())
	assert.NotEmpty(t, whole.Header().Get("ETag"))
	ended := asking.Querying("/v1/slow", strings.TrimSuffix(asking.EMCBody, "}")+`, "report_in": "inch"}`, "If-None-Match", "*").Of(t, s)
	require.Equal(t, http.StatusOK, ended.Code, ended.Body.String())
	assert.Empty(t, ended.Header().Get("ETag"))
	assert.Equal(t, "no-store", ended.Header().Get("Cache-Control"))
}

// BenchmarkQueryHeld is a year of a whole instrument asked again by who holds the answer.
// Limit: 50 microseconds of a processor, which other work on the machine touches less than
// the clock.
func BenchmarkQueryHeld(b *testing.B) {
	s, err := api.New(serve.Config{Log: slog.New(slog.NewJSONHandler(io.Discard, nil)), Version: "bench"})
	require.NoError(b, err)
	body, err := os.ReadFile("../../../testdata/demo/instrument/octave-mandolin.json")
	require.NoError(b, err)
	request := httptest.NewRequestWithContext(b.Context(), serve.MethodQuery, "/v1/assembly-movement", bytes.NewReader(body))
	request.Header.Set("Content-Type", "application/json")
	first := httptest.NewRecorder()
	s.ServeHTTP(first, request)
	require.Equal(b, http.StatusOK, first.Code, first.Body.String())
	request.Header.Set("If-None-Match", first.Header().Get("ETag"))
	reader := bytes.NewReader(body)
	used := asking.ProcessorTime()
	b.ReportAllocs()
	b.ResetTimer()
	for b.Loop() {
		reader.Reset(body)
		request.Body = io.NopCloser(reader)
		again := httptest.NewRecorder()
		s.ServeHTTP(again, request)
		if again.Code != http.StatusNotModified {
			b.Fatal(again.Code)
		}
	}
	b.ReportMetric(float64((asking.ProcessorTime()-used).Nanoseconds())/float64(b.N), "processor-ns/op")
}
