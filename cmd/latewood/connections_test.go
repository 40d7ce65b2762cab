package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/netip"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// end is one end of a connection that goes nowhere.
type end struct {
	net.Conn
	from   string
	closed bool
}

func (e *end) Close() error { e.closed = true; return nil }

func (e *end) RemoteAddr() net.Addr {
	return net.TCPAddrFromAddrPort(netip.AddrPortFrom(netip.MustParseAddr(e.from), 1000))
}

// For a new connection the longest idle one makes room; one with a request under way
// never does.
func TestLongestIdleMakesRoom(t *testing.T) {
	all := newConnections(4, nil)
	from := func(n int) *end { return &end{from: fmt.Sprintf("192.0.2.%d", n)} }
	ends := []*end{from(1), from(2), from(3), from(4)}
	for _, e := range ends {
		require.True(t, all.admit(e, plainWeight))
	}
	all.state(ends[0], http.StateActive)
	fifth := from(5)
	require.True(t, all.admit(fifth, plainWeight))
	assert.Equal(t, []bool{false, true, false, false}, []bool{ends[0].closed, ends[1].closed, ends[2].closed, ends[3].closed})
	all.state(ends[0], http.StateIdle) // now the shortest idle
	require.True(t, all.admit(from(6), tlsWeight), "two make room for one with TLS")
	assert.True(t, ends[2].closed && ends[3].closed && !ends[0].closed)
	all.state(ends[0], http.StateActive)
	all.state(fifth, http.StateActive)
	require.True(t, all.admit(from(7), tlsWeight))
	for _, one := range all.all() {
		all.state(one.Conn, http.StateActive)
	}
	assert.False(t, all.admit(from(8), plainWeight), "all are at work")
	all.state(ends[0], http.StateClosed)
	assert.True(t, all.admit(from(9), plainWeight))
}

// One address leaves room to others, but for that of a known proxy.
func TestOneAddressLeavesRoom(t *testing.T) {
	all := newConnections(8, []netip.Prefix{netip.MustParsePrefix("10.0.0.0/8")})
	busy := func(from string) (admitted int) {
		for range 10 {
			e := &end{from: from}
			if all.admit(e, plainWeight) {
				all.state(e, http.StateActive)
				admitted++
			}
		}
		return admitted
	}
	assert.Equal(t, 6, busy("192.0.2.1"))
	assert.Equal(t, 2, busy("192.0.2.2"))
	all = newConnections(8, all.proxies)
	assert.Equal(t, 8, busy("10.1.1.1"))
}

// all are those that are open.
func (a *connections) all() (all []*connection) {
	a.open.Range(func(_, value any) bool {
		if one, is := value.(*connection); is {
			all = append(all, one)
		}
		return true
	})
	return all
}

// Whatever comes and goes, the weight is that of the open connections, and never over
// the most; in the end nothing is left.
func TestWeightOfConnections(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := newConnections(20, nil)
		var open []*end
		for range rapid.IntRange(1, 100).Draw(t, "operations") {
			if len(open) == 0 || rapid.IntRange(0, 2).Draw(t, "new") == 0 {
				e := &end{from: fmt.Sprintf("192.0.2.%d", rapid.IntRange(1, 3).Draw(t, "from"))}
				if all.admit(e, rapid.IntRange(1, 2).Draw(t, "weight")) {
					open = append(open, e)
				}
				continue
			}
			i := rapid.IntRange(0, len(open)-1).Draw(t, "which")
			state := rapid.SampledFrom([]http.ConnState{http.StateActive, http.StateIdle, http.StateClosed}).Draw(t, "state")
			all.state(open[i], state)
			weight, of := 0, map[netip.Addr]int{}
			for _, one := range all.all() {
				weight += one.weight
				of[one.address] += one.weight
			}
			if weight != all.weight || weight > all.most || len(of) != len(all.of) {
				t.Fatalf("weight %d, counted %d of %d; %v, counted %v", weight, all.weight, all.most, of, all.of)
			}
			for address, n := range of {
				if all.of[address] != n || n > all.mostOfOne {
					t.Fatalf("%v: %d, counted %d", address, n, all.of[address])
				}
			}
		}
		for _, e := range open {
			all.state(e, http.StateClosed)
		}
		if all.weight != 0 || len(all.of) != 0 || len(all.all()) != 0 {
			t.Fatal("something is left")
		}
	})
}

// The program keeps answering newcomers however many connections were left open after a
// question, and closes those that are idle longest.
func TestManyIdleConnections(t *testing.T) {
	r := serving(t, func(*http.Server) {}, nil, "--listen", "127.0.0.1:0")
	var left []net.Conn
	for n := range 900 { // of 800; all from one address, which may hold 600
		connection := dialled(t, r)
		_, err := io.WriteString(connection, "GET /livez HTTP/1.1\r\nHost: localhost\r\n\r\n")
		require.NoError(t, err)
		reply, err := http.ReadResponse(bufio.NewReader(connection), nil)
		require.NoError(t, err, "connection %d", n)
		require.NoError(t, reply.Body.Close())
		require.Equal(t, http.StatusOK, reply.StatusCode)
		left = append(left, connection)
	}
	open := 0
	for n, connection := range left {
		require.NoError(t, connection.SetReadDeadline(time.Now().Add(time.Millisecond)))
		if _, err := connection.Read(make([]byte, 1)); errors.Is(err, os.ErrDeadlineExceeded) {
			open++
		} else { // one may become idle a moment after its answer came
			assert.Less(t, n, 310, "the longest idle are closed first")
		}
	}
	assert.InDelta(t, 600, open, 1)
}
