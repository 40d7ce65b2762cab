package api

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"io"
	"log/slog"
	"net/http"
	"runtime/debug"
	"sync/atomic"
	"time"

	"github.com/labstack/echo/v4"
)

// identify gives every request an id: the caller's own if it is well formed,
// else sixteen random hex digits. It also sets the headers of every reply.
func (s *Service) identify(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
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
		s.secure(c, header)
		return next(c)
	}
}

func wellFormedID(id string) bool {
	if id == "" || len(id) > 64 {
		return false
	}
	for i := range len(id) {
		b := id[i]
		letter := b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z'
		if !letter && (b < '0' || b > '9') && b != '-' && b != '_' && b != '.' {
			return false
		}
	}
	return true
}

// record admits a request, counts it and writes one log line for it.
func (s *Service) record(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		start := time.Now()
		s.tally.inFlight.Inc()
		defer s.tally.inFlight.Dec()
		request, response := c.Request(), c.Response()
		bytesIn := counted(request)
		asked, key, err := s.admit(c)
		if err == nil && asked != nil {
			err = next(asked)
		}
		if err != nil {
			c.Error(err)
		}
		took := time.Since(start)
		s.tally.answered(c.Path(), request.Method, response.Status, took)
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
			{}, {},
		}
		attributes := more[:7]
		if key != "" {
			attributes = append(attributes, slog.String("key", key))
		}
		if response.Status == http.StatusUnauthorized || response.Status == http.StatusTooManyRequests {
			attributes = append(attributes, slog.String("from", c.RealIP()))
		}
		s.log.LogAttrs(context.Background(), level, "request", attributes...)
		return nil
	}
}

// admit lets a request in: questions of browsers about other origins are answered,
// asked is then nil; then comes the token, then the rate. key is the id of the
// token. Whoever has no right to ask pays for asking all the same.
func (s *Service) admit(c echo.Context) (asked echo.Context, key string, err error) {
	if s.crossOrigin(c, c.Response().Header()) {
		return nil, "", c.NoContent(http.StatusNoContent)
	}
	var denied error
	open := s.open[c.Path()]
	if open == toProbes {
		return c, "", nil
	}
	if s.keys != nil && open == toCallers {
		key, denied = s.keys.authenticate(c)
	}
	if asked, err = s.limiter.admit(c, key, s.priceOf(c.Path())); err != nil {
		return nil, key, err
	}
	return asked, key, denied
}

// priceOf is what a request to the path costs at most, in units; that of a batch,
// whose items are not counted yet, at least.
func (s *Service) priceOf(path string) int {
	if w := s.works[path]; w != nil && w.heavy() {
		return heavyCost
	}
	return requestCost
}

// countedBody counts the bytes of a body whose length was not announced.
type countedBody struct {
	io.ReadCloser
	n atomic.Int64 // a stream is read beside its handler
}

func (b *countedBody) Read(p []byte) (int, error) {
	n, err := b.ReadCloser.Read(p)
	b.n.Add(int64(n))
	return n, err
}

// counted begins to count the body of a request, where that is needed.
func counted(request *http.Request) *countedBody {
	if request.ContentLength >= 0 || request.Body == nil {
		return nil
	}
	body := &countedBody{ReadCloser: request.Body}
	request.Body = body
	return body
}

func (b *countedBody) sum(request *http.Request) int64 {
	if b == nil {
		return max(request.ContentLength, 0)
	}
	return b.n.Load()
}

// guard turns a panic into a 500 problem and writes the stack to the log only.
func guard(log *slog.Logger) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) (err error) {
			defer func() {
				if r := recover(); r != nil {
					if broken, ok := r.(error); ok && errors.Is(broken, http.ErrAbortHandler) {
						panic(r) // net/http's own way to drop a connection
					}
					log.Error("panic", "id", c.Response().Header().Get(echo.HeaderXRequestID), "panic", r, "stack", string(debug.Stack()))
					err = newProblem(http.StatusInternalServerError, "")
				}
			}()
			return next(c)
		}
	}
}

// limitBody cuts a body off at its limit, exactly. A stream has a limit for each
// line instead.
func limitBody(r *route) echo.MiddlewareFunc {
	limit := r.bodyLimit()
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			request := c.Request()
			if r.streams && isLines(request) {
				return next(c)
			}
			if request.ContentLength > limit {
				return &http.MaxBytesError{Limit: limit}
			}
			request.Body = http.MaxBytesReader(c.Response(), request.Body, limit)
			return next(c)
		}
	}
}

// onlyKnown refuses query parameters the route does not name, and repeated
// ones, and chooses the form of the answer.
func onlyKnown(r *route) echo.MiddlewareFunc {
	offers := r.offers()
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			if c.Request().URL.RawQuery != "" {
				if fields := unknownParameters(c, r); len(fields) > 0 {
					return newProblem(http.StatusBadRequest, fields[0].Detail, fields...)
				}
			}
			if err := chooseForm(c, r, offers); err != nil {
				return err
			}
			return next(c)
		}
	}
}
