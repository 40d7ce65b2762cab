package asking

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"

	"github.com/labstack/echo/v4"
	"github.com/stretchr/testify/require"
)

// Quiet is a writer of replies that keeps nothing.
type Quiet struct{ header http.Header }

// NewQuiet is a writer without headers yet.
func NewQuiet() *Quiet { return &Quiet{http.Header{}} }

// Header are the headers of the reply.
func (q *Quiet) Header() http.Header { return q.header }

func (q *Quiet) Write(b []byte) (int, error) { return len(b), nil }

// WriteHeader does nothing.
func (q *Quiet) WriteHeader(int) {}

// Post measures a request that is sent again and again.
func Post(b *testing.B, handler http.Handler, path string, body []byte, headers ...string) {
	b.Helper()
	recorder := httptest.NewRecorder()
	request := httptest.NewRequestWithContext(b.Context(), http.MethodPost, path, bytes.NewReader(body))
	request.Header.Set(echo.HeaderContentType, echo.MIMEApplicationJSON)
	for i := 0; i < len(headers); i += 2 {
		request.Header.Set(headers[i], headers[i+1])
	}
	handler.ServeHTTP(recorder, request)
	require.Equal(b, http.StatusOK, recorder.Code, recorder.Body.String())
	reader := bytes.NewReader(body)
	b.ReportAllocs()
	b.ResetTimer()
	for b.Loop() {
		reader.Reset(body)
		request.Body = io.NopCloser(reader)
		handler.ServeHTTP(NewQuiet(), request)
	}
}

// EMCBody is a light question.
const EMCBody = `{"air": {"temperature": "20 C", "rh_pct": 50}}`

// ThreeYears is a forecast over three years without a reading.
const ThreeYears = `{"billet": {"wood": "maple-sugar", "thickness": "58 mm", "rings": {"angle_deg": 80}, "stacked_on": "2023-03-15"}, "horizon_days": 1095,
	"stays": [{"station": "madison-wi", "until": "2024-10-01", "exposure": "shed"}, {"air": {"temperature": "20 C", "rh_pct": 45}}], "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}}`

// Together is a request in which members that stand twice, a billet and the readings, are
// made one.
func Together(request string) string {
	for _, name := range []string{"billet", "readings"} {
		key := `"` + name + `": `
		first := strings.Index(request, key)
		for first >= 0 {
			at := strings.LastIndex(request, ", "+key)
			if at < first {
				break
			}
			value := wholeValue(request[at+len(", "+key):])
			rest := request[at+len(", "+key)+len(value):]
			inner := value[1 : len(value)-1]
			own := wholeValue(request[first+len(key):])
			end := first + len(key) + len(own) - 1
			if len(own) > 2 && inner != "" {
				inner = ", " + inner
			}
			request = request[:end] + inner + request[end:at] + rest
		}
	}
	return request
}

// wholeValue is the object or the list that a text begins with.
func wholeValue(text string) string {
	depth, quoted := 0, false
	for i, c := range text {
		switch {
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '{' || c == '[':
			depth++
		case c == '}' || c == ']':
			if depth--; depth == 0 {
				return text[:i+1]
			}
		}
	}
	return text
}

// WithWood is a request whose woods, names, became objects with more members.
func WithWood(request, members string) string {
	return woodNamed.ReplaceAllString(request, `"wood": {"species": $1, `+members+`}`)
}

var woodNamed = regexp.MustCompile(`"wood": ("[a-z-]+")`)

// knowing is the question with more members of its wood.
func (a Asked) knowing(members string) Asked {
	a.Body = WithWood(a.Body, members)
	return a
}
