package asking

import (
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// FormOf is what one published form gives of all that an answer tells by their Form, and it
// must have it.
func FormOf[T any](t testing.TB, forms []T, form string) T {
	t.Helper()
	i := slices.IndexFunc(forms, func(one T) bool { return reflect.ValueOf(one).FieldByName("Form").String() == form })
	require.GreaterOrEqual(t, i, 0, "no form %s", form)
	return forms[i]
}
