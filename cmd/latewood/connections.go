package main

import (
	"crypto/tls"
	"io"
	"math"
	"net"
	"net/http"
	"net/netip"
	"sync"
	"sync/atomic"
)

// Weights of connections, in parts of api.MaxConnections: a plain one holds some 20 KiB
// of buffers and stacks, one with TLS 40 KiB, and one with HTTP/2, which carries many
// requests at a time, up to 320 KiB. Measured; api/RUNNING.md has the figures.
const (
	plainWeight = 1
	tlsWeight   = 2
	http2Weight = 16
)

// Buffers of the kernel for one connection, in bytes; it doubles them. They hold what
// was not read or not taken yet, and count as memory of the service.
const (
	receiveBuffer = 32 << 10
	sendBuffer    = 64 << 10
)

// http2Limits keep what one connection of HTTP/2 holds within its weight.
func http2Limits() *http.HTTP2Config {
	return &http.HTTP2Config{MaxConcurrentStreams: 16, MaxReadFrameSize: 16 << 10,
		MaxReceiveBufferPerConnection: 128 << 10, MaxReceiveBufferPerStream: 64 << 10}
}

// connections are those that are open. There is room for a number of them: for a new
// one the longest idle is closed, and where none is idle the new one is told to come
// back. One address holds at most a part of them, unless it is that of a known proxy.
// Every request begins and ends with a word on its connection, so that this takes no lock;
// to find the longest idle all are looked at, which only a full house has to.
type connections struct {
	most, mostOfOne int
	proxies         []netip.Prefix
	open            sync.Map     // net.Conn to *connection
	moments         atomic.Int64 // counts the moments at which one became idle

	mu     sync.Mutex
	weight int
	of     map[netip.Addr]int // weight by address; proxies are not counted
}

type connection struct {
	net.Conn
	address netip.Addr
	weight  int
	idle    atomic.Int64 // since which moment; 0 while a request is under way
}

func newConnections(most int, proxies []netip.Prefix) *connections {
	return &connections{most: most, mostOfOne: max(1, most*3/4), proxies: proxies, of: map[netip.Addr]int{}}
}

// bounded is a listener whose connections are counted.
type bounded struct {
	net.Listener
	all    *connections
	weight int
}

// Accept waits for a connection that there is room for.
func (b *bounded) Accept() (net.Conn, error) {
	for {
		accepted, err := b.Listener.Accept()
		if err != nil {
			return nil, err
		}
		if tcp, is := accepted.(*net.TCPConn); is {
			_ = tcp.SetReadBuffer(receiveBuffer) // the kernel's own will do where it refuses
			_ = tcp.SetWriteBuffer(sendBuffer)
		}
		if b.all.admit(accepted, b.weight) {
			return accepted, nil
		}
		if b.weight == plainWeight {
			// It fits into the buffer of a new connection: nobody is waited for.
			_, _ = io.WriteString(accepted, tooManyConnections)
		}
		_ = accepted.Close()
	}
}

// tooManyConnections is the answer where nobody is left to read the question.
const tooManyConnections = "HTTP/1.1 503 Service Unavailable\r\nContent-Type: application/problem+json\r\nRetry-After: 2\r\nConnection: close\r\nCache-Control: no-store\r\n\r\n" +
	`{"type":"https://iana.org/assignments/http-problem-types#temporary-reduced-capacity","title":"The service is busy","status":503,"detail":"as many connections as fit are in use; come back in a few seconds"}` + "\n"

// admit counts a new connection, if need be in place of an idle one.
func (a *connections) admit(accepted net.Conn, weight int) bool {
	one := &connection{Conn: accepted, weight: weight}
	if from, err := netip.ParseAddrPort(accepted.RemoteAddr().String()); err == nil {
		one.address = from.Addr().Unmap()
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if !a.makeRoom(one, weight) {
		return false
	}
	a.count(one, weight)
	one.idle.Store(a.moments.Add(1))
	a.open.Store(accepted, one)
	return true
}

// makeRoom closes idle connections until there is room for more weight of one.
func (a *connections) makeRoom(one *connection, more int) bool {
	for a.isOne(one) && a.of[one.address]+more > a.mostOfOne {
		if !a.closeIdle(one, func(other *connection) bool { return other.address == one.address }) {
			return false
		}
	}
	for a.weight+more > a.most {
		if !a.closeIdle(one, func(*connection) bool { return true }) {
			return false
		}
	}
	return true
}

// isOne reports whether the address of a connection is that of one caller.
func (a *connections) isOne(one *connection) bool { return !within(a.proxies, one.address) }

func within(prefixes []netip.Prefix, address netip.Addr) bool {
	for _, p := range prefixes {
		if p.Contains(address) {
			return true
		}
	}
	return false
}

// closeIdle closes the longest idle connection that will do, but not the one itself.
func (a *connections) closeIdle(itself *connection, do func(*connection) bool) bool {
	for {
		var longest *connection
		since := int64(math.MaxInt64)
		a.open.Range(func(_, value any) bool {
			if other, is := value.(*connection); is && other != itself && do(other) {
				if at := other.idle.Load(); at > 0 && at < since {
					longest, since = other, at
				}
			}
			return true
		})
		if longest == nil {
			return false
		}
		if longest.idle.CompareAndSwap(since, 0) { // else it was asked something meanwhile
			a.forget(longest)
			_ = longest.Close()
			return true
		}
	}
}

func (a *connections) count(one *connection, weight int) {
	a.weight += weight
	if a.isOne(one) {
		if a.of[one.address] += weight; a.of[one.address] == 0 {
			delete(a.of, one.address)
		}
	}
}

func (a *connections) forget(one *connection) {
	if _, was := a.open.LoadAndDelete(one.Conn); was {
		a.count(one, -one.weight)
	}
}

// state follows what the server says of a connection.
func (a *connections) state(c net.Conn, state http.ConnState) {
	encrypted, isTLS := c.(*tls.Conn)
	if isTLS {
		c = encrypted.NetConn()
	}
	known, _ := a.open.Load(c)
	one, is := known.(*connection)
	if !is {
		return
	}
	switch state {
	case http.StateActive:
		one.idle.Store(0)
		if isTLS && encrypted.ConnectionState().NegotiatedProtocol == "h2" {
			a.grow(one)
		}
	case http.StateIdle:
		one.idle.CompareAndSwap(0, a.moments.Add(1))
	case http.StateClosed, http.StateHijacked:
		a.mu.Lock()
		defer a.mu.Unlock()
		a.forget(one)
	case http.StateNew:
	}
}

// grow gives a connection the weight of HTTP/2, or closes it where there is no room.
func (a *connections) grow(one *connection) {
	a.mu.Lock()
	defer a.mu.Unlock()
	more := http2Weight - one.weight
	if more <= 0 {
		return
	}
	if !a.makeRoom(one, more) {
		a.forget(one)
		_ = one.Close()
		return
	}
	a.count(one, more)
	one.weight += more
}

// hold makes a server count its connections; it serves what the returned listener
// accepts.
func (a *connections) hold(server *http.Server, listener net.Listener, encrypted bool) net.Listener {
	next := server.ConnState
	server.ConnState = func(c net.Conn, state http.ConnState) {
		a.state(c, state)
		if next != nil {
			next(c, state)
		}
	}
	weight := plainWeight
	if encrypted {
		weight = tlsWeight
	}
	return &bounded{listener, a, weight}
}
