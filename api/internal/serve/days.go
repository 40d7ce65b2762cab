package serve

import (
	"reflect"
	"strings"
	"sync"

	"latewood/api/internal/wire"
)

// dayRule marks the members that are days.
const dayRule = "datetime=2006-01-02"

// readDays reads the days of a request as people write them: each is a date of the wire from
// then on. What may be two days, or is none, stays as it is, and is refused by its rule.
func readDays(request any) { readDaysOf(reflect.ValueOf(request)) }

func readDaysOf(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			readDaysOf(v.Elem())
		}
	case reflect.Slice:
		if holdsDays(v.Type().Elem()) {
			for i := range v.Len() {
				readDaysOf(v.Index(i))
			}
		}
	case reflect.Struct:
		for _, i := range dayFields(v.Type()) {
			field := v.Field(i)
			if field.Kind() != reflect.String {
				readDaysOf(field)
				continue
			}
			if day, is := wire.ReadDay(field.String()); is && field.CanSet() {
				field.SetString(day)
			}
		}
	default:
	}
}

var fieldsWithDays sync.Map // of the structs seen so far

// dayFields are the fields of a struct that are days, or that may hold some.
func dayFields(t reflect.Type) []int {
	if known, is := fieldsWithDays.Load(t); is {
		return known.([]int) //nolint:forcetypeassert // nothing else is stored
	}
	var found []int
	for i := range t.NumField() {
		field := t.Field(i)
		isDay := field.Type.Kind() == reflect.String && strings.Contains(field.Tag.Get("validate"), dayRule)
		if field.IsExported() && (isDay || field.Type.Kind() != reflect.String && holdsDays(field.Type)) {
			found = append(found, i)
		}
	}
	fieldsWithDays.Store(t, found)
	return found
}

// holdsDays reports a type that a day may stand in, at any depth: no number or flag does.
func holdsDays(t reflect.Type) bool {
	switch t.Kind() {
	case reflect.Struct, reflect.Interface:
		return true
	case reflect.Pointer, reflect.Slice:
		return holdsDays(t.Elem())
	default:
		return false
	}
}
