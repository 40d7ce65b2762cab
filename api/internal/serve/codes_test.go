package serve_test

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
	"latewood/api/internal/refuse"
	"latewood/woodphys/method"
)

// The contract names the codes of the table, each once.
func TestCodesAreThoseOfTheContract(t *testing.T) {
	field, _ := reflect.TypeFor[refuse.FieldError]().FieldByName("Code")
	var codes []string
	for _, c := range asking.Codes {
		codes = append(codes, c.Code)
	}
	assert.Equal(t, strings.Split(field.Tag.Get("enum"), ","), codes)
	assert.Equal(t, "a known code", asking.Lacks(&refuse.FieldError{Code: "no_such_code"}))
	assert.Equal(t, "a bound", asking.Lacks(&refuse.FieldError{Code: "out_of_range"}))
	assert.Equal(t, "choices", asking.Lacks(&refuse.FieldError{Code: "not_a_choice", Limit: &method.Limit{Unit: "mm"}}))
}
