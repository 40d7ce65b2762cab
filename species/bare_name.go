package species

import (
	"slices"
	"strings"
)

// Choice is one of several woods that share a bare name, such as maple.
type Choice struct {
	Wood  *Wood
	Apart string // what sets it apart from the others, for people; may be empty
}

// BareName returns the woods that share a bare name such as "maple" or "ebony", the
// likeliest first, and whether it is one. Case and accents do not matter. A bare name
// is not the name of any one wood.
//
// Source: names of the trade, from memory; which is likeliest is our choice.
func (t *Tables) BareName(name string) ([]Choice, bool) {
	choices, ok := t.bareNames[fold(name)]
	return slices.Clone(choices), ok
}

// OfGenus returns the species of a botanical genus, in the order of their ids. Case does
// not matter.
func (t *Tables) OfGenus(genus string) []Choice {
	var found []Choice
	for _, w := range t.woods {
		if w.Kind == Species && fold(genusOf(w)) == fold(genus) {
			found = append(found, Choice{Wood: w})
		}
	}
	return found
}

// BareNames returns all bare names in alphabetical order.
func (t *Tables) BareNames() []string {
	names := make([]string, 0, len(t.bareNames))
	for name := range t.bareNames {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// loadBareNames reads the names that several woods share; the likeliest stand first.
func (l *loader) loadBareNames() {
	l.tables.bareNames = map[string][]Choice{}
	l.each("bare_names", func(r record) {
		name, w := fold(r.need("name")), r.wood()
		if slices.ContainsFunc(l.tables.bareNames[name], func(c Choice) bool { return c.Wood == w }) {
			r.fail("%s stands twice for %s", w.ID, name)
		}
		if slices.ContainsFunc(append([]string{w.Common}, w.Synonyms...), func(s string) bool { return fold(s) == name }) {
			r.fail("%s is a name of %s alone as well", name, w.ID)
		}
		l.tables.bareNames[name] = append(l.tables.bareNames[name], Choice{w, strings.TrimSpace(r.text("apart"))})
	})
}
