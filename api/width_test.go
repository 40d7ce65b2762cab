package api_test

import (
	"encoding/xml"
	"errors"
	"io"
	"io/fs"
	"net/http"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/drawing"
)

// Courses are laid out anew for the width that they get; the others come wider where their
// text would be too small.
var laidOut = []string{"readiness", "seasoning", "resaw-timing"}

// A drawing asked for with a width can be read there, is as narrow as that or says so, and
// takes the colours of its page.
func TestDrawingsForTheWidthTheyGet(t *testing.T) {
	names, err := fs.Glob(asking.ExampleFiles(), "*.json")
	require.NoError(t, err)
	drawn, seen := 0, map[string]bool{}
	for _, c := range asking.Calculations() {
		if strings.Contains(c.Path, "{") || c.Path == "/v1/batch" {
			continue
		}
		kind := strings.TrimPrefix(c.Path, "/v1/")
		for _, name := range names {
			if !strings.HasPrefix(name, kind+".") {
				continue
			}
			widths := []int{260, 700}
			if seen[kind] || asking.UnderRace { // one of each kind is held to both
				widths = widths[:1]
			}
			seen[kind] = true
			for _, width := range widths {
				text, is := shownAt(t, c.Path, name, width)
				if !is {
					break
				}
				drawn++
				heldToWidth(t, name, text, width, kind)
			}
		}
	}
	assert.Greater(t, drawn, 15)
}

func shownAt(t *testing.T, path, example string, width int) (string, bool) {
	t.Helper()
	r := asking.Posting(path+"?width="+strconv.Itoa(width), asking.ExampleText(t, example), "Accept", "image/svg+xml").Of(t, asking.SharedService())
	if r.Code == http.StatusNotAcceptable || r.Code == http.StatusBadRequest {
		return "", false // it has no drawing
	}
	if strings.Contains(r.Body.String(), "needs the stays") {
		return "", false
	}
	require.Equal(t, http.StatusOK, r.Code, example+": "+r.Body.String())
	return r.Body.String(), true
}

// heldToWidth holds a drawing to its width.
func heldToWidth(t *testing.T, name, text string, width int, kind string) {
	t.Helper()
	decoder := xml.NewDecoder(strings.NewReader(text))
	for {
		_, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err, name)
	}
	root := asking.Drawn(t, text)
	asking.TextsOf(t, root)
	wide := root.Number(t, "width")
	scale := wide / asking.NumberIn(t, strings.Fields(root.Attr("viewBox"))[2])
	root.All(func(s *asking.Shape) {
		if s.XMLName.Local == "text" {
			assert.GreaterOrEqual(t, s.Number(t, "font-size")*scale, drawing.LeastShown-0.01, name+": "+s.Words)
		}
		assert.NotEqual(t, "#000", s.Attr("stroke"), name)
	})
	assert.GreaterOrEqual(t, wide, float64(width)-1, name)
	for _, one := range laidOut {
		if one == kind {
			assert.InDelta(t, width, wide, 1, name)
			assert.Contains(t, text, "<title>", name)
		}
	}
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
