package store

import (
	"context"
	"encoding/json"
)

// Learn keeps what was found out about an entry.
func (b *base) Learn(ctx context.Context, what *Learned) error {
	if detail := what.wrong(); detail != "" {
		return malformed(0, what.Key, detail)
	}
	_, err := b.writer.ExecContext(ctx, learn, b.shop, what.Kind, what.ID, what.Basis, string(what.Answer))
	return err
}

// wrong says what is not well formed.
func (l *Learned) wrong() string {
	switch {
	case belongs[l.Kind] == nil || !id.MatchString(l.ID):
		return "there is no such entry"
	case len(l.Basis) != 64:
		return "the basis is a digest in hex"
	case len(l.Answer) == 0 || len(l.Answer) > MostBody || !json.Valid(l.Answer):
		return "what is learned is JSON, and not too long"
	}
	return ""
}

// Learned is all that was found out.
func (b *base) Learned(ctx context.Context) ([]Learned, error) {
	rows, err := b.readers.QueryContext(ctx, listLearned, b.shop)
	if err != nil {
		return nil, err
	}
	defer rows.Close() //nolint:errcheck // Err tells
	var all []Learned
	for rows.Next() {
		var l Learned
		if err := rows.Scan(&l.Kind, &l.ID, &l.Basis, (*[]byte)(&l.Answer)); err != nil {
			return nil, err
		}
		all = append(all, l)
	}
	return all, rows.Err()
}
