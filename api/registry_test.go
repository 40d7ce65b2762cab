package api_test

import (
	"math"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/shelf"
	"latewood/woodphys/method"
)

// Every row of the registry is complete, its ranges are nested, and its own
// check does what the row says at both ends of every range.
func TestRegistry(t *testing.T) {
	tables, err := shelf.LoadTables()
	require.NoError(t, err)
	seen := map[string]bool{}
	marks := []method.Checked{method.Read, method.Memory, method.Derived, method.Practice}
	for _, m := range tables.Methods {
		t.Run(m.ID, func(t *testing.T) {
			assert.Regexp(t, regexp.MustCompile(`^[a-z]+(\.[a-z0-9-]+)+$`), m.ID)
			assert.False(t, seen[m.ID], "twice")
			seen[m.ID] = true
			for name, text := range map[string]string{"chapter": m.Chapter, "summary": m.Summary, "equation": m.Equation, "accuracy": m.Accuracy, "source": m.Source} {
				assert.NotEmpty(t, text, name)
				assert.NotRegexp(t, `\w\.go\b`, text, "no caller has the source")
			}
			assert.Regexp(t, `\S+\s+\S+`, m.Source, "a source of more than a word")
			assert.Contains(t, marks, m.Checked)
			for _, in := range m.Inputs {
				assert.LessOrEqual(t, in.Limit.Low, in.Fitted.Low, in.Name)
				assert.GreaterOrEqual(t, in.Limit.High, in.Fitted.High, in.Name)
				assert.Less(t, in.Limit.Low, in.Limit.High, in.Name)
				sweep(t, m, in)
			}
		})
	}
	assert.GreaterOrEqual(t, len(seen), 50)
}

// sweep checks one input at the ends of its ranges, just outside, and at
// values that are no numbers.
func sweep(t *testing.T, m *method.Method, in method.Input) {
	t.Helper()
	check := func(v float64) (warned, refused bool) {
		w, err := m.Check(in.Name, v)
		return w != nil, err != nil
	}
	_, refused := check(math.NaN())
	assert.True(t, refused, "%s must refuse NaN", in.Name)
	for _, end := range []struct{ fitted, limit, out float64 }{
		{in.Fitted.Low, in.Limit.Low, math.Inf(-1)}, {in.Fitted.High, in.Limit.High, math.Inf(1)},
	} {
		if math.IsInf(end.limit, 0) {
			continue
		}
		_, refused := check(math.Nextafter(end.limit, end.out))
		assert.True(t, refused, "%s just outside its limit", in.Name)
		warned, refused := check(end.limit)
		assert.False(t, refused, "%s at its limit", in.Name)
		assert.Equal(t, end.limit != end.fitted, warned, "%s between fitted range and limit", in.Name)
		warned, refused = check(end.fitted)
		assert.False(t, warned || refused, "%s at the end of the fitted range", in.Name)
	}
}
