package api_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/rack"
	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
)

// What a filter names is there, or the word for it is told; nothing is guessed in silence.
func TestFiltersThatCanFindNothing(t *testing.T) {
	s, _ := shop(t, 0)
	right(t, s, asking.Posting("/v1/rack/billets", `{"id": "w-1", "place": "shed", "billet": {"thickness": "52 mm"}}`))
	for _, c := range []struct{ target, parameter, code, told string }{
		{"billets?species=wallnut", "species", "not_found", "walnut"},
		{"pieces?species=zzz", "species", "not_found", "zzz"},
		{"labels?species=zzz", "species", "not_found", "zzz"},
		{"billets?place=atic", "place", "not_found", "atic"},
		{"events?place=a/b", "place", "not_found", "a/b"},
		{"stays?place=atic", "place", "not_found", "atic"},
		{"pieces?place=atic", "place", "not_found", "atic"},
		{"labels?place=atic", "place", "not_found", "atic"},
		{"weighing-list?place=atic", "place", "not_found", "atic"},
		{"readings?billet=w-9", "billet", "not_found", "w-9"},
		{"notes?piece=p-9", "piece", "not_found", "p-9"},
		{"labels?billet=w-9", "billet", "not_found", "w-9"},
		{"readings?kind=wieght", "kind", "not_a_choice", "pin_meter"},
		{"events?kind=burnt", "kind", "not_a_choice", "resawn"},
		{"readings?from=2026-03-02&until=2026-03-01", "until", "out_of_range", "2026-03-02"},
		{"plans?from=2026-03-02&until=2026-03-01", "until", "out_of_range", "2026-03-02"},
		{"notes?from=yesterday", "from", "invalid_format", "date"},
	} {
		r := asking.Getting("/v1/rack/"+c.target).Of(t, s)
		require.Equal(t, http.StatusBadRequest, r.Code, "%s %s", c.target, r.Body)
		wrong := told(t, r.Body.Bytes())
		require.Len(t, wrong, 1)
		assert.Equal(t, []string{c.parameter, c.code}, []string{wrong[0].Parameter, wrong[0].Code}, c.target)
		assert.Contains(t, wrong[0].Detail, c.told)
	}
	for _, target := range []string{"billets?place=shed", "readings?kind=Weight&billet=w-1&from=2026-03-01&until=2026-03-01", "billets?species=walnut-european", "labels?place=shed", "weighing-list?place=shed"} {
		right(t, s, asking.Getting("/v1/rack/"+target))
	}
	right(t, s, asking.Asked{Verb: http.MethodDelete, Target: "/v1/rack/places/shed", Headers: []string{"If-Match", "*"}})
	_, body := right(t, s, asking.Getting("/v1/rack/billets?place=shed"))
	assert.Contains(t, body, `"total":1`, "what was removed is still known")
	right(t, s, patching("billets/w-1", `{"spot": "a"}`, "If-Match", "*"))
	refused := patching("billets/w-1", `{"place": "attic"}`, "If-Match", "*").Of(t, s)
	assert.Equal(t, http.StatusUnprocessableEntity, refused.Code)
}

// A sheet of a list holds all of its rows, or as many as were asked for, and says where it goes on.
func TestASheetHoldsAllRows(t *testing.T) {
	s, _ := shop(t, 0)
	const most = 1300 // more than an order, and more than the store gives at once
	for from := 0; from < most; from += 650 {
		var text strings.Builder
		text.WriteString("id,text\n")
		for i := from; i < from+650; i++ {
			fmt.Fprintf(&text, "n-%d,x\n", i)
		}
		right(t, s, asking.Posting("/v1/rack/sheets", asSheet(t, "note", text.String())))
	}
	rows := func(query string) (lines [][]string, link string) {
		r := asking.Getting("/v1/rack/notes?as=csv"+query).Of(t, s)
		require.Equal(t, http.StatusOK, r.Code, r.Body.String())
		link = r.Header().Get("Link")
		lines, err := csv.NewReader(r.Body).ReadAll()
		require.NoError(t, err)
		return lines[1:], link
	}
	all, link := rows("")
	assert.Len(t, all, most)
	assert.Empty(t, link)
	rest, _ := rows("&offset=1000")
	assert.Equal(t, all[1000:], rest)
	few, link := rows("&limit=7&offset=2")
	assert.Equal(t, all[2:9], few)
	assert.Equal(t, `</v1/rack/notes?as=csv&limit=7&offset=9>; rel="next"`, link)
	_, page := right(t, s, asking.Getting("/v1/rack/notes"))
	assert.Len(t, asking.Decoded[rack.PageOf[rack.KeptNote]](t, []byte(page)).Items, 50)
}

func asSheet(t *testing.T, kind, text string) string {
	body, err := json.Marshal(rack.Sheet{Kind: kind, CSV: text})
	require.NoError(t, err)
	return string(body)
}

// The tables of the rack hold no cell that a spreadsheet would run; what is below zero is none.
func TestTablesOfTheRackHoldNoFormulas(t *testing.T) {
	s, _ := shop(t, 0)
	right(t, s, asking.Posting("/v1/rack/places", `{"id": "cold", "name": "cold", "stay": {"air": {"temperature": "-5 C", "rh_pct": 80}}}`))
	right(t, s, asking.Posting("/v1/rack/billets", `{"id": "w-1", "place": "cold", "billet": {"name": "-2", "thickness": "52 mm"}}`))
	lists := []string{"billets", "places"}
	for _, list := range lists {
		right(t, s, asking.Getting("/v1/rack/"+list+"?as=csv"))
	}
	for i, name := range []string{"=1+1", "@x", "+A1", "-A1"} {
		right(t, s, patching("billets/w-1", `{"billet": {"name": "`+name+`"}}`, "If-Match", "*"))
		right(t, s, patching("places/cold", `{"note": "`+name+`"}`, "If-Match", "*"))
		right(t, s, asking.Posting("/v1/rack/notes", fmt.Sprintf(`{"id": "n-%d", "text": %q}`, i, name)))
		for _, list := range []string{"billets", "places", "notes"} { // which can be read again: they quote it
			_, sheet := right(t, s, asking.Getting("/v1/rack/"+list+"?as=csv"))
			assert.Contains(t, sheet, `"""`+name+`"""`)
			reader := csv.NewReader(strings.NewReader(sheet))
			rows, err := reader.ReadAll()
			require.NoError(t, err)
			for _, cell := range slices.Concat(rows...) {
				assert.NoError(t, wire.NoFormulas(wire.Tabled{Text: strings.TrimPrefix(cell, "-")}), "%q", cell)
			}
			kind := strings.TrimSuffix(list, "s")
			_, taken := right(t, s, asking.Posting("/v1/rack/sheets", asSheet(t, kind, sheet)))
			assert.Contains(t, taken, `"taken":0`)
			assert.Contains(t, taken, `"refused":[]`, "it is read as what it was")
		}
		for _, target := range []string{"overview", "weighing-list"} { // as the lists write it
			_, table := right(t, s, asking.Getting("/v1/rack/"+target+"?as=csv"))
			assert.Contains(t, table, `"""`+name+`"""`)
		}
	}
}

// Control characters are refused in all texts of all kinds, each at its member; remarks may have
// lines.
func TestTextsOfTheRackArePlain(t *testing.T) {
	s, _ := shop(t, 0)
	right(t, s, asking.Posting("/v1/rack/billets", `{"id": "w-1", "billet": {"thickness": "52 mm"}}`))
	for _, c := range []struct{ path, body, pointer string }{
		{"billets", `{"id": "w-2", "billet": {"name": "a%sb", "thickness": "52 mm"}}`, "/billet/name"},
		{"billets", `{"id": "w-2", "spot": "a%sb", "billet": {"thickness": "52 mm"}}`, "/spot"},
		{"places", `{"id": "p-2", "name": "a%sb"}`, "/name"},
		{"targets", `{"id": "t-2", "name": "a%sb", "target_condition": {"mc_pct": 8}}`, "/name"},
		{"weighing-days", `{"readings": [{"id": "r-1", "billet": "w-1", "reading": {"kind": "stated", "mc_pct": 12, "date": "2026-03-01", "id": "a%sb"}}]}`, "/readings/0/reading/id"},
	} {
		for _, control := range []string{`\u0000`, `\n`, `\t`, `\u0007`, `\u007f`, `\u0085`} {
			r := asking.Posting("/v1/rack/"+c.path, fmt.Sprintf(c.body, control)).Of(t, s)
			require.Equal(t, http.StatusUnprocessableEntity, r.Code, "%s %s", c.body, r.Body)
			assert.Equal(t, c.pointer, told(t, r.Body.Bytes())[0].Pointer, r.Body.String())
		}
	}
	right(t, s, asking.Posting("/v1/rack/notes", `{"id": "n-1", "text": "one\n\ttwo\r\n"}`))
	right(t, s, asking.Posting("/v1/rack/places", `{"id": "p-1", "name": "p", "note": "one\n\ttwo"}`))
	for _, wrong := range []asking.Asked{asking.Posting("/v1/rack/notes", `{"id": "n-2", "text": "a\u0000b"}`), patching("places/p-1", `{"note": "a\u0000"}`, "If-Match", "*"), patching("places/p-1", `{"name": "a\nb"}`, "If-Match", "*")} {
		assert.Equal(t, http.StatusUnprocessableEntity, wrong.Of(t, s).Code)
	}
}

// What is wrong with the columns of a sheet has the code it has elsewhere.
func TestColumnsOfASheet(t *testing.T) {
	s, _ := shop(t, 0)
	for text, code := range map[string]string{
		"id,text,text\nn-1,a,b\n": "duplicate_member", "id,text, id\nn-1,a,b\n": "duplicate_member", "id,remark\nn-1,a\n": "unknown_member",
		"id,text\nn-1,\"a\n": "invalid_format", "": "empty_text", "\n": "invalid_format", "id,text\n" + strings.Repeat("n-1,a\n", 1001): "out_of_range",
	} {
		r := asking.Posting("/v1/rack/sheets", asSheet(t, "note", text)).Of(t, s)
		require.Equal(t, http.StatusUnprocessableEntity, r.Code, "%.40q %s", text, r.Body)
		wrong := told(t, r.Body.Bytes())
		assert.Equal(t, refuse.FieldError{Pointer: "/csv", Code: code, Detail: wrong[0].Detail, Limit: wrong[0].Limit}, wrong[0], "%.40q", text)
		assert.Empty(t, asking.Lacks(&wrong[0]), "%.40q", text)
	}
}
