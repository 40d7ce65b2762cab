package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/rack"
	"latewood/api/internal/serve"
)

// story is what a maker does with a rack, from the first sheet to a copy elsewhere.
type story struct {
	*testing.T
	rack    *api.Rack
	service *serve.Service
}

func (s *story) post(path, body string) string {
	s.Helper()
	_, answer := right(s.T, s.service, asking.Posting("/v1/rack/"+path, body, "Idempotency-Key", "key-"+strings.ReplaceAll(path, "/", "-")+fmt.Sprint(len(body))))
	return answer
}

func (s *story) get(target string, headers ...string) string {
	s.Helper()
	_, answer := right(s.T, s.service, asking.Getting("/v1/rack/"+target, headers...))
	return answer
}

func storyOn(t *testing.T, r *api.Rack) *story {
	service, err := api.New(serve.Config{Version: "test", Rack: r})
	require.NoError(t, err)
	return &story{t, r, service}
}

// tenBillets are a sheet as a spreadsheet writes it.
func tenBillets() string {
	var rows strings.Builder
	rows.WriteString("id,place,target,billet.wood,billet.length,billet.width,billet.thickness,billet.rings.angle_deg,billet.stacked_on\r\n")
	for i := range 10 {
		fmt.Fprintf(&rows, "b-%d,shop,harp,%s,620 mm,230 mm,%d mm,70,2024-04-20\r\n", i+1, []string{"walnut-black", "maple-sugar"}[i%2], 40+2*i)
	}
	return rows.String()
}

// tell tells the story, up to the copy.
func (s *story) tell() {
	s.post("places", `{"id": "shop", "name": "the workshop", "stay": {"air": {"temperature": "20 C", "rh_pct": 45}}}`)
	s.post("targets", `{"id": "harp", "name": "a harp", "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "parts": [{"length": "560 mm", "width": "200 mm", "final_thickness": "3 mm"}]}`)
	assert.Equal(s, 10, sheetOf(s.T, s.service, "billet", tenBillets(), false).Taken)
	again := sheetOf(s.T, s.service, "billet", tenBillets(), false)
	assert.Equal(s, 10, again.Unchanged, "sent again it doubles no row")
	photo := sending(s.T, s.service, http.MethodPut, "/v1/rack/billets/b-3/photo", picture(s.T, 9), "Content-Type", "image/png", "If-None-Match", "*")
	require.Equal(s, http.StatusOK, photo.Code, photo.Body.String())
	right(s.T, s.service, patching("billets/b-2", `{"spot": "A-1", "billet": {"name": "the best one"}}`, "If-Match", "*"))

	// A weighing day, sent twice by a phone that lost the line.
	var day []string
	for i := range 10 {
		day = append(day, fmt.Sprintf(`{"id": "day-%d", "billet": "b-%d", "reading": {"kind": "weight", "date": "2026-11-20", "mass": "%.2f kg"}}`, i, i+1, 3.4+0.17*float64(i)))
	}
	for range 2 {
		s.post("weighing-days", `{"readings": [`+strings.Join(day, ",")+`]}`)
	}
	assert.Contains(s, s.get("readings?billet=b-3"), `"total":1`)

	right(s.T, s.service, asking.Posting("/v1/rack/readings/day-9/undo", `{}`, "If-Match", "*"))
	right(s.T, s.service, asking.Posting("/v1/rack/readings/day-9/undo", `{"to_version": 1}`, "If-Match", "*"))
	o := overviewOf(s.T, s.service)
	require.Equal(s, 10, o.Progress.Current)
	list := weighingList(s.T, s.service, "place=shop")
	require.Len(s, list.Items, 10)
	assert.Equal(s, []string{"b-1", "b-3", "b-4"}, idsOf(&list)[:3], "in the order in which it lies")
	assert.Equal(s, "b-2", list.Items[9].ID, "the one with a spot")
	for i := range list.Items {
		assert.NotNil(s, list.Items[i].Last)
		assert.NotNil(s, list.Items[i].Mass, list.Items[i].ID)
	}
	assert.NotNil(s, list.Items[1].Photo)
	assert.NotEmpty(s, o.Ready, "two years in a heated room")
	assert.Empty(s, o.Open)
	assert.Equal(s, 10, strings.Count(s.get("labels", "Accept", "text/html"), "<svg"))

	// One is planned and sawn, and a leaf of it is weighed.
	s.post("plans", `{"id": "ribs", "billet": "b-3", "saws": [{"kerf": "1.3 mm"}], "parts": [{"length": "560 mm", "width": "200 mm", "final_thickness": "3 mm"}]}`)
	assert.Contains(s, s.post("billets/b-3/resaw-plan", `{"plan": "ribs"}`), `"sets"`)
	leaf := func(n int) string {
		return fmt.Sprintf(`{"id": "b-3-leaf-%d", "parent": {"billet": "b-3"}, "plan": {"id": "ribs", "leaf": "%d"}, "place": "shop", "target": "harp",
			"billet": {"wood": "walnut-black", "length": "600 mm", "width": "220 mm", "thickness": "5 mm", "rings": {"angle_deg": 70}, "stacked_on": "2026-11-21"}}`, n, n)
	}
	s.post("cuttings", `{"event": {"id": "sawn", "billet": "b-3", "event": {"kind": "resawn", "date": "2026-11-21"}}, "pieces": [`+leaf(1)+`, `+leaf(2)+`]}`)
	s.post("readings", `{"id": "leaf-weighed", "piece": "b-3-leaf-1", "reading": {"kind": "weight", "date": "2026-11-21", "mass": "0.38 kg"}}`)
	s.post("pieces/b-3-leaf-1/readiness", `{}`)

	o = overviewOf(s.T, s.service)
	var there []string
	for _, w := range o.Wood {
		there = append(there, w.ID)
	}
	assert.Len(s, there, 11)
	assert.Contains(s, there, "b-3-leaf-1")
	assert.NotContains(s, there, "b-3")
}

// exported is all that is on a rack.
func exported(t *testing.T, r *api.Rack) string {
	t.Helper()
	var all strings.Builder
	require.NoError(t, r.Export(t.Context(), &all))
	return all.String()
}

// goesOn sees that a copy holds what the rack held, and can be worked with.
func (s *story) goesOn(copied *api.Rack) {
	require.NoError(s, copied.Check(s.Context()))
	assert.Equal(s, exported(s.T, s.rack), exported(s.T, copied))
	elsewhere := storyOn(s.T, copied)
	assert.Equal(s, s.get("readings"), elsewhere.get("readings"))
	assert.Equal(s, picture(s.T, 9), asking.Getting("/v1/rack/billets/b-3/photo").Of(s.T, elsewhere.service).Body.Bytes())
	assert.Contains(s, elsewhere.post("events", `{"id": "moved", "piece": "b-3-leaf-1", "event": {"kind": "moved", "date": "2026-11-22", "place": "shop"}}`), `"version":1`)
	before, after := overviewOf(s.T, s.service), overviewOf(s.T, elsewhere.service)
	assert.Len(s, after.Wood, len(before.Wood))
}

func opened(t *testing.T, where string) *api.Rack {
	t.Helper()
	r, err := api.OpenRack(t.Context(), where)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, r.Close()) })
	return r
}

func TestStoryOnAFile(t *testing.T) {
	folder := t.TempDir()
	s := storyOn(t, opened(t, filepath.Join(folder, "rack")))
	s.tell()
	require.NoError(t, s.rack.Backup(t.Context(), filepath.Join(folder, "backup")))
	require.NoError(t, api.RestoreRack(t.Context(), filepath.Join(folder, "backup"), filepath.Join(folder, "elsewhere")))
	s.goesOn(opened(t, filepath.Join(folder, "elsewhere")))
}

// On a server; what is saved there is the export, which is brought to another shop and to a
// file.
func TestStoryOnAServer(t *testing.T) {
	address := os.Getenv("LATEWOOD_TEST_POSTGRES")
	if address == "" {
		t.Skip("no PostgreSQL: .ci/postgres starts one and runs this")
	}
	query := url.Values{}
	for field := range strings.FieldsSeq(address) {
		name, value, _ := strings.Cut(field, "=")
		query.Set(name, value)
	}
	at := func(shop string) string {
		query.Set("shop", fmt.Sprint(shop, "-", os.Getpid()))
		return "postgres:///?" + query.Encode()
	}
	s := storyOn(t, opened(t, at("story")))
	s.tell()
	saved := exported(t, s.rack)
	for _, where := range []string{at("elsewhere"), filepath.Join(t.TempDir(), "rack")} {
		copied := opened(t, where)
		require.NoError(t, copied.Import(t.Context(), strings.NewReader(saved)))
		s.goesOn(copied)
	}
}

// demoDay is the day of the demo.
var demoDay = time.Date(2026, 11, 28, 0, 0, 0, 0, time.UTC)

// The rack of the demo is one that every list and question takes.
func TestDemoRack(t *testing.T) {
	r := opened(t, filepath.Join(t.TempDir(), "rack"))
	require.NoError(t, api.DemoRack(t.Context(), r, demoDay))
	s := storyOn(t, r)
	assert.Contains(t, s.get("billets?limit=1"), `"total":41`)
	saved := exported(t, r)
	again := opened(t, filepath.Join(t.TempDir(), "rack"))
	require.NoError(t, again.Import(t.Context(), strings.NewReader(saved)))
	assert.Equal(t, saved, exported(t, again), "export, import and export give the same bytes")
	require.NoError(t, again.Check(t.Context()))
	var labels rack.Labels
	require.NoError(t, json.Unmarshal([]byte(s.get("labels")), &labels))
	assert.Len(t, labels.Labels, 42, "two of 41 billets are no more, and three leaves came of one")
}
