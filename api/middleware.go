package api

import (
	"context"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"log/slog"
	"net/http"
	"runtime/debug"
	"time"

	"github.com/labstack/echo/v4"
)

// identify gives every request an id: the caller's own if it is well formed,
// else sixteen random hex digits.
func identify(next echo.HandlerFunc) echo.HandlerFunc {
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
		header.Set(echo.HeaderXContentTypeOptions, "nosniff")
		header.Set("Vary", "Accept")
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

// record writes one log line per request.
func record(log *slog.Logger) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			start := time.Now()
			err := next(c)
			if err != nil {
				c.Error(err)
			}
			response := c.Response()
			level := slog.LevelInfo
			if response.Status >= http.StatusInternalServerError {
				level = slog.LevelError
			}
			log.LogAttrs(context.Background(), level, "request",
				slog.String("id", response.Header().Get(echo.HeaderXRequestID)),
				slog.String("method", c.Request().Method),
				slog.String("route", c.Path()),
				slog.Int("status", response.Status),
				slog.Int64("bytes", response.Size),
				slog.Duration("took", time.Since(start)))
			return nil
		}
	}
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

// limitBody cuts a body off at its limit, exactly.
func limitBody(limit int64) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			request := c.Request()
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
