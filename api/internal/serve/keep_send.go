package serve

import (
	"context"
	"errors"
	"net/http"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// rackFailed tells what is refused as it is; all else is a failure that may pass.
func (d *Desk) rackFailed(c echo.Context, rack any, err error) error {
	if err := likes(c.Request().Context(), rack, err); err != nil {
		d.log.Error("the rack failed", "error", err.Error())
	}
	if p := asProblem(err); p.Status != http.StatusInternalServerError {
		return p
	}
	d.log.Error("the rack failed", "error", err.Error())
	p := refuse.New(http.StatusServiceUnavailable, "the rack did not answer; nothing was changed that was not told: send the request again, with the same Idempotency-Key")
	p.RetryAfter = busyRetry
	return p
}

// likes adds to what is refused for an entry that is not there the ids that are spelled like its
// id, if the rack knows them.
func likes(ctx context.Context, rack any, err error) error {
	knows, is := rack.(interface {
		Alike(ctx context.Context, absent wire.Absent) ([]string, error)
	})
	var refused *wire.Refused
	if !is || !errors.As(err, &refused) || refused.Absent.ID == "" {
		return nil
	}
	ids, err := knows.Alike(ctx, refused.Absent)
	if len(ids) > 0 {
		refused.Limit = method.OneOf(ids...)
	}
	return err
}

// sendKept sends what is kept, which nobody between here and the caller keeps.
func sendKept(c echo.Context, result any) error {
	if b, is := result.(*wire.Bytes); is {
		return sendBytes(c, b)
	}
	if as := formOf(c); as != nil {
		shown, is := result.(wire.Rendered)
		if !is {
			return refuse.New(http.StatusInternalServerError, "")
		}
		text, err := rendered(c, shown, as)
		if err != nil {
			return err
		}
		linkNext(c, result)
		if *as == wire.PageForm {
			c.Response().Header().Set("Content-Security-Policy", wire.PaperPolicy)
		}
		return sendKeptAs(c, result, as.Sent(), text)
	}
	return wire.EncodeJSON(result, func(text []byte) error { return sendKeptAs(c, result, echo.MIMEApplicationJSON, text) })
}

// linkNext tells where what does not fit into a sheet goes on (RFC 8288).
func linkNext(c echo.Context, result any) {
	page, is := result.(interface{ Next() int })
	if !is || page.Next() == 0 {
		return
	}
	next := *c.Request().URL
	query := next.Query()
	query.Set(Paging[1].Name, strconv.Itoa(page.Next()))
	next.RawQuery = query.Encode()
	c.Response().Header().Add("Link", "<"+next.RequestURI()+`>; rel="next"`)
}

// sendBytes sends what is no text, as it is.
func sendBytes(c echo.Context, b *wire.Bytes) error {
	header := c.Response().Header()
	header.Set("Cache-Control", "private, no-cache")
	header.Set("ETag", b.ETag)
	if have := c.Request().Header.Get(ifNoneMatch); have != "" && matches(have, b.ETag) {
		return c.NoContent(http.StatusNotModified)
	}
	if a := askedOf(c); a != nil {
		if err := a.hold(len(b.Body)); err != nil {
			return err
		}
	}
	return sendRaw(c, b.Media, b.Body)
}

// sendKeptAs sends what is kept in one of its forms.
func sendKeptAs(c echo.Context, result any, media string, text []byte) error {
	header := c.Response().Header()
	header.Set("Cache-Control", "private, no-cache")
	tag, only := "", c.Request().Method == http.MethodGet || c.Request().Method == http.MethodHead
	if tagged, is := result.(wire.Tagged); is {
		tag = tagged.Tag()
	} else if only {
		tag = tagOf(text)
	}
	if tag != "" {
		header.Set("ETag", tagFor(c, tag, len(text)))
	}
	have := c.Request().Header.Get("If-None-Match")
	if only && have != "" && (matches(have, tag) || matches(have, strings.TrimSuffix(tag, `"`)+tagEnd)) {
		return c.NoContent(http.StatusNotModified)
	}
	return sendWhole(c, media, text)
}
