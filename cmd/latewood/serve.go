package main

import (
	"context"
	_ "embed"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"strconv"
	"time"

	"latewood/api"
)

// notice holds the licences of what is linked.
//
//go:embed NOTICE
var notice []byte

// Times of the end. Own choice, but for the first, which follows from the limits.
const (
	stopTimeout = api.StopTime // for requests under way when the server is told to stop
	logTimeout  = time.Second  // for a reader of the log that stands still
)

func (p *program) serve(ctx context.Context, words []string) int {
	s, err := p.settings(words)
	if err != nil {
		return p.misused(err)
	}
	log, lines, err := p.log(s.format)
	if err != nil {
		return p.misused(err)
	}
	defer lines.close(logTimeout)
	keys, err := p.keys(s)
	if err != nil {
		p.complain(err)
		return exitUsage
	}
	p.tuneMemory()
	r := &server{program: p, settings: s, keys: keys, log: log, lost: lines.Lost}
	if err := r.listenAndServe(ctx); err != nil {
		p.complain(err)
		return exitProblem
	}
	return exitOK
}

// server is the program as it serves.
type server struct {
	*program
	*settings
	keys *api.Keys // nil: none are asked for
	log  *slog.Logger
	lost func() uint64 // lines of the log

	listener    net.Listener
	local       bool // only this machine can reach it
	service     *api.Service
	certificate *certificate // nil: no TLS
	server      *http.Server
	arrived     *arrivals
}

func (r *server) listenAndServe(ctx context.Context) (err error) {
	if r.listener, err = (&net.ListenConfig{}).Listen(ctx, "tcp", r.listen); err != nil {
		return fmt.Errorf("cannot listen on %s: %w", r.listen, err)
	}
	defer r.listener.Close() //nolint:errcheck // closed by then, but for errors on the way
	r.local = loopback(r.listener)
	if !r.local && r.keys == nil && !r.open {
		return fmt.Errorf("others can reach %s: give --tokens FILE (latewood token NAME makes one), or --open to let everyone ask", r.listen)
	}
	if r.keep != "" && !r.local && r.keys == nil {
		return errOpenRack
	}
	config := r.config()
	if r.keep != "" {
		rack, err := api.OpenRack(ctx, r.keep)
		if err != nil {
			return err
		}
		defer rack.Close() //nolint:errcheck // what was answered is on disk
		config.Rack = rack
	}
	if r.service, err = api.New(config); err != nil {
		return err
	}
	stopDebug, err := r.debugServer(ctx)
	if err != nil {
		return err
	}
	defer stopDebug()
	if err := r.makeServer(); err != nil {
		return err
	}
	r.warn()
	failed := make(chan error, 1)
	go func() { failed <- r.serveAll() }()
	bound := r.scheme() + "://" + reachable(r.listener.Addr())
	r.greet(bound)
	if r.started != nil {
		r.started(bound)
	}
	reloads, stopReloads := r.reloads()
	defer stopReloads()
	for ctx.Err() == nil {
		select {
		case err := <-failed:
			return err
		case <-reloads:
			r.reload()
		case <-ctx.Done():
		}
	}
	return r.shutDown(ctx, failed)
}

// config says what kind of service this is. On an address that only this machine
// reaches it is asked by the names of this machine, and nothing comes through a proxy
// unless that is known.
func (r *server) config() api.Config {
	c := api.Config{Log: r.log, LogLost: r.lost, Version: version, Keys: r.keys, Origins: r.origins.all,
		Hosts: r.hosts.all, Rate: api.Rate{PerSecond: r.rate, Burst: r.burst}, Work: time.Duration(r.work) * time.Second, Licences: notice, Upload: int64(r.photo) << 20,
		Proxies: api.Proxies{From: r.proxies, Header: r.proxyHeader}, RefuseProxied: r.local && r.proxies == nil}
	if r.local || c.Hosts != nil {
		c.Hosts = append(c.Hosts, api.LoopbackHosts...)
	}
	if r.local && r.keys == nil && r.proxies == nil && !r.rateGiven {
		c.Rate = api.Rate{}
	}
	return c
}

// makeServer sets the server up.
func (r *server) makeServer() error {
	r.server = &http.Server{
		Handler:           r.service,
		ReadHeaderTimeout: api.ReadHeaderTimeout,
		ReadTimeout:       api.ReadTimeout,
		WriteTimeout:      api.WriteTimeout,
		IdleTimeout:       api.IdleTimeout,
		MaxHeaderBytes:    api.MaxHeaderBytes,
		HTTP2:             http2Limits(),
		ErrorLog:          slog.NewLogLogger(r.log.Handler(), slog.LevelWarn),
	}
	if r.tune != nil {
		r.tune(r.server)
	}
	r.arrived = watch(r.server)
	if r.cert != "" {
		r.certificate = &certificate{cert: r.cert, key: r.key}
		if err := r.certificate.load(); err != nil {
			return err
		}
		r.server.TLSConfig = r.certificate.config()
	}
	r.listener = newConnections(api.MaxConnections, r.proxies).hold(r.server, r.listener, r.certificate != nil)
	return nil
}

func (r *server) serveAll() error {
	if r.certificate != nil {
		return r.server.ServeTLS(r.listener, "", "")
	}
	return r.server.Serve(r.listener)
}

func (r *server) scheme() string {
	if r.certificate != nil {
		return "https"
	}
	return "http"
}

// shutDown finishes what was let in and ends.
func (r *server) shutDown(ctx context.Context, failed <-chan error) error {
	r.service.Drain()
	r.log.Info("stopping; requests under way are finished first")
	r.arrived.settle()
	stopping, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopTimeout)
	defer cancel()
	if err := r.server.Shutdown(stopping); err != nil {
		return fmt.Errorf("stopped before every request was finished: %w", err)
	}
	if err := <-failed; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// loopback reports whether only this machine can reach the listener.
func loopback(l net.Listener) bool {
	address, ok := l.Addr().(*net.TCPAddr)
	return ok && address.IP.IsLoopback()
}

// warn says at every start what is open that could be closed.
func (r *server) warn() {
	switch {
	case r.local:
	case r.keys == nil:
		r.log.Warn("everyone who can reach this address may ask: --open was given", "listen", r.listen)
	case r.cert == "":
		r.log.Warn("tokens travel unencrypted: give --tls-cert and --tls-key, or let a proxy before this service do it", "listen", r.listen)
	}
}

// reachable is an address a browser on this machine can open: a server that
// listens everywhere is found at the loopback.
func reachable(a net.Addr) string {
	if tcp, ok := a.(*net.TCPAddr); ok && tcp.IP.IsUnspecified() {
		return net.JoinHostPort("127.0.0.1", strconv.Itoa(tcp.Port))
	}
	return a.String()
}

func (r *server) greet(base string) {
	asking := ""
	if r.keys != nil {
		asking = " -H 'Authorization: Bearer TOKEN'"
	}
	r.print(fmt.Sprintf(`latewood listens on %[1]s (documentation: %[1]s/docs)

Paste this into another terminal:

  curl -s %[1]s/v1/movement%[2]s -H 'Content-Type: application/json' -d '{"wood": "maple-sugar", "size": "330 mm", "direction": "tangential", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}'

`, base, asking))
}
