package api

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

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sharedService is built once for all tests; it keeps no state between
// requests, so tests may share it.
var sharedService = sync.OnceValue(func() *Service {
	s, err := New(Config{Version: "test"})
	if err != nil {
		panic(err) // a broken build; nothing can be tested
	}
	return s
})

// freshService is for the tests that change the service they ask.
func freshService(t *testing.T, log io.Writer) *Service {
	t.Helper()
	s, err := New(Config{Version: "test", Log: slog.New(slog.NewJSONHandler(log, nil))})
	require.NoError(t, err)
	return s
}

// asked is one request to a service. Headers are name, value, name, value.
type asked struct {
	verb, target, body string
	headers            []string
}

func posting(target, body string, headers ...string) asked {
	return asked{http.MethodPost, target, body, headers}
}

func getting(target string, headers ...string) asked {
	return asked{http.MethodGet, target, "", headers}
}

// of sends the request to a service in process.
func (a asked) of(t testing.TB, s *Service) *httptest.ResponseRecorder {
	t.Helper()
	request, err := http.NewRequest(a.verb, a.target, strings.NewReader(a.body))
	require.NoError(t, err)
	if a.verb == http.MethodPost {
		request.Header.Set("Content-Type", "application/json")
	}
	for i := 0; i < len(a.headers); i += 2 {
		request.Header.Set(a.headers[i], a.headers[i+1])
	}
	writeDown(t, a.verb, a.target, a.headers, a.body)
	recorder := httptest.NewRecorder()
	s.ServeHTTP(recorder, request)
	return recorder
}

// writeDown keeps a request in the file that LATEWOOD_ASKED names, a line each, for
// testdata/answers to ask again.
func writeDown(t testing.TB, verb, target string, headers []string, body string) {
	t.Helper()
	name := os.Getenv("LATEWOOD_ASKED")
	if name == "" {
		return
	}
	line, err := json.Marshal(map[string]any{"verb": verb, "target": target, "headers": headers, "body": []byte(body)})
	require.NoError(t, err)
	file, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	require.NoError(t, err)
	defer file.Close() //nolint:errcheck // written in one piece
	_, err = file.Write(append(line, '\n'))
	require.NoError(t, err)
}

// answerTo sends a calculation, requires success and reads its envelope.
func answerTo[T any](t testing.TB, target, body string) Answer[T] {
	t.Helper()
	r := posting(target, body).of(t, sharedService())
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	return decoded[Answer[T]](t, r.Body.Bytes())
}

// lookUp sends a look-up and requires success.
func lookUp[T any](t testing.TB, target string) T {
	t.Helper()
	r := getting(target).of(t, sharedService())
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	return decoded[T](t, r.Body.Bytes())
}

func decoded[T any](t testing.TB, text []byte) T {
	t.Helper()
	var v T
	decoder := json.NewDecoder(strings.NewReader(string(text)))
	decoder.DisallowUnknownFields()
	require.NoError(t, decoder.Decode(&v), string(text))
	return v
}

// inside matches what must never reach a caller: words of the language the
// service is written in, and traces of its inside.
var inside = regexp.MustCompile(`\bapi\.|\bjson:|\b(float64|int64|struct|slice|pointer|nil|goroutine|panic|runtime|reflect|jsontext|validator|strconv|echo)\b|\*[A-Z]|\.go\b|0x[0-9a-f]{4}`)

// problemOf requires that the reply is a whole problem in good form.
func problemOf(t testing.TB, r *httptest.ResponseRecorder, status int) Problem {
	t.Helper()
	require.Equal(t, status, r.Code, r.Body.String())
	assert.Equal(t, "application/problem+json", r.Header().Get("Content-Type"))
	assert.Equal(t, "no-store", r.Header().Get("Cache-Control"))
	assert.Empty(t, r.Header().Get("ETag"))
	var raw struct {
		Errors []struct {
			Pointer *string `json:"pointer"`
		} `json:"errors"`
	}
	require.NoError(t, json.Unmarshal(r.Body.Bytes(), &raw))
	for _, e := range raw.Errors {
		assert.NotNil(t, e.Pointer, "every error has a pointer")
	}
	p := decoded[Problem](t, r.Body.Bytes())
	assert.Equal(t, status, p.Status)
	assert.NotEmpty(t, p.Title)
	assert.Regexp(t, `^/problems/[a-z-]+$`, p.Type)
	assert.NotEmpty(t, p.Instance)
	assert.Equal(t, r.Header().Get("X-Request-Id"), p.Instance)
	for _, e := range p.Errors {
		assert.NotEmpty(t, e.Code)
		assert.NotEmpty(t, e.Detail)
	}
	// A member name that the caller sent is quoted back as it came; none of the
	// tests sends one of the words.
	assert.NotRegexp(t, inside, strings.ReplaceAll(r.Body.String(), `"pointer":`, ""))
	return p
}
