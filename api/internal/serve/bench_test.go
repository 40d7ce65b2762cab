package serve_test

import (
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
// five times. Limit: three seconds on two processors that have nothing else to do, so 150
// milliseconds of the processors for each.
func BenchmarkBatchOfBillets(b *testing.B) {
	files, err := filepath.Glob("../../../testdata/demo/rack/*.json")
	require.NoError(b, err)
	var items []string
	for i := range 40 {
		text, err := os.ReadFile(files[i%min(len(files), 8)])
		require.NoError(b, err)
		items = append(items, `{"route": "/v1/readiness", "request": `+string(text)+`}`)
	}
	postItems(b, len(items), `{"items": [`+strings.Join(items, ",")+`]}`)
}

// BenchmarkStream is a batch of ten thousand movements, line by line.
func BenchmarkStream(b *testing.B) {
	postItems(b, 10*serve.MostItems, strings.Repeat(movementItem+"\n", 10*serve.MostItems), "Content-Type", "application/x-ndjson")
}

// BenchmarkBareEcho answers the same payload without any of the service's conventions.
func BenchmarkBareEcho(b *testing.B) { asking.Post(b, bareEcho(b), "/v1/movement", movementBody) }
