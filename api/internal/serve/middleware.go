package serve

import (
	"errors"
	"io"
	"log/slog"
	"net/http"
	"runtime/debug"
	"sync/atomic"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/refuse"
)

// guard, deferred, turns a panic into a 500 problem and writes the stack to the log only.
func guard(c echo.Context, log *slog.Logger, err *error) {
	r := recover()
	if r == nil {
		return
	}
	if broken, ok := r.(error); ok && errors.Is(broken, http.ErrAbortHandler) {
		panic(r) // net/http's own way to drop a connection
	}
	log.Error("panic", "id", c.Response().Header().Get(echo.HeaderXRequestID), "panic", r, "stack", string(debug.Stack()))
	*err = refuse.New(http.StatusInternalServerError, "")
}

// limitBody cuts a body off at its limit, exactly. A stream has a limit for each
// line instead.
func limitBody(r *Route, upload int64) echo.MiddlewareFunc {
	limit := r.BodyLimit()
	if r.Uploads() {
		limit = upload
	}
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			request := c.Request()
			if err := plainBody(c); err != nil {
				return err
			}
			if r.Streams && isLines(request) && !wantsDocument(c) {
				return next(c)
			}
			if request.ContentLength > limit {
				return &http.MaxBytesError{Limit: limit}
			}
			if request.ContentLength < 0 { // else the server itself holds it to its length
				request.Body = http.MaxBytesReader(c.Response(), request.Body, limit)
			}
			return next(c)
		}
	}
}

// onlyKnown refuses query parameters the route does not name, and repeated
// ones, and chooses the form of the answer.
func onlyKnown(r *Route) echo.MiddlewareFunc {
	offers, known := r.offers(), r.Parameters()
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			if c.Request().URL.RawQuery != "" {
				if fields := parameterFaults(c, known); len(fields) > 0 {
					return refuse.New(http.StatusBadRequest, fields[0].Detail, fields...)
				}
				if err := chooseDetail(c); err != nil {
					return err
				}
			}
			if err := chooseForm(c, r.Forms, offers); err != nil {
				return err
			}
			return next(c)
		}
	}
}

// seated gives a look-up a place among the light ones.
func seated(s *seats) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			if a := askedOf(c); a != nil {
				a.seat = s.sit()
			}
			return next(c)
		}
	}
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
