package serve_test

import (
	"bytes"
	"encoding/json"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

var movementBody = []byte(`{"wood": "maple-sugar", "size": {"value": 330, "unit": "mm"}, "direction": "tangential", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}`)

// BenchmarkMovement is POST /v1/movement in process with the full middleware,
// its log written as JSON and thrown away. Limit: 15 microseconds and 80
// allocations.
func BenchmarkMovement(b *testing.B) {
	s, err := api.New(serve.Config{Log: slog.New(slog.NewJSONHandler(io.Discard, nil)), Version: "bench"})
	require.NoError(b, err)
	asking.Post(b, s, "/v1/movement", movementBody)
}

// BenchmarkMovementExposed is the same with all that a service has that others can
// reach: a hundred tokens, a rate, an origin. The limit is the same.
func BenchmarkMovementExposed(b *testing.B) {
	s, token := asking.ExposedService(b, serve.Rate{PerSecond: 1e9, Burst: 1e9}, io.Discard)
	asking.Post(b, s, "/v1/movement", movementBody, "Authorization", "Bearer "+token)
}

// postItems reports what each of n items of a batch takes: of the clock, and of the
// processors, which other work on the machine touches less.
func postItems(b *testing.B, n int, body string, headers ...string) {
	b.Helper()
	s, err := api.New(serve.Config{Log: slog.New(slog.NewJSONHandler(io.Discard, nil)), Version: "bench"})
	require.NoError(b, err)
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // as the program sets it
	used := asking.ProcessorTime()
	asking.Post(b, s, "/v1/batch", []byte(body), headers...)
	items := float64(b.N) * float64(n)
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/items, "ns/item")
	b.ReportMetric(float64((asking.ProcessorTime()-used).Nanoseconds())/(items+float64(n)), "processor-ns/item") // one more was asked beforehand
}

// movementItem is the movement of BenchmarkMovement as an item of a batch.
var movementItem = `{"route": "/v1/movement", "request": ` + string(movementBody) + `}`

// BenchmarkBatch is POST /v1/batch with a thousand movements. Limit: 6 microseconds
// an item on two processors that have nothing else to do, so 12 of the processors.
func BenchmarkBatch(b *testing.B) {
	postItems(b, serve.MostItems, `{"items": [`+strings.Repeat(movementItem+",", serve.MostItems-1)+movementItem+`]}`)
}

// BenchmarkBatchOfBillets is a rack of forty billets with their readings, eight of the demo
// five times, as a stream: one batch holds twenty of them. Limit: three seconds on two
// processors that have nothing else to do, so 150 milliseconds of the processors for each.
func BenchmarkBatchOfBillets(b *testing.B) {
	const billets, different = 40, 8
	files, err := filepath.Glob("../../../testdata/demo/rack/*.json")
	require.NoError(b, err)
	require.GreaterOrEqual(b, len(files), different)
	var lines bytes.Buffer
	for i := range billets {
		text, err := os.ReadFile(files[i%different])
		require.NoError(b, err)
		lines.WriteString(`{"route": "/v1/readiness", "request": `)
		require.NoError(b, json.Compact(&lines, text))
		lines.WriteString("}\n")
	}
	told := asking.Posting("/v1/batch", lines.String(), "Content-Type", "application/x-ndjson").Of(b, asking.SharedService()).Body.String()
	require.Equal(b, billets, strings.Count(told, `"status":200`), "every billet is answered")
	postItems(b, billets, lines.String(), "Content-Type", "application/x-ndjson")
}

// BenchmarkStream is a batch of ten thousand movements, line by line.
func BenchmarkStream(b *testing.B) {
	postItems(b, 10*serve.MostItems, strings.Repeat(movementItem+"\n", 10*serve.MostItems), "Content-Type", "application/x-ndjson")
}

// BenchmarkBareEcho answers the same payload without any of the service's conventions.
func BenchmarkBareEcho(b *testing.B) { asking.Post(b, bareEcho(b), "/v1/movement", movementBody) }
