// Package rack answers what is asked of a rack that is kept: billets with their readings
// and events, and the places they lie in. What is kept is what the questions take: the
// schemas are theirs. It decodes, asks the store and words what comes back.
package rack

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"sync"
	"time"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/wire"
)

// Headers that refusals speak of.
const (
	ifMatch        = "If-Match"
	ifNoneMatch    = "If-None-Match"
	idempotencyKey = "Idempotency-Key"
)

// Rack is a rack that is kept in a store.
type Rack struct {
	store    store.Store
	now      func() time.Time
	weighing sync.Mutex // of looking at weights that come, and keeping them
	merging  sync.Mutex // of changes of members of whatever version is there
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
