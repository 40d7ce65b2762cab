package main

import (
	"net"
	"net/http"
	"sync"
	"sync/atomic"
	"time"
)

// Shutdown of the standard library resets the connections that the kernel holds
// and closes those whose first request it has not read. So the program first goes
// on serving until no connection came for a while and none is left to be read,
// but not longer than silent callers or a balancer that never ceases may make it.
const (
	quietBeforeStop = 100 * time.Millisecond
	mostBeforeStop  = 2 * time.Second
)

// arrivals knows the connections on which nothing was asked yet.
type arrivals struct {
	stopping atomic.Bool

	mu    sync.Mutex
	count int // of all connections so far
	fresh map[net.Conn]struct{}
}

// watch makes the server tell of its connections. While it stops, callers are
// told to ask the next time on a new connection, which leads them elsewhere.
func watch(server *http.Server) *arrivals {
	a := &arrivals{fresh: map[net.Conn]struct{}{}}
	server.ConnState = func(connection net.Conn, state http.ConnState) {
		a.mu.Lock()
		defer a.mu.Unlock()
		if state == http.StateNew {
			a.count++
			a.fresh[connection] = struct{}{}
		} else {
			delete(a.fresh, connection)
		}
	}
	next := server.Handler
	server.Handler = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if a.stopping.Load() {
			w.Header().Set("Connection", "close")
		}
		next.ServeHTTP(w, r)
	})
	return a
}

func (a *arrivals) now() (count, unread int) {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.count, len(a.fresh)
}

// settle waits until no connections come and none is unread.
func (a *arrivals) settle() {
	a.stopping.Store(true)
	before, unreadBefore := a.now()
	for began := time.Now(); time.Since(began) < mostBeforeStop; {
		time.Sleep(quietBeforeStop)
		count, unread := a.now()
		if count == before && unread == 0 && unreadBefore == 0 {
			return
		}
		before, unreadBefore = count, unread
	}
}
