package api_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/rack"
)

// A weight that the wood cannot have is refused in every way in, as readiness refuses it; one
// that is only unlikely is kept with a warning.
func TestImpossibleWeightsAreRefused(t *testing.T) {
	s, _ := shop(t, 2)
	reading := func(id, wood, mass string) string {
		return `{"id": "` + id + `", "billet": "` + wood + `", "reading": {"kind": "weight", "date": "2026-03-19", "mass": "` + mass + `"}}`
	}
	for _, mass := range []string{"4830 kg", "0.5 kg", "900 lb"} {
		for _, way := range []struct {
			at    string
			asked asking.Asked
		}{
			{"/reading/mass", asking.Posting("/v1/rack/readings", reading("x", "w-1", mass))},
			{"/readings/1/reading/mass", asking.Posting("/v1/rack/weighing-days", `{"readings": [`+reading("y", "w-2", "8 kg")+`, `+reading("x", "w-1", mass)+`]}`)},
			{"/reading/mass", patching("readings/w-1-7", `{"reading": {"mass": "`+mass+`"}}`, "If-Match", "*")},
		} {
			r := way.asked.Of(t, s)
			require.Equal(t, http.StatusUnprocessableEntity, r.Code, "%s %s", mass, r.Body)
			assert.Contains(t, r.Body.String(), `"pointer":"`+way.at+`"`)
			assert.Contains(t, r.Body.String(), "than a piece of this size and wood weighs")
		}
		rows := "id,billet,reading.kind,reading.date,reading.mass\\nx,w-1,weight,2026-03-19," + mass + "\\n"
		_, sheet := right(t, s, asking.Posting("/v1/rack/sheets", `{"kind": "reading", "csv": "`+rows+`"}`))
		assert.Contains(t, sheet, `"column":"reading.mass"`)
		assert.Contains(t, sheet, `"taken":0`)
	}
	_, body := right(t, s, asking.Posting("/v1/rack/readings", reading("x", "w-1", "9.9 kg")))
	assert.Contains(t, body, "to be expected")
	// Of wood that was planed the sizes say nothing.
	right(t, s, asking.Posting("/v1/rack/events", `{"id": "e", "billet": "w-2", "event": {"kind": "planed", "date": "2026-03-18"}}`))
	right(t, s, asking.Posting("/v1/rack/readings", reading("z", "w-2", "0.5 kg")))
}

// The weight to go by is the last one that answers rest on; one that was set aside stands beside it.
func TestWeighingListMarksWhatWasSetAside(t *testing.T) {
	s, _ := shop(t, 1)
	right(t, s, asking.Posting("/v1/rack/readings", `{"id": "slip", "billet": "w-1", "reading": {"kind": "weight", "date": "2026-03-19", "mass": "12 kg"}}`))
	o := overviewOf(t, s)
	require.Len(t, o.Look, 1)
	assert.Equal(t, "w-1-7", o.Wood[0].Last.ID)
	require.NotNil(t, o.Wood[0].Doubted)
	assert.Equal(t, "slip", o.Wood[0].Doubted.ID)
	list := asking.Decoded[rack.WeighingList](t, asking.Getting("/v1/rack/weighing-list").Of(t, s).Body.Bytes())
	assert.Equal(t, "w-1-7", list.Items[0].Last.ID)
	assert.NotNil(t, list.Items[0].Mass)
	_, page := right(t, s, asking.Getting("/v1/rack/weighing-list?as=html"))
	assert.Contains(t, page, "set aside: 12 kg")
}

// A weighing day that is sent again, with more readings or not, keeps what is new.
func TestWeighingDayMayBeSentAgain(t *testing.T) {
	s, _ := shop(t, 2)
	one := `{"id": "d-1", "billet": "w-1", "reading": {"kind": "weight", "date": "2026-03-19", "mass": "7.74 kg"}}`
	two := `{"id": "d-2", "billet": "w-2", "reading": {"kind": "weight", "date": "2026-03-19", "mass": "7.93 kg"}}`
	right(t, s, asking.Posting("/v1/rack/weighing-days", `{"readings": [`+one+`]}`))
	for _, unchanged := range []string{`"unchanged":1`, `"unchanged":2`} {
		_, body := right(t, s, asking.Posting("/v1/rack/weighing-days", `{"readings": [`+one+`, `+two+`]}`))
		assert.Contains(t, body, unchanged)
		assert.Contains(t, body, `"total":2`)
		assert.Less(t, strings.Index(body, `"d-1"`), strings.Index(body, `"d-2"`))
	}
	r := asking.Posting("/v1/rack/weighing-days", `{"readings": [`+one+`, `+strings.Replace(two, "7.93", "7.95", 1)+`]}`).Of(t, s)
	assert.Equal(t, http.StatusConflict, r.Code)
	assert.Contains(t, r.Body.String(), `"pointer":"/readings/1/id"`)
}

// A name that a spreadsheet would run is written with quotes, in every table alike.
func TestTablesWriteFormulasAsText(t *testing.T) {
	s, _ := shop(t, 1)
	for _, name := range []string{"=1+1", "+1 of two", "-old", "@home"} {
		right(t, s, patching("billets/w-1", `{"spot": "`+name+`", "billet": {"name": "`+name+`"}}`, "If-Match", "*"))
		for _, table := range []string{"billets?as=csv", "overview?as=csv", "weighing-list?as=csv"} {
			_, text := right(t, s, asking.Getting("/v1/rack/"+table))
			assert.Contains(t, text, `,"""`+name+`""",`, table)
		}
	}
}
