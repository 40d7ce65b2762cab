package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A rack is filled, checked, copied, restored and moved from the command line.
func TestRackIsLookedAfter(t *testing.T) {
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	status, _, said := run(t, "", "rack", "check", at("rack"))
	assert.Equal(t, exitProblem, status)
	assert.Contains(t, said, "no such file")
	assert.NoFileExists(t, at("rack"), "a rack that is looked after has to be there")
	const export = `{"format": "latewood-rack-1", "versions": [{"kind": "place", "id": "shed", "body": "{\"id\":\"shed\",\"name\":\"the shed\"}", "version": 1, "restores": -1, "gone": false, "sequence": 1, "at": "2026-03-14T09:00:00Z", "by": ""}], "orders": []}`
	status, _, said = run(t, export, "rack", "import", at("rack"))
	require.Equal(t, exitOK, status, said)
	for _, words := range [][]string{{"check", at("rack")}, {"backup", at("rack"), at("copy")}, {"restore", at("copy"), at("new")}} {
		status, _, said = run(t, "", append([]string{"rack"}, words...)...)
		assert.Equal(t, exitOK, status, said)
	}
	_, first, _ := run(t, "", "rack", "export", at("rack"))
	_, second, _ := run(t, "", "rack", "export", at("new"))
	assert.Equal(t, first, second)
	assert.JSONEq(t, export, first)
	info, err := os.Stat(at("rack"))
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), "only its owner may read it")
	for _, words := range [][]string{{"rack"}, {"rack", "paint", "x"}, {"rack", "backup", at("rack")}} {
		status, _, _ = run(t, "", words...)
		assert.Equal(t, exitUsage, status)
	}
}

// Where others can reach it, a rack is served only to those with tokens.
func TestAnOpenServiceKeepsNoRack(t *testing.T) {
	for _, words := range [][]string{{"--listen", "0.0.0.0:0", "--open"}, {"--listen", "127.0.0.1:0", "--open", "--proxy", "10.0.0.0/8"}} {
		status, _, said := run(t, "", append([]string{"serve", "--rack", filepath.Join(t.TempDir(), "rack")}, words...)...)
		assert.NotEqual(t, exitOK, status)
		assert.Contains(t, said, "a rack is written to", words)
	}
	_, line, said := run(t, "", "token", "phone", "weigh")
	assert.Regexp(t, `^phone [0-9a-f]{64} weigh\n$`, line)
	assert.Contains(t, said, "latewood_")
	status, _, _ := run(t, "", "token", "phone", "paint")
	assert.Equal(t, exitUsage, status)
}

// A rack goes into a folder of sheets and into another rack, twice without doubling a row; a
// row that is wrong is told.
func TestRackGoesIntoSheets(t *testing.T) {
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	status, _, said := run(t, "", "rack", "demo", at("rack"))
	require.Equal(t, exitOK, status, said)
	status, _, said = run(t, "", "rack", "export", at("rack"), "--csv", at("sheets"))
	require.Equal(t, exitOK, status, said)
	status, _, _ = run(t, "", "rack", "export", at("rack"), "--csv", at("sheets"))
	assert.Equal(t, exitProblem, status, "no file is written over")
	for _, told := range []string{"billets.csv: 41 taken, 0 there already, 0 refused", "billets.csv: 0 taken, 41 there already, 0 refused"} {
		status, out, said := run(t, "", "rack", "import", at("copy"), "--csv", at("sheets"))
		assert.Equal(t, exitOK, status, said+out)
		assert.Contains(t, out, told)
	}
	status, _, said = run(t, "", "rack", "export", at("copy"), "--csv", at("again"))
	require.Equal(t, exitOK, status, said)
	for _, name := range []string{"billets.csv", "readings.csv", "pieces.csv", "events.csv", "places.csv"} {
		one, err := os.ReadFile(at("sheets/" + name))
		require.NoError(t, err)
		other, err := os.ReadFile(at("again/" + name))
		require.NoError(t, err)
		assert.Equal(t, string(one), string(other), name)
	}

	require.NoError(t, os.Mkdir(at("wrong"), 0o750))
	require.NoError(t, os.WriteFile(at("wrong/places.csv"), []byte("id,name\nattic,the attic\n"), 0o600))
	require.NoError(t, os.WriteFile(at("wrong/billets.csv"), []byte("id,place,billet.thickness\nw-1,attic,52 mm\nw-2,attic,thick\n"), 0o600))
	status, out, _ := run(t, "", "rack", "import", at("new"), "--csv", at("wrong"))
	assert.Equal(t, exitProblem, status)
	assert.Contains(t, out, "billets.csv: 0 taken, 0 there already, 1 refused\n  row 3 w-2 billet.thickness: ")
	status, out, _ = run(t, "", "rack", "import", at("new"), "--csv", at("wrong"), "--take-the-rest")
	assert.Equal(t, exitProblem, status)
	assert.Contains(t, out, "places.csv: 1 taken, 0 there already, 0 refused\nbillets.csv: 1 taken, 0 there already, 1 refused")
	status, _, _ = run(t, "", "rack", "import", at("new"), "--csv", at("nowhere"))
	assert.Equal(t, exitProblem, status)
}
