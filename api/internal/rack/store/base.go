package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"sync"
	"time"
)

// base is a store on a database that is spoken to in SQL. What SQLite and PostgreSQL do
// not share stands in dialect.
type base struct {
	dialect
	shop    string
	writer  *sql.DB
	readers *sql.DB
	now     func() time.Time

	mu       sync.Mutex
	underWay map[string]bool // keys of orders, in this process
}

// dialect is what differs between the databases.
type dialect interface {
	// claim takes the key of an order for a transaction among all processes; false:
	// another one is carrying it out.
	claim(ctx context.Context, tx *sql.Tx, shop, key string) (bool, error)
	// sound asks the database whether what it holds is whole.
	sound(ctx context.Context, db *sql.DB) error
	// reading are the options of a transaction that sees one state of the rack.
	reading() *sql.TxOptions
}

// begin lets the shop be known.
func (b *base) begin(ctx context.Context) error {
	_, err := b.writer.ExecContext(ctx, beginShop, b.shop)
	return err
}

// Close closes the database.
func (b *base) Close() error {
	if b.readers == b.writer {
		return b.writer.Close()
	}
	return errors.Join(b.readers.Close(), b.writer.Close())
}

// looking runs a function on one state of the rack.
func (b *base) looking(ctx context.Context, look func(tx *sql.Tx) error) error {
	tx, err := b.readers.BeginTx(ctx, b.reading())
	if err != nil {
		return err
	}
	defer tx.Rollback() //nolint:errcheck // nothing was changed
	return look(tx)
}

// Get is the current version of an entry.
func (b *base) Get(ctx context.Context, key Key) (Record, error) {
	r, err := scan(b.readers.QueryRowContext(ctx, readEntry, b.shop, key.Kind, key.ID))
	if errors.Is(err, sql.ErrNoRows) {
		return Record{}, &Refusal{Why: NotFound, Key: key}
	}
	return r, err
}

// List is a page of entries.
func (b *base) List(ctx context.Context, q *Query) (page []Record, total int, err error) {
	about := []any{b.shop, q.Kind, number(q.Gone), q.Of.Kind, q.Of.ID, q.Form, q.Place, q.From, q.Until, pattern(q.Text)}
	err = b.looking(ctx, func(tx *sql.Tx) error {
		if err := tx.QueryRowContext(ctx, countEntries, about...).Scan(&total); err != nil {
			return err
		}
		page, err = records(tx.QueryContext(ctx, listEntries, append(about, min(max(q.Limit, 0), MostPage), max(q.Offset, 0))...))
		return err
	})
	return page, total, err
}

// pattern finds a text inside another.
func pattern(text string) string {
	return "%" + strings.NewReplacer(`\`, `\\`, "%", `\%`, "_", `\_`).Replace(strings.ToLower(text)) + "%"
}

// History is every version of an entry.
func (b *base) History(ctx context.Context, key Key) ([]Record, error) {
	all, err := records(b.readers.QueryContext(ctx, readHistory, b.shop, key.Kind, key.ID))
	if err == nil && len(all) == 0 {
		return nil, &Refusal{Why: NotFound, Key: key}
	}
	return all, err
}

// Since is every version after a sequence.
func (b *base) Since(ctx context.Context, sequence int64, most int) ([]Record, error) {
	return records(b.readers.QueryContext(ctx, readSince, b.shop, sequence, most))
}

// Done is every order that was carried out under a key.
func (b *base) Done(ctx context.Context) ([]Done, error) {
	rows, err := b.readers.QueryContext(ctx, listDone, b.shop)
	if err != nil {
		return nil, err
	}
	defer rows.Close() //nolint:errcheck // Err tells
	var all []Done
	for rows.Next() {
		var d Done
		if err := rows.Scan(&d.Key, &d.Digest, &d.First, &d.Last); err != nil {
			return nil, err
		}
		all = append(all, d)
	}
	return all, rows.Err()
}

// Check asks the database whether it is whole, and the rack whether it holds what cannot
// be right.
func (b *base) Check(ctx context.Context) error {
	if err := b.sound(ctx, b.readers); err != nil {
		return err
	}
	return b.consistent(ctx)
}

// consistent looks for what contradicts itself.
func (b *base) consistent(ctx context.Context) error {
	return b.looking(ctx, func(tx *sql.Tx) error {
		for _, c := range contradictions {
			var n int
			if err := tx.QueryRowContext(ctx, c.query, b.shop).Scan(&n); err != nil {
				return err
			}
			if n > 0 {
				return fmt.Errorf("the rack contradicts itself: %s (%d times)", c.what, n)
			}
		}
		return nil
	})
}

// row is what a record is read from.
type row interface{ Scan(into ...any) error }

func scan(from row) (Record, error) {
	var r Record
	var ofKind, ofID sql.NullString
	var at, gone int64
	err := from.Scan(&r.Kind, &r.ID, &r.Version, &r.Sequence, &r.Restores, &gone, &ofKind, &ofID,
		&r.Form, &r.Day, &r.Place, &r.Label, (*[]byte)(&r.Body), &at, &r.By)
	r.Of, r.Gone, r.At = Key{Kind(ofKind.String), ofID.String}, gone != 0, time.UnixMicro(at).UTC()
	return r, err
}

func records(rows *sql.Rows, err error) ([]Record, error) {
	if err != nil {
		return nil, err
	}
	defer rows.Close() //nolint:errcheck // Err tells
	var all []Record
	for rows.Next() {
		r, err := scan(rows)
		if err != nil {
			return nil, err
		}
		all = append(all, r)
	}
	return all, rows.Err()
}

// number is a truth as both databases keep it.
func number(truth bool) int64 {
	if truth {
		return 1
	}
	return 0
}
