package page

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mostZipped is what the whole page may weigh on its way to a telephone, in bytes.
const mostZipped = 150_000

func TestPageIsSmall(t *testing.T) {
	files, err := Files()
	require.NoError(t, err)
	total := 0
	for name, text := range files {
		var out bytes.Buffer
		z := gzip.NewWriter(&out)
		_, err := z.Write(text)
		require.NoError(t, err)
		require.NoError(t, z.Close())
		assert.NotZero(t, out.Len(), name)
		total += out.Len()
	}
	assert.Less(t, total, mostZipped)
	t.Logf("%d bytes in %d files", total, len(files))
}

// The forms hold every calculation but the batch, and every schema that they refer to.
func TestForms(t *testing.T) {
	files, err := Files()
	require.NoError(t, err)
	var told struct {
		Questions map[string]form
		Schemas   map[string]json.RawMessage
	}
	require.NoError(t, json.Unmarshal(files[formsName], &told))
	assert.NotContains(t, told.Questions, "/v1/batch")
	assert.True(t, told.Questions["/v1/readiness"].Drawn)
	assert.False(t, told.Questions["/v1/emc"].Drawn)
	assert.Equal(t, "EMCRequest", told.Questions["/v1/emc"].Request)
	assert.Greater(t, len(told.Questions), 14)
	for route, question := range told.Questions {
		assert.Contains(t, told.Schemas, question.Request, route)
		assert.NotEmpty(t, question.Summary, route)
		assert.NotEmpty(t, question.Examples, route)
	}
	for _, name := range regexp.MustCompile(`"#/components/schemas/([^"]+)"`).FindAllSubmatch(files[formsName], -1) {
		assert.Contains(t, told.Schemas, string(name[1]))
	}
}

// The worker keeps every file, by a version that only their contents make.
func TestWorker(t *testing.T) {
	files, err := Files()
	require.NoError(t, err)
	text := string(files[workerName])
	assert.NotContains(t, text, "@")
	for name := range files {
		if name != "index.html" && name != workerName {
			assert.Contains(t, text, " /page/"+name)
		}
	}
	raw, err := embedded.ReadFile(workerName)
	require.NoError(t, err)
	changed := map[string][]byte{}
	for name, text := range files {
		changed[name] = text
	}
	changed[workerName] = raw
	same := worker(changed)
	assert.Equal(t, text, string(same))
	changed["page.css"] = append([]byte("/* other */"), changed["page.css"]...)
	assert.NotEqual(t, same, worker(changed))
}

// Nothing of the page comes from another host, and no module holds words of its own host's machine.
func TestNothingFromElsewhere(t *testing.T) {
	files, err := Files()
	require.NoError(t, err)
	for name, text := range files {
		for _, address := range regexp.MustCompile(`https?://[^\s"')]+`).FindAllString(string(text), -1) {
			assert.True(t, strings.HasPrefix(address, "http://www.w3.org/2000/svg"), name+": "+address)
		}
	}
}

// A module that the page needs at once is asked for at once, not when another that imports it
// has come; what it asks for is there.
func TestModulesAreAskedForAtOnce(t *testing.T) {
	files, err := Files()
	require.NoError(t, err)
	index := string(files[indexName])
	imports := regexp.MustCompile(`(?m)^(?:import|export) .*from "\./([a-z]+\.js)";$`)
	seen := map[string]bool{"main.js": true}
	for open := []string{"main.js"}; len(open) > 0; {
		name := open[0]
		open = open[1:]
		for _, found := range imports.FindAllStringSubmatch(string(files[name]), -1) {
			if !seen[found[1]] {
				seen[found[1]] = true
				open = append(open, found[1])
				assert.Contains(t, index, `"modulepreload" href="/page/`+found[1]+`"`, found[1])
			}
		}
	}
	assert.Greater(t, len(seen), 15)
	for _, asked := range regexp.MustCompile(`href="/page/([^"]+)"`).FindAllStringSubmatch(index, -1) {
		assert.Contains(t, files, asked[1])
	}
}
