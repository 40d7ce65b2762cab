package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// Load fills an empty rack with all versions of another, in order, its orders and its
// photos.
func (b *base) Load(ctx context.Context, all []Record, done []Done, photos []Photo) error {
	if err := wholeHistory(all, done, photos); err != nil {
		return err
	}
	tx, err := b.writer.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	if err := b.fill(ctx, tx, all, done, photos); err != nil {
		return errors.Join(err, tx.Rollback())
	}
	return tx.Commit()
}

func (b *base) fill(ctx context.Context, tx *sql.Tx, all []Record, done []Done, photos []Photo) error {
	h := &hand{base: b, tx: tx}
	size := int64(len(all))
	if err := tx.QueryRowContext(ctx, takeTurn, size, b.shop).Scan(&h.sequence, &h.entries); err != nil {
		return err
	}
	if h.sequence != size {
		return &Refusal{Why: NotEmpty}
	}
	for i := range all {
		if err := h.put(ctx, &all[i]); err != nil {
			return err
		}
		if all[i].Version == 1 {
			h.made++
		}
	}
	if _, err := tx.ExecContext(ctx, countNew, h.made, b.shop); err != nil {
		return err
	}
	for _, d := range done {
		if _, err := tx.ExecContext(ctx, addDone, b.shop, d.Key, d.Digest, d.First, d.Last); err != nil {
			return err
		}
	}
	for i := range photos {
		if err := h.putPhoto(ctx, &photos[i]); err != nil {
			return err
		}
	}
	return nil
}

// wholeHistory refuses what cannot be all versions of a rack in order.
func wholeHistory(all []Record, done []Done, photos []Photo) error {
	versions := map[Key]int64{}
	for i := range all {
		r := &all[i]
		wrong := (&Change{Deed: Create, Entry: r.Entry}).wrong()
		switch {
		case wrong != "":
		case r.Sequence != int64(i)+1:
			wrong = "the sequence is not whole"
		case r.Version != versions[r.Key]+1:
			wrong = "the versions are not whole"
		case r.Restores < NoUndo || r.Restores >= r.Version:
			wrong = "no such version can have been brought back"
		case r.Of.Kind != "" && versions[r.Of] == 0:
			wrong = "what it belongs to does not stand before it"
		case !plain(r.By) || len(r.By) > 64:
			wrong = "the sender is not plain text"
		}
		if wrong != "" {
			return &Refusal{Why: Malformed, Change: i, Key: r.Key, Detail: wrong}
		}
		versions[r.Key]++
	}
	if len(versions) > MostEntries {
		return &Refusal{Why: Full}
	}
	for _, d := range done {
		if !id.MatchString(d.Key) || d.First < 1 || d.Last < d.First || d.Last > int64(len(all)) || len(d.Digest) != 64 {
			return &Refusal{Why: Malformed, Detail: fmt.Sprintf("the order %q made none of these versions", d.Key)}
		}
	}
	return wholePhotos(photos, versions)
}
