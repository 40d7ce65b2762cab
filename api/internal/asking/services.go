package asking

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/serve"
)

// ExposedService has all that a service has that others can reach: a hundred
// tokens, a rate, an origin. token is that of the key id "bench".
func ExposedService(t testing.TB, rate serve.Rate, log io.Writer) (s *serve.Service, token string) {
	t.Helper()
	token, lines, err := serve.NewToken("bench")
	require.NoError(t, err)
	for i := range 99 {
		_, line, err := serve.NewToken(fmt.Sprintf("other-%d", i))
		require.NoError(t, err)
		lines = line + "\n" + lines
	}
	keys, err := serve.ParseKeys(lines)
	require.NoError(t, err)
	s, err = api.New(serve.Config{Version: "test", Log: slog.New(slog.NewJSONHandler(log, nil)), Keys: keys, Origins: []string{"https://shop.example"}, Rate: rate, Licences: []byte("licences")})
	require.NoError(t, err)
	return s, token
}

// SHA256Hex is the hash of a text in hex digits.
func SHA256Hex(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

// RatedService is a service that limits how often a caller may ask.
func RatedService(t testing.TB, r serve.Rate) *serve.Service {
	t.Helper()
	s, err := api.New(serve.Config{Version: "test", Rate: r})
	require.NoError(t, err)
	return s
}

// From sends the request from an address.
func (a Asked) From(t testing.TB, s *serve.Service, address string) *httptest.ResponseRecorder {
	t.Helper()
	request := httptest.NewRequestWithContext(t.Context(), a.Verb, a.Target, strings.NewReader(a.Body))
	request.RemoteAddr = address
	if a.Verb == http.MethodPost || a.Verb == serve.MethodQuery {
		request.Header.Set("Content-Type", "application/json")
	}
	recorder := httptest.NewRecorder()
	s.ServeHTTP(recorder, request)
	return recorder
}

// MetricsOf reads the text format of Prometheus: series and value on each line.
func MetricsOf(t testing.TB, s *serve.Service, headers ...string) map[string]float64 {
	t.Helper()
	r := Getting("/metrics", headers...).Of(t, s)
	require.Equal(t, http.StatusOK, r.Code)
	assert.Contains(t, r.Header().Get("Content-Type"), "text/plain")
	all := map[string]float64{}
	lines := bufio.NewScanner(r.Body)
	for lines.Scan() {
		line := lines.Text()
		if strings.HasPrefix(line, "#") {
			continue
		}
		at := strings.LastIndexByte(line, ' ')
		value, err := strconv.ParseFloat(line[at+1:], 64)
		require.NoError(t, err, line)
		all[line[:at]] = value
	}
	require.NoError(t, lines.Err())
	return all
}
