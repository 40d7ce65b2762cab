package rack

import (
	"context"
	"errors"
	"strconv"
	"strings"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// WeighingDay is all that was read on a day, or since the phone last had a signal.
type WeighingDay struct {
	Readings []ReadingEntry `json:"readings" validate:"required,min=1,max=500,dive" description:"all are kept, or none where one of them is wrong"`
}

// AddDay keeps all readings of a weighing day, or none.
func AddDay(ctx context.Context, r *Rack, t *shelf.Tables, s *wire.Sent, req *WeighingDay) (*Page, error) {
	bodies, err := bodiesOf(s.Body, "readings")
	if err != nil || len(bodies) != len(req.Readings) {
		return nil, errors.Join(err, &wire.Refused{Why: wire.Wrong, Pointer: "/readings", Code: "wrong_type", Detail: "readings is a list"})
	}
	var changes []store.Change
	for i := range req.Readings {
		entry, err := entryOf(t, &req.Readings[i], bodies[i])
		if err != nil {
			return nil, inReading(i, err)
		}
		changes = append(changes, store.Change{Deed: store.Create, Entry: entry})
	}
	there, made, err := r.addDay(ctx, t, s, changes)
	if err != nil {
		return nil, err
	}
	look := scale{rack: r}
	p := &Page{Items: []*Kept{}, Total: len(changes), Unchanged: len(there)}
	for i := range changes {
		if was, is := there[i]; is {
			p.Items = append(p.Items, kept(was))
			continue
		}
		p.Items = append(p.Items, look.keptWithDoubts(ctx, &made[0], "/readings/"+strconv.Itoa(i)))
		made = made[1:]
	}
	return p, nil
}

// addDay keeps the readings of a day; those that are there already, as they are, are left, and
// told by their place among them.
func (r *Rack) addDay(ctx context.Context, t *shelf.Tables, s *wire.Sent, changes []store.Change) (there map[int]*store.Record, made []store.Record, err error) {
	there = map[int]*store.Record{}
	var asked []int // places of those that are sent on
	for i := range changes {
		asked = append(asked, i)
	}
	for len(asked) > 0 {
		var sent []store.Change
		for _, i := range asked {
			sent = append(sent, changes[i])
		}
		receipt, err := r.apply(ctx, t, s, sent...)
		if err == nil {
			return there, receipt.Records, nil
		}
		at, ofOne := changeOf(err)
		if !ofOne {
			return nil, nil, err
		}
		var refused *store.Refusal
		if !errors.As(err, &refused) || refused.Why != store.Exists {
			return nil, nil, inReading(asked[at], told(err))
		}
		before := len(asked)
		if asked, err = r.notThere(ctx, changes, asked, there); err != nil {
			return nil, nil, err
		}
		if len(asked) == before {
			return nil, nil, inReading(asked[at], told(refused))
		}
	}
	return there, nil, nil
}

// notThere are the places of those changes whose entries are not on the rack as they are; the
// others are added to there.
func (r *Rack) notThere(ctx context.Context, changes []store.Change, asked []int, there map[int]*store.Record) (left []int, err error) {
	for _, i := range asked {
		now, same, err := r.sameThere(ctx, &changes[i].Entry)
		if err != nil {
			return nil, err
		}
		if same {
			there[i] = now
			continue
		}
		left = append(left, i)
	}
	return left, nil
}

// sameThere reports an entry that is on the rack already, as it is.
func (r *Rack) sameThere(ctx context.Context, e *store.Entry) (now *store.Record, same bool, err error) {
	found, err := r.store.Get(ctx, e.Key)
	var unknown *store.Refusal
	if errors.As(err, &unknown) {
		return nil, false, nil
	}
	return &found, err == nil && !found.Gone && store.SameDocument(found.Body, e.Body), told(err)
}

// inReading points a refusal at one of the readings.
func inReading(i int, err error) error { return inMember("/readings/"+strconv.Itoa(i), err) }

// inMember points a refusal of an object at where that stands.
func inMember(at string, err error) error {
	var refused *wire.Refused
	if errors.As(err, &refused) && refused.Pointer != "" {
		refused.Pointer = at + refused.Pointer
	}
	return wire.Under(strings.TrimPrefix(at, "/"), err)
}
