package api_test

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api"
	"latewood/api/internal/wire"
)

// A member of a request either may be left out or is told missing, never judged by
// a zero that nobody sent: so the contract lists it as required, too.
func TestMembersOfRequestsAreRequiredOrMayBeLeftOut(t *testing.T) {
	seen := map[reflect.Type]bool{}
	var look func(reflect.Type)
	look = func(kind reflect.Type) {
		for kind.Kind() == reflect.Pointer || kind.Kind() == reflect.Slice {
			kind = kind.Elem()
		}
		if kind.Kind() != reflect.Struct || seen[kind] {
			return
		}
		seen[kind] = true
		for _, form := range wire.FormsOf(kind) {
			look(form)
		}
		for i := range kind.NumField() {
			field := kind.Field(i)
			if wire.MemberName(field) == "" {
				if field.Anonymous {
					look(field.Type)
				}
				continue
			}
			rules := strings.Split(field.Tag.Get("validate"), ",")
			if strings.Contains(field.Tag.Get("json"), ",omit") {
				assert.NotContains(t, rules, "required", "%s.%s", kind, field.Name)
			} else {
				assert.Contains(t, rules, "required", "%s.%s", kind, field.Name)
				assert.NotContains(t, []reflect.Kind{reflect.Int, reflect.Float64, reflect.Bool}, field.Type.Kind(), "%s.%s: a zero could be meant", kind, field.Name)
			}
			look(field.Type)
		}
	}
	for i := range api.Routes {
		if api.Routes[i].Request != nil {
			look(reflect.TypeOf(api.Routes[i].Request))
		}
	}
	assert.Greater(t, len(seen), 50)
}
