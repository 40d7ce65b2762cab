package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"time"
)

// Timeouts of the server. A request is at most 256 KiB, so a client that needs
// longer than these is not making progress.
const (
	readHeaderTimeout = 5 * time.Second
	readTimeout       = 15 * time.Second
	writeTimeout      = 60 * time.Second
	idleTimeout       = 120 * time.Second
	maxHeaderBytes    = 16 << 10
	stopTimeout       = 20 * time.Second // for requests under way when told to stop
)

func (p *program) serve(ctx context.Context, words []string) int {
	set := flags("serve")
	listen := set.String("listen", p.or("LATEWOOD_LISTEN", "127.0.0.1:8080"), "")
	format := set.String("log", p.or("LATEWOOD_LOG", "text"), "")
	if err := set.Parse(words); err != nil {
		return p.misused(err)
	}
	if set.NArg() > 0 {
		return p.misused(fmt.Errorf("serve takes no %q", set.Arg(0)))
	}
	log, err := p.log(*format)
	if err != nil {
		return p.misused(err)
	}
	if err := p.listenAndServe(ctx, *listen, log); err != nil {
		p.complain(err)
		return exitProblem
	}
	return exitOK
}

func (p *program) listenAndServe(ctx context.Context, address string, log *slog.Logger) error {
	service, err := newService(log)
	if err != nil {
		return err
	}
	listener, err := (&net.ListenConfig{}).Listen(ctx, "tcp", address)
	if err != nil {
		return fmt.Errorf("cannot listen on %s: %w", address, err)
	}
	server := &http.Server{
		Handler:           service,
		ReadHeaderTimeout: readHeaderTimeout,
		ReadTimeout:       readTimeout,
		WriteTimeout:      writeTimeout,
		IdleTimeout:       idleTimeout,
		MaxHeaderBytes:    maxHeaderBytes,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	bound := listener.Addr().String()
	p.greet(bound)
	if p.started != nil {
		p.started(bound)
	}
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	service.Drain()
	log.Info("stopping; requests under way are finished first")
	stopping, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopTimeout)
	defer cancel()
	if err := server.Shutdown(stopping); err != nil {
		return fmt.Errorf("stopped before every request was finished: %w", err)
	}
	if err := <-failed; !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

func (p *program) greet(address string) {
	p.print(fmt.Sprintf(`latewood listens on http://%[1]s  (documentation: http://%[1]s/docs)

Paste this into another terminal:

  curl -s http://%[1]s/v1/movement -H 'Content-Type: application/json' -d '{"species": "maple-sugar", "dimension": "330 mm", "direction": "tangential", "from": {"mc_pct": 9}, "to": {"mc_pct": 6}}'

`, address))
}
