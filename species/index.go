package species

import (
	"cmp"
	"slices"
	"strings"
)

// MatchKind says how a query met a name, the best first.
type MatchKind int

// How a query met a name.
const (
	ExactID      MatchKind = iota // the id itself
	ExactName                     // the common name, words in any order
	ExactBotany                   // the botanical name
	ExactSynonym                  // another name
	Shared                        // a bare name that several woods share
	Prefix                        // a name begins with the query
	Words                         // every word of the query is a word, or begins one, of a name
	Part                          // the query stands inside a name
	Near                          // a name is spelt nearly like the query
)

// String returns the kind for people and programs.
func (k MatchKind) String() string {
	names := [...]string{"id", "name", "botanical", "synonym", "shared", "prefix", "words", "part", "near"}
	if k < 0 || int(k) >= len(names) {
		return "unknown"
	}
	return names[k]
}

// name is one name of an entry, folded in the ways it is compared.
type name struct {
	entry   int // position in the table
	kind    MatchKind
	printed string
	text    string // folded
	sorted  string
	joined  string
	words   []string
	ids     []int // of the words in the vocabulary
	place   int   // among those that share the name, the likeliest first; other names stand behind
	letters uint64
}

// index finds entries of a table by their names.
type index struct {
	ids     map[string]int
	names   []name
	size    int
	rank    []int          // a group or an average stands behind a species of equal merit
	vocab   []string       // every word of every name, once
	sets    []uint64       // letters of each word of the vocabulary
	wordIDs map[string]int // of the words in the vocabulary
}

// usualNames is about how many names an entry has; only the room taken beforehand hangs
// on it.
const usualNames = 5

func newIndex(size int) *index {
	return &index{ids: make(map[string]int, size), size: size, wordIDs: make(map[string]int, usualNames*size),
		names: make([]name, 0, usualNames*size)}
}

func (x *index) add(entry int, kind MatchKind, printed string) {
	text := fold(printed)
	x.addForm(entry, kind, printed, text)
	if head, tail, inverted := strings.Cut(printed, ","); inverted {
		x.addForm(entry, kind, printed, fold(tail+" "+head)) // "Maple, sugar" is also "sugar maple"
	}
}

func (x *index) addForm(entry int, kind MatchKind, printed, text string) {
	if text == "" {
		return
	}
	n := name{entry: entry, kind: kind, place: unshared, printed: printed, text: text, sorted: sortedWords(text),
		joined: joined(text), words: strings.Fields(text), letters: letterSet(text)}
	for _, word := range n.words {
		id, ok := x.wordIDs[word]
		if !ok {
			id = len(x.vocab)
			x.wordIDs[word] = id
			x.vocab, x.sets = append(x.vocab, word), append(x.sets, letterSet(word))
		}
		n.ids = append(n.ids, id)
	}
	x.names = append(x.names, n)
}

// unshared is the place of a name that is no bare name.
const unshared = 1 << 20

// addShared adds a bare name to an entry, which has a place among those that share it.
func (x *index) addShared(entry, place int, text string) {
	x.addForm(entry, Shared, text, text)
	x.names[len(x.names)-1].place = place
}

// hit is a found entry.
type hit struct {
	entry   int
	kind    MatchKind
	slips   int
	printed string
	length  int // of the name, shorter is closer
	of      MatchKind
	place   int // among those that share the name
}

func (h hit) better(other hit) bool {
	return cmp.Or(cmp.Compare(h.kind, other.kind), cmp.Compare(h.slips, other.slips), cmp.Compare(h.place, other.place),
		cmp.Compare(h.of, other.of), cmp.Compare(h.length, other.length)) < 0
}

// find returns the best hit of each entry that meets the query, the best first,
// at most limit. Near spelling is tried only when nothing else is found.
func (x *index) find(query string, limit int) []hit {
	q := fold(query)
	if q == "" || limit <= 0 {
		return nil
	}
	sorted, together, words := sortedWords(q), joined(q), strings.Fields(q)
	hits := x.collect(func(n *name) (MatchKind, int, bool) { return meet(n, q, sorted, together, words) })
	if entry, ok := x.ids[strings.ToLower(strings.TrimSpace(query))]; ok {
		hits[entry].kind, hits[entry].entry = ExactID, entry
	}
	found := x.order(hits, limit)
	if len(found) > 0 {
		return found
	}
	return x.near(q, 0, limit)
}

// suggest returns up to n hits for a query that is meant to be an id: what find
// gives, then more distant spellings where no name begins so, then names that share a word.
func (x *index) suggest(query string, n int) []hit {
	found := x.find(query, n)
	q := fold(query)
	seen := map[int]bool{}
	for _, h := range found {
		seen[h.entry] = true
	}
	more := func(hits []hit) {
		for _, h := range hits {
			if !seen[h.entry] && len(found) < n {
				seen[h.entry] = true
				found = append(found, h)
			}
		}
	}
	if len(found) < n && q != "" {
		if len(found) == 0 || found[0].kind > Words { // what begins so was meant, and is not misspelt
			more(x.near(q, 1, n+len(found)))
		}
		words := strings.Fields(q)
		more(x.order(x.collect(func(m *name) (MatchKind, int, bool) {
			shared := 0
			for _, w := range words {
				if len(w) > 2 && slices.Contains(m.words, w) {
					shared++
				}
			}
			return Near, len(words) - shared, shared > 0
		}), n+len(found)))
	}
	return found
}

func (x *index) near(q string, extra, limit int) []hit {
	letters, away := letterSet(q), x.wordSlips(strings.Fields(q), extra)
	return x.order(x.collect(func(n *name) (MatchKind, int, bool) {
		least, ok := nearly(n, q, letters, away, slack(len(q))+extra)
		return Near, least, ok
	}), limit)
}

// tooMany stands for more slips than are forgiven in a word.
const tooMany = 1 << 20

// wordSlips returns, for each word of a query, its slips from every word of the
// vocabulary, tooMany where they are more than a word is forgiven.
func (x *index) wordSlips(words []string, extra int) [][]int {
	away := make([][]int, len(words))
	for i, word := range words {
		away[i] = make([]int, len(x.vocab))
		allowed, set := slack(len(word))+extra, letterSet(word)
		for j, other := range x.vocab {
			away[i][j] = tooMany
			if tooFar(set, x.sets[j], allowed) {
				continue
			}
			if n := slips(word, other, allowed); n <= allowed {
				away[i][j] = n
			}
		}
	}
	return away
}

// collect asks test of every name and keeps the best hit of every entry.
func (x *index) collect(test func(*name) (MatchKind, int, bool)) []hit {
	best := make([]hit, x.size)
	for i := range best {
		best[i].entry = -1
	}
	for i := range x.names {
		n := &x.names[i]
		kind, away, ok := test(n)
		if !ok {
			continue
		}
		h := hit{n.entry, kind, away, n.printed, len(n.text), n.kind, n.place}
		if best[n.entry].entry < 0 || h.better(best[n.entry]) {
			best[n.entry] = h
		}
	}
	return best
}

func (x *index) order(best []hit, limit int) []hit {
	found := slices.DeleteFunc(best, func(h hit) bool { return h.entry < 0 })
	slices.SortFunc(found, func(a, b hit) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(a.slips, b.slips), cmp.Compare(a.place, b.place),
			cmp.Compare(x.rank[a.entry], x.rank[b.entry]),
			cmp.Compare(a.of, b.of), cmp.Compare(a.length, b.length), cmp.Compare(a.entry, b.entry))
	})
	return found[:min(limit, len(found))]
}

// meet says how a folded query meets a name without any slip.
func meet(n *name, q, sorted, together string, words []string) (MatchKind, int, bool) {
	switch {
	case n.sorted == sorted || n.joined == together:
		return n.kind, 0, true
	case strings.HasPrefix(n.text, q):
		return Prefix, 0, true
	case allBegin(words, n.words):
		return Words, 0, true
	case len(together) > 3 && strings.Contains(n.joined, together):
		return Part, 0, true
	}
	return 0, 0, false
}

// allBegin reports whether every word of the query begins a word of the name.
func allBegin(query, words []string) bool {
	for _, q := range query {
		if !slices.ContainsFunc(words, func(w string) bool { return strings.HasPrefix(w, q) }) {
			return false
		}
	}
	return true
}

// nearly returns the slips between a query and a name, taken as a whole or word
// by word, whichever is less, and whether they are at most limit. away holds
// the slips of each word of the query from each word of the vocabulary.
func nearly(n *name, q string, letters uint64, away [][]int, limit int) (int, bool) {
	best := limit + 1
	if !tooFar(letters, n.letters, limit) {
		best = slips(q, n.text, limit)
	}
	total := 0
	for _, fromWord := range away {
		least := tooMany
		for _, id := range n.ids {
			least = min(least, fromWord[id])
		}
		total += least
	}
	best = min(best, total)
	return best, best <= limit
}
