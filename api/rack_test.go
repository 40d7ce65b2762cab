package api_test

import (
	"context"
	"encoding/json"
	"net/http"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

// keeping is a service with a rack in a file.
func keeping(t *testing.T, config serve.Config) *serve.Service {
	t.Helper()
	rack, err := api.OpenRack(t.Context(), filepath.Join(t.TempDir(), "rack"))
	require.NoError(t, err)
	t.Cleanup(func() {
		assert.NoError(t, rack.Check(context.WithoutCancel(t.Context())))
		assert.NoError(t, rack.Close())
	})
	config.Version, config.Rack = "test", rack
	s, err := api.New(config)
	require.NoError(t, err)
	return s
}

// right asks for something that has to go well.
func right(t *testing.T, s *serve.Service, a asking.Asked) (tag, body string) {
	t.Helper()
	r := a.Of(t, s)
	require.Equal(t, http.StatusOK, r.Code, "%s %s\n%s", a.Verb, a.Target, r.Body)
	return r.Header().Get("ETag"), r.Body.String()
}

func withVerb(verb, target, body string, headers ...string) asking.Asked {
	return asking.Asked{Verb: verb, Target: target, Body: body, Headers: headers}
}

const (
	placeBody  = `{"id": "shed", "name": "the shed"}`
	billetBody = `{"id": "walnut-7", "place": "shed", "billet": {"wood": "walnut-black", "length": "620 mm", "width": "230 mm", "thickness": "52 mm", "rings": {"angle_deg": 70}, "stacked_on": "2024-04-20"}, "stays": [{"station": "columbus-oh", "exposure": "shed"}], "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}}`
)

func readingBody(id, date, mass string) string {
	return `{"id": "` + id + `", "billet": "walnut-7", "reading": {"kind": "weight", "date": "` + date + `", "mass": "` + mass + `"}}`
}

// A service without a rack says how one is kept; the calculator answers as ever.
func TestWithoutARack(t *testing.T) {
	s, err := api.New(serve.Config{Version: "test"})
	require.NoError(t, err)
	for i := range api.Routes {
		if r := &api.Routes[i]; r.Keeps {
			target := strings.Replace(r.Path, ":id", "walnut-7", 1)
			p := asking.ProblemOf(t, withVerb(r.Method, target, `{}`).Of(t, s), http.StatusNotFound)
			assert.Contains(t, p.Detail, "serve --rack FILE", target)
		}
	}
	right(t, s, asking.Posting("/v1/emc", asking.EMCBody))
}

// A billet is put on the rack, weighed twice, judged from its id alone, changed, removed
// and brought back. What is kept is what was sent.
func TestARackIsKept(t *testing.T) {
	s := keeping(t, serve.Config{})
	right(t, s, asking.Posting("/v1/rack/places", placeBody))
	tag, body := right(t, s, asking.Posting("/v1/rack/billets", billetBody, "Idempotency-Key", "k1"))
	again, same := right(t, s, asking.Posting("/v1/rack/billets", billetBody, "Idempotency-Key", "k1"))
	assert.Equal(t, tag+body, again+same, "sent twice, it is carried out once")
	asking.ProblemOf(t, asking.Posting("/v1/rack/billets", strings.Replace(billetBody, "620", "621", 1), "Idempotency-Key", "k1").Of(t, s), http.StatusUnprocessableEntity)
	right(t, s, asking.Posting("/v1/rack/weighing-days", `{"readings": [`+readingBody("r2", "2026-03-14", "4.6 kg")+`, `+readingBody("r1", "2025-06-01", "5.3 kg")+`]}`))

	_, answer := right(t, s, asking.Posting("/v1/rack/billets/walnut-7/readiness", `{"as_of": "2026-03-20"}`))
	_, whole, is := strings.Cut(billetBody, `"place": "shed", `)
	require.True(t, is)
	alone := `{"as_of": "2026-03-20", "readings": [{"kind": "weight", "date": "2025-06-01", "mass": "5.3 kg"}, {"kind": "weight", "date": "2026-03-14", "mass": "4.6 kg"}], ` + whole
	_, want := right(t, s, asking.Posting("/v1/readiness", alone))
	assert.JSONEq(t, want, answer, "the answer is that of the question with everything sent along")

	changed := strings.Replace(billetBody, `"thickness": "52 mm"`, `"thickness": "2 in"`, 1)
	newTag, now := right(t, s, withVerb(http.MethodPut, "/v1/rack/billets/walnut-7", changed, "If-Match", tag, "Idempotency-Key", "k2"))
	assert.Contains(t, now, `"thickness":"2 in"`)
	repeated, _ := right(t, s, withVerb(http.MethodPut, "/v1/rack/billets/walnut-7", changed, "If-Match", tag, "Idempotency-Key", "k2"))
	assert.Equal(t, newTag, repeated, "a change that is sent again is known by its key, though its version is gone")
	for _, lost := range []asking.Asked{
		withVerb(http.MethodPut, "/v1/rack/billets/walnut-7", billetBody, "If-Match", tag, "Idempotency-Key", "k3"),
		withVerb(http.MethodPut, "/v1/rack/billets/walnut-7", billetBody, "If-Match", tag),
		withVerb(http.MethodDelete, "/v1/rack/billets/walnut-7", "", "If-Match", tag),
	} {
		asking.ProblemOf(t, lost.Of(t, s), http.StatusPreconditionFailed)
	}
	right(t, s, withVerb(http.MethodDelete, "/v1/rack/billets/walnut-7", "", "If-Match", newTag))
	asking.ProblemOf(t, asking.Posting("/v1/rack/readings", readingBody("r3", "2026-04-01", "4.5 kg")).Of(t, s), http.StatusUnprocessableEntity)
	asking.ProblemOf(t, asking.Posting("/v1/rack/billets/walnut-7/readiness", `{}`).Of(t, s), http.StatusConflict)
	_, back := right(t, s, asking.Posting("/v1/rack/billets/walnut-7/undo", `{"to_version": 1}`, "If-Match", "*"))
	assert.Contains(t, back, `"thickness":"52 mm"`)
	_, history := right(t, s, asking.Getting("/v1/rack/billets/walnut-7/history?limit=3"))
	var page struct {
		Items []struct{ Version int }
		Total int
	}
	require.NoError(t, json.Unmarshal([]byte(history), &page))
	assert.Equal(t, 4, page.Total)
	assert.Len(t, page.Items, 3)
}

// A caller who has an answer is told that it is still right, until it is not.
func TestKeptAnswersAreConditional(t *testing.T) {
	s := keeping(t, serve.Config{})
	right(t, s, asking.Posting("/v1/rack/places", placeBody))
	for _, target := range []string{"/v1/rack/places/shed", "/v1/rack/places", "/v1/rack/places/shed/history"} {
		tag, _ := right(t, s, asking.Getting(target))
		r := asking.Getting(target, "If-None-Match", tag).Of(t, s)
		assert.Equal(t, http.StatusNotModified, r.Code, target)
		assert.Equal(t, "private, no-cache", r.Header().Get("Cache-Control"), "nobody between here and the caller answers for the rack")
	}
}

// Lists are found by what entries are and belong to.
func TestListsOfTheRack(t *testing.T) {
	s := keeping(t, serve.Config{})
	right(t, s, asking.Posting("/v1/rack/places", placeBody))
	right(t, s, asking.Posting("/v1/rack/billets", billetBody))
	for i, date := range []string{"2025-06-01", "2025-07-01", "2025-08-01"} {
		right(t, s, asking.Posting("/v1/rack/readings", readingBody("r"+string(rune('1'+i)), date, "5 kg")))
	}
	right(t, s, asking.Posting("/v1/rack/events", `{"id": "e1", "billet": "walnut-7", "event": {"kind": "moved", "date": "2025-06-02", "place": "shed"}}`))
	for target, want := range map[string]int{
		"/v1/rack/billets?species=walnut-black": 1, "/v1/rack/billets?species=ash-white": 0, "/v1/rack/billets?q=NUT-7": 1, "/v1/rack/billets?place=shed": 1, "/v1/rack/billets?removed=true": 0,
		"/v1/rack/readings?billet=walnut-7": 3, "/v1/rack/readings?kind=weight": 3, "/v1/rack/readings?kind=stated": 0,
		"/v1/rack/readings?from=2025-06-15&until=2025-07-15": 1, "/v1/rack/readings?limit=1&offset=1": 3, "/v1/rack/events?kind=moved&place=shed": 1,
	} {
		_, body := right(t, s, asking.Getting(target))
		var page struct{ Total int }
		require.NoError(t, json.Unmarshal([]byte(body), &page))
		assert.Equal(t, want, page.Total, target)
	}
	for _, target := range []string{"/v1/rack/readings?from=yesterday", "/v1/rack/billets?removed=perhaps", "/v1/rack/billets?q=a%00b", "/v1/rack/billets?limit=0"} {
		asking.ProblemOf(t, asking.Getting(target).Of(t, s), http.StatusBadRequest)
	}
}

// A token may do with the rack what its role says, and calculate whatever it is.
func TestRolesOfTokens(t *testing.T) {
	tokens, lines := map[string]string{}, ""
	for _, role := range []string{"", "read", "weigh", "all"} {
		token, line, err := serve.NewToken("of" + role)
		require.NoError(t, err)
		tokens[role], lines = "Bearer "+token, lines+line+" "+role+"\n"
	}
	keys, err := serve.ParseKeys(lines)
	require.NoError(t, err)
	s := keeping(t, serve.Config{Keys: keys, Origins: []string{"https://shop.example"}})
	by := func(role string, a asking.Asked) int {
		a.Headers = append(a.Headers, "Authorization", tokens[role])
		return a.Of(t, s).Code
	}
	require.Equal(t, http.StatusOK, by("all", asking.Posting("/v1/rack/places", placeBody)))
	require.Equal(t, http.StatusOK, by("all", asking.Posting("/v1/rack/billets", billetBody)))
	for role, may := range map[string][3]int{"": {200, 403, 403}, "read": {200, 403, 403}, "weigh": {200, 200, 403}, "all": {200, 200, 200}} {
		assert.Equal(t, may[0], by(role, asking.Getting("/v1/rack/billets")), role)
		assert.Equal(t, may[0], by(role, asking.Posting("/v1/rack/billets/walnut-7/readiness", `{"as_of": "2025-03-20"}`)), role)
		assert.Equal(t, may[1], by(role, asking.Posting("/v1/rack/events", `{"id": "e-`+role+`", "billet": "walnut-7", "event": {"kind": "moved", "date": "2025-06-02"}}`)), role)
		assert.Equal(t, may[2], by(role, withVerb(http.MethodPut, "/v1/rack/places/shed", placeBody, "If-Match", "*")), role)
		assert.Equal(t, may[2], by(role, asking.Posting("/v1/rack/places", strings.Replace(placeBody, "shed", "attic"+role, 1))), role)
		assert.Equal(t, 200, by(role, asking.Posting("/v1/emc", asking.EMCBody)), role)
	}
	assert.Equal(t, http.StatusUnauthorized, asking.Getting("/v1/rack/billets").Of(t, s).Code)
	_, body := right(t, s, asking.Getting("/v1/rack/places/shed", "Authorization", tokens["read"]))
	assert.Contains(t, body, `"changed_by":"ofall"`)
	_, err = serve.ParseKeys(strings.Replace(lines, " weigh", " paint", 1))
	assert.ErrorContains(t, err, "read, weigh or all")
}

// A page of another origin never writes, also not one that may ask.
func TestNoPageOfAnotherOriginWrites(t *testing.T) {
	token, line, err := serve.NewToken("bench")
	require.NoError(t, err)
	keys, err := serve.ParseKeys(line + " all")
	require.NoError(t, err)
	for name, s := range map[string]*serve.Service{"open": keeping(t, serve.Config{Origins: []string{"https://shop.example"}}),
		"with tokens": keeping(t, serve.Config{Keys: keys, Origins: []string{"https://shop.example"}})} {
		for _, headers := range [][]string{{"Origin", "https://shop.example"}, {"Origin", "https://other.example"}, {"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Site", "same-site"}} {
			for _, a := range []asking.Asked{asking.Posting("/v1/rack/places", placeBody), withVerb(http.MethodPut, "/v1/rack/places/shed", placeBody, "If-Match", "*"),
				withVerb(http.MethodDelete, "/v1/rack/places/shed", "", "If-Match", "*"), asking.Posting("/v1/rack/places/shed/undo", `{}`, "If-Match", "*")} {
				a.Headers = append(append(a.Headers, headers...), "Authorization", "Bearer "+token)
				asking.ProblemOf(t, a.Of(t, s), http.StatusForbidden)
			}
		}
		r := withVerb(http.MethodOptions, "/v1/rack/places/shed", "", "Origin", "https://shop.example", "Access-Control-Request-Method", "PUT").Of(t, s)
		assert.NotContains(t, r.Header().Get("Access-Control-Allow-Methods"), "PUT", name)
		own := asking.Posting("/v1/rack/places", placeBody, "Sec-Fetch-Site", "same-origin", "Authorization", "Bearer "+token)
		right(t, s, own)
	}
}

// What is exported, imported elsewhere and exported again is the same, byte for byte; so
// is a restored backup.
func TestARackMovesWhole(t *testing.T) {
	folder := t.TempDir()
	open := func(name string) *api.Rack {
		r, err := api.OpenRack(t.Context(), filepath.Join(folder, name))
		require.NoError(t, err)
		t.Cleanup(func() { assert.NoError(t, r.Close()) })
		return r
	}
	first := open("first")
	s, err := api.New(serve.Config{Version: "test", Rack: first})
	require.NoError(t, err)
	right(t, s, asking.Posting("/v1/rack/places", "{\"id\": \"shed\",\n \"name\": \"Gr\u00f6\u00dfe <&>\"}", "Idempotency-Key", "k1"))
	right(t, s, withVerb(http.MethodPut, "/v1/rack/places/shed", placeBody, "If-Match", "*"))
	exported := func(r *api.Rack) string {
		var b strings.Builder
		require.NoError(t, r.Export(t.Context(), &b))
		return b.String()
	}
	want := exported(first)
	second := open("second")
	require.NoError(t, second.Import(t.Context(), strings.NewReader(want)))
	assert.Equal(t, want, exported(second))
	assert.Error(t, second.Import(t.Context(), strings.NewReader(want)), "only an empty rack is filled")
	for _, bad := range []string{"", "{}", `{"format": "other"}`, strings.Replace(want, `"version": 2`, `"version": 3`, 1)} {
		assert.Error(t, open("third").Import(t.Context(), strings.NewReader(bad)))
	}
	require.NoError(t, first.Backup(t.Context(), filepath.Join(folder, "backup")))
	require.NoError(t, api.RestoreRack(t.Context(), filepath.Join(folder, "backup"), filepath.Join(folder, "restored")))
	assert.Equal(t, want, exported(open("restored")))
}
