package api_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/rack"
)

// named are entries that others name, each with one that names it.
var named = []struct{ path, id, entry, by, naming, pointer string }{
	{"targets", "gone", `{"id": "gone", "name": "x", "target_condition": {"mc_pct": 8}}`, "billets", `{"id": "n-1", "target": "gone", "billet": {"thickness": "50 mm"}}`, "/target"},
	{"targets", "gone", `{"id": "gone", "name": "x", "target_condition": {"mc_pct": 8}}`, "pieces", `{"id": "n-1", "parent": {"billet": "w-1"}, "target": "gone", "billet": {"thickness": "5 mm"}}`, "/target"},
	{"places", "gone", `{"id": "gone", "name": "x"}`, "billets", `{"id": "n-1", "place": "gone", "target": "harp", "billet": {"thickness": "50 mm", "stacked_on": "2025-01-01"}}`, "/place"},
	{"places", "gone", `{"id": "gone", "name": "x", "stay": {"station": "columbus-oh", "exposure": "shed"}}`, "events", `{"id": "n-1", "billet": "w-1", "event": {"kind": "moved", "date": "2026-01-01", "place": "gone"}}`, "/event/place"},
	{"places", "gone", `{"id": "gone", "name": "x", "stay": {"station": "columbus-oh", "exposure": "shed"}}`, "stays", `{"id": "n-1", "billet": "w-1", "from": "2026-01-01", "place": "gone"}`, "/place"},
	{"billets", "gone", `{"id": "gone", "billet": {"thickness": "50 mm"}}`, "pieces", `{"id": "n-1", "parent": {"billet": "gone"}, "target": "harp", "billet": {"thickness": "5 mm"}}`, "/parent/billet"},
	{"pieces", "gone", `{"id": "gone", "parent": {"billet": "w-1"}, "billet": {"thickness": "9 mm"}}`, "pieces", `{"id": "n-1", "parent": {"piece": "gone"}, "target": "harp", "billet": {"thickness": "5 mm"}}`, "/parent/piece"},
	{"billets", "gone", `{"id": "gone", "billet": {"thickness": "50 mm"}}`, "readings", `{"id": "n-1", "billet": "gone", "reading": {"kind": "weight", "date": "2026-01-01", "mass": "9 kg"}}`, "/billet"},
	{"billets", "gone", `{"id": "gone", "billet": {"thickness": "50 mm"}}`, "notes", `{"id": "n-1", "of": {"kind": "billet", "id": "gone"}, "text": "x"}`, "/of/id"},
	{"plans", "gone", `{"id": "gone", "billet": "w-1", "saws": [{"kerf": "1 mm"}], "parts": [{"name": "p", "length": "100 mm", "width": "20 mm", "final_thickness": "4 mm"}]}`, "pieces",
		`{"id": "n-1", "parent": {"billet": "w-1"}, "plan": {"id": "gone", "leaf": "1"}, "target": "harp", "billet": {"thickness": "5 mm"}}`, "/plan/id"},
}

// Whatever an entry names has to be there when it comes, in every way in; what goes later says who
// names it, and stops no answer.
func TestWhatEntriesName(t *testing.T) {
	for _, c := range named {
		t.Run(c.by+c.pointer, func(t *testing.T) {
			s, _ := shop(t, 2)
			refused := asking.Posting("/v1/rack/"+c.by, c.naming).Of(t, s)
			require.Equal(t, http.StatusUnprocessableEntity, refused.Code, refused.Body.String())
			var told struct {
				Errors []struct{ Pointer, Code, Detail string }
			}
			require.NoError(t, json.Unmarshal(refused.Body.Bytes(), &told))
			require.Len(t, told.Errors, 1)
			assert.Equal(t, c.pointer, told.Errors[0].Pointer)
			assert.Equal(t, "missing_data", told.Errors[0].Code)
			assert.Contains(t, told.Errors[0].Detail, `"gone" is not on the rack; put it there first`)

			right(t, s, asking.Posting("/v1/rack/"+c.path, c.entry))
			right(t, s, asking.Posting("/v1/rack/"+c.by, c.naming))
			_, gone := right(t, s, asking.Asked{Verb: http.MethodDelete, Target: "/v1/rack/" + c.path + "/gone", Headers: []string{"If-Match", "*"}})
			if c.by != "notes" { // which no question takes
				assert.Contains(t, gone, strings.TrimSuffix(c.by, "s")+` \"n-1\"`)
			}
			o := overviewOf(t, s)
			assert.Empty(t, o.Progress.Failed)
			for i := range o.Wood {
				assert.NotEmpty(t, o.Wood[i].ID)
				assert.Contains(t, []string{"billet", "piece"}, o.Wood[i].Kind)
			}
			for _, id := range []string{"w-1", "w-2"} {
				right(t, s, asking.Posting("/v1/rack/billets/"+id+"/readiness", `{}`))
			}
		})
	}
}

// Wood whose target is gone is asked about with a condition of the request, as wood without one.
func TestWoodWithoutItsTarget(t *testing.T) {
	s, _ := shop(t, 2)
	right(t, s, asking.Asked{Verb: http.MethodDelete, Target: "/v1/rack/targets/harp", Headers: []string{"If-Match", "*"}})
	o := overviewOf(t, s)
	require.Len(t, o.Open, 2)
	assert.Contains(t, o.Open[0].Detail, "target_condition is needed")
	assert.Equal(t, "w-1", o.Wood[0].ID)
	require.NotNil(t, o.Wood[0].Last)
	right(t, s, asking.Posting("/v1/rack/billets/w-1/readiness", `{"target_condition": {"mc_pct": 8}}`))
	right(t, s, patching("billets/w-1", `{"spot": "a"}`, "If-Match", "*"))
}

// A fault of any kind about one piece leaves the others their answers, and is told in a sentence.
func TestOneFaultStopsNoOther(t *testing.T) {
	for name, fault := range map[string]func() ([]byte, error){
		"error": func() ([]byte, error) { return nil, errors.New("sqlite3: interrupted") }, "cancelled": func() ([]byte, error) { return nil, context.Canceled },
		"panic": func() ([]byte, error) { panic("inner") }, "nonsense": func() ([]byte, error) { return []byte("{"), nil },
	} {
		t.Run(name, func(t *testing.T) {
			s, r := shopOf(t, 4)
			broken := true
			var mu sync.Mutex
			r.AskWith(rack.Asking{Version: "test", Ask: func(ctx context.Context, path string, body []byte) ([]byte, error) {
				mu.Lock()
				now := broken
				mu.Unlock()
				if now && strings.Contains(string(body), `"41 mm"`) {
					return fault()
				}
				return s.Aside(ctx, path, body)
			}})
			answer := asking.Getting("/v1/rack/overview?wait_seconds=20").Of(t, s)
			text := answer.Body.String()
			o := asking.Decoded[rack.Overview](t, answer.Body.Bytes())
			assert.Equal(t, 3, o.Progress.Current)
			assert.Contains(t, o.Progress.Failed, "1 piece without an answer")
			require.Len(t, o.Open, 1)
			assert.Equal(t, "w-2", o.Open[0].ID)
			for _, inner := range []string{"sqlite", "context", "panic", "inner", "JSON"} {
				assert.NotContains(t, text, inner)
			}
			mu.Lock()
			broken = false
			mu.Unlock()
			assert.Empty(t, overviewOf(t, s).Open, "it is tried again")
		})
	}
}

// Changes of members of any version are all carried out, however many come at once.
func TestChangesOfAnyVersionAreNeverRefused(t *testing.T) {
	s, _ := shop(t, 1)
	const phones = 8
	var all sync.WaitGroup
	for i := range phones {
		all.Go(func() {
			for n := range 3 {
				r := patching("billets/w-1", fmt.Sprintf(`{"spot": "%d-%d"}`, i, n), "If-Match", "*").Of(t, s)
				assert.Equal(t, http.StatusOK, r.Code, r.Body.String())
			}
		})
	}
	all.Wait()
	_, body := right(t, s, asking.Getting("/v1/rack/billets/w-1"))
	assert.Contains(t, body, fmt.Sprintf(`"version":%d`, 1+3*phones))
}

// What an undo took away comes back by another one.
func TestUndoOfTheAddingIsUndone(t *testing.T) {
	s, _ := shop(t, 0)
	right(t, s, asking.Posting("/v1/rack/places", `{"id": "attic", "name": "x"}`))
	undo := asking.Asked{Verb: http.MethodPost, Target: "/v1/rack/places/attic/undo", Body: `{}`, Headers: []string{"Content-Type", "application/json", "If-Match", "*"}}
	for range 2 {
		_, gone := right(t, s, undo)
		assert.Contains(t, gone, `"removed":true`)
		_, back := right(t, s, undo)
		assert.NotContains(t, back, `"removed"`)
	}
}

// A change of what is there is none of what has to be absent.
func TestIfNoneMatchBesideIfMatch(t *testing.T) {
	s, _ := shop(t, 0)
	for _, verb := range []string{http.MethodPut, http.MethodDelete} {
		r := asking.Asked{Verb: verb, Target: "/v1/rack/places/shed", Body: `{"id": "shed", "name": "x"}`,
			Headers: []string{"Content-Type", "application/json", "If-Match", "*", "If-None-Match", "*"}}.Of(t, s)
		assert.Equal(t, http.StatusPreconditionFailed, r.Code, verb)
		assert.Contains(t, r.Body.String(), "If-None-Match")
	}
	r := patching("places/shed", `{"name": "y"}`, "If-Match", "abc").Of(t, s)
	assert.Equal(t, http.StatusBadRequest, r.Code)
	assert.Contains(t, r.Body.String(), "invalid_format")
}
