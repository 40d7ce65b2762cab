// Package rack answers what is asked of a rack that is kept: billets with their readings
// and events, and the places they lie in. What is kept is what the questions take: the
// schemas are theirs. It decodes, asks the store and words what comes back.
package rack

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
	"unicode/utf8"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// Headers that refusals speak of.
const (
	ifMatch        = "If-Match"
	idempotencyKey = "Idempotency-Key"
)

// Rack is a rack that is kept in a store.
type Rack struct {
	store    store.Store
	now      func() time.Time
	weighing sync.Mutex // of looking at weights that come, and keeping them
	view     view
	learner
}

// New is the rack in a store.
func New(s store.Store) *Rack { return NewAt(s, time.Now) }

// NewAt is one with a clock of its own.
func NewAt(s store.Store, now func() time.Time) *Rack {
	r := &Rack{store: s, now: now}
	r.begin()
	return r
}

// Entered is a request that holds an entry of one kind.
type Entered interface {
	// entry is what is kept of it. Errors point at the request.
	entry(t *shelf.Tables) (store.Entry, error)
}

// Add keeps a new entry.
func Add(ctx context.Context, r *Rack, t *shelf.Tables, s *wire.Sent, req Entered) (*Kept, error) {
	entry, err := entryOf(t, req, s.Body)
	if err != nil {
		return nil, err
	}
	return r.change(ctx, s, store.Change{Deed: store.Create, Entry: entry})
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
	return r.change(ctx, s, store.Change{Deed: store.Replace, Entry: entry, If: seen})
}

func otherID(s *wire.Sent) error {
	return &wire.Refused{Why: wire.Wrong, Pointer: "/id", Code: "conflict", Detail: "id is that of the path, " + strconv.Quote(wire.Clipped(s.ID))}
}

// Remove takes an entry off the rack; an undo brings it back.
func Remove(ctx context.Context, r *Rack, kind store.Kind, s *wire.Sent) (*Kept, error) {
	return r.onSeen(ctx, kind, s, store.Change{Deed: store.Remove})
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
	return r.change(ctx, s, change)
}

// seen is the version that the sender says it saw. A change that was carried out already
// is let through: the store knows its key.
func (r *Rack) seen(ctx context.Context, key store.Key, s *wire.Sent) (int64, error) {
	if len(s.Seen) == 0 {
		return 0, unseen()
	}
	now, err := r.store.Get(ctx, key)
	if err != nil {
		return 0, told(err)
	}
	return sawOf(&now, s)
}

func unseen() error {
	return &wire.Refused{Why: wire.Unseen, Parameter: ifMatch, Code: "missing", Detail: "say which version you saw: If-Match with the ETag of the entry, or * for any"}
}

// sawOf is the version of an entry that the sender says it saw.
func sawOf(now *store.Record, s *wire.Sent) (int64, error) {
	if len(s.Seen) == 0 {
		return 0, unseen()
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

func changed(version int64) error {
	return &wire.Refused{Why: wire.Changed, Parameter: ifMatch, Code: "conflict", Detail: "the entry was changed since you saw it; it is at version " + strconv.FormatInt(version, 10) + " now: read it, and change that"}
}

// change carries out one change.
func (r *Rack) change(ctx context.Context, s *wire.Sent, change store.Change) (*Kept, error) {
	receipt, err := r.apply(ctx, s, change)
	if err != nil {
		return nil, told(err)
	}
	if change.Deed == store.Undo || change.Deed == store.Remove {
		return kept(&receipt.Records[0]), nil
	}
	look := scale{rack: r}
	return look.keptWithDoubts(ctx, &receipt.Records[0], ""), nil
}

func order(s *wire.Sent, changes ...store.Change) *store.Order {
	return &store.Order{Key: orderKey(s), Digest: s.Digest, By: s.By, Changes: changes}
}

// orderKey is the key of an order: that of the sender, among those of its token alone. What one
// token sent says nothing to who holds another.
func orderKey(s *wire.Sent) string {
	if s.Key == "" || s.By == "" {
		return s.Key
	}
	sum := sha256.Sum256([]byte(s.By + "\x00" + s.Key))
	return hex.EncodeToString(sum[:])
}

// keyOf is the entry of the path. What cannot be an id names none.
func keyOf(kind store.Kind, s *wire.Sent) (store.Key, error) {
	key := store.Key{Kind: kind, ID: s.ID}
	if !wire.ID.MatchString(s.ID) {
		return key, told(&store.Refusal{Why: store.NotFound, Key: key})
	}
	return key, nil
}

// current is the current version of the entry of the path.
func (r *Rack) current(ctx context.Context, kind store.Kind, s *wire.Sent) (store.Record, error) {
	key, err := keyOf(kind, s)
	if err != nil {
		return store.Record{}, err
	}
	now, err := r.store.Get(ctx, key)
	return now, told(err)
}

// Get is the current version of an entry.
func Get(ctx context.Context, r *Rack, kind store.Kind, s *wire.Sent) (*Kept, error) {
	now, err := r.current(ctx, kind, s)
	if err != nil {
		return nil, err
	}
	return kept(&now), nil
}

// Versions is every version of an entry, the first one first.
func Versions(ctx context.Context, r *Rack, kind store.Kind, s *wire.Sent) (*Page, error) {
	key, err := keyOf(kind, s)
	if err != nil {
		return nil, err
	}
	all, err := r.store.History(ctx, key)
	if err != nil {
		return nil, told(err)
	}
	total := len(all)
	from := min(s.Offset, total)
	return pageOf(all[from:min(from+s.Limit, total)], total), nil
}

// mostListed is how many rows a sheet of a list holds. Own choice: a shop of forty billets
// weighs less often in nine years; reading them takes some 50 MB.
const mostListed = 20_000

// List is a page of entries; as a sheet it holds all of them where no limit was asked for.
func List(ctx context.Context, r *Rack, t *shelf.Tables, kind store.Kind, s *wire.Sent) (*Page, error) {
	q := &store.Query{Kind: kind, Offset: s.Offset, Limit: s.Limit, Text: s.Asked["q"], Form: strings.ToLower(s.Asked["kind"]) + s.Asked["species"],
		Place: s.Asked["place"], From: s.Asked["from"], Until: s.Asked["until"], Gone: strings.EqualFold(s.Asked["removed"], "true")}
	for _, of := range []store.Kind{store.Billet, store.Piece} {
		if id := s.Asked[string(of)]; id != "" {
			q.Of = store.Key{Kind: of, ID: id}
		}
	}
	if err := asked(s); err != nil {
		return nil, err
	}
	if err := r.named(ctx, t, s); err != nil {
		return nil, err
	}
	if s.Sheet {
		q.Limit = mostListed
	}
	all, total, err := r.list(ctx, q)
	if err != nil {
		return nil, told(err)
	}
	page := pageOf(all, total)
	if end := s.Offset + len(all); len(all) > 0 && end < total {
		page.next = end
	}
	return page, nil
}

// list is a page of entries, of more than the store gives at once.
func (r *Rack) list(ctx context.Context, q *store.Query) (all []store.Record, total int, err error) {
	for part, most := *q, q.Limit; ; {
		part.Limit = min(most-len(all), store.MostPage)
		page, n, err := r.store.List(ctx, &part)
		if err != nil {
			return nil, 0, err
		}
		all, part.Offset = append(all, page...), part.Offset+len(page)
		if len(page) == 0 || len(all) >= most || part.Offset >= n {
			return all, n, nil
		}
	}
}

// named refuses filters that name what is not there: they would find nothing, as a word that
// is spelled wrong does.
func (r *Rack) named(ctx context.Context, t *shelf.Tables, s *wire.Sent) error {
	if species := s.Asked["species"]; species != "" {
		if _, known := t.Species.Wood(species); !known {
			detail := "the tables have no wood with the id " + wire.Quoted(species)
			if near := t.Species.Suggest(species, 3); len(near) > 0 {
				detail += "; did you mean " + wire.Either(near) + "?"
			}
			return &wire.Refused{Why: wire.Unread, Parameter: "species", Code: "not_found", Detail: detail, Limit: "one of " + strings.Join(t.NearestWoods(species), ", ")}
		}
	}
	return r.there(ctx, s)
}

// there refuses filters that name an entry that is not and was not on the rack.
func (r *Rack) there(ctx context.Context, s *wire.Sent) error {
	for _, kind := range []store.Kind{store.Place, store.Billet, store.Piece} {
		id := s.Asked[string(kind)]
		if id == "" {
			continue
		}
		key := store.Key{Kind: kind, ID: id}
		err := error(&store.Refusal{Why: store.NotFound, Key: key})
		if wire.ID.MatchString(id) {
			_, err = r.store.Get(ctx, key)
		}
		var none *store.Refusal
		if errors.As(err, &none) {
			return &wire.Refused{Why: wire.Unread, Parameter: string(kind), Code: "not_found", Absent: wire.Absent{Kind: string(kind), ID: id},
				Detail: "the " + string(kind) + " " + wire.Quoted(id) + " is not on the rack, and was not"}
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// asked refuses what no entry can be found by.
func asked(s *wire.Sent) error {
	for name, value := range s.Asked {
		wrong := &wire.Refused{Why: wire.Unread, Parameter: name, Code: "invalid_format"}
		switch _, err := shelf.ParseDay(name, value); {
		case (name == "from" || name == "until") && value != "" && err != nil:
			wrong.Detail = name + " is a date such as 2026-03-01"
		case !utf8.ValidString(value) || strings.ContainsRune(value, 0):
			wrong.Detail = name + " is plain text"
		default:
			continue
		}
		return wrong
	}
	if from, until := s.Asked["from"], s.Asked["until"]; from != "" && until != "" && until < from {
		return &wire.Refused{Why: wire.Unread, Parameter: "until", Code: "out_of_range", Limit: "at least " + from, Detail: "until is not before from, " + from + ", got " + until}
	}
	return nil
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
		return &wire.Refused{Why: wire.Wrong, Pointer: memberOf(r.Key.Kind), Code: "missing_data", Absent: absent, Detail: called + " is not on the rack; put it there first"}
	case store.Exists:
		return &wire.Refused{Why: wire.Conflict, Pointer: "/id", Code: "duplicate_id", Detail: called + " is or was on the rack; an id is used once, whatever its capitals"}
	case store.WasGone:
		return &wire.Refused{Why: wire.Conflict, Parameter: "id", Code: "conflict", Detail: called + " was removed; undo brings it back"}
	case store.Stale:
		return changed(r.Version)
	case store.NoVersion:
		return &wire.Refused{Why: wire.Conflict, Pointer: "/to_version", Code: "out_of_range", Limit: "1 to " + strconv.FormatInt(r.Version-1, 10), Detail: "there is no such version to go back to"}
	case store.UnderWay:
		return &wire.Refused{Why: wire.Conflict, Parameter: idempotencyKey, Code: "conflict", Detail: "a request with this Idempotency-Key is being carried out; send it again in a moment"}
	case store.OtherBody:
		return &wire.Refused{Why: wire.Wrong, Parameter: idempotencyKey, Code: "conflict", Detail: "another request was sent under this Idempotency-Key; make a new key for each"}
	case store.Full:
		return &wire.Refused{Why: wire.NoRoom, Code: "too_much_work", Detail: "the rack holds as much as it may"}
	case store.Malformed, store.NotEmpty:
	}
	return &wire.Refused{Why: wire.Wrong, Code: "invalid_format", Detail: r.Detail}
}

// quote is an id as it stands in a sentence.
func quote(id string) string { return strconv.Quote(wire.Clipped(id)) }

// memberOf is the member of a request that names an entry of a kind.
func memberOf(kind store.Kind) string { return "/" + string(kind) }
