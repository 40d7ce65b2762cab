package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const trial = `
path /v1/old /v1/new
path /v1/old/deep /v1/deep
id a_row a-row
member * **/dry_bulb temperature
member old,old/deep from from_condition
member old made/angle ../rings/angle_deg
member old trim trim/start
member old list/-/x /first/x
value old side left near
value * **/row id
`

func trialTable(t *testing.T) *table {
	t.Helper()
	all, err := tableOf(trial)
	require.NoError(t, err)
	return &all
}

func turned(t *testing.T, path, body string) string {
	t.Helper()
	return string(trialTable(t).request(path, []byte(body), func(n *node) []byte { return n.line(nil) }))
}

func TestRulesOfTheTable(t *testing.T) {
	for _, c := range [][3]string{
		{"/v1/old", `{"air": {"dry_bulb": "20 C", "b": 1e-9}, "from": {"mc_pct": 9.0}}`, `{"air": {"temperature": "20 C", "b": 1e-9}, "from_condition": {"mc_pct": 9.0}}`},
		{"/v1/other", `{"list": [{"dry_bulb": 1}], "from": 2}`, `{"list": [{"temperature": 1}], "from": 2}`},
		{"/v1/old", `{"z": 0, "made": {"angle": 3, "c": 4}}`, `{"z": 0, "made": {"c": 4}, "rings": {"angle_deg": 3}}`},
		{"/v1/old", `{"trim": "2 mm", "z": 0}`, `{"trim": {"start": "2 mm"}, "z": 0}`},
		{"/v1/old", `{"list": [{"x": 1, "y": 2}, {"x": 3}]}`, `{"list": [{"y": 2}, {}], "first": {"x": 1, "x": 3}}`},
		{"/v1/old", `{"side": "left", "b": {"row": "a_row"}, "row": "other"}`, `{"side": "near", "b": {"row": "a-row"}, "row": "other"}`},
		{"/v1/old", `{"from": 1, "from": 2}`, `{"from_condition": 1, "from_condition": 2}`},
		{"/v1/old", `{"from": `, `{"from": `},
		{"/v1/old", `{"from": 1} 2`, `{"from": 1} 2`},
		{"/v1/old", `null`, `null`},
	} {
		assert.Equal(t, c[2], turned(t, c[0], c[1]), c[1])
	}
}

func TestTargets(t *testing.T) {
	all := trialTable(t)
	for old, becomes := range map[string]string{
		"/v1/old": "/v1/new", "/v1/old?as=svg": "/v1/new?as=svg", "/v1/old/deep": "/v1/deep", "/v1/old/a_row": "/v1/new/a-row",
		"/v1/older": "/v1/older", "/v1/old/b": "/v1/new/b",
	} {
		assert.Equal(t, becomes, all.target(old), old)
	}
}

func TestBatchesAndStreams(t *testing.T) {
	item, becomes := `{"id": "1", "route": "/v1/old", "request": {"from": 1}}`, `{"id": "1", "route": "/v1/new", "request": {"from_condition": 1}}`
	assert.Equal(t, `{"items": [`+becomes+`, 7, {"route": 1}]}`, turned(t, batchPath, `{"items": [`+item+`, 7, {"route": 1}]}`))
	assert.Equal(t, becomes+"\n\nno item\n"+becomes+"\n", string(trialTable(t).lines([]byte(item+"\n\nno item\n"+item))))
}

func TestSeeds(t *testing.T) {
	seed := "go test fuzz v1\nstring(\"/v1/old\")\n[]byte(\"{\\\"from\\\": 1}\")\nbyte('\\x01')\n"
	assert.Equal(t, "go test fuzz v1\nstring(\"/v1/new\")\n[]byte(\"{\\\"from_condition\\\": 1}\")\nbyte('\\x01')\n", string(trialTable(t).corpus([]byte(seed))))
}

func TestLinesThatAreNone(t *testing.T) {
	for _, bad := range []string{"", "path /v1/a", "path a b\nmember * x", "path a b\nother * x y", "path a b\nvalue * x y"} {
		_, err := tableOf(bad)
		assert.Error(t, err, bad)
	}
}

// The examples of the last draft become the examples of today, member for member.
func TestExamplesOfTheLastDraft(t *testing.T) {
	text, err := renamesText()
	require.NoError(t, err)
	all, err := tableOf(text)
	require.NoError(t, err)
	files, err := filepath.Glob("old/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		name := filepath.Base(file)
		path, is := oldPathOf(name)
		require.True(t, is, name)
		route, rest, _ := strings.Cut(name, ".")
		assert.NotEmpty(t, route)
		old, err := os.ReadFile(file)
		require.NoError(t, err)
		now, err := os.ReadFile(filepath.Join("../../api/examples", filepath.Base(all.target(path))+"."+rest))
		require.NoError(t, err)
		want, err := parse(now)
		require.NoError(t, err)
		got, err := parse(all.request(path, old, (*node).written))
		require.NoError(t, err)
		assert.Equal(t, string(want.line(nil)), string(got.line(nil)), name)
	}
}

// oldPathOf is the old path of an example, which was named by its operation.
func oldPathOf(name string) (string, bool) {
	id, _, is := strings.Cut(name, ".")
	if id == "timing" {
		return "/v1/resaw/timing", is
	}
	return "/v1/" + id, is
}
