package serve

import (
	"reflect"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
)

// needed lists what shared objects lack that a route cannot do without. It stands in the tag
// needs of the field that holds the object, or a list of them: names with blanks between
// them, of which one that holds bars asks for any of several.
func needed(request any) []FieldError {
	var all []FieldError
	is := reflect.Indirect(reflect.ValueOf(request))
	for i := range is.NumField() {
		field := is.Type().Field(i)
		names := field.Tag.Get("needs")
		if names == "" {
			continue
		}
		at := "/" + wire.MemberName(field)
		switch value := is.Field(i); {
		case value.Kind() == reflect.Slice:
			for n := range value.Len() {
				all = append(all, lacking(at+"/"+strconv.Itoa(n), value.Index(n), names)...)
			}
		case !value.IsNil():
			all = append(all, lacking(at, value.Elem(), names)...)
		}
	}
	return all
}

// lacking lists the members of those names that a struct at a place lacks.
func lacking(at string, object reflect.Value, names string) []FieldError {
	var all []FieldError
	for _, name := range strings.Fields(names) {
		choices, has := strings.Split(name, "|"), false
		for _, one := range choices {
			field, _ := wire.FieldNamed(object.Type(), one)
			has = has || !object.FieldByIndex(field.Index).IsZero()
		}
		if !has {
			detail := choices[0] + " is needed"
			if len(choices) > 1 {
				detail = "give " + strings.Join(choices, " or ")
			}
			all = append(all, FieldError{Pointer: at + "/" + choices[0], Code: "missing", Detail: detail})
		}
	}
	return all
}
