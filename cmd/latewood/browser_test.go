package main

import (
	"bytes"
	"context"
	"net/http"
	"net/http/httptest"
	"os/exec"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stopped is what a browser writes when a policy stops something.
var stopped = regexp.MustCompile(`(?i)content security policy|Refused to|violates the following`)

// opened opens a page in a browser without a window and returns the page as it
// is in the end and what the browser wrote to its console.
func opened(t *testing.T, browser, page string) (dom, console string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	command := exec.CommandContext(ctx, browser, "--headless", "--no-sandbox", "--disable-gpu", "--enable-logging=stderr",
		"--user-data-dir="+t.TempDir(), "--virtual-time-budget=8000", "--dump-dom", page)
	var out, failed bytes.Buffer
	command.Stdout, command.Stderr = &out, &failed
	require.NoError(t, command.Run(), failed.String())
	return out.String(), failed.String()
}

// The pages work under their policies: a browser draws them whole and its
// console is silent. Needs chromium.
func TestPagesInABrowser(t *testing.T) {
	if testing.Short() {
		t.Skip("starts a browser")
	}
	browser, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("there is no chromium here")
	}
	control := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		w.Header().Set("Content-Security-Policy", "default-src 'none'")
		_, _ = w.Write([]byte("<title>x</title><script>document.title = 'ran'</script>"))
	}))
	defer control.Close()
	_, console := opened(t, browser, control.URL)
	require.Regexp(t, stopped, console, "the test sees what a policy stops")

	r := serving(t, nil, nil, "--listen", "127.0.0.1:0")
	for page, holds := range map[string]string{
		"/docs/":                                 "How far a dimension moves between two conditions",
		"/docs/#/calculations/calculateMovement": "Gives the change of one dimension",
		"/":                                      "Is it ready, and if not, when?",
	} {
		dom, console := opened(t, browser, r.base+page)
		assert.Contains(t, dom, holds, page)
		assert.NotRegexp(t, stopped, console, page)
		assert.NotContains(t, console, "CONSOLE", page)
	}
}
