package rack

import (
	"context"
	"errors"
	"strings"
	"unicode/utf8"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

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
			return &wire.Refused{Why: wire.Unread, Parameter: "species", Code: "not_found", Detail: detail, Limit: method.OneOf(t.NearestWoods(species)...)}
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
		return &wire.Refused{Why: wire.Unread, Parameter: "until", Code: "out_of_range", Limit: method.Days(from, ""), Detail: "until is not before from, " + from + ", got " + until}
	}
	return nil
}
