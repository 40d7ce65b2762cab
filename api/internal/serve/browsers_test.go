package serve_test

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

// A page of another origin cannot ask, whatever it calls its body; one of an origin
// that was named can, and so can whatever is no browser.
func TestPagesOfOtherOriginsMayNotAsk(t *testing.T) {
	s, err := api.New(serve.Config{Origins: []string{"https://shop.example"}})
	require.NoError(t, err)
	for _, row := range []struct {
		name    string
		headers []string
		status  int
	}{
		{"no browser", nil, 200},
		{"the page itself", []string{"Sec-Fetch-Site", "same-origin"}, 200},
		{"typed by hand", []string{"Sec-Fetch-Site", "none"}, 200},
		{"another site", []string{"Sec-Fetch-Site", "cross-site", "Origin", "https://elsewhere.example"}, 403},
		{"a neighbour", []string{"Sec-Fetch-Site", "same-site", "Origin", "https://other.shop.example"}, 403},
		{"an older browser", []string{"Origin", "https://elsewhere.example"}, 403},
		{"no origin to speak of", []string{"Sec-Fetch-Site", "cross-site", "Origin", "null"}, 403},
		{"the origin that was named", []string{"Sec-Fetch-Site", "cross-site", "Origin", "https://shop.example"}, 200},
	} {
		ask := asking.Posting("/v1/emc", asking.EMCBody, append(row.headers, "Host", "wood.example")...)
		r := ask.Of(t, s)
		require.Equal(t, row.status, r.Code, row.name)
		if row.status == http.StatusForbidden {
			assert.Equal(t, "/problems/forbidden", asking.ProblemOf(t, r, 403).Type)
		}
		assert.Equal(t, http.StatusOK, asking.Getting("/v1/species/teak", row.headers...).Of(t, s).Code, "what only reads is not refused; a browser keeps the answer from the page")
	}
}

// A body says what it is: without that, or as plain text, a page of any origin could
// send it.
func TestBodiesSayWhatTheyAre(t *testing.T) {
	for _, path := range []string{"/v1/emc", "/v1/batch"} {
		for _, media := range []string{"", "text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "application/jsonp"} {
			p := asking.ProblemOf(t, asking.Posting(path, asking.EMCBody, "Content-Type", media).Of(t, asking.SharedService()), http.StatusUnsupportedMediaType)
			assert.Equal(t, []string{"application/json"}, p.Offers)
		}
	}
	p := asking.ProblemOf(t, asking.Posting("/v1/emc", "", "Content-Type", "").Of(t, asking.SharedService()), http.StatusBadRequest)
	assert.Contains(t, p.Detail, "the body is empty")
}

// A name that leads to this machine but is none of its own is one of a page that wants
// to be taken for this service.
func TestHosts(t *testing.T) {
	hosts, err := serve.ParseHosts("wood.example, 192.0.2.7,2001:db8::1")
	require.NoError(t, err)
	s, err := api.New(serve.Config{Hosts: append(hosts, serve.LoopbackHosts...)})
	require.NoError(t, err)
	for host, status := range map[string]int{
		"localhost": 200, "localhost:8080": 200, "127.0.0.1:8080": 200, "[::1]:8080": 200, "[::1]": 200, "LOCALHOST": 200,
		"wood.example": 200, "wood.example:443": 200, "192.0.2.7": 200, "[2001:db8::1]:80": 200,
		"rebound.example": 421, "rebound.example:8080": 421, "127.0.0.1.rebound.example": 421, "": 421, "localhost.": 421,
	} {
		for _, path := range []string{"/v1/species/teak", "/livez", "/"} {
			request := httptest.NewRequestWithContext(t.Context(), http.MethodGet, path, http.NoBody)
			request.Host = host
			r := httptest.NewRecorder()
			s.ServeHTTP(r, request)
			require.Equal(t, status, r.Code, "%s asked as %q", path, host)
		}
	}
	for _, wrong := range []string{"", "http://wood.example", "wood.example:80", "wood example", "a/b", "me@wood.example"} {
		_, err := serve.ParseHosts(wrong)
		assert.Error(t, err, wrong)
	}
}

// Where proxies are not expected, what comes through one is refused.
func TestProxiedRequestsAreRefused(t *testing.T) {
	s, err := api.New(serve.Config{RefuseProxied: true})
	require.NoError(t, err)
	assert.Equal(t, http.StatusOK, asking.Posting("/v1/emc", asking.EMCBody).Of(t, s).Code)
	for _, header := range []string{"Forwarded", "X-Forwarded-For", "X-Forwarded-Host", "X-Forwarded-Proto", "X-Real-Ip", "Via"} {
		asking.ProblemOf(t, asking.Posting("/v1/emc", asking.EMCBody, header, "x").Of(t, s), http.StatusForbidden)
		assert.Equal(t, http.StatusOK, asking.Posting("/v1/emc", asking.EMCBody, header, "x").Of(t, asking.SharedService()).Code)
	}
}

// Over TLS a browser is told to come by no other way again.
func TestStrictTransport(t *testing.T) {
	server := httptest.NewTLSServer(asking.SharedService())
	defer server.Close()
	reply, err := server.Client().Get(server.URL + "/livez")
	require.NoError(t, err)
	require.NoError(t, reply.Body.Close())
	assert.Equal(t, "max-age=31536000", reply.Header.Get("Strict-Transport-Security"))
	assert.Empty(t, asking.Getting("/livez").Of(t, asking.SharedService()).Header().Get("Strict-Transport-Security"))
}

const ndjson = "application/x-ndjson"

// Lines are answered with one document for whoever wants that, with the limits of a
// batch.
func TestLinesAnsweredWithADocument(t *testing.T) {
	lines := strings.Repeat(asking.EMCItem+"\n\n", 3) + `{"id": "x"}`
	for _, a := range []asking.Asked{
		asking.Posting("/v1/batch", lines, "Content-Type", ndjson, "Accept", "application/json"),
		asking.Posting("/v1/batch?as=json", lines, "Content-Type", ndjson),
	} {
		r := a.Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, r.Code, r.Body.String())
		assert.Equal(t, "application/json", r.Header().Get("Content-Type"))
		answers := asking.Decoded[serve.Answer[batchAnswers]](t, r.Body.Bytes()).Result
		assert.Equal(t, 3, answers.Answered)
		assert.Equal(t, 1, answers.Refused)
		assert.Contains(t, string(answers.Items[3].Problem), `"/route"`)
	}
	for _, accept := range []string{"", "*/*", "application/x-ndjson, application/json", "application/json;q=0.5, application/x-ndjson"} {
		r := asking.Posting("/v1/batch", lines, "Content-Type", ndjson, "Accept", accept).Of(t, asking.SharedService())
		assert.Equal(t, ndjson, r.Header().Get("Content-Type"), accept)
	}
	document := func(body string) asking.Asked {
		return asking.Posting("/v1/batch", body, "Content-Type", ndjson, "Accept", "application/json")
	}
	asking.ProblemOf(t, document("\n \n").Of(t, asking.SharedService()), http.StatusBadRequest)
	p := asking.ProblemOf(t, document(strings.Repeat(asking.EMCItem+"\n", serve.MostItems+1)).Of(t, asking.SharedService()), http.StatusUnprocessableEntity)
	assert.Equal(t, "at most 1000 entries", p.Errors[0].Limit.String())
	asking.ProblemOf(t, document(strings.Repeat(" ", serve.HeavyBody+1)).Of(t, asking.SharedService()), http.StatusRequestEntityTooLarge)
}

// A connection on which lines were refused, or answered with a document, serves the
// next request like any other.
func TestConnectionAfterLines(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	server := httptest.NewServer(s)
	defer server.Close()
	for _, row := range []struct {
		name, accept string
		streams      int
		status       int
	}{
		{"not acceptable", "image/png", 0, http.StatusNotAcceptable},
		{"a document", "application/json", 0, http.StatusOK},
		{"no stream left", ndjson, serve.MostStreams, http.StatusServiceUnavailable},
	} {
		t.Run(row.name, func(t *testing.T) {
			defer s.TakeStreams(row.streams)()
			for range 30 {
				connection := dialled(t, server)
				_, err := fmt.Fprintf(connection, "POST /v1/batch HTTP/1.1\r\nHost: x\r\nContent-Type: %s\r\nAccept: %s\r\nContent-Length: %d\r\n\r\n%s\n",
					ndjson, row.accept, len(asking.EMCItem)+1, asking.EMCItem)
				require.NoError(t, err)
				replies := bufio.NewReader(connection)
				for n, status := range []int{row.status, 200, 200} {
					reply, err := http.ReadResponse(replies, nil)
					require.NoError(t, err, "request %d", n)
					_, err = io.Copy(io.Discard, reply.Body)
					require.NoError(t, err)
					require.NoError(t, reply.Body.Close())
					require.Equal(t, status, reply.StatusCode, "request %d", n)
					_, err = io.WriteString(connection, "GET /livez HTTP/1.1\r\nHost: x\r\n\r\n")
					require.NoError(t, err)
				}
				require.NoError(t, connection.Close())
			}
		})
	}
}

// dialled is a bare connection to a server.
func dialled(t testing.TB, server *httptest.Server) net.Conn {
	t.Helper()
	connection, err := net.Dial("tcp", strings.TrimPrefix(server.URL, "http://"))
	require.NoError(t, err)
	t.Cleanup(func() { _ = connection.Close() })
	require.NoError(t, connection.SetDeadline(time.Now().Add(20*time.Second)))
	return connection
}
