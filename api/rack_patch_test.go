package api_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
)

func patching(target, body string, headers ...string) asking.Asked {
	return asking.Asked{Verb: http.MethodPatch, Target: "/v1/rack/" + target, Body: body, Headers: append([]string{"Content-Type", serve.MergePatch}, headers...)}
}

// Some members are changed, the others stay as they were written; what comes of it is checked
// as a whole, and changes of others are not lost.
func TestSomeMembersAreChanged(t *testing.T) {
	s, _ := shop(t, 0)
	right(t, s, asking.Posting("/v1/rack/billets", `{"id": "w-1", "place": "shed", "billet": {"thickness": "52.0 mm", "rings": {"angle_deg": 70}, "name": "old"}}`))
	tag, body := right(t, s, patching("billets/w-1", `{"place": null, "target": "harp", "billet": {"name": "new", "rings": {"angle_deg": 80}}}`, "If-Match", "*", "Idempotency-Key", "once"))
	assert.Contains(t, body, `"version":2`)
	assert.Contains(t, body, `"billet":{"thickness":"52.0 mm","rings":{"angle_deg":80},"name":"new"}`)
	assert.Contains(t, body, `"target":"harp"`)
	assert.NotContains(t, body, `"place"`)
	_, again := right(t, s, patching("billets/w-1", `{"place": null, "target": "harp", "billet": {"name": "new", "rings": {"angle_deg": 80}}}`, "If-Match", "*", "Idempotency-Key", "once"))
	assert.Equal(t, body, again, "sent twice")

	right(t, s, patching("billets/w-1", `{"billet": {"name": "newer"}}`, "If-Match", tag))
	refused := func(status int, told string, asked asking.Asked) {
		t.Helper()
		r := asked.Of(t, s)
		assert.Equal(t, status, r.Code, r.Body.String())
		assert.Contains(t, r.Body.String(), told)
	}
	refused(http.StatusPreconditionFailed, "version 3", patching("billets/w-1", `{"billet": {"name": "lost"}}`, "If-Match", tag))
	refused(http.StatusPreconditionRequired, "If-Match", patching("billets/w-1", `{"place": "shed"}`))
	refused(http.StatusUnprocessableEntity, "/billet/thickness", patching("billets/w-1", `{"billet": {"thickness": "-9 mm"}}`, "If-Match", "*"))
	refused(http.StatusUnprocessableEntity, "/billet", patching("billets/w-1", `{"billet": null}`, "If-Match", "*"))
	refused(http.StatusUnprocessableEntity, "/id", patching("billets/w-1", `{"id": "w-2"}`, "If-Match", "*"))
	refused(http.StatusUnprocessableEntity, "attic", patching("billets/w-1", `{"place": "attic"}`, "If-Match", "*"))
	refused(http.StatusNotFound, "w-9", patching("billets/w-9", `{"place": "shed"}`, "If-Match", "*"))
	for _, body := range []string{`[]`, `"x"`, `null`} {
		refused(http.StatusUnprocessableEntity, "object", patching("billets/w-1", body, "If-Match", "*"))
	}
	for body, code := range map[string]string{``: "object", `{"place": "shed"`: "invalid_json", `{"place": "shed", "place": "shop"}`: "duplicate_member"} {
		refused(http.StatusBadRequest, code, patching("billets/w-1", body, "If-Match", "*"))
	}
	refused(http.StatusBadRequest, "If-Match", patching("billets/w-1", `{"place": "shed"}`, "If-Match", `"stale", *`))
	plain := asking.Asked{Verb: http.MethodPatch, Target: "/v1/rack/billets/w-1", Body: `{"place": "shed"}`, Headers: []string{"Content-Type", "application/json", "If-Match", "*"}}
	refused(http.StatusUnsupportedMediaType, serve.MergePatch, plain)
	assert.Equal(t, serve.MergePatch, plain.Of(t, s).Header().Get("Accept-Patch"))
	right(t, s, asking.Asked{Verb: http.MethodDelete, Target: "/v1/rack/billets/w-1", Headers: []string{"If-Match", "*"}})
	refused(http.StatusConflict, "removed", patching("billets/w-1", `{"place": "shed"}`, "If-Match", "*"))
}

// What RFC 7396 says of objects: members are replaced, added and taken off, at any depth.
func TestMergePatchIsThatOfTheStandard(t *testing.T) {
	s, _ := shop(t, 0)
	for i, c := range []struct{ was, patch, is string }{
		{`{"temperature": "20 C", "rh_pct": 45}`, `{"temperature": "21 C"}`, `{"temperature":"21 C","rh_pct":45}`},
		{`{"temperature": "20 C", "rh_pct": 45}`, `{"rh_pct": null, "wet_bulb": "15 C"}`, `{"temperature":"20 C","wet_bulb":"15 C"}`},
		{`{"temperature": {"value": 20, "unit": "C"}, "rh_pct": 45}`, `{"temperature": "68 F"}`, `{"temperature":"68 F","rh_pct":45}`},
		{`{"temperature": "20 C", "rh_pct": 45}`, `{"temperature": {"value": 20, "unit": "C"}, "elevation": null}`, `{"temperature":{"value":20,"unit":"C"},"rh_pct":45}`},
	} {
		id := "p" + strings.Repeat("x", i)
		right(t, s, asking.Posting("/v1/rack/places", `{"id": "`+id+`", "name": "a", "stay": {"air": `+c.was+`}}`))
		_, body := right(t, s, patching("places/"+id, `{"stay": {"air": `+c.patch+`}}`, "If-Match", "*"))
		require.Contains(t, body, `"air":`+c.is)
	}
}

// Nothing that is refused where it is sent whole comes of changes, whatever is taken off; and
// what changes nothing makes no version.
func TestWhatComesOfChangesIsReadAsIfItWasSent(t *testing.T) {
	s, _ := shop(t, 0)
	right(t, s, asking.Posting("/v1/rack/billets", `{"id": "w-1", "place": "shed", "spot": "a", "billet": {"thickness": "52.0 mm", "rings": {"angle_deg": 70}}}`))
	right(t, s, asking.Posting("/v1/rack/stays", `{"id": "s-1", "billet": "w-1", "from": "2026-03-01", "stay": {"air": {"temperature": "20 C", "rh_pct": 50}}}`))
	for _, c := range []struct{ target, patch, whole string }{
		{"billets/w-1", `{"billet": {"rings": {"angle_deg": null}}}`, `{"id": "w-1", "place": "shed", "spot": "a", "billet": {"thickness": "52.0 mm", "rings": {}}}`},
		{"billets/w-1", `{"billet": {"heart_side": {"gone": null}}}`, ``},
		{"billets/w-1", `{"spot": ""}`, `{"id": "w-1", "place": "shed", "spot": "", "billet": {"thickness": "52.0 mm"}}`},
		{"stays/s-1", `{"billet": null}`, `{"id": "s-1", "from": "2026-03-01", "stay": {"air": {"temperature": "20 C", "rh_pct": 50}}}`},
		{"stays/s-1", `{"place": "shed"}`, `{"id": "s-1", "billet": "w-1", "place": "shed", "from": "2026-03-01", "stay": {"air": {"temperature": "20 C", "rh_pct": 50}}}`},
		{"stays/s-1", `{"stay": {"air": {"rh_pct": null}}}`, `{"id": "s-1", "billet": "w-1", "from": "2026-03-01", "stay": {"air": {"temperature": "20 C"}}}`},
	} {
		changed := patching(c.target, c.patch, "If-Match", "*").Of(t, s)
		assert.Equal(t, http.StatusUnprocessableEntity, changed.Code, "%s %s", c.patch, changed.Body)
		if c.whole == "" {
			continue
		}
		put := asking.Asked{Verb: http.MethodPut, Target: "/v1/rack/" + c.target, Body: c.whole, Headers: []string{"Content-Type", "application/json", "If-Match", "*"}}.Of(t, s)
		require.Equal(t, http.StatusUnprocessableEntity, put.Code, put.Body.String())
		assert.Equal(t, told(t, put.Body.Bytes()), told(t, changed.Body.Bytes()), c.patch)
	}
	for _, same := range []asking.Asked{
		patching("billets/w-1", `{}`, "If-Match", "*"), patching("billets/w-1", `{"spot": "a", "target": null}`, "If-Match", "*", "Idempotency-Key", "k"),
		{Verb: http.MethodPut, Target: "/v1/rack/billets/w-1", Body: `{"spot": "a", "place": "shed", "id": "w-1", "billet": {"thickness": "52.0 mm", "rings": {"angle_deg": 70}}}`,
			Headers: []string{"Content-Type", "application/json", "If-Match", "*"}},
	} {
		_, body := right(t, s, same)
		assert.Contains(t, body, `"version":1`)
	}
}

// told are the errors of a problem.
func told(t *testing.T, body []byte) []refuse.FieldError {
	return asking.Decoded[refuse.Problem](t, body).Errors
}
