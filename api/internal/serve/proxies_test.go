package serve_test

import (
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

// The caller is the nearest address that proxies name and that is none of them; what
// stands before it may be forged.
func TestAddressBehindProxies(t *testing.T) {
	known, err := serve.ParseProxies("127.0.0.1, 10.0.0.0/8,2001:db8:1::/48")
	require.NoError(t, err)
	for _, row := range []struct {
		header, from string
		told         []string
		want         string
	}{
		{serve.ForwardedFor, "127.0.0.1:9", []string{"192.0.2.7"}, "192.0.2.7"},
		{serve.ForwardedFor, "127.0.0.1:9", []string{"203.0.113.1, 192.0.2.7"}, "192.0.2.7"},
		{serve.ForwardedFor, "127.0.0.1:9", []string{"203.0.113.1, 192.0.2.7, 10.1.2.3"}, "192.0.2.7"},
		{serve.ForwardedFor, "127.0.0.1:9", []string{"203.0.113.1", "192.0.2.7,10.1.2.3"}, "192.0.2.7"},
		{serve.ForwardedFor, "127.0.0.1:9", []string{"10.9.9.9, 10.1.2.3"}, "10.9.9.9"},
		{serve.ForwardedFor, "127.0.0.1:9", []string{"192.0.2.7:4711"}, "192.0.2.7"},
		{serve.ForwardedFor, "127.0.0.1:9", []string{"2001:db8::7"}, "2001:db8::7"},
		{serve.ForwardedFor, "127.0.0.1:9", nil, "127.0.0.1"},
		{serve.ForwardedFor, "127.0.0.1:9", []string{"unknown"}, "127.0.0.1"},
		{serve.ForwardedFor, "127.0.0.1:9", []string{"192.0.2.7, , 10.1.2.3"}, "10.1.2.3"},
		{serve.ForwardedFor, "203.0.113.9:9", []string{"192.0.2.7"}, "203.0.113.9"},
		{serve.Forwarded, "127.0.0.1:9", []string{`for=192.0.2.7;proto=https`}, "192.0.2.7"},
		{serve.Forwarded, "127.0.0.1:9", []string{`For="[2001:db8::7]:4711", for=10.0.0.1`}, "2001:db8::7"},
		{serve.Forwarded, "127.0.0.1:9", []string{`for=203.0.113.1, proto=https;for="192.0.2.7:80"`}, "192.0.2.7"},
		{serve.Forwarded, "127.0.0.1:9", []string{`for=_hidden`}, "127.0.0.1"},
		{serve.Forwarded, "[2001:db8:1::5]:9", []string{`for=192.0.2.7`}, "192.0.2.7"},
		{serve.Forwarded, "[::ffff:127.0.0.1]:9", []string{`for=192.0.2.7`}, "192.0.2.7"},
	} {
		request := httptest.NewRequest(http.MethodGet, "/", http.NoBody)
		request.RemoteAddr = row.from
		for _, line := range row.told {
			request.Header.Add(row.header, line)
		}
		other := map[string]string{serve.Forwarded: serve.ForwardedFor, serve.ForwardedFor: serve.Forwarded}[row.header]
		request.Header.Set(other, "for=198.51.100.1") // nobody vouches for it
		assert.Equal(t, row.want, (&serve.Proxies{From: known, Header: row.header}).AddressOf(request), "%s %v", row.from, row.told)
	}
	for _, wrong := range []string{"", "proxy.example", "10.0.0.0/33", "1.2.3"} {
		_, err := serve.ParseProxies(wrong)
		assert.Error(t, err, wrong)
	}
}

// Callers behind one proxy have a rate each.
func TestCallersBehindOneProxy(t *testing.T) {
	known, err := serve.ParseProxies("192.0.2.1")
	require.NoError(t, err)
	s, err := api.New(serve.Config{Rate: serve.Rate{PerSecond: 0.001, Burst: 100}, Proxies: serve.Proxies{From: known, Header: serve.ForwardedFor}})
	require.NoError(t, err)
	ask := func(caller string) int {
		request := httptest.NewRequestWithContext(t.Context(), http.MethodGet, "/version", http.NoBody)
		request.RemoteAddr = "192.0.2.1:1000"
		request.Header.Set("X-Forwarded-For", caller)
		r := httptest.NewRecorder()
		s.ServeHTTP(r, request)
		return r.Code
	}
	for range 100 {
		require.Equal(t, http.StatusOK, ask("203.0.113.1"))
	}
	assert.Equal(t, http.StatusTooManyRequests, ask("203.0.113.1"))
	assert.Equal(t, http.StatusTooManyRequests, ask("198.51.100.9, 203.0.113.1"), "another name before it is no other caller")
	assert.Equal(t, http.StatusOK, ask("203.0.113.2"))
	direct := asking.Getting("/version").From(t, s, "203.0.113.1:1")
	assert.Equal(t, http.StatusTooManyRequests, direct.Code, "nor is who asks past the proxy")
}
