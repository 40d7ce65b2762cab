package serve

import (
	"reflect"
	"slices"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"latewood/api/internal/wire"
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
			field, ok := wire.FieldNamed(t, token)
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
	case reflect.TypeFor[wire.Length](), reflect.TypeFor[wire.Temperature](), reflect.TypeFor[wire.Mass](), reflect.TypeFor[wire.Pressure]():
		return []string{"value", "unit"}
	}
	if t.Kind() != reflect.Struct {
		return nil
	}
	var names []string
	for i := range t.NumField() {
		if name := wire.MemberName(t.Field(i)); name != "" {
			names = append(names, name)
		}
	}
	return names
}

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
