package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"net/http/pprof"
	"time"

	"latewood/api"
)

// debugServer serves the profiles of the running program on an address of their own, which
// only this machine may reach. An empty address serves nothing. stop ends it.
func (r *server) debugServer(ctx context.Context) (stop func(), err error) {
	address, log := r.debug, r.log
	if address == "" {
		return func() {}, nil
	}
	listener, err := (&net.ListenConfig{}).Listen(ctx, "tcp", address)
	if err != nil {
		return nil, fmt.Errorf("cannot listen on %s: %w", address, err)
	}
	if !loopback(listener) {
		_ = listener.Close()
		return nil, fmt.Errorf("--debug-listen is for this machine only, such as 127.0.0.1:6060, not %s", address)
	}
	mux := http.NewServeMux()
	mux.HandleFunc("/debug/pprof/", pprof.Index)
	mux.HandleFunc("/debug/pprof/cmdline", pprof.Cmdline)
	mux.HandleFunc("/debug/pprof/profile", pprof.Profile)
	mux.HandleFunc("/debug/pprof/symbol", pprof.Symbol)
	mux.HandleFunc("/debug/pprof/trace", pprof.Trace)
	server := &http.Server{Handler: mux, ReadHeaderTimeout: api.ReadHeaderTimeout, MaxHeaderBytes: api.MaxHeaderBytes,
		ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn)}
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
			log.Error("profiles are no longer served", "error", err.Error())
		}
	}()
	bound := listener.Addr().String()
	log.Info("profiles are served", "at", "http://"+bound+"/debug/pprof/")
	if r.debugging != nil {
		r.debugging(bound)
	}
	return func() {
		stopping, cancel := context.WithTimeout(context.WithoutCancel(ctx), time.Second)
		defer cancel()
		if server.Shutdown(stopping) != nil {
			_ = server.Close()
		}
		<-ended
	}, nil
}
