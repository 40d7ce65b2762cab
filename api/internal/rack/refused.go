package rack

import (
	"context"
	"errors"
	"slices"
	"strconv"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

func otherID(s *wire.Sent) error {
	return &wire.Refused{Why: wire.Wrong, Pointer: "/id", Code: "conflict", Detail: "id is that of the path, " + strconv.Quote(wire.Clipped(s.ID))}
}

func unseen() error {
	return &wire.Refused{Why: wire.Unseen, Parameter: ifMatch, Code: "missing", Detail: "say which version you saw: If-Match with the ETag of the entry, or * for any"}
}

func changed(version int64) error {
	return &wire.Refused{Why: wire.Changed, Parameter: ifMatch, Code: "conflict", Detail: "the entry was changed since you saw it; it is at version " + strconv.FormatInt(version, 10) + " now: read it, and change that"}
}

// fewAlike is how many ids are told in place of one that is not there.
const fewAlike = 5

// Alike are the ids on the rack that are spelled most like that of an entry of a kind that is
// not there, the nearest first.
func (r *Rack) Alike(ctx context.Context, absent wire.Absent) (ids []string, err error) {
	kind := store.Kind(absent.Kind)
	if slices.Contains(unviewed, kind) {
		some, _, err := r.store.List(ctx, &store.Query{Kind: kind, Limit: store.MostPage})
		for i := range some {
			ids = append(ids, some[i].ID)
		}
		return wire.NearestFew(absent.ID, ids, fewAlike), err
	}
	err = r.seeing(ctx, func(v *view) error {
		for _, one := range v.all(kind) {
			ids = append(ids, one.ID)
		}
		return nil
	})
	return wire.NearestFew(absent.ID, ids, fewAlike), err
}

// told words what the store refuses.
func told(err error) error {
	var r *store.Refusal
	if !errors.As(err, &r) {
		return err
	}
	called := "the " + string(r.Key.Kind) + " " + quote(r.Key.ID)
	absent := wire.Absent{Kind: string(r.Key.Kind), ID: r.Key.ID}
	switch r.Why {
	case store.NotFound:
		return &wire.Refused{Why: wire.NotThere, Parameter: "id", Code: "not_found", Absent: absent, Detail: called + " is not on the rack"}
	case store.Missing:
		return &wire.Refused{Why: wire.Wrong, Pointer: r.Pointer, Code: "missing_data", Absent: absent, Detail: called + " is not on the rack; put it there first"}
	case store.Exists:
		return &wire.Refused{Why: wire.Conflict, Pointer: "/id", Code: "duplicate_id", Detail: called + " is or was on the rack; an id is used once, whatever its capitals"}
	case store.WasGone:
		return &wire.Refused{Why: wire.Conflict, Parameter: "id", Code: "conflict", Detail: called + " was removed; undo brings it back"}
	case store.Stale:
		return changed(r.Version)
	case store.NoVersion:
		return &wire.Refused{Why: wire.Conflict, Pointer: "/to_version", Code: "out_of_range", Limit: method.Between(1, float64(r.Version-1), ""), Detail: "there is no such version to go back to"}
	case store.UnderWay:
		return &wire.Refused{Why: wire.Conflict, Parameter: idempotencyKey, Code: "conflict", Detail: "a request with this Idempotency-Key is being carried out; send it again in a moment"}
	case store.OtherBody:
		return &wire.Refused{Why: wire.Wrong, Parameter: idempotencyKey, Code: "conflict", Detail: "another request was sent under this Idempotency-Key; make a new key for each"}
	case store.Full:
		return &wire.Refused{Why: wire.NoRoom, Code: "too_much_work", Detail: "the rack holds as much as it may"}
	case store.Malformed, store.NotEmpty:
	}
	if r.Pointer != "" {
		return &wire.Refused{Why: wire.Wrong, Pointer: r.Pointer, Code: "conflict", Detail: r.Detail}
	}
	return &wire.Refused{Why: wire.Wrong, Code: "invalid_format", Detail: r.Detail}
}

// quote is an id as it stands in a sentence.
func quote(id string) string { return strconv.Quote(wire.Clipped(id)) }
