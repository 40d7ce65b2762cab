package main

import (
	"embed"
	"errors"
	"fmt"
	"slices"
	"strings"
)

//go:embed renames/*.txt
var renames embed.FS

// renamesText is the table: its files in the order of their names.
func renamesText() (string, error) {
	files, err := renames.ReadDir("renames")
	if err != nil {
		return "", err
	}
	var all strings.Builder
	for _, f := range files {
		text, err := renames.ReadFile("renames/" + f.Name())
		if err != nil {
			return "", err
		}
		all.Write(text)
	}
	return all.String(), nil
}

// rule is one line of the table.
type rule struct {
	kind    string   // member, value or id
	routes  []string // old paths without /v1/; empty for all
	pattern []string
	old     string // of a value
	becomes string
}

// table is all that the folder renames says, in its order.
type table struct {
	paths map[string]string
	rules []rule
	ids   map[string]string
}

// tableOf reads the table. A line is one of
//
//	path   OLD NEW
//	id     OLD NEW
//	member ROUTES PATTERN NEW
//	value  ROUTES PATTERN OLD NEW
//
// The rules of members and values are used in their order, so that a line speaks of
// what the lines above it have left. ROUTES is * or old paths without /v1/, with commas.
// A PATTERN leads from the top of the request; * is any one step and ** any number. NEW
// is a name, or a way to it from the object that the member is in: / begins at the top
// and .. goes up. An id is changed where a value rule with OLD = id says so.
func tableOf(text string) (table, error) {
	t := table{paths: map[string]string{}, ids: map[string]string{}}
	for i, line := range strings.Split(text, "\n") {
		words := strings.Fields(line)
		if len(words) == 0 || strings.HasPrefix(words[0], "#") {
			continue
		}
		wants := map[string]int{"path": 3, "id": 3, "member": 4, "value": 5}[words[0]]
		if wants != len(words) && !(words[0] == "value" && len(words) == 4 && words[3] == "id") {
			return t, fmt.Errorf("renames: line %d: %q is not a line of this table", i+1, line)
		}
		switch words[0] {
		case "path":
			t.paths[words[1]] = words[2]
		case "id":
			t.ids[words[1]] = words[2]
		default:
			r := rule{kind: words[0], pattern: strings.Split(words[2], "/"), becomes: words[len(words)-1]}
			if words[1] != "*" {
				r.routes = strings.Split(words[1], ",")
			}
			if r.kind == "value" {
				r.old = words[3]
			}
			t.rules = append(t.rules, r)
		}
	}
	if len(t.paths) == 0 {
		return t, errors.New("renames: no path is named")
	}
	return t, nil
}

// goesFor reports whether the rule is one of a route.
func (r *rule) goesFor(path string) bool {
	return r.routes == nil || slices.Contains(r.routes, strings.TrimPrefix(path, "/v1/"))
}

// found is a member that a pattern leads to, with the objects and lists above it, the
// nearest last.
type found struct {
	above []*node
	name  string
	value *node
}

// apply changes what the rule speaks of.
func (t *table) apply(r *rule, top *node) {
	var all []found
	gather(top, nil, nil, r.pattern, &all)
	for _, f := range all {
		if r.kind == "member" {
			f.move(top, r.becomes)
			continue
		}
		text, is := f.value.string()
		switch {
		case !is:
		case r.old == "id":
			if becomes, known := t.ids[text]; known {
				*f.value = *plain(becomes)
			}
		case r.old == text:
			*f.value = *plain(r.becomes)
		}
	}
}

// gather finds every member that the pattern leads to.
func gather(n *node, above []*node, names, pattern []string, all *[]found) {
	above = append(slices.Clone(above), n)
	for _, m := range n.members {
		here := append(slices.Clone(names), m.name)
		if matches(here, pattern) {
			*all = append(*all, found{above, m.name, m.value})
		}
		gather(m.value, above, here, pattern, all)
	}
	for _, item := range n.items {
		gather(item, above, append(slices.Clone(names), "-"), pattern, all)
	}
}

// matches reports whether the names lead where the pattern does.
func matches(names, pattern []string) bool {
	switch {
	case len(pattern) == 0:
		return len(names) == 0
	case pattern[0] == "**":
		return matches(names, pattern[1:]) || len(names) > 0 && matches(names[1:], pattern)
	case len(names) == 0:
		return false
	}
	return (pattern[0] == "*" || pattern[0] == names[0]) && matches(names[1:], pattern[1:])
}

// move gives a member its new name or place.
func (f *found) move(top *node, becomes string) {
	from := f.above[len(f.above)-1]
	place := slices.IndexFunc(from.members, func(m member) bool { return m.value == f.value })
	if !strings.Contains(becomes, "/") {
		from.members[place].name = becomes
		return
	}
	from.members = slices.Delete(from.members, place, place+1)
	to, steps := from, strings.Split(becomes, "/")
	if steps[0] == "" {
		to, steps = top, steps[1:]
	}
	for up := 2; steps[0] == ".."; up++ {
		to, steps = f.above[len(f.above)-up], steps[1:]
	}
	for _, step := range steps[:len(steps)-1] {
		if to != from {
			place = len(to.members)
		}
		to = to.below(step, place)
	}
	if to != from {
		place = len(to.members)
	}
	to.members = slices.Insert(to.members, place, member{steps[len(steps)-1], f.value})
}
