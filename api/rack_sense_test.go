package api_test

import (
	"fmt"
	"net/http"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/rack"
	"latewood/api/internal/rack/store"
	"latewood/api/internal/serve"
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

// Readings that cannot be, kept before they were refused, are left out with a word, with stays and
// without: the others are heard.
func TestReadingsThatCannotBeAreLeftOut(t *testing.T) {
	file, err := store.OpenFile(t.Context(), filepath.Join(t.TempDir(), "rack"))
	require.NoError(t, err)
	r := rack.NewAt(file, func() time.Time { return time.Date(2026, 3, 20, 22, 0, 0, 0, time.UTC) })
	t.Cleanup(func() { assert.NoError(t, r.Close()) })
	s, err := api.New(serve.Config{Version: "test", Rack: r})
	require.NoError(t, err)
	right(t, s, asking.Posting("/v1/rack/places", `{"id": "shed", "name": "the shed", "stay": {"station": "columbus-oh", "exposure": "shed"}}`))
	for _, place := range []string{`"place": "shed", `, ""} {
		id := "in" + fmt.Sprint(len(place))
		right(t, s, asking.Posting("/v1/rack/billets", `{"id": "`+id+`", `+place+`"target_condition": {"mc_pct": 9}, "billet": {"wood": "walnut-black", "length": "620 mm", "width": "230 mm", "thickness": "52 mm", "rings": {"angle_deg": 70}, "stacked_on": "2024-04-20"}}`))
		for i, of := range [][2]string{{"2026-03-14", "5.1 kg"}, {"1999-03-14", "5.1 kg"}, {"2027-03-14", "5.1 kg"}, {"2026-03-14", "5.08 kg"}, {"2026-03-21", "5.07 kg"}, {"2026-03-07", "5.13 kg"}, {"2025-11-02", "5.2 kg"}} {
			e := store.Entry{Key: store.Key{Kind: store.Reading, ID: id + "-" + fmt.Sprint(i)}, Of: store.Key{Kind: store.Billet, ID: id}, Form: "weight", Day: of[0]}
			e.Body = store.Text(strings.Replace(weight(e.ID, of[0], of[1]), "w-1", id, 1))
			_, err := file.Apply(t.Context(), &store.Order{Changes: []store.Change{{Deed: store.Create, Entry: e}}})
			require.NoError(t, err)
		}
		right(t, s, asking.Posting("/v1/rack/billets/"+id+"/readiness", `{}`))
	}
	slip := store.Entry{Key: store.Key{Kind: store.Reading, ID: "slip"}, Of: store.Key{Kind: store.Billet, ID: "in17"}, Form: "weight", Day: "2026-03-20",
		Body: store.Text(`{"id": "slip", "billet": "in17", "reading": {"kind": "weight", "date": "2026-03-20", "mass": "51.0 kg"}}`)} // kept before such weights were refused
	_, err = file.Apply(t.Context(), &store.Order{Changes: []store.Change{{Deed: store.Create, Entry: slip}}})
	require.NoError(t, err)
	o := overviewOf(t, s)
	assert.Empty(t, o.Open)
	assert.Equal(t, []string{"in17", "in0"}, []string{o.Wood[1].ID, o.Wood[0].ID})
	assert.NotEmpty(t, o.Wood[1].Verdicts)
	words := map[string]string{}
	for _, d := range o.Look {
		words[d.Reading] = d.Detail
	}
	assert.Contains(t, words["slip"], "51")
	for _, id := range []string{"in17", "in0"} {
		assert.Contains(t, words[id+"-1"], "before the wood was stacked, 2024-04-20")
		assert.Contains(t, words[id+"-2"], "day to come")
		assert.Contains(t, words[id+"-0"], id+"-3, was kept after it")
		assert.NotContains(t, words, id+"-4", "by a clock east of the service it is of today")
	}
}
