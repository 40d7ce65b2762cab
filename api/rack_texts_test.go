package api_test

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
)

// Texts say something, and look like what they are; a note is of no day that is still to come.
func TestTextsThatNobodySees(t *testing.T) {
	s, _ := shop(t, 1)
	for body, pointer := range map[string]string{
		`{"id": "n", "text": "  \t "}`: "/text", `{"id": "n", "text": "a\u202eb"}`: "/text", `{"id": "n", "text": "a\u200bb"}`: "/text",
		`{"id": "n", "text": "x", "date": "2126-01-01"}`: "/date",
	} {
		r := asking.Posting("/v1/rack/notes", body).Of(t, s)
		assert.Equal(t, http.StatusUnprocessableEntity, r.Code, body)
		assert.Contains(t, r.Body.String(), `"pointer":"`+pointer+`"`, body)
	}
	assert.Equal(t, http.StatusUnprocessableEntity, asking.Posting("/v1/rack/places", `{"id": "p", "name": " "}`).Of(t, s).Code)
	right(t, s, asking.Posting("/v1/rack/notes", `{"id": "n", "text": "two\nlines, \u0646\u200c\u0645", "date": "2026-03-19"}`))
}

// A row with fewer cells than there are columns is taken, and told.
func TestShortRowsAreTold(t *testing.T) {
	s, _ := shop(t, 0)
	_, taken := right(t, s, asking.Posting("/v1/rack/sheets", asSheet(t, "place", "id,name,note\na,one,x\nb,two\n")))
	assert.Contains(t, taken, `"taken":2`)
	assert.Contains(t, taken, `"row":3`)
	assert.Contains(t, taken, "2 cells for 3 columns")
}

// A printed mass has the digits that a scale shows.
func TestPrintedMassesAreThoseOfAScale(t *testing.T) {
	s, _ := shop(t, 1)
	overviewOf(t, s)
	_, page := right(t, s, asking.Getting("/v1/rack/weighing-list?as=html"))
	assert.Regexp(t, `<td>[0-9]+\.[0-9]{2} to [0-9]+\.[0-9]{2} kg</td>`, page)
}
