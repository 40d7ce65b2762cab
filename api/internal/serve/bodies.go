package serve

import (
	"errors"
	"io"
	"net/http"
	"os"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/decode"
	"latewood/api/internal/refuse"
)

// readBody reads the whole body of a request, of JSON, when there is room for it.
func readBody(c echo.Context) ([]byte, error) {
	if err := jsonBody(c); err != nil {
		return nil, err
	}
	return readWhole(c)
}

// readWhole reads a body whose media type is known, within the limit set by the
// middleware. Room for it is taken before its first byte is read, and is given back
// with the request.
func readWhole(c echo.Context) ([]byte, error) {
	request := c.Request()
	length := request.ContentLength
	if length < 0 {
		return readUnknown(c)
	}
	if a := askedOf(c); a != nil && !a.room(length) {
		return nil, refuseUnread(c)
	}
	body := make([]byte, length)
	if _, err := io.ReadFull(request.Body, body); err != nil {
		return nil, broken(err)
	}
	return body, nil
}

// room takes room for a body and waits for it a while.
func (a *asked) room(length int64) bool {
	if length <= decode.Small {
		return a.body.take(a.Request().Context(), a.who.small.bodies, length, bytesPatience)
	}
	return a.body.take(a.Request().Context(), a.who.bodies, length, bytesPatience)
}

// readUnknown reads a body whose length was not told: as a small one if it turns out to
// be small; else with room for the longest.
func readUnknown(c echo.Context) ([]byte, error) {
	a, body := askedOf(c), c.Request().Body
	if a != nil && !a.room(decode.Small) {
		return nil, refuseUnread(c)
	}
	text := make([]byte, decode.Small)
	n, err := io.ReadFull(body, text)
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return text[:n], nil
	}
	if err != nil {
		return nil, broken(err)
	}
	if a != nil {
		a.body.give()
		if !a.room(2 * HeavyBody) { // a buffer that grows is there twice for a moment
			return nil, refuseUnread(c)
		}
	}
	for {
		if len(text) == cap(text) {
			text = append(make([]byte, 0, 4*cap(text)), text...)
		}
		n, err := body.Read(text[len(text):cap(text)])
		text = text[:len(text)+n]
		if errors.Is(err, io.EOF) {
			return text, nil
		}
		if err != nil {
			return nil, broken(err)
		}
	}
}

// broken is the problem of a body that could not be read.
func broken(err error) error {
	if p := asProblem(err); p.Status == http.StatusRequestEntityTooLarge {
		return p
	}
	return unfinished(err)
}

// unfinished is the problem of a body that broke off.
func unfinished(err error) *refuse.Problem {
	if errors.Is(err, os.ErrDeadlineExceeded) {
		return refuse.New(http.StatusRequestTimeout, "the body did not arrive in time")
	}
	return refuse.Body(http.StatusBadRequest, "missing", "the body could not be read to its end")
}

// refuseUnread is the problem of a request whose body there is no room for.
func refuseUnread(c echo.Context) error {
	passOver(c)
	return noRoom("as many bodies as fit are being read")
}

// passOver reads a body of bounded length and keeps nothing of it: a caller who is still
// sending it would not see the refusal, and the connection would be lost.
func passOver(c echo.Context) {
	request := c.Request()
	if request.ContentLength > 0 && request.ContentLength <= HeavyBody && request.Header.Get("Expect") == "" {
		_, _ = io.Copy(io.Discard, request.Body)
	}
}
