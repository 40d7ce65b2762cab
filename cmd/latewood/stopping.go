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
	count    atomic.Int64 // of all connections so far
	unread   atomic.Int64
	fresh    sync.Map // the unread ones: a miss, which is the rule, takes no lock
}

// watch makes the server tell of its connections. While it stops, callers are
// told to ask the next time on a new connection, which leads them elsewhere.
func watch(server *http.Server) *arrivals {
	a := &arrivals{}
	server.ConnState = func(connection net.Conn, state http.ConnState) {
		if state == http.StateNew {
			a.fresh.Store(connection, nil)
			a.unread.Add(1)
			a.count.Add(1)
		} else if _, was := a.fresh.LoadAndDelete(connection); was {
			a.unread.Add(-1)
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

// settle waits until no connections come and none is unread.
func (a *arrivals) settle() {
	a.stopping.Store(true)
	before, unreadBefore := a.count.Load(), a.unread.Load()
	for began := time.Now(); time.Since(began) < mostBeforeStop; {
		time.Sleep(quietBeforeStop)
		count, unread := a.count.Load(), a.unread.Load()
		if count == before && unread == 0 && unreadBefore == 0 {
			return
		}
		before, unreadBefore = count, unread
	}
}
