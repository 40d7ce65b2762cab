package api_test

import (
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

var isoDay = regexp.MustCompile(`"\d{4}-\d{2}-\d{2}"`)

// Days are read as people write them, wherever a request has one; what may be two days is
// refused with both readings.
func TestDaysAsPeopleWriteThem(t *testing.T) {
	body := asking.ExampleText(t, "readiness.learned-from-weighings.json")
	plain := asking.Posting("/v1/readiness", body).Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, plain.Code, plain.Body.String())
	written := 0
	local := isoDay.ReplaceAllStringFunc(body, func(text string) string {
		y, m, d := text[1:5], text[6:8], text[9:11]
		written++
		return `"` + []string{strings.TrimLeft(d, "0") + "." + strings.TrimLeft(m, "0") + "." + y, y + "/" + m + "/" + d}[written%2] + `"`
	})
	require.Greater(t, written, 5)
	r := asking.Posting("/v1/readiness", local).Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	assert.JSONEq(t, plain.Body.String(), r.Body.String())

	two := isoDay.ReplaceAllString(asking.ExampleText(t, "seasoning.red-oak-air-dried-then-kiln.json"), `"3/4/2026"`)
	r = asking.Posting("/v1/seasoning", two).Of(t, asking.SharedService())
	assert.Equal(t, http.StatusUnprocessableEntity, r.Code)
	assert.Contains(t, r.Body.String(), "3 April 2026 (2026-04-03) or 4 March 2026 (2026-03-04)")
}
