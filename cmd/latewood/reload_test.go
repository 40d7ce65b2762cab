package main

import (
	"crypto/tls"
	"net/http"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Told so, the program reads its tokens anew while it serves; a file that cannot be
// read changes nothing.
func TestTokensAreReadAnew(t *testing.T) {
	file := filepath.Join(t.TempDir(), "tokens")
	made := func(name string) (token string) {
		_, line, told := run(t, "", "token", name)
		require.NoError(t, os.WriteFile(file, []byte(line), 0o600))
		return tokenIn(told)
	}
	old := made("bench")
	r := serving(t, nil, nil, "--listen", "127.0.0.1:0", "--tokens", file)
	asked := func(token string) int {
		code, _, _ := r.ask(t, "/version", token)
		return code
	}
	assert.Equal(t, http.StatusOK, asked(old))
	fresh := made("bench")
	assert.Equal(t, http.StatusUnauthorized, asked(fresh), "not before it is told")
	r.hangUp <- syscall.SIGHUP
	r.said(t, "the tokens were read anew")
	assert.Equal(t, http.StatusOK, asked(fresh))
	assert.Equal(t, http.StatusUnauthorized, asked(old))
	require.NoError(t, os.WriteFile(file, []byte("nonsense\n"), 0o600))
	r.hangUp <- syscall.SIGHUP
	r.said(t, "stay as they were")
	assert.Equal(t, http.StatusOK, asked(fresh))
	require.NoError(t, os.Remove(file))
	r.hangUp <- syscall.SIGHUP
	assert.Equal(t, http.StatusOK, asked(fresh))
	assert.Equal(t, http.StatusUnauthorized, asked(""))
}

func TestCertificateIsReadAnew(t *testing.T) {
	cert, key, old := selfSigned(t)
	r := serving(t, nil, nil, "--listen", "127.0.0.1:0", "--tls-cert", cert, "--tls-key", key)
	moreCert, moreKey, fresh := selfSigned(t)
	asks := func(works bool) {
		for pool, good := range map[*tls.Config]bool{{RootCAs: old}: !works, {RootCAs: fresh}: works} {
			client := &http.Client{Transport: &http.Transport{TLSClientConfig: pool}}
			reply, err := client.Get(r.base + "/livez")
			assert.Equal(t, good, err == nil, "%v", err)
			if err == nil {
				require.NoError(t, reply.Body.Close())
			}
			client.CloseIdleConnections()
		}
	}
	asks(false)
	require.NoError(t, os.Rename(moreCert, cert))
	r.hangUp <- syscall.SIGHUP
	r.said(t, "the certificate could not be read anew") // it does not go with the key
	asks(false)
	require.NoError(t, os.Rename(moreKey, key))
	r.hangUp <- syscall.SIGHUP
	r.said(t, "the certificate was read anew")
	asks(true)
}

// On the loopback nothing is taken from a proxy that the program was not told of: who
// may ask would be decided by nobody.
func TestProxyBeforeALoopbackListener(t *testing.T) {
	_, line, told := run(t, "", "token", "bench")
	asked := func(r *running, token string, headers ...string) int {
		request, err := http.NewRequest(http.MethodGet, r.base+"/version", http.NoBody)
		require.NoError(t, err)
		for i := 0; i < len(headers); i += 2 {
			request.Header.Set(headers[i], headers[i+1])
		}
		if token != "" {
			request.Header.Set("Authorization", "Bearer "+token)
		}
		if host := request.Header.Get("Host"); host != "" {
			request.Host = host
		}
		reply, err := r.client.Do(request)
		require.NoError(t, err)
		require.NoError(t, reply.Body.Close())
		return reply.StatusCode
	}
	forwarded := []string{"X-Forwarded-For", "192.0.2.7"}
	r := serving(t, nil, nil, "--listen", "127.0.0.1:0")
	assert.Equal(t, http.StatusOK, asked(r, ""))
	assert.Equal(t, http.StatusForbidden, asked(r, "", forwarded...))
	assert.Equal(t, http.StatusMisdirectedRequest, asked(r, "", "Host", "wood.example"))

	r = serving(t, nil, map[string]string{"LATEWOOD_TOKENS": line}, "--listen", "127.0.0.1:0", "--proxy", "127.0.0.1", "--host", "wood.example")
	assert.Equal(t, http.StatusUnauthorized, asked(r, "", forwarded...))
	assert.Equal(t, http.StatusOK, asked(r, tokenIn(told), append(forwarded, "Host", "wood.example")...))

	r = serving(t, nil, nil, "--listen", "127.0.0.1:0", "--proxy", "127.0.0.1", "--open", "--proxy-header", "forwarded")
	assert.Equal(t, http.StatusOK, asked(r, "", "Forwarded", "for=192.0.2.7"))
	_, header, _ := r.ask(t, "/version", "")
	assert.NotEmpty(t, header.Get("RateLimit"), "callers have a rate: others can ask")
}
