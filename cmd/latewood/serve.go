package main

import (
	"context"
	"crypto/tls"
	"errors"
	"flag"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"strconv"
	"strings"
	"time"

	"latewood/api"
)

// stopTimeout is for requests under way when the server is told to stop.
const stopTimeout = 20 * time.Second

// settings are the flags of serve, and what stands in for them in the
// environment.
type settings struct {
	listen, format   string
	tokens           string // file
	open             bool
	origins          origins
	cert, key, debug string
	rate             float64
	burst            int
	rateGiven        bool
}

// origins collects --cors, which may be given more than once.
type origins []string

func (o *origins) String() string { return strings.Join(*o, ",") }

func (o *origins) Set(list string) error {
	more, err := api.ParseOrigins(list)
	*o = append(*o, more...)
	return err
}

func (p *program) settings(words []string) (*settings, error) {
	s := &settings{}
	set := flags("serve")
	set.StringVar(&s.listen, "listen", p.or("LATEWOOD_LISTEN", "127.0.0.1:8080"), "")
	set.StringVar(&s.format, "log-format", p.or("LATEWOOD_LOG_FORMAT", p.or("LATEWOOD_LOG", "text")), "")
	set.StringVar(&s.format, "log", s.format, "") // the older name
	set.StringVar(&s.tokens, "tokens", "", "")
	set.BoolVar(&s.open, "open", false, "")
	set.Var(&s.origins, "cors", "")
	set.StringVar(&s.cert, "tls-cert", "", "")
	set.StringVar(&s.key, "tls-key", "", "")
	set.StringVar(&s.debug, "debug-listen", "", "")
	set.Float64Var(&s.rate, "rate", api.DefaultRate.PerSecond, "")
	set.IntVar(&s.burst, "burst", api.DefaultRate.Burst, "")
	if err := set.Parse(words); err != nil {
		return nil, err
	}
	set.Visit(func(f *flag.Flag) { s.rateGiven = s.rateGiven || f.Name == "rate" || f.Name == "burst" })
	switch {
	case set.NArg() > 0:
		return nil, fmt.Errorf("serve takes no %q", set.Arg(0))
	case (s.cert == "") != (s.key == ""):
		return nil, errors.New("--tls-cert and --tls-key go together")
	case !(s.rate >= 0 && s.rate <= 1e9):
		return nil, fmt.Errorf("--rate is units a second, 0 for no limit, not %g", s.rate)
	case s.burst < api.MinBurst || s.burst > 1e9:
		return nil, fmt.Errorf("--burst is at least %d units, the price of the largest batch", api.MinBurst)
	case s.open && (s.tokens != "" || p.getenv("LATEWOOD_TOKENS") != ""):
		return nil, errors.New("--open and tokens exclude each other")
	}
	return s, nil
}

// keys reads the tokens of the file and of the environment; nil if there are
// none.
func (p *program) keys(s *settings) (*api.Keys, error) {
	text := p.getenv("LATEWOOD_TOKENS")
	if s.tokens != "" {
		file, err := os.ReadFile(s.tokens) //nolint:gosec // the file the operator named is the point of the flag
		if err != nil {
			return nil, err
		}
		if text != "" {
			text += "\n"
		}
		text += string(file)
	}
	if s.tokens == "" && strings.TrimSpace(text) == "" {
		return nil, nil //nolint:nilnil // no tokens are asked for
	}
	return api.ParseKeys(text)
}

func (p *program) serve(ctx context.Context, words []string) int {
	s, err := p.settings(words)
	if err != nil {
		return p.misused(err)
	}
	log, err := p.log(s.format)
	if err != nil {
		return p.misused(err)
	}
	keys, err := p.keys(s)
	if err != nil {
		p.complain(err)
		return exitUsage
	}
	p.tuneMemory()
	if err := p.listenAndServe(ctx, s, keys, log); err != nil {
		p.complain(err)
		return exitProblem
	}
	return exitOK
}

func (p *program) listenAndServe(ctx context.Context, s *settings, keys *api.Keys, log *slog.Logger) error {
	listener, err := (&net.ListenConfig{}).Listen(ctx, "tcp", s.listen)
	if err != nil {
		return fmt.Errorf("cannot listen on %s: %w", s.listen, err)
	}
	defer listener.Close() //nolint:errcheck // closed by then, but for errors on the way
	local := loopback(listener)
	if !local && keys == nil && !s.open {
		return fmt.Errorf("others can reach %s: give --tokens FILE (latewood token NAME makes one), or --open to let everyone ask", s.listen)
	}
	rate := api.Rate{PerSecond: s.rate, Burst: s.burst}
	if local && keys == nil && !s.rateGiven {
		rate = api.Rate{}
	}
	service, err := api.New(api.Config{Log: log, Version: version, Keys: keys, Origins: s.origins, Rate: rate})
	if err != nil {
		return err
	}
	stopDebug, err := p.debug(ctx, s.debug, log)
	if err != nil {
		return err
	}
	defer stopDebug()
	server := &http.Server{
		Handler:           service,
		ReadHeaderTimeout: api.ReadHeaderTimeout,
		ReadTimeout:       api.ReadTimeout,
		WriteTimeout:      api.WriteTimeout,
		IdleTimeout:       api.IdleTimeout,
		MaxHeaderBytes:    api.MaxHeaderBytes,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
	if p.tune != nil {
		p.tune(server)
	}
	arrived := watch(server)
	scheme := "http"
	if s.cert != "" {
		pair, err := tls.LoadX509KeyPair(s.cert, s.key)
		if err != nil {
			return fmt.Errorf("--tls-cert, --tls-key: %w", err)
		}
		scheme = "https"
		server.TLSConfig = &tls.Config{MinVersion: tls.VersionTLS12, Certificates: []tls.Certificate{pair}}
	}
	p.warn(log, s, local, keys != nil)
	failed := make(chan error, 1)
	go func() {
		if scheme == "https" {
			failed <- server.ServeTLS(listener, "", "")
			return
		}
		failed <- server.Serve(listener)
	}()
	bound := scheme + "://" + reachable(listener.Addr())
	p.greet(bound, keys != nil)
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
	arrived.settle()
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

// loopback reports whether only this machine can reach the listener.
func loopback(l net.Listener) bool {
	address, ok := l.Addr().(*net.TCPAddr)
	return ok && address.IP.IsLoopback()
}

// warn says at every start what is open that could be closed.
func (p *program) warn(log *slog.Logger, s *settings, local, tokens bool) {
	switch {
	case local:
	case !tokens:
		log.Warn("everyone who can reach this address may ask: --open was given", "listen", s.listen)
	case s.cert == "":
		log.Warn("tokens travel unencrypted: give --tls-cert and --tls-key, or let a proxy before this service do it", "listen", s.listen)
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

func (p *program) greet(base string, tokens bool) {
	asking := ""
	if tokens {
		asking = " -H 'Authorization: Bearer TOKEN'"
	}
	p.print(fmt.Sprintf(`latewood listens on %[1]s  (documentation: %[1]s/docs)

Paste this into another terminal:

  curl -s %[1]s/v1/movement%[2]s -H 'Content-Type: application/json' -d '{"species": "maple-sugar", "dimension": "330 mm", "direction": "tangential", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}'

`, base, asking))
}
