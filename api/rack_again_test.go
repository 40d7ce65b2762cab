package api_test

import (
	"encoding/json"
	"maps"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

// memberwise reads an object.
func memberwise(t *testing.T, body string) map[string]any {
	t.Helper()
	object := map[string]any{}
	require.NoError(t, json.Unmarshal([]byte(body), &object))
	return object
}

func jsonOf(t *testing.T, v any) string {
	t.Helper()
	text, err := json.Marshal(v)
	require.NoError(t, err)
	return string(text)
}

// Every kind of entry that is read, changed and sent back as it came gets through; what the rack
// tells of it is compared and not kept, and refused where it comes back changed.
func TestWhatIsReadMayBeSentBack(t *testing.T) {
	s := asking.FreshRack(t)
	for _, kind := range []string{"billet", "reading", "event", "place", "piece", "plan", "stay", "target", "note"} {
		for _, id := range []string{kind + "-2", kind + "-4"} { // of one version, and of two
			path := "/v1/rack/" + kind + "s/" + id
			tag, body := right(t, s, asking.Getting(path))
			tag, body = right(t, s, withVerb(http.MethodPut, path, body, "If-Match", tag)) // the rack of the tests has no labels
			read := memberwise(t, body)
			_, same := right(t, s, withVerb(http.MethodPut, path, body, "If-Match", tag))
			assert.JSONEq(t, body, same, "what says the same is no change")

			for member, wrong := range map[string]any{"version": 9, "restores_version": 1, "removed": true, "changed_at": "2026-01-01T00:00:00Z", "changed_by": "nobody", "etag": `"x"`} {
				changed := maps.Clone(read)
				changed[member] = wrong
				p := asking.ProblemOf(t, withVerb(http.MethodPut, path, jsonOf(t, changed), "If-Match", tag).Of(t, s), http.StatusUnprocessableEntity)
				assert.Equal(t, []string{"/" + member + " conflict"}, []string{p.Errors[0].Pointer + " " + p.Errors[0].Code}, path)
			}

			changed := maps.Clone(read)
			changed["warnings"] = []any{map[string]any{"code": "check_input", "detail": "look again"}}
			changeOf(t, changed, kind)
			newTag, now := right(t, s, withVerb(http.MethodPut, path, jsonOf(t, changed), "If-Match", tag, "Idempotency-Key", kind+id))
			assert.NotEqual(t, tag, newTag)
			assert.Equal(t, read["version"].(float64)+1, memberwise(t, now)["version"], path) //nolint:forcetypeassert // a number
			assert.Equal(t, 1, strings.Count(now, `"version"`), "what came back is not kept: "+now)
			assert.NotContains(t, now, "look again")
			again, _ := right(t, s, withVerb(http.MethodPut, path, jsonOf(t, changed), "If-Match", tag, "Idempotency-Key", kind+id))
			assert.Equal(t, newTag, again, "sent again, it is known by its key")
			for _, seen := range []string{tag, "*"} { // the version that came back is not the current one any more
				asking.ProblemOf(t, withVerb(http.MethodPut, path, body, "If-Match", seen).Of(t, s), http.StatusPreconditionFailed)
			}
			asking.ProblemOf(t, withVerb(http.MethodPut, path, body, "If-Match", newTag).Of(t, s), http.StatusUnprocessableEntity)
		}
	}
}

// changeOf changes an entry of a kind.
func changeOf(t *testing.T, entry map[string]any, kind string) {
	t.Helper()
	within := map[string][]string{"billet": {"billet", "note"}, "piece": {"billet", "note"}, "reading": {"reading", "note"}, "event": {"event", "note"}, "note": {"text"}}
	path := within[kind]
	if path == nil {
		path = []string{"note"}
	}
	for _, member := range path[:len(path)-1] {
		inner, is := entry[member].(map[string]any)
		require.True(t, is)
		inner = maps.Clone(inner)
		entry[member], entry = inner, inner
	}
	entry[path[len(path)-1]] = "sealed again"
}

// A key belongs to the token that sends it: under that of another one the same request is carried
// out, and nothing is told of what the other sent.
func TestKeysOfRequestsBelongToTokens(t *testing.T) {
	one, lines, err := serve.NewToken("bench")
	require.NoError(t, err)
	other, line, err := serve.NewToken("phone")
	require.NoError(t, err)
	keys, err := serve.ParseKeys(lines + " all\n" + line + " all\n")
	require.NoError(t, err)
	s := keeping(t, serve.Config{Keys: keys})
	adding := func(token, id string) asking.Asked {
		return asking.Posting("/v1/rack/places", `{"id": "`+id+`", "name": "a shelf"}`, "Authorization", "Bearer "+token, "Idempotency-Key", "k1")
	}
	tag, _ := right(t, s, adding(one, "a"))
	again, _ := right(t, s, adding(one, "a"))
	assert.Equal(t, tag, again)
	right(t, s, adding(other, "b"))
	p := asking.ProblemOf(t, adding(other, "a").Of(t, s), http.StatusUnprocessableEntity)
	assert.Equal(t, "Idempotency-Key", p.Errors[0].Parameter, "a key of its own with another body")
	p = asking.ProblemOf(t, asking.Posting("/v1/rack/places", `{"id": "a", "name": "a shelf"}`, "Authorization", "Bearer "+other, "Idempotency-Key", "k2").Of(t, s), http.StatusConflict)
	assert.Equal(t, "duplicate_id", p.Errors[0].Code)
}
