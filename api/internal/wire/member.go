package wire

import (
	"reflect"
	"strings"
)

// FieldNamed is the field of a struct that has a JSON name; no field has the empty one.
func FieldNamed(t reflect.Type, name string) (reflect.StructField, bool) {
	for i := range t.NumField() {
		if name != "" && MemberName(t.Field(i)) == name {
			return t.Field(i), true
		}
	}
	return reflect.StructField{}, false
}

// MemberName is the JSON name of a struct field; empty for one without.
func MemberName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	if name == "-" {
		return ""
	}
	return name
}
