package api_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api/internal/asking"
)

func weight(id, date, mass string) string {
	return `{"id": "` + id + `", "billet": "w-1", "reading": {"kind": "weight", "date": "` + date + `", "mass": "` + mass + `"}}`
}

// What cannot be is refused when it comes, at its member and with a way on.
func TestDaysThatCannotBeAreRefusedAtEntry(t *testing.T) {
	s, _ := shop(t, 1)
	billet := func(stacked string) string {
		return `{"id": "new", "billet": {"wood": "walnut-black", "length": "620 mm", "width": "230 mm", "thickness": "52 mm", "stacked_on": "` + stacked + `"}}`
	}
	event := func(kind, date string) string {
		return `{"id": "e", "billet": "w-1", "event": {"kind": "` + kind + `", "date": "` + date + `"}}`
	}
	leaf := strings.Replace(billet("2031-03-15"), `"billet"`, `"parent": {"billet": "w-1"}, "billet"`, 1)
	for _, c := range []struct {
		path, body string
		status     int
		at, says   string
	}{
		{"readings", weight("r", "2027-03-14", "10.4 kg"), 422, "/reading/date", "still to come"},
		{"readings", weight("r", "2026-03-22", "10.4 kg"), 422, "/reading/date", "at most 2026-03-21"},
		{"readings", weight("r", "1999-03-14", "10.4 kg"), 422, "/reading/date", "stacked, 2024-03-23"},
		{"readings", weight("r", "2026-03-14", "10.4 kg"), 409, "/reading/date", `the reading "w-1-7"`},
		{"weighing-days", `{"readings": [` + weight("r", "2026-03-19", "10.4 kg") + `, ` + weight("q", "2026-03-14", "10.4 kg") + `]}`, 409, "/readings/1/reading/date", "/v1/rack/readings/w-1-7"},
		{"weighing-days", `{"readings": [` + weight("r", "2026-03-19", "10.4 kg") + `, ` + weight("q", "2026-03-19", "10.5 kg") + `]}`, 409, "/readings/1/reading/date", "sent with it"},
		{"events", event("moved", "2031-03-14"), 422, "/event/date", "still to come"},
		{"events", event("used", "1999-03-14"), 422, "/event/date", "before the billet was stacked"},
		{"billets", billet("2031-03-14"), 422, "/billet/stacked_on", "still to come"},
		{"cuttings", `{"event": ` + event("resawn", "2026-03-20") + `, "pieces": [` + leaf + `]}`, 422, "/pieces/0/billet/stacked_on", "still to come"},
	} {
		p := asking.ProblemOf(t, asking.Posting("/v1/rack/"+c.path, c.body).Of(t, s), c.status)
		if assert.Len(t, p.Errors, 1, c.body) {
			assert.Equal(t, c.at, p.Errors[0].Pointer, c.body)
			assert.Contains(t, p.Errors[0].Detail, c.says)
		}
	}
	for _, fine := range [][2]string{
		{"readings", weight("ahead", "2026-03-21", "10.4 kg")}, // by a clock east of the service
		{"readings", `{"id": "board", "billet": "w-1", "reading": {"kind": "weight", "of": "sample_board", "date": "2026-03-14", "mass": "1.4 kg"}}`},
		{"readings", `{"id": "pins", "billet": "w-1", "reading": {"kind": "pin_meter", "date": "2026-03-14", "reading_mc_pct": 12}}`},
		{"events", event("sawn", "2024-03-01")},
		{"stays", `{"id": "to-come", "billet": "w-1", "from": "2026-09-01", "place": "shed"}`},
		{"billets", billet("2026-03-21")},
	} {
		right(t, s, asking.Posting("/v1/rack/"+fine[0], fine[1]))
	}
}

// A weight that is there may be sent again, changed and taken back; what comes in its way is
// refused on every way in.
func TestOneWeightADay(t *testing.T) {
	s, _ := shop(t, 1)
	day := asking.Posting("/v1/rack/weighing-days", `{"readings": [`+weight("r", "2026-03-19", "10.4 kg")+`]}`, "Idempotency-Key", "k")
	_, first := right(t, s, day)
	_, again := right(t, s, day)
	assert.Equal(t, first, again)

	right(t, s, patching("readings/r", `{"reading": {"mass": "10.41 kg"}}`, "If-Match", "*"))
	p := asking.ProblemOf(t, patching("readings/r", `{"reading": {"date": "2026-03-14"}}`, "If-Match", "*").Of(t, s), http.StatusConflict)
	assert.Contains(t, p.Errors[0].Detail, `"w-1-7"`)
	asking.ProblemOf(t, patching("readings/r", `{"reading": {"date": "2027-03-14"}}`, "If-Match", "*").Of(t, s), http.StatusUnprocessableEntity)

	right(t, s, withVerb(http.MethodDelete, "/v1/rack/readings/r", "", "If-Match", "*"))
	right(t, s, asking.Posting("/v1/rack/readings", weight("instead", "2026-03-19", "10.5 kg")))
	_, repeated := right(t, s, day)
	assert.Equal(t, first, repeated, "sent again later still it is what it was")
	p = asking.ProblemOf(t, asking.Posting("/v1/rack/readings/r/undo", `{}`, "If-Match", "*").Of(t, s), http.StatusConflict)
	assert.Contains(t, p.Errors[0].Detail, `"instead"`, "nor does undo bring it back beside another")

	const head = "id,billet,reading.kind,reading.date,reading.mass\n"
	sheet := head + "instead,w-1,weight,2026-03-19,10.5 kg\nx,w-1,weight,2026-03-19,10.6 kg\ny,w-1,weight,2026-03-20,10.5 kg\nz,w-1,weight,1999-03-20,10.5 kg\n"
	taken := sheetOf(t, s, "reading", sheet, true)
	assert.Equal(t, 1, taken.Taken)
	assert.Equal(t, 1, taken.Unchanged)
	if assert.Len(t, taken.Refused, 2) {
		assert.Equal(t, "reading.date", taken.Refused[0].Column)
		assert.Contains(t, taken.Refused[0].Detail, `"instead"`)
		assert.Contains(t, taken.Refused[1].Detail, "2024-03-23")
	}
	assert.Equal(t, 2, sheetOf(t, s, "reading", head+"instead,w-1,weight,2026-03-19,10.5 kg\ny,w-1,weight,2026-03-20,10.5 kg\n", false).Unchanged)
}
