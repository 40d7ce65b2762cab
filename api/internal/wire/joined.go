package wire

import (
	"errors"
	"maps"
	"reflect"
	"slices"
	"strconv"
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

// Checks is an object that knows by itself what contradicts what in it; its errors point below
// it.
type Checks interface{ Check() error }

// Given reports whether an object has a member.
func Given(object reflect.Value, name string) bool {
	field, is := FieldNamed(object.Type(), name)
	return is && !object.FieldByIndex(field.Index).IsZero()
}

// CheckJoined refuses an object in which, or below which, members do not go together as they
// say, for what is kept or refused without being computed. Each error points at the member that is too
// much or is missing, else at the object, below the place at.
func CheckJoined(object any, at string) error {
	var wrong []error
	checkBelow(reflect.ValueOf(object), at, &wrong)
	return errors.Join(wrong...)
}

// checkBelow looks at a value and all that it holds.
func checkBelow(v reflect.Value, at string, wrong *[]error) {
	switch v.Kind() { //nolint:exhaustive // nothing lies below all else
	case reflect.Pointer:
		if !v.IsNil() {
			checkBelow(v.Elem(), at, wrong)
		}
	case reflect.Slice:
		for i := range v.Len() {
			checkBelow(v.Index(i), at+"/"+strconv.Itoa(i), wrong)
		}
	case reflect.Struct:
		if v = FormOf(v); v.CanAddr() {
			if joins, is := v.Addr().Interface().(Joins); is && !spelled(v) {
				if err := checkObject(v, joins.Joins(), at); err != nil {
					*wrong = append(*wrong, err)
				} else if checks, is := v.Addr().Interface().(Checks); is {
					*wrong = append(*wrong, Under(strings.TrimPrefix(at, "/"), checks.Check()))
				}
			}
		}
		for field := range Members(v.Type()) {
			checkBelow(v.FieldByIndex(field.Index), at+"/"+MemberName(field), wrong)
		}
	}
}

// spelled reports an object that was given as a text.
func spelled(v reflect.Value) bool {
	_, is := v.Addr().Interface().(Spelled)
	for field := range Members(v.Type()) {
		is = is && v.FieldByIndex(field.Index).IsZero()
	}
	return is
}

// checkObject says what does not go together in one object; nil if all does.
func checkObject(v reflect.Value, joined Joined, at string) error {
	lacks := func(name string) bool { return !Given(v, name) }
	whole := func(set []string) bool { return !slices.ContainsFunc(set, lacks) }
	told := func(sets [][]string) (all [][]string) {
		for _, set := range sets {
			if whole(set) {
				all = append(all, set)
			}
		}
		return all
	}
	below := func(member string) string { return strings.TrimPrefix(at+"/"+member, "/") }
	if sets := joined.OneOf; len(sets) > 0 {
		switch given := told(sets); len(given) {
		case 0:
			return Missing(strings.TrimPrefix(at, "/"), "give "+choices(sets))
		case 1:
		default:
			return Contradictory(below(given[len(given)-1][0]), "give only one of "+spoken(sets))
		}
	}
	if len(joined.AnyOf) > 0 && len(told(joined.AnyOf)) == 0 {
		return Missing(strings.TrimPrefix(at, "/"), "give "+choices(joined.AnyOf))
	}
	for _, name := range slices.Sorted(maps.Keys(joined.Needs)) {
		if needs := joined.Needs[name]; !lacks(name) && !whole(needs) {
			return Missing(below(needs[slices.IndexFunc(needs, lacks)]), name+" goes with "+strings.Join(needs, " and "))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(joined.NeedsAny)) {
		if needs := joined.NeedsAny[name]; !lacks(name) && !slices.ContainsFunc(needs, func(n string) bool { return !lacks(n) }) {
			return Missing(below(needs[0]), name+" goes with "+strings.Join(needs, " or "))
		}
	}
	for _, set := range joined.NotAll {
		if whole(set) {
			return Contradictory(below(set[len(set)-1]), "give not all of "+strings.Join(set, " and "))
		}
	}
	return nil
}

// spoken are sets of members in words.
func spoken(sets [][]string) string {
	said := make([]string, 0, len(sets))
	for _, set := range sets {
		said = append(said, strings.Join(set, " with "))
	}
	return strings.Join(said, ", ")
}

// choices are sets of members of which one is to be given.
func choices(sets [][]string) string {
	if said := strings.Split(spoken(sets), ", "); len(said) == 2 {
		return said[0] + " or " + said[1]
	}
	return "one of " + spoken(sets)
}
