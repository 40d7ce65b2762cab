package main

import (
	"bytes"
	"context"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"io"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"
)

// The tests leave no goroutine behind, nor does the program.
func TestMain(m *testing.M) {
	goleak.VerifyTestMain(m, goleak.Cleanup(func(status int) { http.DefaultClient.CloseIdleConnections(); os.Exit(status) }))
}

// noise is a buffer that several goroutines may write to.
type noise struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (n *noise) Write(b []byte) (int, error) {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.text.Write(b)
}

func (n *noise) String() string {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.text.String()
}

// running is the program as it serves.
type running struct {
	base, debug string
	log         *noise
	client      *http.Client
	stop        func() int // tells it to stop and waits
	hangUp      chan os.Signal
}

// said requires that the log says something, which takes a moment.
func (r *running) said(t testing.TB, text string) {
	t.Helper()
	require.Eventually(t, func() bool { return strings.Contains(r.log.String(), text) }, 10*time.Second, time.Millisecond, "%s", text)
}

// serving starts the program and stops it at the end of the test.
func serving(t *testing.T, tune func(*http.Server), environment map[string]string, words ...string) *running {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	base, debug, finished := make(chan string, 1), make(chan string, 1), make(chan int, 1)
	r := &running{log: &noise{}, client: &http.Client{Transport: &http.Transport{}}, hangUp: make(chan os.Signal)}
	p := &program{stdin: strings.NewReader(""), stdout: io.Discard, stderr: r.log, tune: tune, hangUp: r.hangUp,
		getenv:  func(name string) string { return environment[name] },
		started: func(b string) { base <- b }, debugging: func(a string) { debug <- a }}
	go func() { finished <- p.run(ctx, append([]string{"serve", "--log-format", "json"}, words...)) }()
	select {
	case r.base = <-base:
	case status := <-finished:
		cancel()
		t.Fatalf("the server did not start: %d %s", status, r.log.String())
	}
	select {
	case r.debug = <-debug:
	default:
	}
	r.stop = sync.OnceValue(func() int {
		cancel()
		return <-finished
	})
	t.Cleanup(func() { r.client.CloseIdleConnections(); r.stop() })
	return r
}

func (r *running) ask(t testing.TB, path, token string) (status int, header http.Header, body string) {
	t.Helper()
	request, err := http.NewRequest(http.MethodGet, r.base+path, http.NoBody)
	require.NoError(t, err)
	if token != "" {
		request.Header.Set("Authorization", "Bearer "+token)
	}
	reply, err := r.client.Do(request)
	require.NoError(t, err)
	text, err := io.ReadAll(reply.Body)
	require.NoError(t, err)
	require.NoError(t, reply.Body.Close())
	return reply.StatusCode, reply.Header, string(text)
}

// tokenIn is the token that the program told.
func tokenIn(told string) string { return regexp.MustCompile(`latewood_\S+`).FindString(told) }

// A token made by the program opens a service that others can reach, and only
// that token does.
func TestTokenCommand(t *testing.T) {
	status, line, told := run(t, "", "token", "bench")
	require.Equal(t, exitOK, status)
	assert.Regexp(t, `^bench [0-9a-f]{64}\n$`, line)
	token := tokenIn(told)
	require.NotEmpty(t, token)
	assert.NotContains(t, line, token)
	file := filepath.Join(t.TempDir(), "tokens")
	require.NoError(t, os.WriteFile(file, []byte("# who may ask\n"+line), 0o600))
	for name, r := range map[string]*running{
		"file":        serving(t, nil, nil, "--listen", "0.0.0.0:0", "--tokens", file),
		"environment": serving(t, nil, map[string]string{"LATEWOOD_TOKENS": line}, "--listen", "0.0.0.0:0"),
		"on loopback": serving(t, nil, nil, "--listen", "127.0.0.1:0", "--tokens", file),
	} {
		code, header, _ := r.ask(t, "/version", token)
		assert.Equal(t, http.StatusOK, code, name)
		assert.Equal(t, `"caller";q=500;qu="units";w=10`, header.Get("RateLimit-Policy"), "a rate by default")
		code, header, _ = r.ask(t, "/version", "")
		assert.Equal(t, http.StatusUnauthorized, code, name)
		assert.Contains(t, header.Get("WWW-Authenticate"), "Bearer")
		code, _, _ = r.ask(t, "/version", token+"x")
		assert.Equal(t, http.StatusUnauthorized, code, name)
		code, _, _ = r.ask(t, "/livez", "")
		assert.Equal(t, http.StatusOK, code, name)
		r.stop()
		r.said(t, `"key":"bench"`)
		assert.NotContains(t, r.log.String(), token)
		assert.Equal(t, name != "on loopback", strings.Contains(r.log.String(), "unencrypted"), name)
	}
}

func TestWhoMayListenWhere(t *testing.T) {
	folder := t.TempDir()
	empty := filepath.Join(folder, "empty")
	require.NoError(t, os.WriteFile(empty, []byte("# nobody\n"), 0o600))
	for _, row := range []struct {
		name, says string
		words      []string
		status     int
	}{
		{"others can reach it", "give --tokens FILE", []string{"--listen", "0.0.0.0:0"}, exitProblem},
		{"others can reach it, all addresses", "give --tokens FILE", []string{"--listen", ":0"}, exitProblem},
		{"tokens without a token", "no token", []string{"--listen", "0.0.0.0:0", "--tokens", empty}, exitUsage},
		{"tokens that are not there", "no such file", []string{"--tokens", filepath.Join(folder, "none")}, exitUsage},
		{"open and tokens", "exclude each other", []string{"--open", "--tokens", empty}, exitUsage},
		{"certificate without a key", "go together", []string{"--tls-cert", empty}, exitUsage},
		{"certificate that is none", "--tls-cert", []string{"--listen", "127.0.0.1:0", "--tls-cert", empty, "--tls-key", empty}, exitProblem},
		{"origin of all", "an origin is written", []string{"--cors", "*"}, exitUsage},
		{"host with a port", "without a port", []string{"--host", "wood.example:80"}, exitUsage},
		{"proxy that is a name", "an address or a network", []string{"--proxy", "proxy.example"}, exitUsage},
		{"proxy before everyone", "--proxy lets others ask", []string{"--listen", "127.0.0.1:0", "--proxy", "127.0.0.1"}, exitUsage},
		{"proxy that tells it otherwise", "--proxy-header", []string{"--proxy-header", "X-Real-Ip"}, exitUsage},
		{"rate below nothing", "--rate", []string{"--rate", "-1"}, exitUsage},
		{"rate that is no number", "--rate", []string{"--rate", "NaN"}, exitUsage},
		{"burst too small", "at least 100", []string{"--burst", "99"}, exitUsage},
		{"profiles for others", "for this machine only", []string{"--listen", "127.0.0.1:0", "--debug-listen", "0.0.0.0:0"}, exitProblem},
		{"token for nobody", "one name", []string{"token"}, exitUsage},
		{"token for an odd name", "key id", []string{"token", "a b"}, exitUsage},
	} {
		t.Run(row.name, func(t *testing.T) {
			words := row.words
			if words[0] != "token" {
				words = append([]string{"serve"}, words...)
			}
			status, _, failed := run(t, "", words...)
			assert.Equal(t, row.status, status, failed)
			assert.Contains(t, failed, row.says)
		})
	}
	r := serving(t, nil, nil, "--listen", "0.0.0.0:0", "--open")
	code, header, _ := r.ask(t, "/version", "")
	assert.Equal(t, http.StatusOK, code)
	assert.NotEmpty(t, header.Get("RateLimit"))
	r.said(t, "everyone who can reach this address may ask")
	r = serving(t, nil, nil, "--listen", "127.0.0.1:0")
	_, header, _ = r.ask(t, "/version", "")
	assert.Empty(t, header.Get("RateLimit"), "no rate for an open service on this machine")
	assert.NotContains(t, r.log.String(), "WARN")
	r = serving(t, nil, nil, "--listen", "localhost:0", "--rate", "3", "--burst", "120")
	_, header, _ = r.ask(t, "/version", "")
	assert.Equal(t, `"caller";q=120;qu="units";w=40`, header.Get("RateLimit-Policy"))
}

func TestOriginsOfTheProgram(t *testing.T) {
	r := serving(t, nil, nil, "--listen", "127.0.0.1:0", "--cors", "https://a.example,https://b.example", "--cors", "http://127.0.0.1:3000")
	for origin, allowed := range map[string]bool{"https://a.example": true, "https://b.example": true, "http://127.0.0.1:3000": true, "https://c.example": false} {
		request, err := http.NewRequest(http.MethodGet, r.base+"/version", http.NoBody)
		require.NoError(t, err)
		request.Header.Set("Origin", origin)
		reply, err := r.client.Do(request)
		require.NoError(t, err)
		require.NoError(t, reply.Body.Close())
		assert.Equal(t, allowed, reply.Header.Get("Access-Control-Allow-Origin") == origin, origin)
	}
}

// The profiles are on their own address and not on that of the service.
func TestProfilesHaveTheirOwnAddress(t *testing.T) {
	r := serving(t, nil, nil, "--listen", "127.0.0.1:0", "--debug-listen", "127.0.0.1:0")
	require.NotEmpty(t, r.debug)
	for _, path := range []string{"/debug/pprof/", "/debug/pprof/heap", "/debug/pprof/cmdline"} {
		code, _, _ := r.ask(t, path, "")
		assert.Equal(t, http.StatusNotFound, code, path)
		reply, err := r.client.Get("http://" + r.debug + path)
		require.NoError(t, err)
		require.NoError(t, reply.Body.Close())
		assert.Equal(t, http.StatusOK, reply.StatusCode, path)
	}
	reply, err := r.client.Get("http://" + r.debug + "/v1/limits")
	require.NoError(t, err)
	require.NoError(t, reply.Body.Close())
	assert.Equal(t, http.StatusNotFound, reply.StatusCode)
	code, _, text := r.ask(t, "/metrics", "")
	assert.Equal(t, http.StatusOK, code)
	assert.Contains(t, text, `latewood_requests_total{`)
}

// selfSigned makes a certificate for 127.0.0.1.
func selfSigned(t *testing.T) (cert, key string, pool *x509.CertPool) {
	t.Helper()
	private, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	require.NoError(t, err)
	template := &x509.Certificate{SerialNumber: big.NewInt(1), NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(time.Hour),
		IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)}, IsCA: true, BasicConstraintsValid: true, KeyUsage: x509.KeyUsageDigitalSignature | x509.KeyUsageCertSign}
	made, err := x509.CreateCertificate(rand.Reader, template, template, &private.PublicKey, private)
	require.NoError(t, err)
	secret, err := x509.MarshalPKCS8PrivateKey(private)
	require.NoError(t, err)
	folder := t.TempDir()
	cert, key = filepath.Join(folder, "cert.pem"), filepath.Join(folder, "key.pem")
	certText := pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: made})
	require.NoError(t, os.WriteFile(cert, certText, 0o600))
	require.NoError(t, os.WriteFile(key, pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: secret}), 0o600))
	pool = x509.NewCertPool()
	require.True(t, pool.AppendCertsFromPEM(certText))
	return cert, key, pool
}

func TestTLS(t *testing.T) {
	cert, key, pool := selfSigned(t)
	r := serving(t, nil, nil, "--listen", "127.0.0.1:0", "--tls-cert", cert, "--tls-key", key)
	require.True(t, strings.HasPrefix(r.base, "https://"))
	for version, works := range map[uint16]bool{tls.VersionTLS10: false, tls.VersionTLS11: false, tls.VersionTLS12: true, tls.VersionTLS13: true} {
		client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool, MinVersion: version, MaxVersion: version}}}
		reply, err := client.Get(r.base + "/livez")
		assert.Equal(t, works, err == nil, "%s %v", tls.VersionName(version), err)
		if err == nil {
			require.NoError(t, reply.Body.Close())
		}
		client.CloseIdleConnections()
	}

	// A stream over HTTP/2, whole.
	client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: pool}, ForceAttemptHTTP2: true}}
	defer client.CloseIdleConnections()
	const line = `{"route": "/v1/emc", "request": {"air": {"temperature": "20 C", "rh_pct": 50}}}` + "\n"
	reply, err := client.Post(r.base+"/v1/batch", "application/x-ndjson", strings.NewReader(strings.Repeat(line, 2000)))
	require.NoError(t, err)
	assert.Equal(t, 2, reply.ProtoMajor)
	text, err := io.ReadAll(reply.Body)
	require.NoError(t, err)
	require.NoError(t, reply.Body.Close())
	assert.Equal(t, 2000, strings.Count(string(text), `"status":200`))
}
