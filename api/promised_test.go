package api_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/contract"
	"latewood/api/internal/serve"
)

// promised is an example of a released contract and what was answered to it then.
type promised struct {
	Route   string          `json:"route"`
	Example string          `json:"example"`
	Request json.RawMessage `json:"request"`
	Answer  json.RawMessage `json:"answer"`
}

const promisedFolder = "../testdata/promised"

// Every example of every released contract is asked for ever. What is answered otherwise
// than it was then is named in changes.csv, with its words in CHANGELOG.md; members may be
// added, and none may go.
func TestPromisedExamples(t *testing.T) {
	asking.OneByOne(t)
	if *update {
		promise(t)
		return
	}
	named := namedChanges(t)
	files, err := filepath.Glob(filepath.Join(promisedFolder, "*.jsonl"))
	require.NoError(t, err)
	require.Contains(t, files, promisedFile(), "the examples of this contract were not kept: run make contract")
	for _, file := range files {
		version := strings.TrimSuffix(filepath.Base(file), ".jsonl")
		kept := readPromised(t, file)
		require.Greater(t, len(kept), 20)
		for _, one := range kept {
			reply := asking.Posting(one.Route, string(one.Request)).Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, reply.Code, "%s: %s is no longer answered: %s", version, one.Example, reply.Body)
			for _, c := range changes("", value(t, one.Answer), value(t, reply.Body.Bytes())) {
				c.version, c.example = version, one.Example
				assert.True(t, named[c], "%s, %s: %s was %s and is %s; name it in testdata/promised/changes.csv, and in the CHANGELOG", version, one.Example, c.pointer, c.was, c.is)
				delete(named, c)
			}
		}
	}
	assert.Empty(t, named, "changes that are none")
}

func promisedFile() string { return filepath.Join(promisedFolder, serve.ContractVersion+".jsonl") }

func readPromised(t *testing.T, file string) (all []promised) {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	for line := range bytes.Lines(text) {
		var one promised
		require.NoError(t, json.Unmarshal(line, &one))
		all = append(all, one)
	}
	return all
}

// promise keeps the examples of the contract with their answers. Those of a draft may be
// written anew, and go when it is released; those of a release never change.
func promise(t *testing.T) {
	drafts, err := filepath.Glob(filepath.Join(promisedFolder, "*-draft.jsonl"))
	require.NoError(t, err)
	for _, draft := range drafts {
		require.NoError(t, os.Remove(draft))
	}
	if _, err := os.Stat(promisedFile()); err == nil {
		return
	}
	out := new(bytes.Buffer)
	encoder := json.NewEncoder(out)
	encoder.SetEscapeHTML(false)
	for i := range api.Routes {
		if api.Routes[i].Request == nil || api.Routes[i].Keeps {
			continue // what is kept answers by what was kept before
		}
		for _, e := range contract.ExamplesOf(asking.ExampleFiles(), &api.Routes[i]) {
			reply := asking.Posting(e.Path, string(e.Body), "X-Request-Id", "promised").Of(t, asking.SharedService())
			require.Equal(t, http.StatusOK, reply.Code, reply.Body.String())
			require.NoError(t, encoder.Encode(promised{e.Path, e.Name, e.Body, reply.Body.Bytes()}))
		}
	}
	require.NoError(t, os.WriteFile(promisedFile(), out.Bytes(), 0o644))
}

// change is a value that is answered otherwise than it was.
type change struct{ version, example, pointer, was, is string }

// namedChanges are those that changes.csv names. The reason of each stands in the CHANGELOG.
func namedChanges(t *testing.T) map[change]bool {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(promisedFolder, "changes.csv"))
	require.NoError(t, err)
	log, err := os.ReadFile("../CHANGELOG.md")
	require.NoError(t, err)
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"version", "example", "pointer", "was", "is", "changelog"}, rows[0])
	named := map[change]bool{}
	for _, row := range rows[1:] {
		require.NotEmpty(t, row[5])
		assert.Contains(t, string(log), row[5], "the CHANGELOG says nothing of it")
		named[change{row[0], row[1], row[2], row[3], row[4]}] = true
	}
	return named
}

func value(t *testing.T, text []byte) any {
	t.Helper()
	var v any
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.UseNumber()
	require.NoError(t, decoder.Decode(&v))
	return v
}

// changes are the values of an answer that are other than they were. The version of the
// tables and the id of a request are not of the answer.
func changes(at string, was, is any) (all []change) {
	switch before := was.(type) {
	case map[string]any:
		now, _ := is.(map[string]any)
		for _, name := range slices.Sorted(maps.Keys(before)) {
			if name != "data_version" && name != "instance" {
				all = append(all, changes(at+"/"+name, before[name], now[name])...)
			}
		}
		return all
	case []any:
		now, _ := is.([]any)
		if len(now) != len(before) {
			return []change{{pointer: at, was: strconv.Itoa(len(before)) + " entries", is: strconv.Itoa(len(now)) + " entries"}}
		}
		for i := range before {
			all = append(all, changes(at+"/"+strconv.Itoa(i), before[i], now[i])...)
		}
		return all
	}
	if was != is {
		return []change{{pointer: at, was: fmt.Sprint(was), is: fmt.Sprint(is)}}
	}
	return nil
}

// What is added is no change; what goes, or is another, is.
func TestChangesOfAnAnswer(t *testing.T) {
	was := `{"a": 1.50, "b": [1, {"c": "x"}], "data_version": "1", "d": [1, 2]}`
	assert.Empty(t, changes("", value(t, []byte(was)), value(t, []byte(`{"a": 1.50, "b": [1, {"c": "x", "new": 1}], "data_version": "2", "d": [1, 2], "e": 3}`))))
	assert.Equal(t, []change{
		{pointer: "/a", was: "1.50", is: "1.5"}, {pointer: "/b/1/c", was: "x", is: "<nil>"}, {pointer: "/d", was: "2 entries", is: "1 entries"},
	}, changes("", value(t, []byte(was)), value(t, []byte(`{"a": 1.5, "b": [1, {}], "d": [1]}`))))
}
