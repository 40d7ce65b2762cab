package serve

import (
	"bytes"
	"context"
	"net/http"
	"time"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/wire"
)

// EventsForm is a stream of server-sent events (HTML Living Standard, 9.2).
var EventsForm = wire.Form{Name: "events", Media: "text/event-stream"}

// Times of a stream of events. Own choice.
const (
	eventPause = 200 * time.Millisecond // between two events at least
	eventBeat  = 10 * time.Second       // after which an empty line says that the stream lives
)

// follower tells how far something is, once or as it goes on.
type follower[R, Res any] struct {
	role  Role
	start func(R)
	look  func(context.Context, R) (state Res, changed <-chan struct{}, more bool)
}

// Follow makes the endpoint of something that goes on once it is started: as JSON it is what
// it is now, as events every change until there is no more.
func Follow[R, Res any](role Role, start func(R), look func(context.Context, R) (state Res, changed <-chan struct{}, more bool)) Endpoint {
	return &follower[R, Res]{role, start, look}
}

func (f *follower[R, Res]) on(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		rack, is := d.rack.(R)
		if !is {
			return noRack()
		}
		if err := mayKeep(c, f.role); err != nil {
			return err
		}
		f.start(rack)
		if formOf(c) == nil || c.Request().Method != http.MethodGet {
			state, _, _ := f.look(c.Request().Context(), rack)
			c.Response().Header().Set("Cache-Control", "private, no-cache")
			return writeJSON(c, state)
		}
		return f.stream(c, d, rack)
	}
}

// stream sends events until there is no more, the caller goes away, the time is over or the
// service stops.
func (f *follower[R, Res]) stream(c echo.Context, d *Desk, rack R) error {
	giveBack := d.takeStream(askedOf(c).who.party)
	if giveBack == nil {
		return noRoom("as many streams as fit are under way, or as many of yours")
	}
	defer giveBack()
	leaveSeat(c)
	ctx, cancel := context.WithTimeout(c.Request().Context(), streamTime)
	defer cancel()
	defer context.AfterFunc(d.stopping, cancel)()
	out := newOutlet(c, time.Now().Add(streamTime+streamPause))
	c.Response().Header().Set("Cache-Control", "no-store")
	out.begin(EventsForm.Media)
	for {
		state, changed, more := f.look(ctx, rack)
		name := "progress"
		if !more {
			name = "done"
		}
		if sendEvent(out, name, state) != nil || !more || !f.wait(ctx, out, changed) {
			return nil // the caller is gone, or all was told
		}
	}
}

// wait waits for a change, and a little longer; false: the stream is over.
func (f *follower[R, Res]) wait(ctx context.Context, out *outlet, changed <-chan struct{}) bool {
	beat := time.NewTicker(eventBeat)
	defer beat.Stop()
	for waiting := true; waiting; {
		select {
		case <-ctx.Done():
			return false
		case <-beat.C:
			if out.sendLines([]byte(":\n\n")) != nil {
				return false
			}
		case <-changed:
			waiting = false
		}
	}
	select {
	case <-ctx.Done():
		return false
	case <-time.After(eventPause):
		return true
	}
}

// sendEvent sends one event. Whoever comes back after the end does so in a minute.
func sendEvent(out *outlet, name string, state any) error {
	return wire.EncodeJSON(state, func(text []byte) error {
		return out.sendLines([]byte("event: " + name + "\nretry: 60000\ndata: " + string(bytes.TrimSpace(text)) + "\n\n"))
	})
}
