package species

import (
	"cmp"
	"maps"
	"slices"
	"strings"
)

// Match is a wood that a query met.
type Match struct {
	Wood  *Wood
	Kind  MatchKind
	Name  string // the name that met the query, as printed
	Slips int    // single-letter slips, for near spelling only
}

// StationMatch is a station that a query met.
type StationMatch struct {
	Station *Station
	Kind    MatchKind
	Name    string // the name that met the query, as printed
	Slips   int    // single-letter slips, for near spelling only
}

func indexWoods(woods []*Wood, shared map[string][]Choice) *index {
	x := newIndex(len(woods))
	position := make(map[*Wood]int, len(woods))
	for i, w := range woods {
		x.ids[w.ID] = i
		rank := 0
		if w.Kind != Species {
			rank = 1
		}
		x.rank = append(x.rank, rank)
		x.add(i, ExactName, w.Common)
		x.add(i, ExactName, strings.ReplaceAll(w.ID, "-", " "))
		x.add(i, ExactBotany, w.Botanical)
		for _, one := range botanicalNames(w.Botanical) { // each species of a wood that is several
			if one != fold(w.Botanical) && !strings.HasSuffix(one, " spp") {
				x.addForm(i, ExactBotany, w.Botanical, one)
			}
		}
		for _, other := range w.Synonyms {
			x.add(i, ExactSynonym, other)
		}
		position[w] = i
	}
	for _, name := range slices.Sorted(maps.Keys(shared)) {
		for place, c := range shared[name] {
			x.addShared(position[c.Wood], place, name)
		}
	}
	return x
}

func indexStations(stations []*Station) *index {
	x := newIndex(len(stations))
	for i, s := range stations {
		x.ids[s.ID] = i
		rank := 0
		if s.EMCOnly || s.Basis == "typical year" {
			rank = 1 // a 30-year normal says more
		}
		x.rank = append(x.rank, rank)
		city, _, inRegion := strings.Cut(s.Name, ", "+s.Region)
		x.addForm(i, ExactName, s.Name, fold(s.Name))
		if s.Region != "" && inRegion {
			x.addForm(i, ExactName, s.Name, fold(city))
			x.addForm(i, ExactName, s.Name, fold(city+" "+s.RegionName))
		} else {
			x.addAbroad(i, s, s.Name)
		}
		for _, other := range s.OtherNames {
			x.addForm(i, ExactSynonym, other, fold(other))
			if s.Region == "" {
				x.addAbroad(i, s, other)
			}
		}
	}
	return x
}

// addAbroad adds a name of a station outside of the states: with its country, and of an
// airport as that of the city, with and without the country.
func (x *index) addAbroad(entry int, s *Station, name string) {
	x.addForm(entry, ExactSynonym, name, fold(name+" "+s.Country))
	x.addForm(entry, ExactSynonym, name, fold(name+" "+s.CountryCode))
	if s.CountryCode == "GB" { // which people write as UK
		x.addForm(entry, ExactSynonym, name, fold(name+" UK"))
	}
	for _, end := range airports {
		if city, is := strings.CutSuffix(name, end); is {
			x.addForm(entry, ExactSynonym, name, fold(city))
			x.addAbroad(entry, s, city)
			return
		}
	}
}

// airports are what printed names of stations have behind the name of the city.
var airports = []string{" Airport", " Aero", " Aerodrome", " Intl"}

// Find returns the woods that query names, the best match first, at most limit:
// the id, then the common name, the botanical name and other names in full,
// then the woods that share it as a bare name, the likeliest first, then names that
// begin with the query, hold all its words, or hold it as a part; and only when there are none of these, names spelt nearly like it. Case,
// accents, punctuation and the order of words do not matter: "sugar maple",
// "Maple, sugar" and "maple-sugar" are the same. Only the first 120 bytes of
// the query are looked at. An empty query, or a limit of zero or less, finds
// nothing.
func (t *Tables) Find(query string, limit int) []Match {
	hits := t.woodIndex.find(query, limit)
	matches := make([]Match, len(hits))
	for i, h := range hits {
		matches[i] = Match{t.woods[h.entry], h.kind, cmp.Or(h.printed, t.woods[h.entry].ID), h.slips}
	}
	return matches
}

// Suggest returns up to n ids of woods for "did you mean", the likeliest first:
// what Find gives, then more distant spellings, then names that share a word.
func (t *Tables) Suggest(query string, n int) []string {
	var ids []string
	for _, h := range t.woodIndex.suggest(query, n) {
		ids = append(ids, t.woods[h.entry].ID)
	}
	return ids
}

// FindStations returns the stations that query names, as Find does for woods. A
// state may be given by its code, its name or not at all.
func (t *Tables) FindStations(query string, limit int) []StationMatch {
	hits := t.placeIndex.find(query, limit)
	matches := make([]StationMatch, len(hits))
	for i, h := range hits {
		matches[i] = StationMatch{t.stations[h.entry], h.kind, cmp.Or(h.printed, t.stations[h.entry].ID), h.slips}
	}
	return matches
}

// SuggestStations returns up to n ids of stations for "did you mean", as Suggest
// does for woods.
func (t *Tables) SuggestStations(query string, n int) []string {
	var ids []string
	for _, h := range t.placeIndex.suggest(query, n) {
		ids = append(ids, t.stations[h.entry].ID)
	}
	return ids
}
