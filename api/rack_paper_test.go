package api_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	ics "github.com/arran4/golang-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/rack"
	"latewood/api/internal/serve"
)

// sheetOf sends a sheet.
func sheetOf(t *testing.T, s *serve.Service, kind, text string, rest bool) rack.SheetTaken {
	t.Helper()
	body, err := json.Marshal(map[string]any{"kind": kind, "csv": text, "take_the_rest": rest})
	require.NoError(t, err)
	_, answer := right(t, s, asking.Posting("/v1/rack/sheets", string(body)))
	return asking.Decoded[rack.SheetTaken](t, []byte(answer))
}

// Each row that cannot be taken is told, and the others are taken only on wish.
func TestSheetTellsEachRow(t *testing.T) {
	s := keeping(t, serve.Config{})
	right(t, s, asking.Posting("/v1/rack/places", placeBody))
	const text = "\ufeffid;billet.wood;billet.length;billet.thickness;billet.rings.angle_deg;place;billet.zones\r\n" +
		"a;ash-white;620 mm;52 mm;70;shed;\r\n" +
		"b;ash-white;620 mm;a hand;70;shed;\r\n" +
		";;;;;;\r\n" +
		"c;no such wood;620 mm;52 mm;steep;shed;\r\n" +
		"d;ash-white;620 mm;52 mm;;attic;\r\n" +
		"a;ash-white;620 mm;50 mm;;shed;\r\n" +
		"e;ash-white;24 1/2 in;2 in;;;\"[{\"\"kind\"\": \"\"knot\"\", \"\"x_from\"\": \"\"1 in\"\", \"\"x_to\"\": \"\"2 in\"\", \"\"y_from\"\": \"\"1 in\"\", \"\"y_to\"\": \"\"2 in\"\"}]\"\r\n"
	nothing := sheetOf(t, s, "billet", text, false)
	assert.Zero(t, nothing.Taken)
	_, list := right(t, s, asking.Getting("/v1/rack/billets"))
	assert.Contains(t, list, `"total":0`)
	taken := sheetOf(t, s, "billet", text, true)
	assert.Equal(t, 2, taken.Taken)
	var told []string
	for _, r := range taken.Refused {
		told = append(told, fmt.Sprint(r.Row, " ", r.ID, " ", r.Column))
	}
	assert.Equal(t, []string{"3 b billet.thickness", "5 c billet.rings.angle_deg", "6 d place", "7 a id"}, told)
	_, got := right(t, s, asking.Getting("/v1/rack/billets/e"))
	assert.Contains(t, got, `"length":"24 1/2 in"`)
	assert.Contains(t, got, `"x_from":"1 in"`)
	again := sheetOf(t, s, "billet", text, true)
	assert.Zero(t, again.Taken, "no row is doubled")
	assert.Equal(t, 2, again.Unchanged)
	more := sheetOf(t, s, "billet", "id,billet.thickness,billet.length,billet.wood,place,billet.rings.angle_deg\r\na,52 mm,620 mm,ash-white,shed,70\r\nnew,52 mm,,,,\r\n", false)
	assert.Equal(t, rack.SheetTaken{Taken: 1, Unchanged: 1, Refused: []rack.RowRefused{}}, more)
	other := sheetOf(t, s, "billet", "id,billet.thickness\r\nnew,50 mm\r\n", false)
	assert.Len(t, other.Refused, 1, "a row that says something else changes nothing")
}

// A list as a sheet, read into another rack and written again, is the same sheet.
func TestSheetsGoThereAndBack(t *testing.T) {
	one, two := keeping(t, serve.Config{}), keeping(t, serve.Config{})
	for path, bodies := range map[string][]string{
		"places":  {placeBody, `{"id": "12", "name": "12", "note": "a \"wide\" room,\nwith a stove", "stay": {"air": {"temperature": {"value": 20.50, "unit": "C"}, "rh_pct": 45}}}`},
		"targets": {`{"id": "harp", "name": "true", "target_condition": {"mc_pct": 8.250}, "parts": [{"length": "1 m", "width": "0.2 m", "final_thickness": "3 mm"}]}`},
	} {
		for _, body := range bodies {
			right(t, one, asking.Posting("/v1/rack/"+path, body))
		}
	}
	right(t, one, asking.Posting("/v1/rack/billets", billetBody))
	right(t, one, asking.Posting("/v1/rack/readings", readingBody("r1", "2025-06-01", "5.3 kg")))
	right(t, one, asking.Posting("/v1/rack/readings", `{"id": "r2", "billet": "walnut-7", "reading": {"kind": "pin_meter", "date": "2025-06-01", "reading_mc_pct": 12.0, "meter": "3"}}`))
	for _, kind := range []string{"place", "target", "billet", "reading"} {
		_, sheet := right(t, one, asking.Getting("/v1/rack/"+kind+"s", "Accept", "text/csv"))
		rows, err := csv.NewReader(strings.NewReader(sheet)).ReadAll()
		require.NoError(t, err)
		taken := sheetOf(t, two, kind, sheet, false)
		assert.Empty(t, taken.Refused, kind)
		assert.Equal(t, len(rows)-1, taken.Taken, kind)
		_, again := right(t, two, asking.Getting("/v1/rack/"+kind+"s", "Accept", "text/csv"))
		assert.Equal(t, sheet, again)
	}
}

// The calendar is one that another program reads, with whole days and ids that stay.
func TestCalendar(t *testing.T) {
	s, _ := shop(t, 2)
	o := overviewOf(t, s)
	read := func() map[string]*ics.VEvent {
		r := asking.Getting("/v1/rack/calendar.ics").Of(t, s)
		require.Equal(t, http.StatusOK, r.Code)
		assert.Equal(t, "text/calendar; charset=utf-8", r.Header().Get("Content-Type"))
		for line := range strings.SplitSeq(strings.TrimSuffix(r.Body.String(), "\r\n"), "\r\n") {
			assert.LessOrEqual(t, len(line), 75, "RFC 5545, 3.1: %s", line)
		}
		calendar, err := ics.ParseCalendar(r.Body)
		require.NoError(t, err)
		all := map[string]*ics.VEvent{}
		for _, e := range calendar.Events() {
			all[e.Id()] = e
		}
		return all
	}
	all := read()
	assert.Len(t, all, len(o.Read)+len(o.Next))
	next := all["read-billet-w-2@latewood"]
	require.NotNil(t, next)
	var want rack.ReadNext
	for _, n := range o.Read {
		if n.ID == "w-2" {
			want = n
		}
	}
	day, err := next.GetAllDayStartAt()
	require.NoError(t, err)
	assert.Equal(t, want.Date, day.Format("2006-01-02"))
	right(t, s, asking.Posting("/v1/rack/readings", `{"id": "new", "billet": "w-2", "reading": {"kind": "pin_meter", "date": "2026-03-19", "reading_mc_pct": 12}}`))
	overviewOf(t, s)
	assert.Contains(t, read(), "read-billet-w-2@latewood")
	_, list := right(t, s, asking.Getting("/v1/rack/calendar"))
	assert.Contains(t, list, `"what":"read"`)
}

// A label leads to the page of its wood, at the address that was asked for; the page opens for
// everybody, in capitals too, and finds the card.
func TestLabelsLeadToTheirWood(t *testing.T) {
	s, _ := shop(t, 3)
	right(t, s, asking.Posting("/v1/rack/pieces", `{"id": "leaf-1", "parent": {"billet": "w-2"}, "billet": {"name": "<leaf>", "thickness": "4 mm"}}`))
	_, body := right(t, s, asking.Getting("/v1/rack/labels?billet=w-2&base=https://shop.example"))
	labels := asking.Decoded[rack.Labels](t, []byte(body)).Labels
	require.Len(t, labels, 2)
	assert.Equal(t, "https://shop.example/b/w-2", labels[0].URL)
	assert.Equal(t, "https://shop.example/p/leaf-1", labels[1].URL)
	assert.Equal(t, "41 mm", labels[0].Thickness)
	_, page := right(t, s, asking.Getting("/v1/rack/labels", "Accept", "text/html"))
	assert.Equal(t, 4, strings.Count(page, `<svg xmlns`))
	assert.Contains(t, page, "&lt;leaf&gt;")
	for _, label := range labels {
		_, path, _ := strings.Cut(label.URL, "shop.example")
		for _, read := range []string{path, strings.ToUpper(path)} {
			r := asking.Getting(read).Of(t, s)
			require.Equal(t, http.StatusOK, r.Code)
			assert.Equal(t, "text/html; charset=utf-8", r.Header().Get("Content-Type"))
		}
		_, card := right(t, s, asking.Getting("/v1/rack/"+label.Kind+"s/"+strings.ToUpper(label.ID)+"/card"))
		assert.Equal(t, label.ID, asking.Decoded[rack.Card](t, []byte(card)).Standing.ID, "the real one")
	}
	assert.Equal(t, "HTTPS://SHOP.EXAMPLE/B/W-2", labels[0].Code())
	twice := asking.ProblemOf(t, asking.Posting("/v1/rack/billets", `{"id": "W-2", "billet": {"thickness": "4 mm"}}`).Of(t, s), http.StatusConflict)
	assert.Equal(t, []string{"/id", "duplicate_id"}, []string{twice.Errors[0].Pointer, twice.Errors[0].Code}, "labels are read in any case")
	row := sheetOf(t, s, "billet", "id,billet.thickness\nab,4 mm\nAB,4 mm\n", true)
	assert.Equal(t, 1, row.Taken)
	assert.Equal(t, 3, row.Refused[0].Row)
	assert.Equal(t, "id", row.Refused[0].Column)
	_, body = right(t, s, asking.Getting("/v1/rack/labels?billet=w-2&base=https://shop.example/Tools"))
	twin := asking.Decoded[rack.Labels](t, []byte(body)).Labels
	assert.Equal(t, "https://shop.example/Tools/b/w-2", twin[0].Code(), "a path of somebody else's may have a case")
	overviewOf(t, s)
	_, card := right(t, s, asking.Getting("/v1/rack/billets/w-2/card"))
	known := asking.Decoded[rack.Card](t, []byte(card))
	assert.Len(t, known.Readings, 8)
	assert.Equal(t, "2026-03-14", known.Readings[0].Date, "the newest first")
	assert.Len(t, known.Standing.Verdicts, 3)
	assert.Equal(t, http.StatusNotFound, asking.Getting("/v1/rack/billets/w-9/card").Of(t, s).Code)
}

// Wood that is sawn up is no more, and what came of it is there with what it came from; all
// of it, or nothing.
func TestCuttingIsWhole(t *testing.T) {
	s, _ := shop(t, 1)
	cutting := func(second string) string {
		return `{"event": {"id": "sawn", "billet": "w-1", "event": {"kind": "resawn", "date": "2026-03-20"}}, "pieces": [
			{"id": "leaf-1", "parent": {"billet": "w-1"}, "place": "shed", "target": "harp", "billet": {"wood": "walnut-black", "length": "1 m", "width": "240 mm", "thickness": "5 mm", "stacked_on": "2026-03-20", "start_condition": {"mc_pct": 13}}},
			{"id": "` + second + `", "parent": {"billet": "w-1"}, "billet": {}}]}`
	}
	p := asking.ProblemOf(t, asking.Posting("/v1/rack/cuttings", cutting("leaf-1")).Of(t, s), http.StatusConflict)
	assert.Equal(t, "/pieces/1/id", p.Errors[0].Pointer)
	assert.Len(t, overviewOf(t, s).Wood, 1, "nothing of it was kept")
	right(t, s, asking.Posting("/v1/rack/cuttings", cutting("leaf-2"), "Idempotency-Key", "k"))
	right(t, s, asking.Posting("/v1/rack/cuttings", cutting("leaf-2"), "Idempotency-Key", "k"))
	o := overviewOf(t, s)
	var there []string
	for _, w := range o.Wood {
		there = append(there, w.Kind+" "+w.ID)
	}
	assert.ElementsMatch(t, []string{"piece leaf-1", "piece leaf-2"}, there)
	right(t, s, asking.Posting("/v1/rack/readings", `{"id": "of-leaf", "piece": "leaf-1", "reading": {"kind": "pin_meter", "date": "2026-03-20", "reading_mc_pct": 12}}`))
	_, list := right(t, s, asking.Getting("/v1/rack/readings?piece=leaf-1"))
	assert.Contains(t, list, `"total":1`)
	right(t, s, asking.Posting("/v1/rack/pieces/leaf-1/readiness", `{}`))
}

// Calculations about a billet take what is kept of it.
func TestCalculationsOfABillet(t *testing.T) {
	s, _ := shop(t, 1)
	ask := func(path, body string) (result struct {
		Result map[string]any
	}) {
		_, text := right(t, s, asking.Posting("/v1/rack/billets/w-1/"+path, body))
		require.NoError(t, json.Unmarshal([]byte(text), &result))
		return result
	}
	const part = `{"length": "560 mm", "width": "210 mm", "final_thickness": "2.6 mm"}`
	assert.NotEmpty(t, ask("resaw-timing", `{"saw": {"kerf": "1.3 mm"}, "part": `+part+`}`).Result["summary"])
	right(t, s, asking.Posting("/v1/rack/plans", `{"id": "backs", "billet": "w-1", "saws": [{"kerf": "1.3 mm"}], "parts": [`+part+`]}`))
	byPlan := ask("resaw-plan", `{"plan": "backs"}`)
	bySending := ask("resaw-plan", `{"saws": [{"kerf": "1.3 mm"}], "parts": [`+part+`]}`)
	assert.Equal(t, byPlan, bySending)
	assert.NotEqual(t, byPlan, ask("resaw-plan", `{"plan": "backs", "saws": [{"kerf": "6 mm"}]}`), "what is sent stands in for what is kept")
	width, thickness := ask("movement", `{"dimension": "width"}`), ask("movement", `{"dimension": "thickness"}`)
	assert.NotEqual(t, width, thickness)
	overviewOf(t, s)
	_, mc := right(t, s, asking.Getting("/v1/rack/billets/w-1/card"))
	known := asking.Decoded[rack.Card](t, []byte(mc))
	_, alone := right(t, s, asking.Posting("/v1/movement", fmt.Sprintf(`{"wood": "walnut-black", "size": "260 mm", "size_ring_angle_deg": 70,
		"from_condition": {"mc_pct": %v, "mc_sd_points": %v}, "to_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}}`, known.Standing.MC.Value, sdOf(t, s))))
	var want struct{ Result map[string]any }
	require.NoError(t, json.Unmarshal([]byte(alone), &want))
	assert.Equal(t, want.Result, width.Result)
}

// sdOf is the standard deviation of what is known of the first billet.
func sdOf(t *testing.T, s *serve.Service) float64 {
	t.Helper()
	_, text := right(t, s, asking.Posting("/v1/rack/billets/w-1/readiness", `{}`))
	var answer struct {
		Result struct {
			Moisture struct {
				SD float64 `json:"mc_sd_points"`
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(text), &answer))
	return answer.Result.Moisture.SD
}
