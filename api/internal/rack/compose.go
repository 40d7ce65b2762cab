package rack

import (
	"cmp"
	"context"
	"encoding/json"
	"slices"
	"strconv"

	"latewood/api/internal/rack/store"
)

// members are those of a JSON object as they were sent.
type members map[string]json.RawMessage

// composed is what is kept of one piece of wood, as the questions take it.
type composed struct {
	record   store.Record
	members                  // billet, stays, readings, target_condition
	readings []string        // ids of the readings, in their order
	weights  []*store.Record // of the wood itself, in order of time
	lightens []*store.Record // what took wood off, likewise
	left     []leftOut       // readings that no question can take
	ahead    string          // day of a reading of tomorrow, by clocks east of that of the service; empty: none is
}

// mostReadings is how many readings of a billet a question takes.
const mostReadings = 500

// compose gathers what is kept of a billet or a piece.
func (r *Rack) compose(ctx context.Context, key store.Key) (c *composed, err error) {
	err = r.seeing(ctx, func(v *view) error {
		now := v.now[key]
		if now == nil {
			return nil
		}
		events, err := v.of(store.Event, key)
		if err == nil {
			c, err = v.compose(now, events, r.today())
		}
		return err
	})
	if c != nil || err != nil {
		return c, err
	}
	// It was removed, or was never there.
	gone, err := r.store.Get(ctx, key)
	if err == nil {
		err = &store.Refusal{Why: store.WasGone, Key: gone.Key}
	}
	return nil, told(err)
}

// compose gathers what belongs to a record, which had these events, on a day. What an entry names
// and is not there any more is as if it was not named. Where something is wrong, what was gathered
// so far is given beside the error.
func (v *view) compose(now *store.Record, events []*store.Record, today string) (*composed, error) {
	c := &composed{record: *now, members: members{}}
	sent, err := objectOf(now.Body)
	if err != nil {
		return c, err
	}
	for _, name := range []string{"billet", "stays", "target_condition"} {
		if sent[name] != nil {
			c.members[name] = sent[name]
		}
	}
	if c.members["stays"] == nil {
		if err := v.staysOf(c, events); err != nil {
			return c, err
		}
	}
	if err := v.targetOf(c, sent["target"]); err != nil {
		return c, err
	}
	return c, v.readingsOf(c, events, today)
}

// targetOf takes what is built for where the entry itself does not say what it is to come to.
func (v *view) targetOf(c *composed, target json.RawMessage) error {
	if c.members["target_condition"] != nil || target == nil {
		return nil
	}
	found := v.now[store.Key{Kind: store.Target, ID: textOf(target)}]
	if found == nil { // it was removed since
		return nil
	}
	object, err := objectOf(found.Body)
	if object["target_condition"] != nil {
		c.members["target_condition"] = object["target_condition"]
	}
	return err
}

// from is a place that wood lies in from a day on.
type from struct {
	day  string
	stay members
}

// staysOf tells where wood has lain by the stays of the rack, by its events with a place, and
// else by the place it lies in, as far as the air there is known. Without a day of stacking
// there are none: the forecast begins there.
func (v *view) staysOf(c *composed, events []*store.Record) error {
	kept, err := v.of(store.Stay, c.record.Key)
	if err != nil {
		return err
	}
	stacked := c.record.Day
	if stacked == "" {
		return nil
	}
	var all []from
	add := func(day, place string, body json.RawMessage) error {
		if body == nil && place != "" {
			if body, err = v.airOf(place); err != nil {
				return err
			}
		}
		if body == nil {
			return nil
		}
		stay, err := objectOf(body)
		all = append(all, from{day, stay})
		return err
	}
	for i := range kept {
		sent, err := objectOf(kept[i].Body)
		if err != nil {
			return err
		}
		if err := add(kept[i].Day, kept[i].Place, sent["stay"]); err != nil {
			return err
		}
	}
	for i := range events {
		if err := add(events[i].Day, events[i].Place, nil); err != nil {
			return err
		}
	}
	if all == nil {
		if err := add(stacked, c.record.Place, nil); err != nil || all == nil {
			return err
		}
	}
	c.members["stays"], err = json.Marshal(inOrder(all, stacked))
	return err
}

// airOf is the air of a place, as a stay; nil where it is not known.
func (v *view) airOf(place string) (json.RawMessage, error) {
	found := v.now[store.Key{Kind: store.Place, ID: place}]
	if found == nil { // it was removed since
		return nil, nil
	}
	object, err := objectOf(found.Body)
	return object["stay"], err
}

// inOrder ends each stay where the next one begins. The first one goes back to the day of
// stacking; those that ended before it are left out, and of two of one day the later one of
// the list counts.
func inOrder(all []from, stacked string) []members {
	slices.SortStableFunc(all, func(a, b from) int { return cmp.Compare(a.day, b.day) })
	var stays []members
	for i, s := range all {
		delete(s.stay, "until")
		if i+1 < len(all) {
			if all[i+1].day <= stacked || all[i+1].day == s.day {
				continue
			}
			s.stay["until"] = json.RawMessage(strconv.Quote(all[i+1].day))
		}
		stays = append(stays, s.stay)
	}
	return stays
}

// cuts are the events after which a weight is that of another body.
var cuts = []string{"trimmed", "planed", "ripped", "sealed"}

// readingsOf adds the readings, in order of their days. A weight after wood was taken off
// says so; without stays, where weights of two bodies cannot be told apart, only those since
// are taken.
func (v *view) readingsOf(c *composed, events []*store.Record, today string) error {
	all, err := v.of(store.Reading, c.record.Key)
	if err != nil {
		return err
	}
	all = c.usable(all, today)
	events = slices.DeleteFunc(slices.Clone(events), func(e *store.Record) bool { return !slices.Contains(cuts, e.Form) })
	alone := c.members["stays"] == nil
	readings, next := []members{}, 0
	for i := range all {
		object, err := objectOf(all[i].Body)
		if err != nil {
			return err
		}
		reading, err := objectOf(object["reading"])
		if err != nil {
			return err
		}
		if all[i].Form == "weight" {
			if ofBillet(reading) {
				c.weights = append(c.weights, all[i])
			}
			cut := ""
			for next < len(events) && events[next].Day <= all[i].Day {
				cut, next = events[next].Form, next+1
			}
			switch {
			case alone && next < len(events):
				continue // wood was taken off since
			case alone || cut == "" || reading["event"] != nil || !ofBillet(reading):
			case len(readings) > 0:
				reading["event"] = json.RawMessage(strconv.Quote(cut))
			}
		}
		readings, c.readings = append(readings, reading), append(c.readings, all[i].ID)
	}
	c.lightens = events
	c.members["readings"], err = json.Marshal(readings)
	return err
}

// ofBillet reports a weight of the piece itself, and not of a sample board beside it.
func ofBillet(reading members) bool { return string(reading["of"]) != `"sample_board"` }

// objectOf reads an object, whose members stay as they are.
func objectOf(text []byte) (members, error) {
	object := members{}
	if len(text) == 0 {
		return object, nil
	}
	return object, json.Unmarshal(text, &object)
}
