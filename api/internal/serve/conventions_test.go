package serve_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"testing"

	"github.com/labstack/echo/v4"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// methodIDs are the ids that GET /v1/methods shows.
func methodIDs(t testing.TB) map[string]bool {
	t.Helper()
	p := asking.LookUp[serve.Page[serve.MethodDetail]](t, "/v1/methods?limit=500")
	require.Empty(t, p.Next)
	ids := map[string]bool{}
	for _, m := range p.Items {
		assert.False(t, ids[m.ID], "twice: "+m.ID)
		ids[m.ID] = true
	}
	require.Len(t, ids, p.Total)
	return ids
}

func TestAnswersSayWhatTheyRestOn(t *testing.T) {
	asking.OneByOne(t)
	ids := methodIDs(t)
	version := asking.LookUp[serve.Version](t, "/version").Data
	require.NotEmpty(t, version)
	for path, bodies := range asking.ExampleBodies(t) {
		for _, body := range bodies {
			r := asking.Posting(path, string(body)).Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, r.Code, r.Body.String())
			assert.Equal(t, "application/json", r.Header().Get("Content-Type"))
			var raw map[string]json.RawMessage
			require.NoError(t, json.Unmarshal(r.Body.Bytes(), &raw))
			assert.Len(t, raw, 4)
			for _, member := range []string{"result", "basis", "warnings", "data_version"} {
				assert.Contains(t, raw, member, path)
			}
			a := asking.Decoded[serve.Answer[json.RawMessage]](t, r.Body.Bytes())
			assert.Equal(t, version, a.DataVersion)
			assert.NotEmpty(t, a.Basis, path)
			for _, id := range a.Basis {
				assert.True(t, ids[id], "basis "+id+" is not listed")
			}
			for _, w := range a.Warnings {
				assert.NotEmpty(t, w.Code)
				assert.NotEmpty(t, w.Detail)
				assert.NotRegexp(t, asking.Inside, w.Detail)
				if w.Method != "" {
					assert.True(t, ids[w.Method], "method "+w.Method+" of a warning is not listed")
				}
			}
			assert.NotContains(t, string(a.Result), "null", "an absent member is left out")
		}
	}
}

func TestRequestID(t *testing.T) {
	for _, own := range []string{"a", "job-7_x.Y", strings.Repeat("9", 64)} {
		r := asking.Getting("/livez", "X-Request-Id", own).Of(t, asking.SharedService())
		assert.Equal(t, own, r.Header().Get("X-Request-Id"))
	}
	seen := map[string]bool{}
	for _, malformed := range []string{"", "two words", "semi;colon", strings.Repeat("9", 65), "ünicode", "<script>", `"`} {
		r := asking.Getting("/livez", "X-Request-Id", malformed).Of(t, asking.SharedService())
		id := r.Header().Get("X-Request-Id")
		assert.Regexp(t, "^[0-9a-f]{16}$", id)
		assert.False(t, seen[id], "ids are not repeated")
		seen[id] = true
	}
	p := asking.ProblemOf(t, asking.Getting("/nowhere", "X-Request-Id", "mine").Of(t, asking.SharedService()), http.StatusNotFound)
	assert.Equal(t, "mine", p.Instance)
}

func TestHeadersOfEveryReply(t *testing.T) {
	for _, request := range []asking.Asked{
		asking.Getting("/livez"), asking.Getting("/v1/species"), asking.Getting("/nowhere"), asking.Posting("/v1/air", "{}"), asking.Posting("/v1/air", "x"),
		asking.Posting("/v1/emc", `{"air": {"temperature": "20 C", "rh_pct": 50}}`), asking.Getting("/v1/air"), asking.Getting("/v1/methods", "Accept", "image/gif"),
	} {
		h := request.Of(t, asking.SharedService()).Header()
		assert.Equal(t, "nosniff", h.Get("X-Content-Type-Options"), request.Target)
		assert.Contains(t, h.Get("Vary"), "Accept", request.Target)
		assert.NotEmpty(t, h.Get("X-Request-Id"), request.Target)
		assert.NotEmpty(t, h.Get("Content-Type"), request.Target)
		assert.Empty(t, h.Get("Server"), "the reply does not say what serves it")
	}
}

func TestETagOfLookUps(t *testing.T) {
	tags := map[string]string{}
	for _, target := range []string{"/v1/species", "/v1/species?limit=3", "/v1/species?limit=3&offset=3", "/v1/species?q=maple", "/v1/species/maple-sugar",
		"/v1/stations/madison-wi", "/v1/stations/madison-wi?report_in=inch", "/v1/methods", "/version"} {
		r := asking.Getting(target).Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, r.Code, target)
		tag := r.Header().Get("ETag")
		require.Regexp(t, `^"[0-9a-f]{24}"$`, tag, "strong")
		assert.Empty(t, tags[tag], "same tag for "+target+" and "+tags[tag])
		tags[tag] = target
		assert.Equal(t, tag, asking.Getting(target).Of(t, asking.SharedService()).Header().Get("ETag"), "the same bytes have the same tag")
		for _, have := range []string{tag, "W/" + tag, `"other", ` + tag, "*"} {
			again := asking.Getting(target, "If-None-Match", have).Of(t, asking.SharedService())
			assert.Equal(t, http.StatusNotModified, again.Code, have)
			assert.Empty(t, again.Body.String())
			assert.Equal(t, tag, again.Header().Get("ETag"))
		}
		again := asking.Getting(target, "If-None-Match", `"other"`).Of(t, asking.SharedService())
		assert.Equal(t, http.StatusOK, again.Code)
		assert.Equal(t, r.Body.String(), again.Body.String())
	}
}

// walk follows the next links of a list to its end.
func walk[T any](t *testing.T, target string, id func(T) string) []string {
	t.Helper()
	var ids []string
	seen := map[string]bool{}
	total := -1
	for target != "" {
		p := asking.LookUp[serve.Page[T]](t, target)
		require.NotEmpty(t, p.Items, target)
		if total >= 0 {
			require.Equal(t, total, p.Total)
		}
		total = p.Total
		for _, item := range p.Items {
			require.False(t, seen[id(item)], "twice: "+id(item))
			seen[id(item)] = true
			ids = append(ids, id(item))
		}
		target = p.Next
	}
	require.Len(t, ids, total)
	return ids
}

func TestNextLinksWalkTheWholeList(t *testing.T) {
	ofWood := func(s serve.SpeciesSummary) string { return s.ID }
	woods := walk(t, "/v1/species?limit=37", ofWood)
	assert.Len(t, woods, len(asking.SharedService().Tables().Species.Woods()))
	hard := walk(t, "/v1/species?listing=Hardwood&limit=7", ofWood)
	assert.Less(t, len(hard), len(woods))
	assert.Equal(t, asking.LookUp[serve.Page[serve.SpeciesSummary]](t, "/v1/species?listing=hardwood&limit=500").Total, len(hard))
	stations := walk(t, "/v1/stations?limit=50", func(s serve.StationSummary) string { return s.ID })
	assert.Len(t, stations, len(asking.SharedService().Tables().Species.Stations()))
	methods := walk(t, "/v1/methods?limit=1", func(m serve.MethodDetail) string { return m.ID })
	assert.Len(t, methods, len(asking.SharedService().Tables().Methods))
	movement := walk(t, "/v1/methods?limit=2&chapter=movement", func(m serve.MethodDetail) string { return m.ID })
	assert.Less(t, len(movement), len(methods))

	beyond := asking.LookUp[serve.Page[serve.SpeciesSummary]](t, "/v1/species?offset=1000000")
	assert.Empty(t, beyond.Items)
	assert.NotNil(t, beyond.Items)
	assert.Equal(t, len(woods), beyond.Total)
	assert.Empty(t, beyond.Next)
}

// Every id of a list opens, and every name of a wood finds that wood first.
func TestListedEntriesOpen(t *testing.T) {
	for _, w := range asking.SharedService().Tables().Species.Woods() {
		d := asking.LookUp[serve.SpeciesDetail](t, "/v1/species/"+url.PathEscape(w.ID))
		assert.Equal(t, w.ID, d.ID)
		found := asking.LookUp[serve.Page[serve.SpeciesSummary]](t, "/v1/species?limit=1&q="+url.QueryEscape(w.ID))
		require.NotEmpty(t, found.Items, w.ID)
		assert.Equal(t, w.ID, found.Items[0].ID)
	}
	for _, st := range asking.SharedService().Tables().Species.Stations() {
		d := asking.LookUp[serve.StationDetail](t, "/v1/stations/"+url.PathEscape(st.ID))
		assert.Equal(t, st.ID, d.ID)
		assert.Len(t, d.Months, 12)
	}
	for _, k := range refuse.ProblemKinds {
		assert.Equal(t, k, asking.LookUp[refuse.ProblemKind](t, "/problems/"+k.Kind))
	}
}

// HEAD is asked of a real server, which alone keeps the body back.
func TestHeadAnswersWithoutBody(t *testing.T) {
	server := httptest.NewServer(asking.SharedService())
	defer server.Close()
	transport, ok := server.Client().Transport.(*http.Transport)
	require.True(t, ok)
	transport.DisableCompression = true // it would ask GET alone to be compressed
	for _, path := range []string{"/v1/species", "/v1/species/maple-sugar", "/v1/stations", "/v1/methods?limit=2", "/livez", "/readyz", "/version"} {
		full, err := server.Client().Get(server.URL + path)
		require.NoError(t, err)
		body, err := io.ReadAll(full.Body)
		require.NoError(t, err)
		require.NoError(t, full.Body.Close())
		head, err := server.Client().Head(server.URL + path)
		require.NoError(t, err)
		empty, err := io.ReadAll(head.Body)
		require.NoError(t, err)
		require.NoError(t, head.Body.Close())
		assert.Equal(t, http.StatusOK, head.StatusCode, path)
		assert.Empty(t, empty)
		require.NotEmpty(t, body)
		for _, name := range []string{"ETag", "Content-Type", "Cache-Control", "Vary"} {
			assert.Equal(t, full.Header.Get(name), head.Header.Get(name), path+" "+name)
		}
	}
	missing, err := server.Client().Head(server.URL + "/v1/species/no-such-wood")
	require.NoError(t, err)
	require.NoError(t, missing.Body.Close())
	assert.Equal(t, http.StatusNotFound, missing.StatusCode)
}

// A body without a length, sent in pieces, is cut off at the limit too.
func TestBodyLimitHoldsWithoutALength(t *testing.T) {
	server := httptest.NewServer(asking.SharedService())
	defer server.Close()
	send := func(size int) *http.Response {
		text := `{"wood": "maple-sugar", "air": {"temperature": "20 C", "rh_pct": 50}}`
		body := io.MultiReader(strings.NewReader(text), strings.NewReader(strings.Repeat(" ", size-len(text))))
		r, err := server.Client().Post(server.URL+"/v1/emc", "application/json", struct{ io.Reader }{body})
		require.NoError(t, err)
		_, err = io.Copy(io.Discard, r.Body)
		require.NoError(t, err)
		require.NoError(t, r.Body.Close())
		return r
	}
	assert.Equal(t, http.StatusOK, send(serve.CalculationBody).StatusCode, "the limit itself is allowed")
	assert.Equal(t, http.StatusRequestEntityTooLarge, send(serve.CalculationBody+1).StatusCode)
}

func TestAcceptNegotiation(t *testing.T) {
	for _, row := range []struct {
		accept string
		status int
	}{
		{"", 200}, {"*/*", 200}, {"application/json", 200}, {"application/*", 200}, {"APPLICATION/JSON", 200},
		{"text/html, application/json;q=0.1", 200}, {"text/html;q=1, */*;q=0.01", 200}, {"application/json; q=0.5; ext=1", 200},
		{"text/html", 406}, {"application/json;q=0", 406}, {"*/*;q=0", 406}, {"application/*;q=0, */*", 406}, {"application/json;q=0, */*;q=1", 406},
		{"application/json;q=2", 406}, {"application/json;q=x", 406}, {"application/jsonp", 406},
	} {
		r := asking.Getting("/v1/species/maple-sugar", "Accept", row.accept).Of(t, asking.SharedService())
		assert.Equal(t, row.status, r.Code, row.accept)
		if row.status == http.StatusNotAcceptable {
			assert.Contains(t, asking.ProblemOf(t, r, 406).Offers, "application/json")
		}
	}
}

func TestCharsetOfABodyIsAllowed(t *testing.T) {
	const body = `{"air": {"temperature": "20 C", "rh_pct": 50}}`
	for _, media := range []string{"application/json", "application/json; charset=utf-8", `application/json;a=b; Charset="UTF-8"`, "application/json; charset=utf8", "Application/JSON"} {
		r := asking.Posting("/v1/emc", body, "Content-Type", media).Of(t, asking.SharedService())
		assert.Equal(t, http.StatusOK, r.Code, media)
	}
	for target, media := range map[string]string{"/v1/emc": "application/json; charset=latin1", "/v1/batch": "application/x-ndjson; charset=utf-16"} {
		r := asking.Posting(target, body, "Content-Type", media).Of(t, asking.SharedService())
		assert.Contains(t, asking.ProblemOf(t, r, http.StatusUnsupportedMediaType).Detail, "in UTF-8", media)
	}
}

// The shared service is asked by a hundred callers at once and gives each the
// answer it gives to one; a heavy calculation may be sent away instead, and is
// then told when to come back. Run with the race detector.
func TestManyCallersAtOnce(t *testing.T) {
	type question struct {
		asking.Asked
		status int
		body   string
	}
	var questions []question
	ask := func(a asking.Asked) {
		r := a.Of(t, asking.SharedService())
		questions = append(questions, question{a, r.Code, r.Body.String()})
	}
	for path, bodies := range asking.ExampleBodies(t) {
		for _, body := range bodies {
			ask(asking.Posting(path, string(body), "X-Request-Id", "same"))
		}
	}
	for _, target := range []string{"/v1/species?q=maple", "/v1/species?q=mapel", "/v1/species/teak", "/v1/stations?near=43,-89", "/v1/methods", "/nowhere", "/v1/species?x=1"} {
		ask(asking.Getting(target, "X-Request-Id", "same"))
	}
	for _, w := range asking.WrongRequests[:40] {
		w.Headers = append(w.Headers, "X-Request-Id", "same")
		ask(w.Asked)
	}
	heavy := map[string]bool{}
	for _, r := range asking.Calculations() {
		heavy[r.Path] = r.Heavy
	}
	var wait sync.WaitGroup
	for caller := range 100 {
		wait.Go(func() {
			for i := range 12 {
				q := questions[(caller*7+i*5)%len(questions)]
				r := q.Of(t, asking.SharedService())
				if heavy[q.Target] && r.Code == http.StatusServiceUnavailable {
					assert.NotEmpty(t, r.Header().Get("Retry-After"))
					continue
				}
				if r.Code != q.status || r.Body.String() != q.body {
					t.Errorf("%s: %d, not as when asked alone (%d)\n%s\n%s", q.Target, r.Code, q.status, r.Body.String(), q.body)
				}
			}
		})
	}
	wait.Wait()
}

// A fault of the service is told as a problem with an id that finds it in the
// log; the stack stays in the log.
func TestPanicIsAProblem(t *testing.T) {
	var log bytes.Buffer
	s := asking.FreshService(t, &log)
	s.Handles("/fault", func(echo.Context) error { panic("a fault for the test") })
	p := asking.ProblemOf(t, asking.Getting("/fault", "X-Request-Id", "find-me").Of(t, s), http.StatusInternalServerError)
	assert.Equal(t, "/problems/internal", p.Type)
	assert.Equal(t, "find-me", p.Instance)
	assert.NotContains(t, fmt.Sprint(p), "a fault for the test")
	assert.Contains(t, log.String(), "a fault for the test")
	assert.Contains(t, log.String(), "find-me")
	assert.Contains(t, log.String(), "conventions_test.go", "the stack is in the log")

	// The service goes on.
	assert.Equal(t, http.StatusOK, asking.Getting("/livez").Of(t, s).Code)
}

// The same with a fault below a calculation: tables that lack everything.
func TestBrokenTablesAreAProblem(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	tables := s.Tables() // those of this service alone
	tables.Species, tables.Woods = nil, nil
	p := asking.ProblemOf(t, asking.Posting("/v1/movement", `{"wood": "teak", "size": "1 m", "direction": "radial", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 8}}`).Of(t, s), http.StatusInternalServerError)
	assert.Empty(t, p.Detail)
	assert.Empty(t, p.Errors)
}

// An answer that cannot be encoded is a problem, not half an answer.
func TestAnswerThatCannotBeEncodedIsAProblem(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	s.Handles("/not-a-number", func(c echo.Context) error {
		return serve.WriteJSON(c, wire.Quantity{Value: math.NaN(), Unit: "mm"})
	})
	asking.ProblemOf(t, asking.Getting("/not-a-number").Of(t, s), http.StatusInternalServerError)
}

// A panic that net/http itself uses to drop a connection goes through.
func TestAbortGoesThrough(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	s.Handles("/drop", func(echo.Context) error { panic(http.ErrAbortHandler) })
	assert.PanicsWithError(t, http.ErrAbortHandler.Error(), func() { asking.Getting("/drop").Of(t, s) })
}

func TestStoppedWorkAsksToComeBack(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	s.Handles("/stopped", func(echo.Context) error { return &method.Error{Code: method.Stopped, Detail: "time ran out"} })
	r := asking.Getting("/stopped").Of(t, s)
	asking.ProblemOf(t, r, http.StatusServiceUnavailable)
	assert.NotEmpty(t, r.Header().Get("Retry-After"))
}

func TestDraining(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	assert.Equal(t, http.StatusOK, asking.Getting("/readyz").Of(t, s).Code)
	s.Drain()
	r := asking.Getting("/readyz").Of(t, s)
	p := asking.ProblemOf(t, r, http.StatusServiceUnavailable)
	assert.Equal(t, "https://iana.org/assignments/http-problem-types#temporary-reduced-capacity", p.Type)
	assert.Equal(t, "5", r.Header().Get("Retry-After"))
	assert.Equal(t, http.StatusOK, asking.Getting("/livez").Of(t, s).Code, "alive to the end")
	assert.Equal(t, http.StatusOK, asking.Posting("/v1/emc", `{"air": {"temperature": "20 C", "rh_pct": 50}}`).Of(t, s).Code, "requests under way are answered")
}

// Ask gives the same as the server does.
func TestAskInProcess(t *testing.T) {
	const body = `{"air": {"temperature": "20 C", "rh_pct": 50}}`
	status, reply := asking.SharedService().Ask(http.MethodPost, "/v1/emc", "", []byte(body))
	assert.Equal(t, http.StatusOK, status)
	assert.Equal(t, asking.Posting("/v1/emc", body).Of(t, asking.SharedService()).Body.String(), string(reply))
	status, _ = asking.SharedService().Ask(http.MethodGet, "/v1/species", "", nil)
	assert.Equal(t, http.StatusOK, status)
	status, _ = asking.SharedService().Ask(http.MethodGet, "/v1/species", "text/plain", nil)
	assert.Equal(t, http.StatusNotAcceptable, status)
	status, reply = asking.SharedService().Ask("BAD METHOD", "/v1/species", "", nil)
	assert.Equal(t, http.StatusBadRequest, status)
	assert.True(t, json.Valid(reply))
}

// Every kind of problem a reply names is explained under its own path.
func TestProblemTypesOpen(t *testing.T) {
	for _, w := range asking.WrongRequests {
		p := asking.Decoded[refuse.Problem](t, w.Of(t, asking.SharedService()).Body.Bytes())
		k := asking.LookUp[refuse.ProblemKind](t, p.Type)
		assert.Equal(t, p.Status, k.Status)
		assert.Equal(t, p.Title, k.Title)
		assert.NotEmpty(t, k.Help)
	}
}
