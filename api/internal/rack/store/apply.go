package store

import (
	"context"
	"database/sql"
	"encoding/hex"
	"errors"
	"slices"
	"strings"
	"time"
)

// Apply carries out an order, all of it or nothing.
func (b *base) Apply(ctx context.Context, order *Order) (Receipt, error) {
	if refused := order.check(); refused != nil {
		return Receipt{}, refused
	}
	if order.Key != "" {
		if !b.start(order.Key) {
			return Receipt{}, &Refusal{Why: UnderWay}
		}
		defer b.end(order.Key)
	}
	tx, err := b.writer.BeginTx(ctx, nil)
	if err != nil {
		return Receipt{}, err
	}
	receipt, err := b.carryOut(ctx, tx, order)
	if err != nil || receipt.Repeated {
		return receipt, errors.Join(err, tx.Rollback())
	}
	return receipt, tx.Commit()
}

func (b *base) start(key string) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.underWay[key] {
		return false
	}
	b.underWay[key] = true
	return true
}

func (b *base) end(key string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	delete(b.underWay, key)
}

// hand is an order that is being carried out in a transaction.
type hand struct {
	*base
	tx       *sql.Tx
	by       string
	at       time.Time
	sequence int64 // of the last version written
	entries  int64 // of the shop before the order
	made     int64 // new entries
}

func (b *base) carryOut(ctx context.Context, tx *sql.Tx, order *Order) (Receipt, error) {
	h := &hand{base: b, tx: tx, by: order.By, at: b.now().UTC().Truncate(time.Microsecond)}
	if order.Key != "" {
		got, err := b.claim(ctx, tx, b.shop, order.Key)
		if err != nil {
			return Receipt{}, err
		}
		if !got {
			return Receipt{}, &Refusal{Why: UnderWay}
		}
	}
	size := int64(len(order.Changes))
	if err := tx.QueryRowContext(ctx, takeTurn, size, b.shop).Scan(&h.sequence, &h.entries); err != nil {
		return Receipt{}, err
	}
	h.sequence -= size
	if order.Key != "" {
		if saved, err := h.saved(ctx, order); err != nil || saved.Repeated {
			return saved, err
		}
	}
	if same, err := h.unchanged(ctx, order); err != nil || same.Repeated {
		return same, err
	}
	var receipt Receipt
	for i := range order.Changes {
		r, err := h.change(ctx, &order.Changes[i])
		if err != nil {
			var refused *Refusal
			if errors.As(err, &refused) {
				refused.Change = i
			}
			return Receipt{}, err
		}
		receipt.Records = append(receipt.Records, r)
	}
	return receipt, h.finish(ctx, order)
}

// saved is the answer to an order that was carried out before.
func (h *hand) saved(ctx context.Context, order *Order) (Receipt, error) {
	var digest string
	var first, last int64
	err := h.tx.QueryRowContext(ctx, readDone, h.shop, order.Key).Scan(&digest, &first, &last)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return Receipt{}, nil
	case err != nil:
		return Receipt{}, err
	case digest != hex.EncodeToString(order.Digest[:]):
		return Receipt{}, &Refusal{Why: OtherBody}
	}
	all, err := records(h.tx.QueryContext(ctx, readSince, h.shop, first-1, last-first+1))
	return Receipt{Records: all, Repeated: true}, err
}

// unchanged is the answer to an order of one change that would leave an entry as it is: no
// version is made.
func (h *hand) unchanged(ctx context.Context, order *Order) (Receipt, error) {
	c := &order.Changes[0]
	if len(order.Changes) > 1 || c.Deed != Replace {
		return Receipt{}, nil
	}
	now, err := scan(h.tx.QueryRowContext(ctx, readEntry, h.shop, c.Entry.Kind, c.Entry.ID))
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return Receipt{}, nil
	case err != nil || c.against(&now, true) != nil || !c.Entry.Same(&now.Entry):
		return Receipt{}, err
	}
	return Receipt{Records: []Record{now}, Repeated: true}, nil
}

// finish writes down what the order did.
func (h *hand) finish(ctx context.Context, order *Order) error {
	if h.made > 0 {
		if h.entries+h.made > MostEntries {
			return &Refusal{Why: Full}
		}
		if _, err := h.tx.ExecContext(ctx, countNew, h.made, h.shop); err != nil {
			return err
		}
	}
	if order.Key == "" {
		return nil
	}
	first := h.sequence - int64(len(order.Changes)) + 1
	_, err := h.tx.ExecContext(ctx, addDone, h.shop, order.Key, hex.EncodeToString(order.Digest[:]), first, h.sequence)
	return err
}

// change makes one change.
func (h *hand) change(ctx context.Context, c *Change) (Record, error) {
	key := c.Entry.Key
	now, err := scan(h.tx.QueryRowContext(ctx, readEntry, h.shop, key.Kind, key.ID))
	known := !errors.Is(err, sql.ErrNoRows)
	if err != nil && known {
		return Record{}, err
	}
	if refused := c.against(&now, known); refused != nil {
		return Record{}, refused
	}
	next := Record{Entry: c.Entry, Version: now.Version + 1, Restores: NoUndo, At: h.at, By: h.by}
	switch c.Deed {
	case Create:
		if err := h.unlike(ctx, key); err != nil {
			return Record{}, err
		}
		h.made++
	case Replace:
	case Remove:
		next.Entry, next.Gone = now.Entry, true
	case Undo:
		if err := h.restore(ctx, c.To, &now, &next); err != nil {
			return Record{}, err
		}
	}
	return h.write(ctx, &next, now.standing())
}

// unlike refuses a new id that differs from one of its kind only in its capitals: labels and
// sheets are read whatever theirs are.
func (h *hand) unlike(ctx context.Context, key Key) error {
	like := key
	err := h.tx.QueryRowContext(ctx, readLike, h.shop, key.Kind, key.ID).Scan(&like.ID)
	if errors.Is(err, sql.ErrNoRows) {
		return nil
	}
	if err != nil {
		return err
	}
	return &Refusal{Why: Exists, Key: like}
}

// against says why a change does not go with what is there now; nil if it does.
func (c *Change) against(now *Record, known bool) *Refusal {
	refused := &Refusal{Key: c.Entry.Key, Version: now.Version}
	switch {
	case c.Deed == Create && known:
		refused.Why = Exists
	case c.Deed == Create:
		return nil
	case !known:
		refused.Why = NotFound
	case c.If != AnyVersion && c.If != now.Version:
		refused.Why = Stale
	case now.Gone && c.Deed != Undo:
		refused.Why = WasGone
	case now.Version >= MostVersions:
		refused.Why = Full
	case c.To >= now.Version:
		refused.Why = NoVersion
	case c.Deed == Replace && c.Entry.Kind == Piece && c.Entry.Of != now.Of:
		refused.Why, refused.Pointer, refused.Detail = Malformed, "/parent", "a piece stays one of what it was cut from"
	default:
		return nil
	}
	return refused
}

// restore makes next what the entry was at a version; 0: before its last change, where a
// change that was itself an undo counts as the version it brought back.
func (h *hand) restore(ctx context.Context, to int64, now, next *Record) error {
	if to == 0 {
		to = now.Before()
	}
	next.Entry, next.Gone, next.Restores = now.Entry, true, 0
	if to == 0 { // before it was created
		return nil
	}
	was, err := scan(h.tx.QueryRowContext(ctx, readVersion, h.shop, now.Kind, now.ID, to))
	if err != nil {
		return err
	}
	next.Entry, next.Gone, next.Restores = was.Entry, was.Gone, to
	if was.Restores != NoUndo {
		next.Restores = was.Restores
	}
	return nil
}

// standing are the entries that a version needed; what is kept of them may be removed by now,
// and does not keep anyone from changing the rest.
func (r *Record) standing() []Key {
	if r.Gone {
		return nil
	}
	return r.needs()
}

// write adds a version and makes it the current one. What the one before needed is not looked
// for again.
func (h *hand) write(ctx context.Context, r *Record, before []Key) (Record, error) {
	if !r.Gone {
		if err := h.look(ctx, r, before); err != nil {
			return Record{}, err
		}
	}
	h.sequence++
	r.Sequence = h.sequence
	return *r, h.put(ctx, r)
}

// put writes a version as it is.
func (h *hand) put(ctx context.Context, r *Record) error {
	ofKind, ofID := optional(string(r.Of.Kind)), optional(r.Of.ID)
	_, err := h.tx.ExecContext(ctx, addVersion, h.shop, r.Kind, r.ID, r.Version, r.Sequence, r.Restores, number(r.Gone),
		ofKind, ofID, r.Form, r.Day, r.Place, r.Label, string(r.Body), r.At.UnixMicro(), r.By)
	if err != nil {
		return err
	}
	_, err = h.tx.ExecContext(ctx, setEntry, h.shop, r.Kind, r.ID, r.Version, number(r.Gone),
		ofKind, ofID, r.Form, r.Day, r.Place, strings.ToLower(r.ID+" "+r.Label))
	return err
}

// look looks for what the entry needs, but for what it needed before.
func (h *hand) look(ctx context.Context, r *Record, before []Key) error {
	for _, named := range r.References() {
		if slices.Contains(before, named.Key) {
			continue
		}
		var gone int64
		err := h.tx.QueryRowContext(ctx, isThere, h.shop, named.Key.Kind, named.Key.ID).Scan(&gone)
		if errors.Is(err, sql.ErrNoRows) || err == nil && gone != 0 {
			return &Refusal{Why: Missing, Key: named.Key, Pointer: named.Pointer}
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func optional(text string) sql.NullString { return sql.NullString{String: text, Valid: text != ""} }
