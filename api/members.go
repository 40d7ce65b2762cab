package api

import (
	"reflect"
	"slices"
	"strings"

	"github.com/go-json-experiment/json/jsontext"
)

// membersAt lists the member names of the object found at pointer in a request
// of type root; nil if there is none.
func membersAt(root reflect.Type, at jsontext.Pointer) []string {
	t := root
	for token := range at.Tokens() {
		for t.Kind() == reflect.Pointer {
			t = t.Elem()
		}
		switch t.Kind() {
		case reflect.Slice, reflect.Array:
			t = t.Elem()
		case reflect.Struct:
			field, ok := fieldNamed(t, token)
			if !ok {
				return nil
			}
			t = field.Type
		default:
			return nil
		}
	}
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch t {
	case reflect.TypeFor[Length](), reflect.TypeFor[Temperature](), reflect.TypeFor[Mass](), reflect.TypeFor[Pressure]():
		return []string{"value", "unit"}
	}
	if t.Kind() != reflect.Struct {
		return nil
	}
	var names []string
	for i := range t.NumField() {
		if name := memberName(t.Field(i)); name != "" {
			names = append(names, name)
		}
	}
	return names
}

func fieldNamed(t reflect.Type, name string) (reflect.StructField, bool) {
	for i := range t.NumField() {
		if memberName(t.Field(i)) == name {
			return t.Field(i), true
		}
	}
	return reflect.StructField{}, false
}

// memberName is the JSON name of a struct field; empty for one without.
func memberName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	if name == "-" {
		return ""
	}
	return name
}

// otherNames are words for members that are not like them in spelling.
var otherNames = map[string]string{"path": "route", "url": "route", "body": "request", "payload": "request"}

// meant returns the candidate that name most likely stands for, or "" if none is
// likely.
func meant(name string, candidates []string) string {
	if near := nearest(name, candidates); near != "" {
		return near
	}
	if other := otherNames[strings.ToLower(name)]; slices.Contains(candidates, other) {
		return other
	}
	return ""
}

// nearest returns the candidate closest to name in spelling, or "" if none is
// close: at most a third of its letters may differ, case not counted.
func nearest(name string, candidates []string) string {
	const longest = 64 // no member has a name as long
	if len(name) > longest {
		return ""
	}
	best, bestDistance := "", len(name)/3+1
	for _, candidate := range candidates {
		if d := editDistance(strings.ToLower(name), strings.ToLower(candidate)); d < bestDistance {
			best, bestDistance = candidate, d
		}
	}
	return best
}

// editDistance counts the insertions, deletions and substitutions of bytes
// that turn a into b (Levenshtein 1966).
func editDistance(a, b string) int {
	previous := make([]int, len(b)+1)
	current := make([]int, len(b)+1)
	for j := range previous {
		previous[j] = j
	}
	for i := range len(a) {
		current[0] = i + 1
		for j := range len(b) {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			current[j+1] = min(previous[j]+cost, previous[j+1]+1, current[j]+1)
		}
		previous, current = current, previous
	}
	return previous[len(b)]
}
