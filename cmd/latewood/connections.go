package main

import (
	"container/list"
	"crypto/tls"
	"io"
	"net"
	"net/http"
	"net/netip"
	"sync"
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
type connections struct {
	most, mostOfOne int
	proxies         []netip.Prefix

	mu     sync.Mutex
	weight int
	of     map[netip.Addr]int // weight by address; proxies are not counted
	open   map[net.Conn]*connection
	idle   list.List // of *connection, the longest idle first
}

type connection struct {
	net.Conn
	address netip.Addr
	weight  int
	waiting *list.Element // in idle; nil while a request is under way
}

func newConnections(most int, proxies []netip.Prefix) *connections {
	return &connections{most: most, mostOfOne: max(1, most*3/4), proxies: proxies, of: map[netip.Addr]int{}, open: map[net.Conn]*connection{}}
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
	a.open[accepted] = one
	one.waiting = a.idle.PushBack(one)
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
	for at := a.idle.Front(); at != nil; at = at.Next() {
		other, is := at.Value.(*connection)
		if !is || other == itself || !do(other) {
			continue
		}
		a.forget(other)
		_ = other.Close()
		return true
	}
	return false
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
	if a.open[one.Conn] != one {
		return
	}
	delete(a.open, one.Conn)
	a.count(one, -one.weight)
	if one.waiting != nil {
		a.idle.Remove(one.waiting)
		one.waiting = nil
	}
}

// state follows what the server says of a connection.
func (a *connections) state(c net.Conn, state http.ConnState) {
	encrypted, isTLS := c.(*tls.Conn)
	if isTLS {
		c = encrypted.NetConn()
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	one, known := a.open[c]
	if !known {
		return
	}
	switch state {
	case http.StateActive:
		if one.waiting != nil {
			a.idle.Remove(one.waiting)
			one.waiting = nil
		}
		if isTLS && one.weight < http2Weight && encrypted.ConnectionState().NegotiatedProtocol == "h2" {
			a.grow(one)
		}
	case http.StateIdle:
		if one.waiting == nil {
			one.waiting = a.idle.PushBack(one)
		}
	case http.StateClosed, http.StateHijacked:
		a.forget(one)
	case http.StateNew:
	}
}

// grow gives a connection the weight of HTTP/2, or closes it where there is no room.
func (a *connections) grow(one *connection) {
	more := http2Weight - one.weight
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
