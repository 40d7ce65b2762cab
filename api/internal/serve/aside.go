package serve

import (
	"bytes"
	"context"
	"errors"
	"net/http"
	"runtime/debug"
	"strings"

	"latewood/api/internal/refuse"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// asideCaller is whom the service works for between the requests of others: one caller among
// them.
const asideCaller = "the rack"

// Aside answers a calculation for the service itself, in its turn among those of callers and
// without what only a full answer has. What is wrong with the request is a *wire.Refused;
// wire.ErrBusy says that there is no room just now. A fault in it is logged and an error, as
// nobody above would catch it.
func (s *Service) Aside(ctx context.Context, path string, body []byte) (text []byte, err error) {
	d := s.desk
	defer func() {
		if r := recover(); r != nil {
			d.log.Error("panic", "aside", path, "panic", r, "stack", string(debug.Stack()))
			err = refuse.New(http.StatusInternalServerError, "")
		}
	}()
	w := d.works[path]
	t, err := d.read(w, body)
	if err != nil {
		return nil, refusedAside(err)
	}
	needs := w.Needs()
	var at seat
	var steps int
	if t.heavy() {
		who := caller{party: &party{name: asideCaller}}
		if at, ctx, err = d.aside.takeTurn(ctx, d.turnFor(&who, w), needs); err != nil {
			return nil, errors.Join(wire.ErrBusy, ctx.Err())
		}
		steps = d.stepsFor(w.Needs().Processor, needs.Processor)
	} else {
		at, steps = d.seats.sit(), d.mostSimulated
	}
	defer func() {
		turn := at.turn != nil
		if spent := at.leave(); turn {
			d.worked(w, spent)
		}
	}()
	text, err = d.textAside(ctx, t, steps)
	return text, refusedAside(d.usedUp(ctx, err, needs))
}

// textAside is the answer to a task as it is sent.
func (d *Desk) textAside(ctx context.Context, t task, steps int) (text []byte, err error) {
	answer, err := d.run(shelf.Briefly(ctx), t, steps)
	if err != nil {
		return nil, err
	}
	err = wire.Encoded(func(out *bytes.Buffer, encoder *wire.Encoder) error {
		encoder.Brief = true
		return answer.encode(out, encoder)
	}, func(whole []byte) error {
		text = bytes.Clone(whole)
		return nil
	})
	return text, err
}

// refusedAside is what is wrong with a request, in words; a failure stays what it is.
func refusedAside(err error) error {
	p := asProblem(err)
	if err == nil || p.Status >= http.StatusInternalServerError {
		return err
	}
	said := make([]string, 0, len(p.Errors))
	for i := range p.Errors {
		said = append(said, p.Errors[i].Detail)
	}
	if len(said) == 0 {
		said = append(said, p.Detail)
	}
	return &wire.Refused{Why: wire.Wrong, Detail: strings.Join(said, "; ")}
}
