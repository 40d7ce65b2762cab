package method_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
)

// anyNumber is the range without ends.
var anyNumber = method.Range{Low: math.Inf(-1), High: math.Inf(1)}

var row = method.Method{
	ID: "test.row", Chapter: "test",
	Inputs: []method.Input{
		{Name: "rh_pct", Unit: "%", Fitted: method.Range{Low: 20, High: 90}, Limit: method.Range{Low: 0, High: 100}},
		{Name: "ratio", Fitted: method.Range{Low: 1, High: 2}, Limit: method.Range{Low: 0, High: math.Inf(1)}},
		{Name: "depth", Unit: "mm", Fitted: anyNumber, Limit: method.Range{Low: math.Inf(-1), High: 5}},
		{Name: "free", Fitted: anyNumber, Limit: anyNumber},
	},
}

func TestCheck(t *testing.T) {
	for _, value := range []float64{20, 50, 90} {
		w, err := row.Check("rh_pct", value)
		require.NoError(t, err)
		assert.Nil(t, w, "the ends belong to the range")
	}
	for _, value := range []float64{0, 19.999, 90.001, 100} {
		w, err := row.Check("rh_pct", value)
		require.NoError(t, err)
		require.NotNil(t, w)
		assert.Equal(t, method.OutsideFitted, w.Code)
		assert.Equal(t, "test.row", w.Method)
		assert.Equal(t, "rh_pct", w.Input)
		assert.Contains(t, w.Detail, "20 to 90 %")
	}
	for _, value := range []float64{-0.001, 100.001, math.Inf(1), math.Inf(-1), math.NaN()} {
		w, err := row.Check("rh_pct", value)
		assert.Nil(t, w)
		var domain *method.Error
		require.True(t, errors.As(err, &domain), "%v", value)
		assert.Equal(t, method.OutOfRange, domain.Code)
		assert.Equal(t, "rh_pct", domain.Input)
		assert.Equal(t, method.Between(0, 100, "%"), domain.Limit)
		assert.Contains(t, domain.Error(), "rh_pct must be 0 to 100 %")
	}
}

// A value is told with four digits, and with more where it would lie within the range with them.
func TestValuesOutsideAreToldShortly(t *testing.T) {
	for value, says := range map[float64]string{7.46826: "rh_pct 7.468 %", 95.12345: "rh_pct 95.12 %", 90.0001: "rh_pct 90.0001 %"} {
		w, err := row.Check("rh_pct", value)
		require.NoError(t, err)
		require.NotNil(t, w)
		assert.Contains(t, w.Detail, says+" lies outside")
	}
}

func TestOpenEnds(t *testing.T) {
	for input, limit := range map[string]*method.Limit{"ratio": method.AtLeast(0, ""), "depth": method.AtMost(5, "mm"), "free": nil} {
		_, err := row.Check(input, math.NaN())
		var domain *method.Error
		require.True(t, errors.As(err, &domain), "not a number is refused even where any number is allowed")
		assert.Equal(t, limit, domain.Limit)
	}
	w, err := row.Check("ratio", 1e300)
	require.NoError(t, err)
	assert.NotNil(t, w)
	_, err = row.Check("ratio", -1)
	require.Error(t, err)
	w, err = row.Check("depth", -1e9)
	require.NoError(t, err)
	assert.Nil(t, w)
}

// A name the row lacks is a mistake of the code, found by the first test that
// runs it.
func TestUnknownInputPanics(t *testing.T) {
	assert.PanicsWithValue(t, "method test.row has no input rh", func() { _, _ = row.Check("rh", 50) })
	var notes method.Notes
	assert.Panics(t, func() { _ = notes.Use(&row, "", 1) })
}

// Every number is refused, warned of or accepted, by the ranges alone.
func TestCheckFollowsTheRanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.Float64Range(-50, 150).Draw(t, "value")
		w, err := row.Check("rh_pct", value)
		assert.Equal(t, value < 0 || value > 100, err != nil)
		assert.Equal(t, err == nil && (value < 20 || value > 90), w != nil)
	})
}

func TestRange(t *testing.T) {
	r := method.Range{Low: 1, High: 2}
	assert.True(t, r.Holds(1))
	assert.True(t, r.Holds(2))
	assert.False(t, r.Holds(math.Nextafter(1, 0)))
	assert.False(t, r.Holds(math.NaN()))
	assert.True(t, anyNumber.Holds(math.Inf(1)))
	assert.False(t, anyNumber.Holds(math.NaN()))
}

func TestNotes(t *testing.T) {
	other := method.Method{ID: "test.other"}
	var notes method.Notes
	require.NoError(t, notes.Use(&row, "rh_pct", 50))
	require.NoError(t, notes.Use(&row, "rh_pct", 95))
	require.NoError(t, notes.Use(&row, "rh_pct", 95))
	require.Error(t, notes.Use(&row, "rh_pct", 101))
	notes.Rest(&other)
	notes.Rest(&row)
	assert.Equal(t, []string{"test.row", "test.other"}, notes.Basis, "each once, in order of first use")
	require.Len(t, notes.Warnings, 1, "the same warning is told once")

	notes.Warn(method.Warning{Code: method.Caution, Detail: "dust"})
	notes.Warn(method.Warning{Code: method.Caution, Detail: "dust"})
	assert.Len(t, notes.Warnings, 2)

	var whole method.Notes
	whole.Rest(&other)
	whole.Merge(notes)
	whole.Merge(notes)
	whole.Merge(method.Notes{})
	assert.Equal(t, []string{"test.other", "test.row"}, whole.Basis)
	assert.Equal(t, notes.Warnings, whole.Warnings)
}

// Notes of one thing among several point at it and name it; names of its own stay.
func TestNotesOfOneAmongSeveral(t *testing.T) {
	own := method.Notes{Basis: []string{"a"}, Warnings: []method.Warning{
		{Detail: "of all of it"}, {Detail: "of a member", Input: "thickness"}, {Detail: "of its wood", Input: "wood", Subject: "Teak"},
	}}
	var n method.Notes
	n.MergeFor("parts/1", "deck", own)
	assert.Equal(t, []string{"a"}, n.Basis)
	assert.Equal(t, []method.Warning{
		{Detail: "of all of it", Input: "parts/1", Subject: "deck"}, {Detail: "of a member", Input: "parts/1/thickness", Subject: "deck"},
		{Detail: "of its wood", Input: "parts/1/wood", Subject: "Teak"},
	}, n.Warnings)
	n = n.Renamed([2]string{"parts/1", "parts/2"}, [2]string{"parts/1/", "parts/2/"})
	assert.Equal(t, "parts/2", n.Warnings[0].Input)
	assert.Equal(t, "parts/2/thickness", n.Warnings[1].Input)
	assert.Empty(t, own.Warnings[0].Input, "what was merged is not changed")
}
