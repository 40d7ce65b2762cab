package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hasty shortens the timeouts.
func hasty(s *http.Server) {
	s.ReadHeaderTimeout, s.ReadTimeout = 200*time.Millisecond, 400*time.Millisecond
}

// dialled opens a plain connection to the server.
func dialled(t *testing.T, r *running) net.Conn {
	t.Helper()
	connection, err := net.Dial("tcp", strings.TrimPrefix(r.base, "http://"))
	require.NoError(t, err)
	t.Cleanup(func() { _ = connection.Close() })
	require.NoError(t, connection.SetDeadline(time.Now().Add(10*time.Second)))
	return connection
}

// A body that comes a byte at a time is cut off with a problem; the headers
// that do, without a word. Meanwhile others are answered.
func TestSlowClientsAreCutOff(t *testing.T) {
	r := serving(t, hasty, nil, "--listen", "127.0.0.1:0")
	slow := dialled(t, r)
	_, err := fmt.Fprintf(slow, "POST /v1/emc HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n")
	require.NoError(t, err)
	started := time.Now()
	stopTrickle := make(chan struct{})
	var trickle sync.WaitGroup
	trickle.Go(func() {
		for {
			select {
			case <-stopTrickle:
				return
			case <-time.After(20 * time.Millisecond):
				if _, err := slow.Write([]byte(" ")); err != nil {
					return
				}
			}
		}
	})
	code, _, _ := r.ask(t, "/version", "")
	assert.Equal(t, http.StatusOK, code)
	reply, err := http.ReadResponse(bufio.NewReader(slow), nil)
	require.NoError(t, err)
	var problem struct {
		Type   string
		Status int
	}
	require.NoError(t, json.NewDecoder(reply.Body).Decode(&problem))
	require.NoError(t, reply.Body.Close())
	assert.Equal(t, http.StatusRequestTimeout, reply.StatusCode)
	assert.Equal(t, "/problems/request-timeout", problem.Type)
	assert.Less(t, time.Since(started), 5*time.Second)
	close(stopTrickle)
	trickle.Wait()

	mute := dialled(t, r)
	_, err = fmt.Fprintf(mute, "POST /v1/emc HTTP/1.1\r\nHost: localhost\r\nX-Slow: ")
	require.NoError(t, err)
	_, err = io.ReadAll(mute)
	assert.NoError(t, err, "the connection is closed")
	r.stop()
	assert.Contains(t, r.log.String(), `"status":408`)
}

const emc = `{"air": {"temperature": "20 C", "rh_pct": 50}}`

// Told to stop under load, the program finishes what it took in: every reply that
// began is whole, and the log holds as many answers as the callers got.
func TestStopUnderLoadLosesNothing(t *testing.T) {
	r := serving(t, nil, nil, "--listen", "127.0.0.1:0")
	var answered, broken atomic.Int64
	var callers sync.WaitGroup
	stopped := make(chan struct{})
	for i := range 16 {
		callers.Go(func() {
			client := &http.Client{Transport: &http.Transport{DisableKeepAlives: i%2 == 0}}
			defer client.CloseIdleConnections()
			for {
				reply, err := client.Post(r.base+"/v1/emc", "application/json", strings.NewReader(emc))
				if err != nil { // refused, or closed before a request was taken in
					select {
					case <-stopped:
						return
					default:
						broken.Add(1)
						return
					}
				}
				text, err := io.ReadAll(reply.Body)
				_ = reply.Body.Close()
				if err != nil || reply.StatusCode != http.StatusOK || !json.Valid(text) {
					broken.Add(1)
					return
				}
				answered.Add(1)
			}
		})
	}

	// One is in the middle of its body, one in the middle of a stream.
	late := dialled(t, r)
	_, err := fmt.Fprintf(late, "POST /v1/emc HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%s", len(emc), emc[:10])
	require.NoError(t, err)
	read, write := io.Pipe()
	stream, err := r.client.Post(r.base+"/v1/batch", "application/x-ndjson", read)
	require.NoError(t, err)
	lines := bufio.NewReader(stream.Body)
	_, err = io.WriteString(write, `{"route": "/v1/emc", "request": `+emc+"}\n")
	require.NoError(t, err)
	line, err := lines.ReadString('\n')
	require.NoError(t, err)
	assert.Contains(t, line, `"status":200`)

	require.Eventually(t, func() bool { return answered.Load() > 200 }, 20*time.Second, time.Millisecond)
	close(stopped)
	finished := make(chan int)
	go func() { finished <- r.stop() }()
	line, err = lines.ReadString('\n')
	require.NoError(t, err)
	assert.Contains(t, line, `"ended":true`, "the stream is told")
	_, err = lines.ReadByte()
	require.ErrorIs(t, err, io.EOF)
	require.NoError(t, stream.Body.Close())
	_ = write.Close()
	_, err = io.WriteString(late, emc[10:])
	require.NoError(t, err)
	reply, err := http.ReadResponse(bufio.NewReader(late), nil)
	require.NoError(t, err, "a request that was begun is answered")
	_, err = io.Copy(io.Discard, reply.Body)
	require.NoError(t, err)
	assert.Equal(t, http.StatusOK, reply.StatusCode)
	callers.Wait()
	assert.Equal(t, exitOK, <-finished, r.log.String())
	assert.Zero(t, broken.Load())
	logged := strings.Count(r.log.String(), `"route":"/v1/emc","status":200`)
	assert.Equal(t, int(answered.Load())+1, logged, "every answer of the service reached its caller")
	assert.Contains(t, r.log.String(), `"bytes_in":46`)
}

// Requests that were sent, each on a connection of its own, just before the
// program was told to stop are answered although it may not have accepted the
// connections yet.
func TestStopAnswersWhatTheKernelHolds(t *testing.T) {
	r := serving(t, nil, nil, "--listen", "127.0.0.1:0")
	const n = 200
	connections := make([]net.Conn, n)
	for i := range connections {
		connections[i] = dialled(t, r)
		_, err := io.WriteString(connections[i], "GET /v1/species/maple-sugar HTTP/1.1\r\nHost: localhost\r\n\r\n")
		require.NoError(t, err)
	}
	finished := make(chan int, 1)
	go func() { finished <- r.stop() }()
	for i, connection := range connections {
		require.NoError(t, connection.SetReadDeadline(time.Now().Add(10*time.Second)))
		reply, err := http.ReadResponse(bufio.NewReader(connection), nil)
		require.NoError(t, err, "connection %d", i)
		assert.Equal(t, http.StatusOK, reply.StatusCode)
		_, err = io.Copy(io.Discard, reply.Body)
		require.NoError(t, err)
		require.NoError(t, connection.Close())
	}
	assert.Equal(t, exitOK, <-finished)
}
