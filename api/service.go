package api

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"runtime"

	"github.com/labstack/echo/v4"
)

// Config says how to build a Service.
type Config struct {
	Log     *slog.Logger // nil: no log
	Version string       // of the build, shown at /version

	Keys    *Keys    // who may ask; nil: everyone
	Origins []string // whose pages may ask from a browser, as ParseOrigins reads them
	Rate    Rate     // how often one caller may ask; the zero value sets no limit
	Heavy   int      // heavy calculations at a time; 0: one less than there are processors
}

// Service answers the routes of the table. It keeps no state between requests
// and is safe for concurrent use.
type Service struct {
	echo    *echo.Echo
	tables  *tables
	version string
	log     *slog.Logger
	keys    *Keys
	open    map[string]openness // by path; a path that does not exist is closed
	origins []string
	limiter *limiter // nil: no limit
	tally   *tally
	works   map[string]work // the calculations, by path
	turns   turns           // of the heavy calculations
	limits  []RouteLimits

	mostSimulated int // time steps of one request

	streams  chan struct{}   // those under way
	stopping context.Context //nolint:containedctx // ends when the service is told to stop
	stop     context.CancelFunc
}

// ServeHTTP answers one request.
func (s *Service) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.echo.ServeHTTP(w, r) }

// Drain makes /readyz answer 503 from now on, so that a balancer sends no more
// requests here while those under way finish. Streams end after the lines they
// have read.
func (s *Service) Drain() { s.stop() }

// newService builds the service that answers the routes on the tables. limits are
// those that GET /v1/limits tells.
func newService(config Config, loaded *tables, routes []route, limits []RouteLimits) *Service {
	log := config.Log
	if log == nil {
		log = slog.New(slog.NewJSONHandler(io.Discard, &slog.HandlerOptions{Level: slog.LevelError}))
	}
	heavy := config.Heavy
	if heavy <= 0 {
		heavy = max(1, runtime.GOMAXPROCS(0)-1)
	}
	s := &Service{
		echo: echo.New(), tables: loaded, version: config.Version, log: log,
		keys: config.Keys, open: map[string]openness{}, origins: config.Origins, limiter: newLimiter(config.Rate),
		works: map[string]work{}, turns: make(turns, heavy), streams: make(chan struct{}, mostStreams), limits: limits, mostSimulated: mostSimulated,
	}
	s.stopping, s.stop = context.WithCancel(context.Background())
	s.tally = newTally(s, routes)
	s.echo.HideBanner, s.echo.HidePort = true, true
	s.echo.IPExtractor = echo.ExtractIPDirect()
	s.echo.HTTPErrorHandler = func(err error, c echo.Context) {
		if c.Response().Committed {
			return
		}
		p := asProblem(err)
		s.tally.refuse(p)
		if p.Status == http.StatusInternalServerError {
			log.Error("failed", "id", c.Response().Header().Get(echo.HeaderXRequestID), "error", err.Error())
		}
		if err := writeProblem(c, p); err != nil {
			log.Warn("reply not sent", "error", err.Error())
		}
	}
	s.echo.Use(s.identify, s.record, guard(log))
	for i := range routes {
		r := &routes[i]
		s.open[r.path] = r.open
		chain := []echo.MiddlewareFunc{onlyKnown(r), limitBody(r)}
		handler := r.handler.on(s)
		s.echo.Add(r.method, r.path, handler, chain...)
		if r.method == http.MethodGet {
			s.echo.Add(http.MethodHead, r.path, handler, chain...)
		}
		if w, ok := r.handler.(work); ok {
			s.works[r.path] = w
		}
	}
	return s
}
