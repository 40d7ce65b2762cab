package api

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io"
	"net/http"
	"strings"
	"sync"

	"github.com/labstack/echo/v4"

	"latewood/woodphys/method"
)

// Answer is the envelope of every successful calculation.
type Answer[T any] struct {
	Result      T                `json:"result" required:"true"`
	Basis       []string         `json:"basis" required:"true" nullable:"false" description:"ids of the methods the answer rests on; GET /v1/methods explains them"`
	Warnings    []method.Warning `json:"warnings" required:"true" nullable:"false" description:"what to know before trusting the answer"`
	DataVersion string           `json:"data_version" required:"true" description:"version of the embedded tables"`
}

// calculation is the body of a route that answers a request: one function from
// the request to the result and what it rests on.
type calculation[Req, Res any] func(ctx context.Context, t *tables, req *Req) (Res, method.Notes, error)

// calculate makes the handler of a calculation: decode, validate, one call,
// encode.
func calculate[Req, Res any](compute calculation[Req, Res]) func(*Service) echo.HandlerFunc {
	return func(s *Service) echo.HandlerFunc {
		return func(c echo.Context) error {
			body, err := readBody(c)
			if err != nil {
				return err
			}
			request, err := decode[Req](body)
			if err != nil {
				return err
			}
			result, notes, err := compute(c.Request().Context(), s.tables, request)
			if err != nil {
				return err
			}
			if as := formOf(c); as != nil {
				return writeForm(c, as, result)
			}
			return writeJSON(c, envelope(s.tables, result, notes))
		}
	}
}

// light is a request to a heavy route that may ask for little.
type light interface {
	// light reports that nothing is simulated for this request.
	light() bool
}

// inTurn makes a calculation wait for its turn among the heavy ones. A request
// that is wrong is answered before that, and one that is light at once.
func inTurn[Req, Res any](compute calculation[Req, Res]) func(*Service) echo.HandlerFunc {
	return func(s *Service) echo.HandlerFunc {
		return calculate(func(ctx context.Context, t *tables, req *Req) (result Res, notes method.Notes, err error) {
			if l, ok := any(req).(light); ok && l.light() {
				return compute(ctx, t, req)
			}
			giveBack, err := s.turns.take(ctx)
			if err != nil {
				return result, notes, err
			}
			defer giveBack()
			return compute(ctx, t, req)
		})(s)
	}
}

func envelope[T any](t *tables, result T, notes method.Notes) Answer[T] {
	a := Answer[T]{Result: result, Basis: notes.Basis, Warnings: notes.Warnings, DataVersion: t.version}
	if a.Basis == nil {
		a.Basis = []string{}
	}
	if a.Warnings == nil {
		a.Warnings = []method.Warning{}
	}
	return a
}

// readBody reads the whole body, within the limit set by the middleware.
func readBody(c echo.Context) ([]byte, error) {
	if media, _, _ := strings.Cut(c.Request().Header.Get(echo.HeaderContentType), ";"); media != "" &&
		!strings.EqualFold(strings.TrimSpace(media), echo.MIMEApplicationJSON) {
		p := newProblem(http.StatusUnsupportedMediaType, "send the body as application/json, not "+clipped(media))
		p.Offers = []string{echo.MIMEApplicationJSON}
		return nil, p
	}
	body, err := io.ReadAll(c.Request().Body)
	if err != nil {
		if p := asProblem(err); p.Status == http.StatusRequestEntityTooLarge {
			return nil, p
		}
		return nil, newProblem(http.StatusBadRequest, "the body could not be read to its end")
	}
	return body, nil
}

var buffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// maxPooled keeps a rare large answer from staying in memory for good.
const maxPooled = 256 << 10

// encodeJSON encodes v completely before the first byte is sent, so that a
// failure can still be told as a problem.
func encodeJSON(v any, use func([]byte) error) error {
	buffer, ok := buffers.Get().(*bytes.Buffer)
	if !ok {
		buffer = new(bytes.Buffer)
	}
	buffer.Reset()
	defer func() {
		if buffer.Cap() <= maxPooled {
			buffers.Put(buffer)
		}
	}()
	encoder := json.NewEncoder(buffer)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(v); err != nil {
		return err
	}
	return use(buffer.Bytes())
}

func writeJSON(c echo.Context, v any) error {
	return encodeJSON(v, func(text []byte) error { return c.Blob(http.StatusOK, echo.MIMEApplicationJSON, text) })
}

// writeTable sends a look-up with a strong ETag of its bytes and answers 304
// to a caller who has them.
func writeTable(c echo.Context, v any) error {
	return encodeJSON(v, func(text []byte) error { return sendTable(c, echo.MIMEApplicationJSON, text) })
}

func sendTable(c echo.Context, media string, text []byte) error {
	sum := sha256.Sum256(text)
	tag := `"` + hex.EncodeToString(sum[:12]) + `"`
	header := c.Response().Header()
	header.Set("ETag", tag)
	header.Set("Cache-Control", "public, max-age=3600")
	if matches(c.Request().Header.Get("If-None-Match"), tag) {
		return c.NoContent(http.StatusNotModified)
	}
	return c.Blob(http.StatusOK, media, text)
}

// matches reports whether an If-None-Match header names the tag (RFC 9110,
// 13.1.2: weak comparison).
func matches(header, tag string) bool {
	for candidate := range strings.SplitSeq(header, ",") {
		candidate = strings.TrimPrefix(strings.TrimSpace(candidate), "W/")
		if candidate == "*" || candidate == tag {
			return true
		}
	}
	return false
}
