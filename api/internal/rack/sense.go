package rack

import (
	"context"
	"errors"
	"slices"
	"strings"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// sense looks at entries before they are kept: whether their days can be, beside what is on
// the rack and beside those that come with them. An entry that cannot be used together with
// another would only be found out by whoever asks about the wood.
type sense struct {
	rack    *Rack
	tables  *shelf.Tables
	wood    map[store.Key]*store.Record // that entries are of; nil for none
	weights []store.Entry               // that come together
}

func (r *Rack) sense(t *shelf.Tables) *sense {
	return &sense{rack: r, tables: t, wood: map[store.Key]*store.Record{}}
}

// apply carries out an order where all of it can be. What is sent again was looked at when it
// first came: for the store it is what it was. Of two weights of one day that come at once the
// later one sees the other.
func (r *Rack) apply(ctx context.Context, t *shelf.Tables, s *wire.Sent, changes ...store.Change) (store.Receipt, error) {
	if slices.ContainsFunc(changes, weighs) {
		r.weighing.Lock()
		defer r.weighing.Unlock()
	}
	look := r.sense(t)
	for i := range changes {
		if err := look.at(ctx, &changes[i]); err != nil {
			return store.Receipt{}, &nonsense{i, err}
		}
	}
	return r.store.Apply(ctx, order(s, changes...))
}

// weighs reports a change of a reading, which may be a weight.
func weighs(c store.Change) bool { return c.Entry.Kind == store.Reading }

// nonsense is why one change of an order cannot be.
type nonsense struct {
	change int
	why    error
}

func (n *nonsense) Error() string { return n.why.Error() }

func (n *nonsense) Unwrap() error { return n.why }

// changeOf is the change of an order that an error speaks of.
func changeOf(err error) (int, bool) {
	var unlikely *nonsense
	if errors.As(err, &unlikely) {
		return unlikely.change, true
	}
	var refused *store.Refusal
	if errors.As(err, &refused) {
		return refused.Change, true
	}
	return 0, false
}

// at looks at a change.
func (l *sense) at(ctx context.Context, c *store.Change) error {
	if c.Deed == store.Remove {
		return nil
	}
	now, err := l.rack.store.Get(ctx, c.Entry.Key)
	var unknown *store.Refusal
	switch {
	case errors.As(err, &unknown):
		if c.Deed != store.Create {
			return nil // the store refuses it
		}
	case err != nil:
		return err
	case c.Deed == store.Create, c.If != store.AnyVersion && c.If != now.Version:
		return nil // it is sent again, or is refused by the store
	}
	e := &c.Entry
	if c.Deed == store.Undo {
		if e, err = l.rack.undone(ctx, &now, c.To); err != nil || e == nil {
			return err
		}
	}
	if c.Deed != store.Undo && (c.Deed == store.Create || !store.SameDocument(now.Body, e.Body)) {
		if err := l.mass(ctx, e); err != nil {
			return err
		}
	}
	if !now.Gone && now.Day == e.Day && now.Of == e.Of && now.Form == e.Form && aside(now.Body) == aside(e.Body) {
		return nil // what it was on the rack with before it may be with
	}
	if c.Deed != store.Undo { // what was on the rack once may come back
		if err := l.day(ctx, e); err != nil {
			return err
		}
	}
	return l.alone(ctx, e)
}

// undone is what an undo brings back; nil where it brings nothing.
func (r *Rack) undone(ctx context.Context, now *store.Record, to int64) (*store.Entry, error) {
	if now.Kind != store.Reading {
		return nil, nil //nolint:nilnil // nothing comes back that would have to be looked at
	}
	all, err := r.store.History(ctx, now.Key)
	if err != nil {
		return nil, told(err)
	}
	if to == 0 {
		to = now.Before()
	}
	if to < 1 || to > int64(len(all)) || all[to-1].Gone {
		return nil, nil //nolint:nilnil // as above
	}
	return &all[to-1].Entry, nil
}

// dayMembers are where the day of an entry stands: of what was done or read, which is not of
// the future. Where wood will lie may be.
var dayMembers = map[store.Kind]string{store.Billet: "/billet/stacked_on", store.Piece: "/billet/stacked_on", store.Reading: "/reading/date", store.Event: "/event/date", store.Note: "/date"}

// day refuses a day that cannot be.
func (l *sense) day(ctx context.Context, e *store.Entry) error {
	at := dayMembers[e.Kind]
	if at == "" || e.Day == "" {
		return nil
	}
	member := at[strings.LastIndexByte(at, '/')+1:]
	wrong := &wire.Refused{Why: wire.Wrong, Pointer: at, Code: "out_of_range"}
	if last := l.rack.tomorrow(); e.Day > last {
		wrong.Limit = method.Days("", last)
		wrong.Detail = member + " " + e.Day + " is still to come: it is at most " + last + ", a day after today by the clock of the service, for who is ahead of it; check the year"
		return wrong
	}
	if e.Kind != store.Reading && (e.Kind != store.Event || !slices.Contains(ends, e.Form)) {
		return nil // wood is felled, sawn, sealed and moved before it is stacked
	}
	of, err := l.of(ctx, e)
	if err != nil || of == nil || e.Day >= of.Day {
		return err
	}
	first := of.Day
	wrong.Limit = method.Days(first, "")
	wrong.Detail = member + " " + e.Day + " is before the " + string(e.Of.Kind) + " was stacked, " + first + ": check the year, or change stacked_on of the " + string(e.Of.Kind)
	return wrong
}

// of is the wood that an entry is of; nil where it is not there.
func (l *sense) of(ctx context.Context, e *store.Entry) (*store.Record, error) {
	if found, known := l.wood[e.Of]; known {
		return found, nil
	}
	found, err := l.rack.store.Get(ctx, e.Of)
	var unknown *store.Refusal
	switch {
	case errors.As(err, &unknown):
		l.wood[e.Of] = nil
	case err != nil:
		return nil, err
	default:
		l.wood[e.Of] = &found
	}
	return l.wood[e.Of], nil
}

// alone refuses a weight of what was weighed on that day already: no answer can take both.
func (l *sense) alone(ctx context.Context, e *store.Entry) error {
	if e.Kind != store.Reading || e.Form != weightForm {
		return nil
	}
	for i := range l.weights {
		if other := &l.weights[i]; other.Of == e.Of && other.Day == e.Day && other.ID != e.ID && aside(other.Body) == aside(e.Body) {
			return twice(e, other.ID, "which was sent with it: send one of them")
		}
	}
	there, _, err := l.rack.store.List(ctx, &store.Query{Kind: store.Reading, Of: e.Of, Form: weightForm, From: e.Day, Until: e.Day, Limit: store.MostPage})
	if err != nil {
		return told(err)
	}
	for i := range there {
		if other := &there[i]; other.ID != e.ID && aside(other.Body) == aside(e.Body) {
			return twice(e, other.ID, "and answers take one weight a day: change that one (PUT or PATCH /v1/rack/readings/"+other.ID+
				"), or take it back (POST .../undo) and send this again")
		}
	}
	l.weights = append(l.weights, *e)
	return nil
}

func twice(e *store.Entry, other, what string) error {
	return &wire.Refused{Why: wire.Conflict, Pointer: "/reading/date", Code: "conflict",
		Detail: "the " + string(e.Of.Kind) + " " + quote(e.Of.ID) + " was weighed on " + e.Day + " in the reading " + quote(other) + ", " + what}
}

// weightForm is the form of a weight among readings.
const weightForm = "weight"

// aside reports a reading of a sample board beside the wood.
func aside(reading []byte) bool {
	whole, err := objectOf(reading)
	if err != nil {
		return false
	}
	read, err := objectOf(whole["reading"])
	return err == nil && !ofBillet(read)
}

// tomorrow is the last day that something may be of: clocks east of that of the service are
// ahead by up to a day.
func (r *Rack) tomorrow() string { return dayAfter(r.today()) }
