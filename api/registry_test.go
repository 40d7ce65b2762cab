package api_test

import (
	"go/types"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
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

// No row is idle: what holds it is used by something that the program comes to,
// besides the list of its chapter. So an answer, or a refusal, can rest on it.
func TestNoRowIsIdle(t *testing.T) {
	p := theProgram(t)
	tables, err := shelf.LoadTables()
	require.NoError(t, err)
	require.NotEmpty(t, tables.Methods)
	reached := p.reached(isList)
	for _, m := range tables.Methods {
		assert.True(t, reached[p.row(t, m.ID)], "nothing that runs uses the row %s, which GET /v1/methods shows", m.ID)
	}
}

// Nothing of a chapter is idle: the program comes to every function, method, type and
// variable. Constants are left out, because a unit or the zero of a kind may stand for
// completeness.
func TestNothingOfAChapterIsIdle(t *testing.T) {
	p := theProgram(t)
	reached := p.reached(nothing)
	for _, o := range p.ofChapters() {
		if _, constant := o.(*types.Const); !constant {
			assert.True(t, reached[o], "%s: the program never comes to %s", p.fset.Position(o.Pos()), nameOf(o))
		}
	}
}

// The two tests above can fail: without the questions of shape and of the year nothing asks for
// a laminate.
func TestIdleIsFound(t *testing.T) {
	p := theProgram(t)
	without := func(o types.Object) bool {
		return isList(o) || o.Pkg().Path() == module+"/api/internal/shape" || o.Pkg().Path() == module+"/api/internal/year"
	}
	bend := p.packages[physicsPath+"laminate"].Scope().Lookup("Bend")
	require.NotNil(t, bend)
	panel := p.row(t, "laminate.panel")
	reached := p.reached(isList)
	assert.True(t, reached[bend] && reached[panel])
	reached = p.reached(without)
	assert.False(t, reached[bend] || reached[panel])
}

func theProgram(t *testing.T) *program {
	t.Helper()
	asking.OneByOne(t)
	p, err := readProgram()
	require.NoError(t, err)
	return p
}

// isList reports whether o lists the rows of a chapter, which makes none of them used.
func isList(o types.Object) bool { return inChapter(o) && o.Name() == "Methods" }

func nothing(types.Object) bool { return false }

// row is the variable that holds the row id.
func (p *program) row(t *testing.T, id string) types.Object {
	t.Helper()
	var found []types.Object
	for o, value := range p.values {
		if inChapter(o) && strings.HasSuffix(o.Type().String(), physicsPath+"method.Method") && says(value, id) {
			found = append(found, o)
		}
	}
	require.Len(t, found, 1, "variables that hold the row %s", id)
	return found[0]
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
