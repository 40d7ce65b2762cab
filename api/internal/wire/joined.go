package wire

import (
	"maps"
	"reflect"
	"slices"
	"strings"
)

// Joined says which members of an object go together, for the contract. What is wrong
// with a request the service says in its own words.
type Joined struct {
	OneOf    [][]string          // just one of these sets of members is given
	AnyOf    [][]string          // one of these sets of members is given, or several
	Needs    map[string][]string // a member needs all of these
	NeedsAny map[string][]string // a member needs one of these
	NotAll   [][]string          // never all of these
}

// Joins is an object some of whose members go together.
type Joins interface{ Joins() Joined }

// Given reports whether an object has a member.
func Given(object reflect.Value, name string) bool {
	field, is := FieldNamed(object.Type(), name)
	return is && !object.FieldByIndex(field.Index).IsZero()
}

// CheckJoined refuses an object whose members do not go together as it says, for what is kept
// without being computed. The error points at the object.
func CheckJoined(object Joins, at string) error {
	v, joined := reflect.ValueOf(object).Elem(), object.Joins()
	lacks := func(name string) bool { return !Given(v, name) }
	whole := func(set []string) bool { return !slices.ContainsFunc(set, lacks) }
	wrong := func(code, detail string) error {
		return &Refused{Why: Wrong, Pointer: at, Code: code, Detail: detail}
	}
	told := 0
	for _, set := range joined.OneOf {
		if whole(set) {
			told++
		}
	}
	if len(joined.OneOf) > 0 && told != 1 {
		sets := make([]string, 0, len(joined.OneOf))
		for _, set := range joined.OneOf {
			sets = append(sets, strings.Join(set, " with "))
		}
		if told == 0 {
			return wrong("missing", "give one of "+strings.Join(sets, ", "))
		}
		return wrong("conflict", "give only one of "+strings.Join(sets, ", "))
	}
	for _, name := range slices.Sorted(maps.Keys(joined.Needs)) {
		if needs := joined.Needs[name]; !lacks(name) && !whole(needs) {
			return wrong("missing", name+" goes with "+strings.Join(needs, " and "))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(joined.NeedsAny)) {
		if needs := joined.NeedsAny[name]; !lacks(name) && !slices.ContainsFunc(needs, func(n string) bool { return !lacks(n) }) {
			return wrong("missing", name+" goes with "+strings.Join(needs, " or "))
		}
	}
	for _, set := range joined.NotAll {
		if whole(set) {
			return wrong("conflict", "give only one of "+strings.Join(set, " and "))
		}
	}
	return nil
}
