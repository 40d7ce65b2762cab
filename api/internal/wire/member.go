package wire

import (
	"iter"
	"reflect"
	"strings"
)

// FieldNamed is the field of a struct that has a JSON name, its own or that of a struct
// embedded in it.
func FieldNamed(t reflect.Type, name string) (reflect.StructField, bool) {
	for field := range Members(t) {
		if MemberName(field) == name {
			return field, true
		}
	}
	return reflect.StructField{}, false
}

// Members are the fields of a struct that have a JSON name, with those of the structs
// embedded in it. Their Index leads to them from t.
func Members(t reflect.Type) iter.Seq[reflect.StructField] {
	return func(yield func(reflect.StructField) bool) {
		for i := range t.NumField() {
			field := t.Field(i)
			switch {
			case field.Anonymous && field.Type.Kind() == reflect.Struct && MemberName(field) == "":
				for inner := range Members(field.Type) {
					inner.Index = append([]int{i}, inner.Index...)
					if !yield(inner) {
						return
					}
				}
			case MemberName(field) != "":
				if !yield(field) {
					return
				}
			}
		}
	}
}

// MemberName is the JSON name of a struct field; empty for one without.
func MemberName(f reflect.StructField) string {
	name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
	if name == "-" {
		return ""
	}
	return name
}

// Pointed is the type that a pointer leads to; t itself where it is none.
func Pointed(t reflect.Type) reflect.Type {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	return t
}
