package api_test

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"sync/atomic"
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

// overviewOf is the overview once all of it is worked out: meanwhile it is another answer
// with each piece of wood that is done.
func overviewOf(t testing.TB, s *serve.Service) rack.Overview {
	t.Helper()
	for range 30 {
		r := asking.Getting("/v1/rack/overview?wait_seconds=20").Of(t, s)
		require.Equal(t, http.StatusOK, r.Code, r.Body.String())
		o := asking.Decoded[rack.Overview](t, r.Body.Bytes())
		if p := o.Progress; !p.Running && p.Current == p.Total {
			return o
		}
	}
	require.Fail(t, "the rack is not worked out in ten minutes")
	return rack.Overview{}
}

// shop is a service with a rack of so many billets, on a day of its own, and the number of
// questions it has asked itself.
func shop(t testing.TB, billets int) (s *serve.Service, asked *atomic.Int64) {
	t.Helper()
	s, r := shopOf(t, billets)
	asked = new(atomic.Int64)
	r.AskWith(rack.Asking{Version: "test", Ask: func(ctx context.Context, path string, body []byte) ([]byte, error) {
		asked.Add(1)
		return s.Aside(ctx, path, body)
	}})
	return s, asked
}

// shopOf is the same, with its rack.
func shopOf(t testing.TB, billets int) (s *serve.Service, r *rack.Rack) {
	t.Helper()
	file, err := store.OpenFile(t.Context(), filepath.Join(t.TempDir(), "rack"))
	require.NoError(t, err)
	r = rack.NewAt(file, func() time.Time { return time.Date(2026, 3, 20, 12, 0, 0, 0, time.UTC) })
	s, err = api.New(serve.Config{Version: "test", Rack: r})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, r.Close()) })
	post := func(path, body string) {
		answer := asking.Posting("/v1/rack/"+path, body).Of(t, s)
		require.Equal(t, http.StatusOK, answer.Code, answer.Body.String())
	}
	post("places", `{"id": "shed", "name": "the shed", "stay": {"station": "columbus-oh", "exposure": "shed"}}`)
	post("targets", `{"id": "harp", "name": "a harp", "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}}`)
	for i := range billets {
		id := fmt.Sprintf("w-%d", i+1)
		post("billets", fmt.Sprintf(`{"id": %q, "place": "shed", "target": "harp", "billet": {"wood": "walnut-black", "length": "1250 mm", "width": "260 mm", "thickness": "%d mm", "rings": {"angle_deg": 70}, "stacked_on": "2024-03-23"}}`, id, 40+i%30))
		var day []string
		for n, date := range []string{"2024-06-15", "2024-09-15", "2025-03-15", "2025-07-06", "2025-11-02", "2025-12-14", "2026-02-08", "2026-03-14"} {
			mass := float64(40+i%30) / 54 * []float64{13.2, 11.6, 10.64, 10.43, 10.52, 10.53, 10.48, 10.45}[n]
			day = append(day, fmt.Sprintf(`{"id": "%s-%d", "billet": %q, "reading": {"kind": "weight", "date": %q, "mass": "%.2f kg"}}`, id, n, id, date, mass))
		}
		post("weighing-days", `{"readings": [`+strings.Join(day, ",")+`]}`)
	}
	return s, r
}

// What was found out of a billet is kept until something of it changes, and found out again
// for that one alone.
func TestOverviewIsLearnedOnce(t *testing.T) {
	s, asked := shop(t, 3)
	first := overviewOf(t, s)
	assert.Equal(t, int64(3), asked.Load())
	assert.Equal(t, rack.Progress{AsOf: "2026-03-20", Total: 3, Current: 3}, first.Progress)
	require.Len(t, first.Wood, 3)
	assert.Len(t, first.Read, 3)
	assert.Equal(t, "2026-03-20", first.Wood[0].AsOf)
	assert.Empty(t, first.Open)
	assert.Equal(t, first, overviewOf(t, s), "nothing changed")
	assert.Equal(t, int64(3), asked.Load())

	// A weight of which two digits were swapped.
	right(t, s, asking.Posting("/v1/rack/readings", `{"id": "w-2-9", "billet": "w-2", "reading": {"kind": "weight", "date": "2026-03-19", "mass": "9.73 kg"}}`))
	second := overviewOf(t, s)
	assert.Equal(t, int64(4), asked.Load(), "only of the billet that was weighed")
	require.Len(t, second.Look, 1)
	assert.Equal(t, "w-2-9", second.Look[0].Reading)
	assert.Equal(t, "w-2", second.Look[0].ID)
	assert.Contains(t, second.Summary, "1 reading to look at again")
	assert.Equal(t, first.Wood[0], second.Wood[0])
}

// What is said of a billet in the overview is what is said of it alone.
func TestOverviewSaysWhatReadinessSays(t *testing.T) {
	s, _ := shop(t, 2)
	o := overviewOf(t, s)
	_, body := right(t, s, asking.Posting("/v1/rack/billets/w-2/readiness", `{}`))
	var alone struct {
		Result struct {
			Summary  string
			Verdicts []rack.StepVerdict
		}
	}
	require.NoError(t, json.Unmarshal([]byte(body), &alone))
	assert.Equal(t, alone.Result.Summary, o.Wood[1].Summary)
	require.Len(t, o.Wood[1].Verdicts, 3)
	assert.Equal(t, alone.Result.Verdicts, o.Wood[1].Verdicts)
}

// Wood that was measured in inches is told of in inches and pounds.
func TestOverviewSpeaksTheUnitsOfTheWood(t *testing.T) {
	s, _ := shop(t, 1)
	right(t, s, asking.Posting("/v1/rack/billets", `{"id": "inches", "place": "shed", "target": "harp", "billet": {"wood": "walnut-black", "length": "24 in", "width": "9 in", "thickness": {"value": 2, "unit": "in"}, "stacked_on": "2024-03-23"}}`))
	right(t, s, asking.Posting("/v1/rack/readings", `{"id": "slip", "billet": "inches", "reading": {"kind": "weight", "date": "2025-03-14", "mass": "12 lb"}}`))
	right(t, s, asking.Posting("/v1/rack/readings", `{"id": "kilograms", "billet": "w-1", "reading": {"kind": "weight", "date": "2026-03-19", "mass": "12 kg"}}`))
	right(t, s, asking.Posting("/v1/rack/readings", `{"id": "pounds", "billet": "inches", "reading": {"kind": "weight", "date": "2026-03-19", "mass": "20 lb"}}`))
	o := overviewOf(t, s)
	units := map[string]string{}
	for _, d := range o.Look {
		units[d.ID] += d.Detail
	}
	assert.Contains(t, units["w-1"], " kg")
	assert.Contains(t, units["inches"], " lb")
	assert.NotContains(t, units["inches"], " kg")
}

// What is no more is not asked about, what lacks something says so, and nothing that the
// overview cannot answer is in its way.
func TestOverviewOfWhatIsThere(t *testing.T) {
	s, _ := shop(t, 2)
	right(t, s, asking.Posting("/v1/rack/billets", `{"id": "bare", "billet": {"wood": "cherry-black"}}`))
	right(t, s, asking.Posting("/v1/rack/billets", `{"id": "unread", "target": "harp", "billet": {"wood": "cherry-black", "length": "1 m", "width": "200 mm", "thickness": "50 mm"}}`))
	right(t, s, asking.Posting("/v1/rack/events", `{"id": "e1", "billet": "w-1", "event": {"kind": "used", "date": "2026-03-01"}}`))
	o := overviewOf(t, s)
	said := map[string]string{}
	for _, u := range o.Open {
		said[u.ID] = u.Detail
	}
	assert.Len(t, o.Wood, 3)
	assert.Contains(t, said["bare"], "target_condition is needed")
	assert.Contains(t, said["unread"], "nothing is known of the moisture")
	assert.NotContains(t, said, "w-1")
	assert.Equal(t, 3, o.Progress.Current, "an answer that says what is missing is one")
}

// Wood that was moved has lain where its events say.
func TestStaysFollowTheEvents(t *testing.T) {
	s, _ := shop(t, 1)
	right(t, s, asking.Posting("/v1/rack/places", `{"id": "shop", "name": "the shop", "stay": {"air": {"temperature": "20 C", "rh_pct": 45}}}`))
	right(t, s, asking.Posting("/v1/rack/events", `{"id": "in", "billet": "w-1", "event": {"kind": "moved", "date": "2025-11-02", "place": "shop"}}`))
	right(t, s, asking.Posting("/v1/rack/events", `{"id": "out", "billet": "w-1", "event": {"kind": "stacked", "date": "2024-03-23", "place": "shed"}}`))
	_, moved := right(t, s, asking.Posting("/v1/rack/billets/w-1/readiness", `{}`))
	_, told := right(t, s, asking.Posting("/v1/rack/billets/w-1/readiness?detail=full", `{"as_of": "2026-03-20"}`))
	assert.JSONEq(t, moved, told, "today is the day of the rack")
	_, kept := right(t, s, asking.Getting("/v1/rack/readings?billet=w-1"))
	var page rack.PageOf[struct{ Reading json.RawMessage }]
	require.NoError(t, json.Unmarshal([]byte(kept), &page))
	var readings []json.RawMessage
	for _, item := range page.Items {
		readings = append(readings, item.Reading)
	}
	text, err := json.Marshal(readings)
	require.NoError(t, err)
	_, want := right(t, s, asking.Posting("/v1/readiness", `{"billet": {"wood": "walnut-black", "length": "1250 mm", "width": "260 mm", "thickness": "40 mm", "rings": {"angle_deg": 70}, "stacked_on": "2024-03-23"},
		"target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "as_of": "2026-03-20",
		"stays": [{"station": "columbus-oh", "exposure": "shed", "until": "2025-11-02"}, {"air": {"temperature": "20 C", "rh_pct": 45}}], "readings": `+string(text)+`}`))
	assert.JSONEq(t, want, moved)
}

// Wood that was planed between two weighings is weighed as another body since.
func TestWeightsAfterAPlaneAreOfAnotherBody(t *testing.T) {
	s, _ := shop(t, 1)
	before := overviewOf(t, s)
	require.Empty(t, before.Look)
	right(t, s, asking.Posting("/v1/rack/readings", `{"id": "after", "billet": "w-1", "reading": {"kind": "weight", "date": "2026-03-19", "mass": "7.02 kg"}}`))
	require.NotEmpty(t, overviewOf(t, s).Look, "a tenth of the weight is gone in five days")
	right(t, s, asking.Posting("/v1/rack/events", `{"id": "planed", "billet": "w-1", "event": {"kind": "planed", "date": "2026-03-18"}}`))
	assert.Empty(t, overviewOf(t, s).Look)
}

// The overview is a table, a drawing and a page that may run nothing.
func TestFormsOfTheOverview(t *testing.T) {
	s, _ := shop(t, 2)
	right(t, s, asking.Posting("/v1/rack/billets", `{"id": "odd", "billet": {"name": "<b>wide, & \"old\"</b>", "wood": "cherry-black"}}`))
	o := overviewOf(t, s)
	form := func(media string) *httptest.ResponseRecorder {
		r := asking.Getting("/v1/rack/overview", "Accept", media).Of(t, s)
		require.Equal(t, http.StatusOK, r.Code)
		assert.True(t, strings.HasPrefix(r.Header().Get("Content-Type"), media), r.Header().Get("Content-Type"))
		return r
	}
	rows, err := csv.NewReader(form("text/csv").Body).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 4)
	assert.Equal(t, "w-1", rows[2][1], "a billet without a day of stacking stands first")
	assert.Equal(t, o.Wood[1].Verdicts[0].Verdict, rows[2][11])
	assert.Equal(t, `<b>wide, & "old"</b>`, rows[1][2])
	drawn := form("image/svg+xml").Body.String()
	require.NoError(t, xml.Unmarshal([]byte(drawn), new(struct{})))
	assert.Contains(t, drawn, "The rack on 20 March 2026")
	assert.Contains(t, drawn, "w-2")
	page := form("text/html")
	assert.Contains(t, page.Body.String(), "&lt;b&gt;wide")
	assert.NotContains(t, page.Body.String(), "<b>wide")
	assert.Contains(t, page.Header().Get("Content-Security-Policy"), "default-src 'none'; style-src 'sha256-")
	assert.Equal(t, http.StatusNotAcceptable, asking.Getting("/v1/rack/overview", "Accept", "application/pdf").Of(t, s).Code)
}

// Progress is told as it goes on, and its end.
func TestProgressOfTheRack(t *testing.T) {
	s, asked := shop(t, 3)
	r := asking.Getting("/v1/rack/progress", "Accept", "text/event-stream").Of(t, s)
	require.Equal(t, http.StatusOK, r.Code)
	events := strings.Split(strings.TrimSpace(r.Body.String()), "\n\n")
	require.Greater(t, len(events), 1)
	assert.True(t, strings.HasPrefix(events[0], "event: progress\n"), events[0])
	last := events[len(events)-1]
	assert.True(t, strings.HasPrefix(last, "event: done\n"), last)
	assert.Contains(t, last, `"total":3,"current":3`)
	assert.Equal(t, int64(3), asked.Load())
	_, state := right(t, s, asking.Getting("/v1/rack/progress"))
	assert.Contains(t, state, `"total":3`)
}

// Entry goes on while the answers are worked out.
func TestEntryIsNotBlocked(t *testing.T) {
	s, _ := shop(t, 6)
	r := asking.Getting("/v1/rack/overview?wait_seconds=0").Of(t, s)
	require.Equal(t, http.StatusOK, r.Code)
	started := asking.Decoded[rack.Overview](t, r.Body.Bytes())
	assert.Less(t, started.Progress.Current, 6, "it answers with what there is")
	assert.Contains(t, started.Summary, "still to come")
	right(t, s, asking.Posting("/v1/rack/readings", `{"id": "new", "billet": "w-1", "reading": {"kind": "weight", "date": "2026-03-19", "mass": "7.74 kg"}}`))
	_, state := right(t, s, asking.Getting("/v1/rack/progress"))
	assert.Contains(t, state, `"running":true`, "the reading was kept before the answers were there")
	done := overviewOf(t, s)
	assert.Equal(t, 6, done.Progress.Current)
}

// Two hundred billets: all anew, with one new weighing, and with nothing new.
func BenchmarkOverview(b *testing.B) {
	const billets = 200
	s, asked := shop(b, billets)
	until := func() {
		for overviewOf(b, s).Progress.Current < billets {
			continue
		}
	}
	start := time.Now()
	until()
	b.Logf("all of %d billets anew: %v", billets, time.Since(start).Round(time.Millisecond))
	b.Run("one new weighing", func(b *testing.B) {
		for i := range b.N {
			b.StopTimer()
			body := fmt.Sprintf(`{"id": "new-%d-%d", "billet": "w-%d", "reading": {"kind": "pin_meter", "date": "2026-03-19", "reading_mc_pct": 12}}`, b.N, i, 1+i%billets)
			require.Equal(b, http.StatusOK, asking.Posting("/v1/rack/readings", body).Of(b, s).Code)
			before := asked.Load()
			b.StartTimer()
			until()
			b.StopTimer()
			require.Equal(b, before+1, asked.Load())
			b.StartTimer()
		}
	})
	b.Run("nothing new", func(b *testing.B) {
		for range b.N {
			until()
		}
	})
}

// An overview of which answers are still worked out is another one than the whole, in every
// form: who holds the tag of the half gets the whole.
func TestHalfAnOverviewHasATagOfItsOwn(t *testing.T) {
	s, r := shopOf(t, 2)
	gate := make(chan struct{})
	r.AskWith(rack.Asking{Version: "test", Ask: func(ctx context.Context, path string, body []byte) ([]byte, error) {
		<-gate
		return s.Aside(ctx, path, body)
	}})
	tags := map[string]string{}
	forms := []string{"application/json", "text/csv", "text/html", "image/svg+xml"}
	ask := func(form, wait string, headers ...string) *httptest.ResponseRecorder {
		return asking.Getting("/v1/rack/overview?wait_seconds="+wait, append([]string{"Accept", form}, headers...)...).Of(t, s)
	}
	for _, form := range forms {
		half := ask(form, "0")
		require.Equal(t, http.StatusOK, half.Code)
		tags[form] = half.Header().Get("ETag")
		assert.Equal(t, http.StatusNotModified, ask(form, "0", "If-None-Match", tags[form]).Code, "nothing has come meanwhile")
	}
	close(gate)
	require.Equal(t, 2, overviewOf(t, s).Progress.Current)
	for _, form := range forms {
		whole := ask(form, "20", "If-None-Match", tags[form])
		assert.Equal(t, http.StatusOK, whole.Code, form)
		assert.NotEqual(t, tags[form], whole.Header().Get("ETag"), form)
		assert.Equal(t, http.StatusNotModified, ask(form, "20", "If-None-Match", whole.Header().Get("ETag")).Code, form)
	}
}
