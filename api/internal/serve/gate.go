package serve

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"log/slog"
	"maps"
	"net/http"
	"sync/atomic"
	"time"

	"github.com/labstack/echo/v4"
)

// gate is what every request passes: it gets an id, is let in or not, counted and
// logged.
type gate struct {
	log     *slog.Logger
	tally   *tally
	keys    *atomic.Pointer[Keys]  // who may ask; nil: everyone
	open    map[string]Openness    // by path; a path that does not exist is closed
	told    map[string]http.Header // what every reply of a path says, by path
	origins []string
	door    *door
	callers *callers
	works   map[string]Work // the calculations, by path
}

// pass is the middleware of every request: one and not three, since echo makes the
// functions of its middleware anew for each.
func (g *gate) pass(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		if err := g.identify(c); err != nil {
			return err
		}
		g.record(c, next)
		return nil
	}
}

// identify gives every request an id: the caller's own if it is well formed,
// else sixteen random hex digits. It also sets the headers of every reply.
func (g *gate) identify(c echo.Context) error {
	id := c.Request().Header.Get(echo.HeaderXRequestID)
	if !wellFormedID(id) {
		var random [8]byte
		if _, err := rand.Read(random[:]); err != nil {
			return err
		}
		id = hex.EncodeToString(random[:])
	}
	header := c.Response().Header()
	header.Set(echo.HeaderXRequestID, id)
	secure(c, header, g.origins)
	maps.Copy(header, g.told[c.Path()])
	return nil
}

// record admits a request, counts it and writes one log line for it.
func (g *gate) record(c echo.Context, next echo.HandlerFunc) {
	start := time.Now()
	g.tally.inFlight.Inc()
	defer g.tally.inFlight.Dec()
	request, response := c.Request(), c.Response()
	bytesIn := counted(request)
	let, key, err := g.admit(c)
	if err == nil && let != nil {
		err = g.handled(let, next)
	}
	if err != nil {
		c.Error(err)
	}
	took := time.Since(start)
	g.tally.answered(c.Path(), request.Method, response.Status, took)
	level := slog.LevelInfo
	if response.Status >= http.StatusInternalServerError {
		level = slog.LevelError
	}
	more := [...]slog.Attr{
		slog.String("id", response.Header().Get(echo.HeaderXRequestID)),
		slog.String("method", request.Method),
		slog.String("route", c.Path()),
		slog.Int("status", response.Status),
		slog.Int64("bytes_in", bytesIn.sum(request)),
		slog.Int64("bytes", response.Size),
		slog.Duration("took", took),
		{}, {}, {}, {},
	}
	attributes := more[:7]
	if key != "" {
		attributes = append(attributes, slog.String("key", key))
	}
	if response.Status == http.StatusUnauthorized || response.Status == http.StatusTooManyRequests {
		attributes = append(attributes, slog.String("from", c.RealIP()))
	}
	if trace, span := traceOf(request.Header); trace != "" {
		attributes = append(attributes, slog.String("trace_id", trace), slog.String("parent_id", span))
	}
	g.line(start.Add(took), level, attributes)
}

// handled lets a request be answered. What it holds is given back before its problem is
// sent: who takes that slowly, or never, keeps no place.
func (g *gate) handled(let echo.Context, next echo.HandlerFunc) (err error) {
	if a := askedOf(let); a != nil {
		defer a.end()
	}
	defer guard(let, g.log, &err)
	return next(let)
}

// line writes the line of a request. The logger itself would look up where in the program
// it was called from, a third of the time that a line takes, which no handler here shows.
func (g *gate) line(at time.Time, level slog.Level, attributes []slog.Attr) {
	handler := g.log.Handler()
	if !handler.Enabled(context.Background(), level) {
		return
	}
	line := slog.NewRecord(at, level, "request", 0)
	line.AddAttrs(attributes...)
	_ = handler.Handle(context.Background(), line) // a log that fails is not the caller's
}

// admit lets a request in: questions of browsers about other origins are answered,
// asked is then nil; then comes the token, then the rate. key is the id of the
// token. Whoever has no right to ask pays for asking all the same.
func (g *gate) admit(c echo.Context) (let echo.Context, key string, err error) {
	if crossOrigin(c, c.Response().Header(), g.origins) {
		return nil, "", c.NoContent(http.StatusNoContent)
	}
	if p := g.door.check(c.Request()); p != nil {
		return nil, "", p
	}
	var denied error
	open := g.open[c.Path()]
	if open == ToProbes {
		return c, "", nil
	}
	role := All
	if keys := g.keys.Load(); keys != nil && open == ToCallers {
		key, role, denied = keys.authenticate(c)
	}
	a := &asked{Context: c, stores: g.callers.stores, who: g.callers.of(c, key), key: key, role: role}
	// The body is not read yet: who is refused here is told to wait for the price of the
	// route at most.
	if err = a.who.charge(RequestCost, g.priceOf(c.Path())); err != nil {
		return nil, key, err
	}
	return a, key, denied
}

// priceOf is what a request to the path costs at most, in units; that of a batch,
// whose items are not counted yet, at least.
func (g *gate) priceOf(path string) int {
	if w := g.works[path]; w != nil && w.heavy() {
		return HeavyCost
	}
	return RequestCost
}
