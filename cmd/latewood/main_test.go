package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"net/http"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// run runs the whole program with the given words and standard input.
func run(t *testing.T, stdin string, words ...string) (status int, stdout, stderr string) {
	t.Helper()
	var out, failed bytes.Buffer
	p := &program{stdin: strings.NewReader(stdin), stdout: &out, stderr: &failed, getenv: func(string) string { return "" }}
	status = p.run(t.Context(), words)
	return status, out.String(), failed.String()
}

func TestAsk(t *testing.T) {
	const movement = `{"wood": "maple-sugar", "size": "330 mm", "direction": "radial", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}`
	tests := []struct {
		name, stdin string
		words       []string
		status      int
		out, failed string
	}{
		{"from standard input", movement, []string{"ask", "movement"}, exitOK, `"form":"combined"`, ""},
		{"the whole path and a dash", movement, []string{"ask", "/v1/movement", "-"}, exitOK, `"form":"combined"`, ""},
		{"a look-up", "", []string{"ask", "/v1/species/maple-sugar"}, exitOK, `"Acer saccharum"`, ""},
		{"a look-up with a query", "", []string{"ask", "/v1/species?q=sugar%20maple"}, exitOK, `"maple-sugar"`, ""},
		{"a problem", `{"wood": "mapel"}`, []string{"ask", "movement"}, exitProblem, `"pointer":"/size"`, ""},
		{"no such route", "", []string{"ask", "weather"}, exitProblem, `"status":404`, ""},
		{"no such file", "", []string{"ask", "movement", "no-such-file.json"}, exitUsage, "", "no-such-file.json"},
		{"no route", "", []string{"ask"}, exitUsage, "", "ask takes a route"},
		{"no such command", "", []string{"weigh"}, exitUsage, "", `no command "weigh"`},
		{"a bad flag", "", []string{"serve", "--port", "80"}, exitUsage, "", "flag provided but not defined"},
		{"a bad log format", "", []string{"serve", "--log", "xml"}, exitUsage, "", "text or json"},
		{"a bad address", "", []string{"serve", "--listen", "127.0.0.1:notaport"}, exitProblem, "", "cannot listen"},
		{"help", "", []string{"--help"}, exitOK, "latewood ask ROUTE", ""},
		{"help of a command", "", []string{"ask", "--help"}, exitOK, "latewood ask ROUTE", ""},
		{"help of the bucket", "", []string{"--help"}, exitOK, "at least 100, the", ""},
		{"version", "", []string{"version"}, exitOK, version, ""},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			status, out, failed := run(t, test.stdin, test.words...)
			assert.Equal(t, test.status, status, failed)
			assert.Contains(t, out, test.out)
			assert.Contains(t, failed, test.failed)
		})
	}
}

// The server starts on a free port, answers the request it prints, and stops
// when told to while it finishes what is under way.
func TestServe(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	address := make(chan string, 1)
	finished := make(chan int, 1)
	var out, failed bytes.Buffer
	p := &program{stdin: strings.NewReader(""), stdout: &out, stderr: &failed, getenv: func(string) string { return "" },
		started: func(a string) { address <- a }}
	go func() { finished <- p.run(ctx, []string{"--listen", "127.0.0.1:0", "--log", "json"}) }()
	var base string
	select {
	case base = <-address:
	case <-time.After(10 * time.Second):
		t.Fatal("the server did not start")
	}
	pasted := regexp.MustCompile(`curl -s (\S+) -H '([^:]+): ([^']+)' -d '([^']+)'`).FindStringSubmatch(out.String())
	require.NotNil(t, pasted, "the greeting shows a request to paste")
	assert.True(t, strings.HasPrefix(pasted[1], base))
	request, err := http.NewRequestWithContext(ctx, http.MethodPost, pasted[1], strings.NewReader(pasted[4]))
	require.NoError(t, err)
	request.Header.Set(pasted[2], pasted[3])
	reply, err := http.DefaultClient.Do(request)
	require.NoError(t, err)
	var answer struct {
		Result struct {
			Forms []struct {
				Form   string
				Change struct{ Value float64 }
			}
		}
	}
	require.NoError(t, json.NewDecoder(reply.Body).Decode(&answer))
	require.NoError(t, reply.Body.Close())
	// Wood Handbook eq. 13-1 with C_T 0.00353 of table 13-5: 330 * 0.00353 * -3.
	require.NotEmpty(t, answer.Result.Forms)
	require.Equal(t, "coefficient", answer.Result.Forms[0].Form)
	assert.InDelta(t, 330*0.00353*-3, answer.Result.Forms[0].Change.Value, 0.005, "told to a hundredth of its band")
	for _, path := range []string{"/livez", "/readyz", "/version", "/openapi.json", "/docs/", "/v1/methods"} {
		reply, err := http.Get(base + path)
		require.NoError(t, err)
		assert.Equal(t, http.StatusOK, reply.StatusCode, path)
		require.NoError(t, reply.Body.Close())
	}
	http.DefaultClient.CloseIdleConnections()
	stop()
	select {
	case status := <-finished:
		assert.Equal(t, exitOK, status, failed.String())
	case <-time.After(10 * time.Second):
		t.Fatal("the server did not stop")
	}
	assert.Contains(t, failed.String(), `"route":"/v1/movement"`)
	_, err = http.Get(base + "/livez")
	require.Error(t, err, "nothing listens any more")
}

// Every request of the README and the guides is asked, and every answer it shows must be part
// of the real one, numbers as exact as they are printed.
func TestReadmeExamples(t *testing.T) {
	for document, least := range map[string]int{"README.md": 4, "api/GUIDE.md": 1, "api/MAKER.md": 2} {
		text, err := os.ReadFile("../../" + document)
		require.NoError(t, err)
		shown := regexp.MustCompile("(?s)```sh\ngo run ./cmd/latewood ask (\\S+) (\\S+)\n```\n\n```json\n(.*?)```").FindAllStringSubmatch(string(text), -1)
		require.GreaterOrEqual(t, len(shown), least)
		require.Len(t, shown, strings.Count(string(text), "cmd/latewood ask ")-strings.Count(string(text), "ask ROUTE FILE"), "every command of %s shows its answer", document)
		for _, example := range shown {
			t.Run(document+"/"+example[2], func(t *testing.T) {
				status, out, failed := run(t, "", "ask", example[1], "../../"+example[2])
				require.Equal(t, exitOK, status, out+failed)
				assertPart(t, "", parse(t, example[3]), parse(t, out))
			})
		}
	}
}

var update = flag.Bool("update", false, "write the summaries in the README of the demo anew")

// The tables in the demo's README hold the summary of every billet on the rack
// and of every piece to be seasoned.
func TestDemoRack(t *testing.T) {
	text, err := os.ReadFile("../../testdata/demo/README.md")
	require.NoError(t, err)
	rows := regexp.MustCompile(`(?m)^\| (\S+\.json) \| [^|]+ \| ([^|]+) \|$`).FindAllStringSubmatch(string(text), -1)
	racked, err := os.ReadDir("../../testdata/demo/rack")
	require.NoError(t, err)
	stacked, err := os.ReadDir("../../testdata/demo/seasoning")
	require.NoError(t, err)
	require.Len(t, rows, len(racked)+len(stacked), "every billet has a row")
	anew := string(text)
	for _, row := range rows {
		t.Run(row[1], func(t *testing.T) {
			route, file := "readiness", "rack/"+row[1]
			if strings.HasPrefix(row[1], "seasoning/") {
				route, file = "seasoning", row[1]
			}
			status, out, _ := run(t, "", "ask", route, "../../testdata/demo/"+file)
			require.Equal(t, exitOK, status, out)
			if *update {
				var answer struct{ Result struct{ Summary string } }
				require.NoError(t, json.Unmarshal([]byte(out), &answer))
				anew = strings.Replace(anew, row[0], strings.Replace(row[0], "| "+row[2]+" |", "| "+answer.Result.Summary+" |", 1), 1)
				return
			}
			assertPart(t, "", map[string]any{"result": map[string]any{"summary": row[2]}}, parse(t, out))
		})
	}
	if *update {
		require.NoError(t, os.WriteFile("../../testdata/demo/README.md", []byte(anew), 0o644))
	}
}

func parse(t *testing.T, text string) any {
	t.Helper()
	decoder := json.NewDecoder(strings.NewReader(text))
	decoder.UseNumber()
	var v any
	require.NoError(t, decoder.Decode(&v))
	return v
}

// assertPart checks that part is contained in whole.
func assertPart(t *testing.T, at string, part, whole any) {
	t.Helper()
	switch p := part.(type) {
	case map[string]any:
		w, ok := whole.(map[string]any)
		require.True(t, ok, "%s is an object", at)
		for key, value := range p {
			require.Contains(t, w, key, at)
			assertPart(t, at+"/"+key, value, w[key])
		}
	case []any:
		w, ok := whole.([]any)
		require.True(t, ok, "%s is a list", at)
		require.Len(t, w, len(p), at)
		for i := range p {
			assertPart(t, at, p[i], w[i])
		}
	case json.Number:
		w, ok := whole.(json.Number)
		require.True(t, ok, "%s is a number", at)
		_, decimals, _ := strings.Cut(p.String(), ".")
		half := 0.5
		for range decimals {
			half /= 10
		}
		shown, err := p.Float64()
		require.NoError(t, err)
		answered, err := w.Float64()
		require.NoError(t, err)
		assert.InDelta(t, shown, answered, half*1.0001, at)
	default:
		assert.Equal(t, part, whole, at)
	}
}
