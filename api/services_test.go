package api

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

func sha256Hex(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

func ratedService(t testing.TB, r Rate) *Service {
	t.Helper()
	s, err := New(Config{Version: "test", Rate: r})
	require.NoError(t, err)
	return s
}

// from sends the request from an address.
func (a asked) from(t testing.TB, s *Service, address string) *httptest.ResponseRecorder {
	t.Helper()
	request := httptest.NewRequest(a.verb, a.target, strings.NewReader(a.body))
	request.RemoteAddr = address
	if a.verb == http.MethodPost {
		request.Header.Set("Content-Type", "application/json")
	}
	recorder := httptest.NewRecorder()
	s.ServeHTTP(recorder, request)
	return recorder
}

// metricsOf reads the text format of Prometheus: series and value on each line.
func metricsOf(t testing.TB, s *Service) map[string]float64 {
	t.Helper()
	r := getting("/metrics").of(t, s)
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
