package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"time"
)

// Photo is one version of the photo of a billet or a piece. It lies in the database, beside
// what it is of: what is answered is on disk by the same commit, one file holds and backs up
// all of it, and shops are told apart as everywhere.
type Photo struct {
	Key
	Version int64     `json:"version"`         // from 1
	Media   string    `json:"media,omitempty"` // such as image/jpeg; empty: it was taken off
	Digest  string    `json:"-"`               // SHA-256 in hex; empty: it was taken off
	Size    int64     `json:"-"`               // bytes
	At      time.Time `json:"at"`
	By      string    `json:"by"`
	Body    []byte    `json:"body,omitempty"`
}

// Seen is what the sender of a photo saw.
type Seen struct {
	None   bool   // there was none
	Any    bool   // there was one, whichever
	Digest string // there was this one
}

// Limits of photos. Own choice: a phone's picture of 2 MB for each of 500 billets fits.
const (
	MostPhoto  = 16 << 20 // bytes of one
	MostPhotos = 1 << 30  // of a shop, earlier ones counted
)

// DigestOf is the digest of a photo.
func DigestOf(body []byte) string {
	sum := sha256.Sum256(body)
	return hex.EncodeToString(sum[:])
}

// against says why a photo does not go with the current one; nil if it does.
func (s *Seen) against(now *Photo) *Refusal {
	refused := &Refusal{Why: Stale, Key: now.Key, Version: now.Version}
	there := now.Digest != ""
	switch {
	case s.None && there, s.Any && !there, !s.None && !s.Any && s.Digest != now.Digest:
		return refused
	case now.Version >= MostVersions:
		refused.Why = Full
		return refused
	}
	return nil
}

// PutPhoto keeps the photo of wood that is there, or that it has none any more where it
// holds no bytes. The same photo again is no change.
func (b *base) PutPhoto(ctx context.Context, p *Photo, seen *Seen) (Photo, error) {
	if detail := p.wrong(); detail != "" {
		return Photo{}, malformed(0, p.Key, detail)
	}
	tx, err := b.writer.BeginTx(ctx, nil)
	if err != nil {
		return Photo{}, err
	}
	next, made, err := b.photograph(ctx, tx, p, seen)
	if err != nil || !made {
		return next, errors.Join(err, tx.Rollback())
	}
	return next, tx.Commit()
}

// wrong says what is not well formed.
func (p *Photo) wrong() string {
	switch {
	case p.Kind != Billet && p.Kind != Piece || !id.MatchString(p.ID):
		return "photos are of billets and pieces"
	case len(p.Body) > MostPhoto || len(p.Media) > 64 || !plain(p.Media) || (p.Media == "") != (len(p.Body) == 0):
		return "a photo is at most 16 MiB of a media type"
	case !plain(p.By) || len(p.By) > 64:
		return "the sender has a key id of at most 64 characters"
	}
	return ""
}

// photograph adds a version; made is false where nothing changes.
func (b *base) photograph(ctx context.Context, tx *sql.Tx, p *Photo, seen *Seen) (next Photo, made bool, err error) {
	h := &hand{base: b, tx: tx}
	if err := tx.QueryRowContext(ctx, takeTurn, 0, b.shop).Scan(&h.sequence, &h.entries); err != nil {
		return Photo{}, false, err
	}
	if err := h.look(ctx, &Record{Entry: Entry{Of: p.Key}}, nil); err != nil {
		var refused *Refusal
		if errors.As(err, &refused) {
			refused.Why = NotFound
		}
		return Photo{}, false, err
	}
	now, err := scanPhoto(tx.QueryRowContext(ctx, readPhoto, b.shop, p.Kind, p.ID))
	if errors.Is(err, sql.ErrNoRows) {
		now, err = Photo{Key: p.Key}, nil
	}
	if err != nil {
		return Photo{}, false, err
	}
	next = *p
	next.Version, next.Size, next.At = now.Version+1, int64(len(p.Body)), b.now().UTC().Truncate(time.Microsecond)
	if next.Digest = ""; next.Size > 0 {
		next.Digest = DigestOf(p.Body)
	}
	if next.Digest == now.Digest && next.Digest != "" {
		return now, false, nil // sent twice
	}
	if refused := seen.against(&now); refused != nil {
		return Photo{}, false, refused
	}
	var held int64
	if err := tx.QueryRowContext(ctx, sumPhotos, b.shop).Scan(&held); err != nil {
		return Photo{}, false, err
	}
	if held+next.Size > MostPhotos {
		return Photo{}, false, &Refusal{Why: Full, Key: p.Key}
	}
	return next, true, h.putPhoto(ctx, &next)
}

// putPhoto writes a version as it is.
func (h *hand) putPhoto(ctx context.Context, p *Photo) error {
	body := p.Body
	if body == nil {
		body = []byte{}
	}
	_, err := h.tx.ExecContext(ctx, addPhoto, h.shop, p.Kind, p.ID, p.Version, p.Media, p.Digest, p.Size, p.At.UnixMicro(), p.By, body)
	return err
}

// Photo is the current photo of wood, with its bytes.
func (b *base) Photo(ctx context.Context, key Key) (Photo, error) {
	p, err := scanPhoto(b.readers.QueryRowContext(ctx, readPhoto, b.shop, key.Kind, key.ID))
	if errors.Is(err, sql.ErrNoRows) || err == nil && p.Digest == "" {
		return Photo{}, &Refusal{Why: NotFound, Key: key}
	}
	return p, err
}

// scanPhoto reads a version with its bytes.
func scanPhoto(from row) (Photo, error) {
	var p Photo
	var at int64
	err := from.Scan(&p.Kind, &p.ID, &p.Version, &p.Media, &p.Digest, &p.Size, &at, &p.By, &p.Body)
	p.At = time.UnixMicro(at).UTC()
	return p, err
}

// Photos are the current photos of all wood, without their bytes.
func (b *base) Photos(ctx context.Context) ([]Photo, error) {
	rows, err := b.readers.QueryContext(ctx, listPhotos, b.shop)
	if err != nil {
		return nil, err
	}
	defer rows.Close() //nolint:errcheck // Err tells
	var all []Photo
	for rows.Next() {
		p, err := scanPhoto(rows)
		if err != nil {
			return nil, err
		}
		all = append(all, p)
	}
	return all, rows.Err()
}

// EachPhoto tells every version of every photo, in order of the wood.
func (b *base) EachPhoto(ctx context.Context, each func(*Photo) error) error {
	rows, err := b.readers.QueryContext(ctx, allPhotos, b.shop)
	if err != nil {
		return err
	}
	defer rows.Close() //nolint:errcheck // Err tells
	for rows.Next() {
		p, err := scanPhoto(rows)
		if err == nil {
			err = each(&p)
		}
		if err != nil {
			return err
		}
	}
	return rows.Err()
}

// wholePhotos refuses what cannot be all photos of a rack, and completes them.
func wholePhotos(all []Photo, known map[Key]int64) error {
	versions, held := map[Key]int64{}, int64(0)
	for i := range all {
		p := &all[i]
		wrong := p.wrong()
		switch {
		case wrong != "":
		case known[p.Key] == 0:
			wrong = "the wood of a photo is not there"
		case p.Version != versions[p.Key]+1:
			wrong = "the versions of a photo are not whole"
		}
		if wrong != "" {
			return malformed(i, p.Key, wrong)
		}
		versions[p.Key]++
		if p.Size = int64(len(p.Body)); p.Size > 0 {
			p.Digest = DigestOf(p.Body)
		}
		held += p.Size
	}
	if held > MostPhotos {
		return &Refusal{Why: Full}
	}
	return nil
}
