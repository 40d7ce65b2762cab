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
	receipt, err := r.apply(ctx, s, changes...)
	if i, is := changeOf(err); is {
		return nil, inReading(i, told(err))
	}
	if err != nil {
		return nil, err
	}
	look := scale{rack: r}
	p := &Page{Items: []*Kept{}, Total: len(receipt.Records)}
	for i := range receipt.Records {
		p.Items = append(p.Items, look.keptWithDoubts(ctx, &receipt.Records[i], "/readings/"+strconv.Itoa(i)))
	}
	return p, nil
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
