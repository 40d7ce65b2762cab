package species

import (
	"cmp"
	"strings"
)

// PlateMatch is a plate that a query met.
type PlateMatch struct {
	Plate *Plate
	Kind  MatchKind
	Name  string // the name that met the query, instrument and part
	Slips int    // single-letter slips, for near spelling only
}

func indexPlates(plates []*Plate) *index {
	x := newIndex(len(plates))
	for i, p := range plates {
		x.ids[p.ID] = i
		x.rank = append(x.rank, 0)
		printed := p.Instrument + " " + p.Part
		x.addForm(i, ExactName, printed, fold(printed))
		// "steel-string guitar, dreadnought" is also a "dreadnought".
		if _, kind, ok := strings.Cut(p.Instrument, ", "); ok {
			x.addForm(i, ExactName, printed, fold(kind+" "+p.Part))
		}
		x.addForm(i, ExactName, printed, fold(p.ID))
	}
	return x
}

// FindPlates returns the plates that query names, as Find does for woods:
// "dreadnought top", "violin back", "neck blank".
func (t *Tables) FindPlates(query string, limit int) []PlateMatch {
	hits := t.shop.plateIndex.find(query, limit)
	matches := make([]PlateMatch, len(hits))
	for i, h := range hits {
		matches[i] = PlateMatch{t.shop.plates[h.entry], h.kind, cmp.Or(h.printed, t.shop.plates[h.entry].ID), h.slips}
	}
	return matches
}

// SuggestPlates returns up to n ids of plates for "did you mean", as Suggest does
// for woods.
func (t *Tables) SuggestPlates(query string, n int) []string {
	var ids []string
	for _, h := range t.shop.plateIndex.suggest(query, n) {
		ids = append(ids, t.shop.plates[h.entry].ID)
	}
	return ids
}
