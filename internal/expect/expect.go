// Package expect holds what the tests of several chapters ask: that an error or a warning
// is the one meant, and the committed tables that an answer is held against. Only tests
// import it.
package expect

import (
	"encoding/csv"
	"os"
	"regexp"
	"slices"
	"strconv"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
)

// T is a test, of the standard library or of drawn cases.
type T interface {
	require.TestingT
	Helper()
}

// numbered matches words that tell a limit by a number.
var numbered = regexp.MustCompile(`(at least|at most|more than|less than|must be|numbered) -?[0-9]`)

// Code requires that err is an error of a chapter with the code, about the input, and says
// why. It returns it. What its words tell by a number its limit has as one.
func Code(t T, err error, code method.Code, input string) method.Error {
	t.Helper()
	var e *method.Error
	require.ErrorAs(t, err, &e)
	assert.Equal(t, code, e.Code, e.Detail)
	assert.Equal(t, input, e.Input, e.Detail)
	assert.NotEmpty(t, e.Detail)
	if numbered.MatchString(e.Detail) && assert.NotNil(t, e.Limit, e.Detail) {
		assert.True(t, e.Limit.Min != nil || e.Limit.Max != nil, e.Detail)
	}
	return *e
}

// Warned reports whether there is a warning of the code.
func Warned(n method.Notes, code method.Code) bool {
	return slices.ContainsFunc(n.Warnings, func(w method.Warning) bool { return w.Code == code })
}

// Table returns the rows of a committed table under its heading, which is not among them.
// Lines that begin with # are remarks.
func Table(t T, path string) (heading []string, rows [][]string) {
	t.Helper()
	file, err := os.Open(path) //nolint:gosec // the path stands in a test
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	all, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(all), 1, "%s has no rows", path)
	return all[0], all[1:]
}

// Named returns the rows of a committed table by the names of its columns.
func Named(t T, path string) []map[string]string {
	t.Helper()
	heading, rows := Table(t, path)
	all := make([]map[string]string, len(rows))
	for i, row := range rows {
		all[i] = make(map[string]string, len(heading))
		for column, name := range heading {
			all[i][name] = row[column]
		}
	}
	return all
}

// Number reads a number of a table.
func Number(t T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}
