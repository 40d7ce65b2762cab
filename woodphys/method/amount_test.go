package method

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// inInches is how a caller would show lengths; all else stays.
func inInches(a Amount) (string, bool) {
	if a.Unit != "mm" {
		return "", false
	}
	return number(a.Value/25.4) + " in", true
}

func TestWarningsAreSaidInOtherUnits(t *testing.T) {
	open := Range{math.Inf(-1), math.Inf(1)}
	row := &Method{ID: "x", Inputs: []Input{
		{Name: "between", Unit: "mm", Fitted: Range{25.4, 50.8}, Limit: open},
		{Name: "least", Unit: "mm", Fitted: Range{25.4, open.High}, Limit: open},
		{Name: "most", Unit: "mm", Fitted: Range{open.Low, 25.4}, Limit: open},
		{Name: "share", Unit: "%", Fitted: Range{0, 100}, Limit: open},
	}}
	const rest = ", the range this method was fitted in; the answer is an extrapolation"
	for _, c := range []struct {
		input       string
		value       float64
		metric, new string
	}{
		{"between", 254, "between 254 mm lies outside 25.4 to 50.8 mm", "between 10 in lies outside 1 in to 2 in"},
		{"least", 12.7, "least 12.7 mm lies outside at least 25.4 mm", "least 0.5 in lies outside at least 1 in"},
		{"most", 50.8, "most 50.8 mm lies outside at most 25.4 mm", "most 2 in lies outside at most 1 in"},
		{"share", 120, "share 120 % lies outside 0 to 100 %", "share 120 % lies outside 0 to 100 %"},
	} {
		w, err := row.Check(c.input, c.value)
		require.NoError(t, err)
		require.NotNil(t, w)
		assert.Equal(t, c.metric+rest, w.Detail)
		assert.Equal(t, c.new+rest, w.In(inInches))
		named := w.Of("50 % top")
		assert.Equal(t, "50 % top: "+c.metric+rest, named.Detail)
		assert.Equal(t, "50 % top: "+c.new+rest, named.In(inInches))
	}
	plain := Warning{Detail: "100 % sure"}
	assert.Equal(t, plain.Detail, plain.In(inInches))
	mixed := Warning{Detail: "a"}.Saying("%s and %s", Amount{25.4, "mm"}, Amount{3, "d"})
	assert.Equal(t, "1 in and 3 d", mixed.In(inInches))

	// Warnings that differ in their amounts only by what Detail rounds are still one
	// each; the same warning twice is one.
	var n Notes
	w, _ := row.Check("between", 254)
	n.Warn(*w)
	w, _ = row.Check("between", 254)
	n.Warn(*w)
	assert.Len(t, n.Warnings, 1)
}
