package api_test

import (
	"net/http"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/contract"
	"latewood/api/internal/serve"
	"latewood/api/internal/wire"
)
// Every example of every drawing is laid out for the width that it is asked for.
func TestDrawingsForTheWidthTheyGet(t *testing.T) {
	asking.OneByOne(t)
	service, err := api.New(serve.Config{Version: "example", Rack: asking.Rack()})
	require.NoError(t, err)
	widths := asking.ScreenWidths
	if asking.UnderRace {
		widths = widths[:1]
	}
	drawn := map[string]int{}
	for _, r := range api.Routes {
		if !slices.Contains(r.Forms, wire.DrawnForm) {
			continue
		}
		for i, e := range contract.ExamplesOf(asking.ExampleFiles(), &r) {
			for _, width := range widths {
				t.Run(r.ID+" "+strconv.Itoa(i)+" "+strconv.Itoa(width), func(t *testing.T) {
					text, is := shownAt(t, service, r.Method, &e, width)
					if !is {
						t.Skip("it has no drawing")
					}
					drawn[r.ID]++
					asking.HeldToWidth(t, text, width)
				})
			}
		}
		assert.NotZero(t, drawn[r.ID], r.ID)
	}
}

// shownAt asks for the drawing of an example; some readings make none.
func shownAt(t *testing.T, s *serve.Service, verb string, e *contract.Example, width int) (text string, is bool) {
	t.Helper()
	target, mark := e.Path, "?"
	if strings.Contains(target, "?") {
		mark = "&"
	}
	target += mark + "as=svg&width=" + strconv.Itoa(width)
	r := asking.Asked{Verb: verb, Target: target, Body: string(e.Body)}.Of(t, s)
	if strings.Contains(r.Body.String(), "needs the stays") {
		return "", false
	}
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	return r.Body.String(), true
}

// A width that is none is refused, and without one a drawing is as it is printed.
func TestWidthIsAWholeNumber(t *testing.T) {
	body := asking.ExampleText(t, "seasoning.red-oak-air-dried-then-kiln.json")
	for _, wrong := range []string{"239", "1601", "wide", "400.5"} {
		r := asking.Posting("/v1/seasoning?width="+wrong, body, "Accept", "image/svg+xml").Of(t, asking.SharedService())
		assert.Equal(t, http.StatusBadRequest, r.Code, wrong)
		assert.Contains(t, r.Body.String(), `"parameter":"width"`, wrong)
	}
	plain := asking.Posting("/v1/seasoning", body, "Accept", "image/svg+xml").Of(t, asking.SharedService())
	assert.NotContains(t, plain.Body.String(), "currentColor")
	assert.Contains(t, plain.Body.String(), `width="760"`)
}
