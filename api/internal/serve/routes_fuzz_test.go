package serve_test

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

// What one answer may take while strange requests are tried. Own choice. Time is
// that of the processor where it can be had, so that a busy machine does not
// look like a hang; a
// batch may hold many heavy items and has a limit of its own. No single answer
// of the examples is longer than some 40 KiB; the largest yields are the most.
const (
	fuzzTime      = 2 * time.Second
	fuzzBatchTime = serve.BatchTime
	fuzzReply     = 4 << 20 // bytes
)

// Whatever is sent to a calculation, it is answered: with a result or a problem
// in good form, never with a failure of the service other than "busy", never
// with more than fits, and soon.
func FuzzRoutes(f *testing.F) {
	all := asking.Calculations()
	index := func(path string) int {
		return slices.IndexFunc(all, func(r asking.Calculation) bool { return r.Path == path })
	}
	for path, bodies := range asking.ExampleBodies(f) {
		for _, body := range bodies {
			f.Add(uint8(index(path)), body)
		}
	}
	for _, w := range asking.WrongRequests {
		if at := index(w.Target); at >= 0 && len(w.Body) < 2000 {
			f.Add(uint8(at), []byte(w.Body))
		}
	}
	for _, q := range asking.SameUsual {
		f.Add(uint8(index(q.Path)), []byte(q.Inch))
	}
	f.Fuzz(func(t *testing.T, which uint8, body []byte) { answeredWell(t, all[int(which)%len(all)], body) })
}

// The same with requests that are right but for a few of their members, so that
// they reach the calculations.
func FuzzMembers(f *testing.F) {
	type good struct {
		of      asking.Calculation
		request any
	}
	var all []good
	bodies := asking.ExampleBodies(f)
	for _, r := range asking.Calculations() {
		for _, body := range bodies[r.Path] {
			var v any
			require.NoError(f, json.Unmarshal(body, &v))
			all = append(all, good{r, v})
		}
	}
	f.Add([]byte{})
	f.Add(bytes.Repeat([]byte("latewood"), 100))
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) {
		one := rapid.SampledFrom(all).Draw(t, "example")
		changed, err := json.Marshal(slightly(t, one.request))
		require.NoError(t, err)
		answeredWell(t, one.of, changed)
	}))
}

// answeredWell asks and requires an answer that keeps the limits.
func answeredWell(t require.TestingT, r asking.Calculation, body []byte) {
	request, err := http.NewRequest(http.MethodPost, r.Path, bytes.NewReader(body))
	require.NoError(t, err)
	request.Header.Set("Content-Type", "application/json")
	reply := httptest.NewRecorder()
	before := asking.ProcessorTime()
	asking.SharedService().ServeHTTP(reply, request)
	took := asking.ProcessorTime() - before
	limit := fuzzTime
	if r.Streams {
		limit = fuzzBatchTime
	}
	if os.Getenv("LATEWOOD_FUZZ") != "" { // set by make fuzz; a loaded machine or the race detector is no defect
		require.Less(t, took, limit, "%s\n%s", r.Path, body)
	}
	require.Less(t, reply.Body.Len(), fuzzReply, "%s\n%s", r.Path, body)
	require.True(t, json.Valid(reply.Body.Bytes()), "%s", reply.Body)
	if reply.Code == http.StatusOK {
		require.Contains(t, reply.Body.String(), `"basis":`)
		return
	}
	require.Equal(t, "application/problem+json", reply.Header().Get("Content-Type"))
	require.Contains(t, []int{http.StatusBadRequest, http.StatusUnprocessableEntity, http.StatusRequestEntityTooLarge, http.StatusServiceUnavailable},
		reply.Code, "%s\n%s\n%s", r.Path, body, reply.Body)
}
