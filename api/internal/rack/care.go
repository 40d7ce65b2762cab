package rack

import (
	"context"
	"encoding/json"
	"errors"
	"io"

	"latewood/api/internal/rack/store"
)

// Close ends the use of the rack, and what is being found out about it.
func (r *Rack) Close() error {
	r.end()
	return r.store.Close()
}

// Check looks for what cannot be right.
func (r *Rack) Check(ctx context.Context) error { return r.store.Check(ctx) }

// Backup writes the rack into a new file while it is in use.
func (r *Rack) Backup(ctx context.Context, file string) error {
	b, can := r.store.(store.Backuper)
	if !can {
		return errors.New("a rack on a server is backed up with the tools of the server, or with: latewood rack export")
	}
	return b.Backup(ctx, file)
}

// document is everything on a rack.
type document struct {
	Format   string         `json:"format"`
	Versions []store.Record `json:"versions"`
	Orders   []store.Done   `json:"orders"`
	Photos   []store.Photo  `json:"photos,omitempty"` // in the document itself, so that it is all there is
}

// format names the form of the document. Own choice.
const format = "latewood-rack-1"

// mostExported is how many versions are read at a time.
const mostExported = 1000

// Export writes everything on the rack, every version of it, as one JSON document. The
// same rack gives the same bytes.
func (r *Rack) Export(ctx context.Context, to io.Writer) error {
	d := document{Format: format, Versions: []store.Record{}}
	var err error
	// The orders first: what is carried out in between then has its versions, and its
	// sender, who sends again, is told that the id is in use.
	if d.Orders, err = r.store.Done(ctx); err != nil {
		return err
	}
	for {
		part, err := r.store.Since(ctx, int64(len(d.Versions)), mostExported)
		if err != nil {
			return err
		}
		if len(part) == 0 {
			break
		}
		d.Versions = append(d.Versions, part...)
	}
	if d.Orders == nil {
		d.Orders = []store.Done{}
	}
	err = r.store.EachPhoto(ctx, func(p *store.Photo) error {
		d.Photos = append(d.Photos, *p)
		return nil
	})
	if err != nil {
		return err
	}
	encoder := json.NewEncoder(to)
	encoder.SetIndent("", " ")
	return encoder.Encode(&d)
}

// Import fills an empty rack with what was exported.
func (r *Rack) Import(ctx context.Context, from io.Reader) error {
	decoder := json.NewDecoder(from)
	decoder.DisallowUnknownFields()
	var d document
	if err := decoder.Decode(&d); err != nil {
		return errors.New("this is not an export of a rack: " + err.Error())
	}
	if d.Format != format {
		return errors.New("this is not an export of a rack that this program knows how to read")
	}
	return r.store.Load(ctx, d.Versions, d.Orders, d.Photos)
}
