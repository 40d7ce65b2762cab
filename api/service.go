package api

import (
	"io"
	"log/slog"
	"net/http"
	"runtime"
	"sync/atomic"

	"github.com/labstack/echo/v4"
)

// Config says how to build a Service.
type Config struct {
	Log     *slog.Logger // nil: no log
	Version string       // of the build, shown at /version
}

// Service answers the routes of the table. It keeps no state between requests
// and is safe for concurrent use.
type Service struct {
	echo     *echo.Echo
	tables   *tables
	version  string
	turns    turns // of the heavy calculations
	draining atomic.Bool
}

// New builds the service on the embedded tables. The error, which speaks of a
// broken build, says which table could not be read.
func New(config Config) (*Service, error) {
	loaded, err := loadTables()
	if err != nil {
		return nil, err
	}
	log := config.Log
	if log == nil {
		log = slog.New(slog.NewJSONHandler(io.Discard, &slog.HandlerOptions{Level: slog.LevelError}))
	}
	s := &Service{echo: echo.New(), tables: loaded, version: config.Version, turns: make(turns, max(1, runtime.GOMAXPROCS(0)-1))}
	s.echo.HideBanner, s.echo.HidePort = true, true
	s.echo.IPExtractor = echo.ExtractIPDirect()
	s.echo.HTTPErrorHandler = func(err error, c echo.Context) {
		if c.Response().Committed {
			return
		}
		p := asProblem(err)
		if p.Status == http.StatusInternalServerError {
			log.Error("failed", "id", c.Response().Header().Get(echo.HeaderXRequestID), "error", err.Error())
		}
		if err := writeProblem(c, p); err != nil {
			log.Warn("reply not sent", "error", err.Error())
		}
	}
	s.echo.Use(identify, record(log), guard(log))
	for i := range routes {
		r := &routes[i]
		chain := []echo.MiddlewareFunc{onlyKnown(r), limitBody(r.bodyLimit())}
		s.echo.Add(r.method, r.path, r.handler(s), chain...)
		if r.method == http.MethodGet {
			s.echo.Add(http.MethodHead, r.path, r.handler(s), chain...)
		}
	}
	return s, nil
}

// ServeHTTP answers one request.
func (s *Service) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.echo.ServeHTTP(w, r) }

// Drain makes /readyz answer 503 from now on, so that a balancer sends no more
// requests here while those under way finish.
func (s *Service) Drain() { s.draining.Store(true) }
