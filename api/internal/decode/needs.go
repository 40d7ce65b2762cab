package decode

import (
	"reflect"
	"strconv"
	"strings"

	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
)

// lack is the error of a member that a route cannot do without, with the pointers of all
// that would do in its place.
type lack struct {
	refuse.FieldError
	choices []string
}

// needed lists what shared objects lack that a route cannot do without. It stands in the tag
// needs of the field that holds the object, or a list of them: names with blanks between
// them, of which one that holds bars asks for any of several.
func needed(request any) []lack {
	var all []lack
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
func lacking(at string, object reflect.Value, names string) []lack {
	var all []lack
	for _, name := range strings.Fields(names) {
		choices, has := strings.Split(name, "|"), false
		var pointers []string
		for _, one := range choices {
			pointers = append(pointers, at+"/"+one)
			field, _ := wire.FieldNamed(object.Type(), one)
			has = has || !object.FieldByIndex(field.Index).IsZero()
		}
		if !has {
			detail := choices[0] + " is needed"
			if len(choices) > 1 {
				last := len(choices) - 1
				detail = "give " + strings.Join(choices[:last], ", ") + " or " + choices[last]
			}
			all = append(all, lack{refuse.FieldError{Pointer: pointers[0], Code: "missing", Detail: detail}, pointers})
		}
	}
	return all
}
