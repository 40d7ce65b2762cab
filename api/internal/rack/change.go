package rack

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Add keeps a new entry.
func Add(ctx context.Context, r *Rack, t *shelf.Tables, s *wire.Sent, req Entered) (*Kept, error) {
	entry, err := entryOf(t, req, s.Body)
	if err != nil {
		return nil, err
	}
	return r.change(ctx, t, s, store.Change{Deed: store.Create, Entry: entry})
}

// Replace puts an entry in the place of the version that the sender saw.
func Replace(ctx context.Context, r *Rack, t *shelf.Tables, s *wire.Sent, req Again) (*Kept, error) {
	body, err := withoutKeeping(s.Body)
	if err != nil {
		return nil, err
	}
	entry, err := entryOf(t, req, body)
	if err != nil {
		return nil, err
	}
	if entry.ID != s.ID {
		return nil, otherID(s)
	}
	seen, err := r.seen(ctx, entry.Key, s)
	if err != nil {
		return nil, err
	}
	if seen, err = r.ofVersion(ctx, entry.Key, req.back(), seen); err != nil {
		return nil, err
	}
	return r.change(ctx, t, s, store.Change{Deed: store.Replace, Entry: entry, If: seen})
}

// Remove takes an entry off the rack; an undo brings it back.
func Remove(ctx context.Context, r *Rack, kind store.Kind, s *wire.Sent) (*Kept, error) {
	gone, err := r.onSeen(ctx, kind, s, store.Change{Deed: store.Remove})
	if err != nil {
		return nil, err
	}
	gone.Warnings, err = r.stillNamed(ctx, store.Key{Kind: kind, ID: s.ID})
	return gone, err
}

// mostNamed is how many of those that name an entry are told.
const mostNamed = 10

// stillNamed tells who names an entry that was taken off: it stays as it is, and is asked about as
// if it did not name it.
func (r *Rack) stillNamed(ctx context.Context, key store.Key) ([]method.Warning, error) {
	var by []store.Key
	err := r.seeing(ctx, func(v *view) error {
		for _, kind := range store.Kinds {
			for _, one := range v.all(kind) {
				if slices.ContainsFunc(one.References(), func(named store.Reference) bool { return named.Key == key }) {
					by = append(by, one.Key)
				}
			}
		}
		return nil
	})
	if err != nil || by == nil {
		return nil, err
	}
	var told []string
	for _, one := range by[:min(len(by), mostNamed)] {
		told = append(told, string(one.Kind)+" "+quote(one.ID))
	}
	if more := len(by) - len(told); more > 0 {
		told = append(told, strconv.Itoa(more)+" more")
	}
	return []method.Warning{{Code: method.CheckInput, Input: "/id", Detail: "the " + string(key.Kind) + " " + quote(key.ID) + " is still named by " + strings.Join(told, ", ") +
		"; undo brings it back, or change what names it"}}, nil
}

// UndoRequest says how far to go back.
type UndoRequest struct {
	To *int `json:"to_version,omitempty" validate:"omitempty,gte=1,lte=10000" description:"the version to bring back. Left out: the one before the last change"`
}

// Undo brings an earlier version back, as a new one: nothing is overwritten.
func Undo(ctx context.Context, r *Rack, kind store.Kind, s *wire.Sent, req *UndoRequest) (*Kept, error) {
	change := store.Change{Deed: store.Undo}
	if req.To != nil {
		change.To = int64(*req.To)
	}
	return r.onSeen(ctx, kind, s, change)
}

// onSeen changes the entry of the path as the sender saw it.
func (r *Rack) onSeen(ctx context.Context, kind store.Kind, s *wire.Sent, change store.Change) (*Kept, error) {
	var err error
	if change.Entry.Key, err = keyOf(kind, s); err != nil {
		return nil, err
	}
	if change.If, err = r.seen(ctx, change.Entry.Key, s); err != nil {
		return nil, err
	}
	return r.change(ctx, nil, s, change)
}

// seen is the version that the sender says it saw. A change that was carried out already
// is let through: the store knows its key.
func (r *Rack) seen(ctx context.Context, key store.Key, s *wire.Sent) (int64, error) {
	if err := givesSeen(s); err != nil {
		return 0, err
	}
	now, err := r.store.Get(ctx, key)
	if err != nil {
		return 0, told(err)
	}
	return sawOf(&now, s)
}

// givesSeen refuses a change of an entry that is there where the sender does not say what it saw,
// or that it saw none.
func givesSeen(s *wire.Sent) error {
	switch {
	case s.New:
		return &wire.Refused{Why: wire.Changed, Parameter: ifNoneMatch, Code: "conflict", Detail: "If-None-Match: * asks that there is no such entry, and this changes one that is there: leave it out"}
	case len(s.Seen) == 0:
		return unseen()
	}
	return nil
}

// sawOf is the version of an entry that the sender says it saw.
func sawOf(now *store.Record, s *wire.Sent) (int64, error) {
	if err := givesSeen(s); err != nil {
		return 0, err
	}
	for _, tag := range s.Seen {
		if tag == "*" {
			return store.AnyVersion, nil
		}
		if tag == tagOf(now) {
			return now.Version, nil
		}
	}
	if now.Version > 1 && s.Key != "" {
		return now.Version - 1, nil // stale, unless the order is known by its key
	}
	return 0, changed(now.Version)
}

// change carries out one change; t may be nil where nothing is sent.
func (r *Rack) change(ctx context.Context, t *shelf.Tables, s *wire.Sent, change store.Change) (*Kept, error) {
	receipt, err := r.apply(ctx, t, s, change)
	if err != nil {
		return nil, told(err)
	}
	if change.Deed == store.Undo || change.Deed == store.Remove {
		return kept(&receipt.Records[0]), nil
	}
	look := scale{rack: r}
	return look.keptWithDoubts(ctx, &receipt.Records[0], ""), nil
}
