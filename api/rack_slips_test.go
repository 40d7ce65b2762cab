package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/rack"
)

// warned are the warnings of an entry in a reply.
func warned(t *testing.T, body string) []struct{ Code, Pointer, Detail string } {
	t.Helper()
	var reply struct {
		Warnings []struct{ Code, Pointer, Detail string }
	}
	require.NoError(t, json.Unmarshal([]byte(body), &reply))
	return reply.Warnings
}

// A weight far from what is to be expected is kept, and the reply says what is odd about it: for
// one entry, for a weighing day, for a sheet and for a change, each at its place.
func TestSlipsAreToldInTheReply(t *testing.T) {
	s, _ := shop(t, 1)
	right(t, s, asking.Getting("/v1/rack/overview?wait_seconds=20"))
	reading := func(id, mass string) string {
		return fmt.Sprintf(`{"id": %q, "billet": "w-1", "reading": {"kind": "weight", "date": "2026-03-20", "mass": %q}}`, id, mass)
	}
	n := 1
	usual := 40.0 / 54 * 10.45
	for mass, says := range map[string]string{
		fmt.Sprintf("%.2f kg", usual):         "",
		fmt.Sprintf("%.2f lb", usual/0.45359): "",
		fmt.Sprintf("%.2f kg", usual/0.45359): "pounds were read as kilograms",
		fmt.Sprintf("%.2f lb", usual):         "kilograms were read as pounds",
		fmt.Sprintf("%.1f kg", 10*usual):      "the decimal point slipped",
		fmt.Sprintf("%.2f kg", 0.9*usual):     "less than the",
		fmt.Sprintf("%.2f kg", 1.1*usual):     "more than the",
		"6.78 kg":                             "two digits were swapped: 7.68 for 6.78",
	} {
		asked := asking.Posting("/v1/rack/readings", reading("r-"+fmt.Sprint(n), mass))
		reply := asked.Of(t, s)
		if reply.Code == http.StatusUnprocessableEntity { // more or less than it can be
			require.NotEmpty(t, says)
			assert.Contains(t, reply.Body.String(), "than a piece of this size and wood weighs")
			assert.Contains(t, reply.Body.String(), says)
			n++
			continue
		}
		require.Equal(t, http.StatusOK, reply.Code, reply.Body.String())
		body := reply.Body.String()
		_, day := right(t, s, asking.Getting("/v1/rack/readings/r-"+fmt.Sprint(n)))
		assert.Empty(t, warned(t, day), "it is told once")
		told := warned(t, body)
		if says == "" {
			assert.Empty(t, told, mass)
		} else if assert.Len(t, told, 1, mass) {
			assert.Equal(t, "check_input", told[0].Code)
			assert.Equal(t, "/reading/mass", told[0].Pointer)
			assert.Contains(t, told[0].Detail, says)
			assert.Contains(t, told[0].Detail, "expected on 20 March 2026")
		}
		right(t, s, withVerb(http.MethodDelete, "/v1/rack/readings/r-"+fmt.Sprint(n), "", "If-Match", "*"))
		n++
	}
}

// Where nothing was worked out the last weight is what there is; wood that was taken off since then
// says nothing of the next one.
func TestSlipsWithoutAForecast(t *testing.T) {
	s, _ := shop(t, 0)
	right(t, s, asking.Posting("/v1/rack/billets", `{"id": "w-1", "billet": {"thickness": "52 mm"}}`))
	weight := func(id, date, mass string) string {
		return fmt.Sprintf(`{"id": %q, "billet": "w-1", "reading": {"kind": "weight", "date": %q, "mass": %q}}`, id, date, mass)
	}
	_, first := right(t, s, asking.Posting("/v1/rack/readings", weight("r-1", "2026-01-10", "4.91 kg")))
	assert.Empty(t, warned(t, first), "there is nothing to hold it against")
	_, day := right(t, s, asking.Posting("/v1/rack/weighing-days", `{"readings": [`+weight("r-2", "2026-01-20", "4.88 kg")+`, `+weight("r-3", "2026-01-30", "10.7 kg")+`]}`))
	var page rack.PageOf[struct {
		Warnings []struct{ Pointer, Detail string }
	}]
	require.NoError(t, json.Unmarshal([]byte(day), &page))
	assert.Empty(t, page.Items[0].Warnings)
	require.Len(t, page.Items[1].Warnings, 1)
	assert.Equal(t, "/readings/1/reading/mass", page.Items[1].Warnings[0].Pointer)
	assert.Contains(t, page.Items[1].Warnings[0].Detail, "after 4.88 kg on 20 January 2026")
	assert.Contains(t, page.Items[1].Warnings[0].Detail, "pounds were read as kilograms")
	_, mended := right(t, s, patching("readings/r-3", `{"reading": {"mass": "4.86 kg"}}`, "If-Match", "*"))
	assert.Empty(t, warned(t, mended))
	_, worse := right(t, s, patching("readings/r-3", `{"reading": {"mass": "48.6 kg"}}`, "If-Match", "*"))
	assert.Contains(t, warned(t, worse)[0].Detail, "decimal point")
	right(t, s, patching("readings/r-3", `{"reading": {"mass": "4.86 kg"}}`, "If-Match", "*"))

	sheet := "id;billet;reading.kind;reading.date;reading.mass\r\nr-4;w-1;weight;2026-02-10;4,84 kg\r\n;;;;\r\nr-5;w-1;weight;20 Feb 2026;8,44 kg\r\n"
	_, taken := right(t, s, asking.Posting("/v1/rack/sheets", asSheet(t, "reading", sheet)))
	var done rack.SheetTaken
	require.NoError(t, json.Unmarshal([]byte(taken), &done))
	require.Len(t, done.Warnings, 1, taken)
	assert.Equal(t, "r-5 reading.mass", done.Warnings[0].ID+" "+done.Warnings[0].Column)
	assert.Equal(t, 4, done.Warnings[0].Row)

	right(t, s, asking.Posting("/v1/rack/events", `{"id": "e-1", "billet": "w-1", "event": {"kind": "trimmed", "date": "2026-03-01"}}`))
	_, lighter := right(t, s, asking.Posting("/v1/rack/readings", weight("r-6", "2026-03-10", "2.1 kg")))
	assert.Empty(t, warned(t, lighter))
}

// Sheets are read as people and their spreadsheets write them.
func TestSheetsAsTheyAreWritten(t *testing.T) {
	s, _ := shop(t, 0)
	rows := []string{"id,billet.wood,billet.length,billet.thickness,billet.rings.angle_deg,billet.note", `w-%d,black walnut,"620,5 mm",52 mm,"70,5",it was "free"`}
	plain := strings.ReplaceAll(strings.Join(rows, "\n"), `"620,5 mm"`, "620.5 mm")
	for i, sheet := range []string{
		strings.Replace(strings.ReplaceAll(plain, `it was "free"`, "free"), `"70,5"`, "70.5", 1),
		"\ufeffid;billet.wood;billet.length;billet.thickness;billet.rings.angle_deg;billet.note;;\r\n;;;;;;;\r\nw-%d;black\u00a0walnut ;620,5\u00a0mm;52\u202fmm;70,5; free;;\r\n;;;;;;;\r\n\r\n",
		"\n\n id \t billet.wood\tbillet.length\tbillet.thickness\tbillet.rings.angle_deg\tbillet.note\t \nw-%d\tblack walnut\t 620,5 mm \t52 mm\t70,5\t\u200bfree\u200b\t\n",
		"id;billet.wood;billet.length;billet.thickness;billet.rings.angle_deg;billet.note\rw-%d;black walnut;620,5 mm;52 mm;70,5;free\r",
	} {
		_, taken := right(t, s, asking.Posting("/v1/rack/sheets", asSheet(t, "billet", strings.Replace(sheet, "%d", fmt.Sprint(i), 1))))
		assert.Contains(t, taken, `"taken":1`, "%d %s", i, taken)
		_, body := right(t, s, asking.Getting(fmt.Sprintf("/v1/rack/billets/w-%d", i)))
		billet := jsonOf(t, memberwise(t, body)["billet"])
		length := "620.5 mm"
		if i > 0 {
			length = "620,5 mm"
		}
		assert.JSONEq(t, `{"wood": "black walnut", "length": "`+length+`", "thickness": "52 mm", "rings": {"angle_deg": 70.5}, "note": "free"}`, billet, i)
	}
	_, wrong := right(t, s, asking.Posting("/v1/rack/sheets", asSheet(t, "billet", "id,billet.thickness,billet.note\n\nw-8,52 mm,\"one\ntwo\"\n\n,,\nw-9,soon,\n")))
	assert.Contains(t, wrong, `"row":6,"id":"w-9","column":"billet.thickness"`, "rows are counted as the spreadsheet numbers them")
}
