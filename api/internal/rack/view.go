package rack

import (
	"context"
	"slices"
	"strings"
	"sync"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// view is what is on the rack now, in memory, as far as questions about all of it take it.
// It is brought up to date from the store before each use, by what was changed since. Only
// questions wait for it: entry does not.
type view struct {
	mu       sync.Mutex
	sequence int64 // of the last change it has seen
	now      map[store.Key]*store.Record
	owned    map[store.Key]map[store.Key]*store.Record // by what they belong to
}

// unviewed are the kinds that no question takes.
var unviewed = []store.Kind{store.Note}

// mostRead is how many changes are read at a time.
const mostRead = 1000

// seeing runs a function on what is on the rack now.
func (r *Rack) seeing(ctx context.Context, do func(*view) error) error {
	v := &r.view
	v.mu.Lock()
	defer v.mu.Unlock()
	for {
		changes, err := r.store.Since(ctx, v.sequence, mostRead)
		if err != nil {
			return err
		}
		for i := range changes {
			v.take(&changes[i])
		}
		if len(changes) < mostRead {
			return do(v)
		}
	}
}

// take takes a version of an entry.
func (v *view) take(r *store.Record) {
	if v.now == nil {
		v.now, v.owned = map[store.Key]*store.Record{}, map[store.Key]map[store.Key]*store.Record{}
	}
	v.sequence = r.Sequence
	if old := v.now[r.Key]; old != nil {
		delete(v.now, r.Key)
		delete(v.owned[old.Of], r.Key)
	}
	if r.Gone || slices.Contains(unviewed, r.Kind) {
		return
	}
	v.now[r.Key] = r
	if r.Of.Kind != "" {
		if v.owned[r.Of] == nil {
			v.owned[r.Of] = map[store.Key]*store.Record{}
		}
		v.owned[r.Of][r.Key] = r
	}
}

// all are the entries of a kind, in order of their days, then of their ids.
func (v *view) all(kind store.Kind) []*store.Record {
	var all []*store.Record
	for key, r := range v.now {
		if key.Kind == kind {
			all = append(all, r)
		}
	}
	return inDays(all)
}

// of are the entries of a kind that belong to an entry, in the same order.
func (v *view) of(kind store.Kind, key store.Key) ([]*store.Record, error) {
	var all []*store.Record
	for k, r := range v.owned[key] {
		if k.Kind == kind {
			all = append(all, r)
		}
	}
	if len(all) > mostReadings {
		return nil, &wire.Refused{Why: wire.Wrong, Code: "too_many_items", Limit: method.AtMost(mostReadings, "entries"),
			Detail: "it has more entries of the kind " + string(kind) + " than a question takes; remove some that no longer matter"}
	}
	return inDays(all), nil
}

// inTime orders a list by a day.
func inTime[T any](all []T, day func(*T) string) {
	slices.SortStableFunc(all, func(a, b T) int { return strings.Compare(day(&a), day(&b)) })
}

func inDays(all []*store.Record) []*store.Record {
	slices.SortFunc(all, func(a, b *store.Record) int {
		if by := strings.Compare(a.Day, b.Day); by != 0 {
			return by
		}
		return strings.Compare(a.ID, b.ID)
	})
	return all
}

// alike are the ids of a kind that are those of a key but for their case, in order.
func (v *view) alike(key store.Key) []string {
	var ids []string
	for k := range v.now {
		if k.Kind == key.Kind && strings.EqualFold(k.ID, key.ID) {
			ids = append(ids, k.ID)
		}
	}
	slices.Sort(ids)
	return ids
}
