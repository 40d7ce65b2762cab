package decode

import (
	"reflect"
	"slices"
	"strings"

	"latewood/api/internal/wire"
)

// namesIn lists the members of an object that is read into a struct.
func namesIn(t reflect.Type) []string {
	var names []string
	for field := range wire.Members(t) {
		names = append(names, wire.MemberName(field))
	}
	return names
}

// pairMembers are those of a quantity that is written as an object.
var pairMembers = []string{"value", "unit"}

// otherNames are words for members that are not like them in spelling.
var otherNames = map[string]string{"path": "route", "url": "route", "body": "request", "payload": "request"}

// meant returns the candidate that name most likely stands for, or "" if none is
// likely.
func meant(name string, candidates []string) string {
	if near := wire.Nearest(name, candidates); near != "" {
		return near
	}
	if other := otherNames[strings.ToLower(name)]; slices.Contains(candidates, other) {
		return other
	}
	return ""
}
