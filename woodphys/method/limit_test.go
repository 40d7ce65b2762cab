package method_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
)

// The words of a limit are made of its values.
func TestLimitsInWords(t *testing.T) {
	for words, limit := range map[string]*method.Limit{
		"at least 3 mm":                method.AtLeast(3, "mm"),
		"more than 0.25 in":            method.MoreThan(0.25, "in"),
		"at most 1000000":              method.AtMost(1e6, ""),
		"less than 30 degrees":         method.LessThan(30, "deg"),
		"-40 to 100.5 C":               method.Between(-40, 100.5, "C"),
		"at least 1 entry":             method.AtLeast(1, "entries"),
		"1 to 5 entries":               method.Between(1, 5, "entries"),
		"at least 2026-03-01":          method.Days("2026-03-01", ""),
		"at most 2026-03-01":           method.Days("", "2026-03-01"),
		"2026-03-01 to 2026-04-01":     method.Days("2026-03-01", "2026-04-01"),
		"after 2026-03-01":             method.AfterDay("2026-03-01"),
		"such as 20.5":                 method.SuchAs("20.5"),
		"one of mean, shell, core":     method.OneOf("mean", "shell", "core"),
		"one of out_of_range, missing": method.OneOf(method.OutOfRange, method.Missing),
		"":                             method.OneOf[string](),
	} {
		assert.Equal(t, words, limit.String())
	}
}

// What a row refuses tells the range as a value, and in the same words.
func TestRowsTellTheirRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(-1e6, 1e6).Draw(t, "low")
		high := low + rapid.Float64Range(0, 1e6).Draw(t, "span")
		m := method.Method{ID: "test.range", Inputs: []method.Input{{Name: "size", Unit: "mm", Limit: method.Range{Low: low, High: high}}}}
		_, err := m.Check("size", high+1)
		var refused *method.Error
		require.True(t, errors.As(err, &refused))
		assert.InDelta(t, low, *refused.Limit.Min, 1e-5*math.Abs(low))
		assert.InDelta(t, high, *refused.Limit.Max, 1e-5*math.Abs(high))
		assert.Contains(t, refused.Detail, "must be "+refused.Limit.String()+";")
	})
}

// Another limit stands in the words as well, and the first error stays as it is.
func TestTelling(t *testing.T) {
	first := method.Error{Detail: "too thick; it must be at most 25.4 mm", Limit: method.AtMost(25.4, "mm")}
	told := first.Telling(method.AtMost(1, "in"))
	assert.Equal(t, "too thick; it must be at most 1 in", told.Detail)
	assert.Equal(t, method.AtMost(1, "in"), told.Limit)
	assert.True(t, strings.HasSuffix(first.Detail, first.Limit.String()))
}
