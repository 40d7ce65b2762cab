package asking

import (
	"encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"regexp"
	"strings"
	"sync"
	"testing"

	strictly "github.com/go-json-experiment/json"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
)

// SharedService is built once for all tests; it keeps no state between
// requests but for its rack, so tests may share it.
var SharedService = sync.OnceValue(func() *serve.Service {
	s, err := api.New(serve.Config{Version: "test", Rack: Rack()})
	if err != nil {
		panic(err) // a broken build; nothing can be tested
	}
	return s
})

// FreshService is for the tests that change the service they ask.
func FreshService(t *testing.T, log io.Writer) *serve.Service {
	t.Helper()
	s, err := api.New(serve.Config{Version: "test", Log: slog.New(slog.NewJSONHandler(log, nil))})
	require.NoError(t, err)
	return s
}

// FreshRack is a service of its own with the rack of the tests.
func FreshRack(t testing.TB) *serve.Service {
	t.Helper()
	s, err := api.New(serve.Config{Version: "test", Rack: Rack()})
	require.NoError(t, err)
	return s
}

// Asked is one request to a service. Headers are name, value, name, value.
type Asked struct {
	Verb, Target, Body string
	Headers            []string
}

// Posting is a calculation asked with a body.
func Posting(target, body string, headers ...string) Asked {
	return Asked{http.MethodPost, target, body, headers}
}

// Querying is a calculation asked with QUERY.
func Querying(target, body string, headers ...string) Asked {
	return Asked{serve.MethodQuery, target, body, headers}
}

// Getting is a look-up.
func Getting(target string, headers ...string) Asked {
	return Asked{http.MethodGet, target, "", headers}
}

// Of sends the request to a service in process.
func (a Asked) Of(t testing.TB, s *serve.Service) *httptest.ResponseRecorder {
	t.Helper()
	request, err := http.NewRequestWithContext(t.Context(), a.Verb, a.Target, strings.NewReader(a.Body))
	require.NoError(t, err)
	if a.Verb == http.MethodPost || a.Verb == http.MethodPut || a.Verb == serve.MethodQuery {
		request.Header.Set("Content-Type", "application/json")
	}
	for i := 0; i < len(a.Headers); i += 2 {
		request.Header.Set(a.Headers[i], a.Headers[i+1])
	}
	WriteDown(t, a.Verb, a.Target, a.Headers, a.Body)
	recorder := httptest.NewRecorder()
	s.ServeHTTP(recorder, request)
	return recorder
}

// WriteDown keeps a request in the file that LATEWOOD_ASKED names, a line each, for
// testdata/answers to ask again.
func WriteDown(t testing.TB, verb, target string, headers []string, body string) {
	t.Helper()
	name := os.Getenv("LATEWOOD_ASKED")
	if name == "" {
		return
	}
	line, err := json.Marshal(map[string]any{"verb": verb, "target": target, "headers": headers, "body": []byte(body)})
	require.NoError(t, err)
	file, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600) //nolint:gosec // the file is named by whoever runs the tests
	require.NoError(t, err)
	defer file.Close() //nolint:errcheck // written in one piece
	_, err = file.Write(append(line, '\n'))
	require.NoError(t, err)
}

// AnswerTo sends a calculation, requires success and reads its envelope.
func AnswerTo[T any](t testing.TB, target, body string) serve.Answer[T] {
	t.Helper()
	r := Posting(target, body).Of(t, SharedService())
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	return Decoded[serve.Answer[T]](t, r.Body.Bytes())
}

// InFull asks a calculation, requires success and reads its envelope as it was before its
// numbers were rounded: for what is held against an equation and not against an answer.
func InFull[T any](t testing.TB, path, body string) serve.Answer[T] {
	t.Helper()
	text, err := SharedService().Whole(t.Context(), path, []byte(body))
	require.NoError(t, err)
	return Decoded[serve.Answer[T]](t, text)
}

// LookUp sends a look-up and requires success.
func LookUp[T any](t testing.TB, target string) T {
	t.Helper()
	r := Getting(target).Of(t, SharedService())
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	return Decoded[T](t, r.Body.Bytes())
}

// Decoded reads a reply, which may hold no member that T does not know.
func Decoded[T any](t testing.TB, text []byte) T {
	t.Helper()
	var v T
	require.NoError(t, strictly.Unmarshal(text, &v, strictly.RejectUnknownMembers(true),
		strictly.MatchCaseInsensitiveNames(true)), string(text))
	return v
}

// Inside matches what must never reach a caller: words of the language the
// service is written in, and traces of its inside.
var Inside = regexp.MustCompile(`\bapi\.|\bjson:|\b(float64|int64|struct|slice|pointer|nil|goroutine|panic|runtime|reflect|jsontext|validator|strconv|echo)\b|\*[A-Z]|\.go\b|0x[0-9a-f]{4}`)

// ProblemOf requires that the reply is a whole problem in good form.
func ProblemOf(t testing.TB, r *httptest.ResponseRecorder, status int) refuse.Problem {
	t.Helper()
	require.Equal(t, status, r.Code, r.Body.String())
	assert.Equal(t, "application/problem+json", r.Header().Get("Content-Type"))
	assert.Equal(t, "no-store", r.Header().Get("Cache-Control"))
	assert.Empty(t, r.Header().Get("ETag"))
	var raw struct {
		Errors []struct {
			Code      string
			Pointer   *string `json:"pointer"`
			Parameter *string `json:"parameter"`
		} `json:"errors"`
	}
	require.NoError(t, json.Unmarshal(r.Body.Bytes(), &raw))
	for _, e := range raw.Errors {
		assert.True(t, (e.Pointer == nil) != (e.Parameter == nil), "every error has a pointer or a parameter")
	}
	p := Decoded[refuse.Problem](t, r.Body.Bytes())
	assert.Equal(t, status, p.Status)
	assert.NotEmpty(t, p.Title)
	assert.Regexp(t, `^(/problems/[a-z-]+|https://iana\.org/assignments/http-problem-types#[a-z-]+)$`, p.Type)
	assert.NotEmpty(t, p.Instance)
	assert.Equal(t, r.Header().Get("X-Request-Id"), p.Instance)
	for i, e := range p.Errors {
		assert.NotEmpty(t, e.Detail)
		assert.Empty(t, Lacks(&p.Errors[i]), "an error of this code carries it: %s", r.Body)
	}
	if PointsOut(status) {
		assert.NotEmpty(t, p.Errors, "a problem of this status says what it is about: %s", r.Body)
	}
	// A member name that the caller sent is quoted back as it came; none of the
	// tests sends one of the words.
	assert.NotRegexp(t, Inside, strings.ReplaceAll(r.Body.String(), `"pointer":`, ""))
	return p
}
