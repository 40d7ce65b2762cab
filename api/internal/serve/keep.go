package serve

import (
	"context"
	"net/http"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/decode"
	"latewood/api/internal/refuse"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// Headers of requests about what is kept.
const (
	ifMatch        = "If-Match"
	ifNoneMatch    = "If-None-Match"
	idempotencyKey = "Idempotency-Key"
)

// noRack is the problem of a service that keeps nothing.
func noRack() *refuse.Problem {
	return refuse.New(http.StatusNotFound, "this service keeps no rack; whoever runs it starts it with: latewood serve --rack FILE")
}

// Nothing is the request of what is asked without a body.
type Nothing struct{}

// keeper answers what is asked of the rack, which is an R.
type keeper[R, Req, Res any] struct {
	role   Role
	await  func(ctx context.Context, rack R, sent *wire.Sent) error // nil: nothing is waited for
	answer func(ctx context.Context, rack R, t *shelf.Tables, sent *wire.Sent, req *Req) (Res, error)
}

// Keep makes the endpoint of something that is kept, for tokens with a role.
func Keep[R, Req, Res any](role Role, answer func(context.Context, R, *shelf.Tables, *wire.Sent, *Req) (Res, error)) Endpoint {
	return &keeper[R, Req, Res]{role: role, answer: answer}
}

// KeepAfter is Keep for what is worth waiting for: await waits, in no seat.
func KeepAfter[R, Res any](role Role, await func(context.Context, R, *wire.Sent) error, answer func(context.Context, R, *wire.Sent) (Res, error)) Endpoint {
	return &keeper[R, Nothing, Res]{role: role, await: await, answer: func(ctx context.Context, rack R, _ *shelf.Tables, sent *wire.Sent, _ *Nothing) (Res, error) {
		return answer(ctx, rack, sent)
	}}
}

// upload and patch are the requests of what is sent as a picture, or as changes of members of
// an E.
type (
	upload       struct{}
	patch[E any] struct{}
	patched      interface{ read(body []byte) error }
)

// read refuses changes that are not one object, or that name what an E has not; what comes of
// them is checked when they are merged.
func (patch[E]) read(body []byte) error { return decode.Changes[E](body) }

// MergePatch is the media type of changes of members (RFC 7396).
const MergePatch = "application/merge-patch+json"

// KeepUpload makes the endpoint of a picture that is sent.
func KeepUpload[R, Res any](role Role, answer func(context.Context, R, *shelf.Tables, *wire.Sent) (Res, error)) Endpoint {
	return &keeper[R, upload, Res]{role: role, answer: func(ctx context.Context, rack R, t *shelf.Tables, sent *wire.Sent, _ *upload) (Res, error) {
		return answer(ctx, rack, t, sent)
	}}
}

// KeepPatch makes the endpoint of changes of members.
func KeepPatch[E, R, Res any](role Role, answer func(context.Context, R, *shelf.Tables, *wire.Sent) (Res, error)) Endpoint {
	return &keeper[R, patch[E], Res]{role: role, answer: func(ctx context.Context, rack R, t *shelf.Tables, sent *wire.Sent, _ *patch[E]) (Res, error) {
		return answer(ctx, rack, t, sent)
	}}
}

func (k *keeper[R, Req, Res]) on(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		rack, is := d.rack.(R)
		if !is {
			passOver(c)
			return noRack()
		}
		sent, req, err := received[Req](c, k.role)
		if err != nil {
			return err
		}
		if k.await != nil {
			leaveSeat(c)
			if err := k.await(c.Request().Context(), rack, sent); err != nil {
				return d.rackFailed(c, rack, err)
			}
		}
		sit(c, d)
		result, err := k.answer(c.Request().Context(), rack, d.tables, sent, req)
		if err != nil {
			return d.rackFailed(c, rack, err)
		}
		return sendKept(c, result)
	}
}

// sit takes a light place for a request that was read.
func sit(c echo.Context, d *Desk) {
	if a := askedOf(c); a != nil && a.seat.of == nil {
		a.seat = d.seats.sit()
	}
}

// AsForm answers in one form, whatever the caller takes: what calendars fetch, for one, say
// nothing of.
func AsForm(form wire.Form, endpoint Endpoint) Endpoint {
	return Plain(func(d *Desk) echo.HandlerFunc {
		answer := endpoint.on(d)
		return func(c echo.Context) error {
			c.Set(chosenForm, &form)
			return answer(c)
		}
	})
}

// asker makes the request of a calculation of what is kept, and lets it be answered.
type asker[R, Req any] struct {
	work Work
	ask  func(ctx context.Context, rack R, sent *wire.Sent, req *Req) ([]byte, error)
}

// AskOf answers a calculation about something that is kept: ask makes the request for w.
func AskOf[R, Req any](w Work, ask func(context.Context, R, *wire.Sent, *Req) ([]byte, error)) Endpoint {
	return &asker[R, Req]{w, ask}
}

func (k *asker[R, Req]) on(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		rack, is := d.rack.(R)
		if !is {
			passOver(c)
			return noRack()
		}
		needs, err := d.needsOf(c, k.work)
		if err != nil {
			return err
		}
		sent, req, err := received[Req](c, Read)
		if err != nil {
			return err
		}
		body, err := k.ask(c.Request().Context(), rack, sent, req)
		if err != nil {
			return d.rackFailed(c, rack, err)
		}
		if len(body) > decode.Small {
			return d.answerInTurn(c, askedOf(c), k.work, body, needs)
		}
		return d.answerRead(c, askedOf(c), k.work, body, needs)
	}
}

// seenHeader names the version that a change is of.
var seenHeader = Header{Name: ifMatch, Pattern: `^(\*|"[0-9a-f]{24}")$`, Required: true,

	Description: "ETag of the version that you saw, or * for any: an entry that was changed since is left as it is"}

// KeptHeaders are the headers that a request about what is kept may have, for the
// contract.
func KeptHeaders(r *Route) []Header {
	if !r.Keeps || r.Method == http.MethodGet || r.Heavy { // only asked
		return nil
	}
	if r.Once {
		return []Header{seenHeader}
	}
	if r.Uploads() {
		return []Header{
			{Name: ifMatch, Pattern: `^(\*|"[0-9a-f]{24}")$`, Description: "ETag of the picture that you saw, or * for any that is there. Give this or If-None-Match"},
			{Name: ifNoneMatch, Pattern: `^\*$`, Description: "* where you saw none"},
		}
	}
	all := []Header{{Name: idempotencyKey, Pattern: `^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$`,
		Description: "made by you for this request before you send it. Sent again with the same key, the request gives the saved answer and changes nothing; with another body it is refused"}}
	if strings.Contains(r.Path, ":id") {
		all = append(all, seenHeader)
	}
	return all
}

// Header is a header of a request.
type Header struct {
	Name, Pattern, Description string
	Required                   bool
}
