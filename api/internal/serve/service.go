package serve

import (
	"context"
	"io"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"runtime"
	"slices"
	"sync/atomic"
	"time"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/shelf"
)

// Config says how to build a Service.
type Config struct {
	Log     *slog.Logger  // nil: no log
	LogLost func() uint64 // lines of the log that were lost; nil: not known
	Version string        // of the build, shown at /version

	Keys    *Keys         // who may ask; nil: everyone
	Origins []string      // whose pages may ask from a browser, as ParseOrigins reads them
	Hosts   []string      // names it may be called by, as ParseHosts reads them; nil: any
	Rate    Rate          // how often one caller may ask; the zero value sets no limit
	Heavy   int           // heavy calculations at a time; 0: one less than there are processors
	Work    time.Duration // processor time that one request may ask for at most; 0: DefaultWork

	Proxies Proxies        // whose word on who asks is taken; the zero value: nobody's
	Random  func() float64 // from 0 to 1, for the times to come back; nil: that of the runtime

	Licences []byte // of what the program is linked with; nil: not told
	Rack     any    // what is kept; nil: nothing is

	Upload int64 // bytes of a picture at most; 0: UsualUpload

	RefuseProxied bool // refuse what came through a proxy: it would hide who asks
}

// Service answers the routes of a table. It keeps no state between requests
// and is safe for concurrent use.
type Service struct {
	echo *echo.Echo
	desk *Desk
	keys atomic.Pointer[Keys]
	stop context.CancelFunc
}

// SetKeys changes who may ask, from the next request on. It cannot open a service that
// asks for tokens: nil changes nothing.
func (s *Service) SetKeys(keys *Keys) {
	if keys != nil {
		s.keys.Store(keys)
	}
}

// ServeHTTP answers one request.
func (s *Service) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.echo.ServeHTTP(w, r) }

// Drain makes /readyz answer 503 from now on, so that a balancer sends no more
// requests here while those under way finish. Streams end after the lines they
// have read.
func (s *Service) Drain() { s.stop() }

// New builds the service that answers the routes on the tables. limits are
// those that GET /v1/limits tells.
func New(config Config, tables *shelf.Tables, routes []Route, limits []RouteLimits) *Service {
	if config.Log == nil {
		config.Log = slog.New(slog.NewJSONHandler(io.Discard, &slog.HandlerOptions{Level: slog.LevelError}))
	}
	if config.Heavy <= 0 {
		config.Heavy = max(1, runtime.GOMAXPROCS(0)-1)
	}
	if config.Upload <= 0 {
		config.Upload = UsualUpload
	}
	if config.Random == nil {
		config.Random = rand.Float64
	}
	desk, stop := newDesk(config, tables, routes, limits)
	s := &Service{echo: echo.New(), desk: desk, stop: stop}
	s.echo.HideBanner, s.echo.HidePort = true, true
	s.echo.IPExtractor = config.Proxies.addressOf
	s.echo.HTTPErrorHandler = desk.fail
	g := &gate{keys: &s.keys, log: desk.log, tally: desk.tally, open: map[string]Openness{}, told: map[string]http.Header{}, origins: config.Origins, door: newDoor(config.Hosts, config.Origins, !config.RefuseProxied), callers: desk.callers, works: desk.works}
	s.SetKeys(config.Keys)
	s.echo.Use(g.pass)
	for i := range routes {
		r := &routes[i]
		g.open[r.Path], g.told[r.Path] = r.Open, r.toldBy()
		chain := []echo.MiddlewareFunc{onlyKnown(r), limitBody(r, config.Upload)}
		if r.Request == nil && r.Open != ToProbes {
			chain = append(chain, seated(desk.seats))
		}
		handler := chained(r.Handler.on(desk), chain)
		for _, method := range r.Methods() {
			s.echo.Add(method, r.Path, handler)
		}
	}
	return s
}

// chained puts a handler behind its middleware, the first outermost, once for all: echo
// would do it for every request.
func chained(handler echo.HandlerFunc, chain []echo.MiddlewareFunc) echo.HandlerFunc {
	for _, m := range slices.Backward(chain) {
		handler = m(handler)
	}
	return handler
}

// newDesk lays out what the handlers share; the function ends its streams.
func newDesk(config Config, tables *shelf.Tables, routes []Route, limits []RouteLimits) (*Desk, context.CancelFunc) {
	stopping, stop := context.WithCancel(context.Background())
	d := &Desk{
		tables: tables, version: config.Version, log: config.Log, limiter: newLimiter(config.Rate), works: map[string]Work{},
		limits: limits, mostSimulated: shelf.MostSimulated, mostWork: min(max(config.Work, DefaultWork), MostWork), stopping: stopping,
		licences: config.Licences, rack: config.Rack, stores: newStores(), seats: newSeats(config.Heavy, config.Random), paces: map[Work]*pace{},
	}
	d.callers = newCallers(d.limiter, d.stores)
	d.aside.seats = d.seats
	paths := make([]string, 0, len(routes))
	for i := range routes {
		paths = append(paths, routes[i].Path)
		if w, ok := routes[i].Handler.(Work); ok {
			d.works[routes[i].Path] = w
			d.paces[w] = &pace{}
		}
	}
	d.tally = newTally(build{version: config.Version, data: tables.Version}, tables.Methods, paths, d)
	return d, stop
}
