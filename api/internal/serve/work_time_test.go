package serve_test

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
	"latewood/woodphys/method"
)

// Work that would never end is stopped when it took its time of a processor, and not much
// later: within 1.5 times of it, whatever else the machine does. The limit and its unit
// are named.
func TestWorkIsStoppedAtItsTime(t *testing.T) {
	const most = 200 * time.Millisecond
	var took time.Duration
	burn := func(ctx context.Context, _ *shelf.Tables, _ *moist.EMCRequest) (moist.EMCResult, method.Notes, error) {
		began := serve.ThreadTime()
		for ctx.Err() == nil {
		}
		took = serve.ThreadTime() - began
		assert.True(t, method.IsUsedUp(ctx))
		return moist.EMCResult{}, method.Notes{}, &method.Error{Code: method.Stopped, Input: "x", Detail: "stopped"}
	}
	s := asking.FreshService(t, io.Discard)
	s.Answers("/v1/burn", serve.InTurn(burn, serve.Needs{Memory: 1 << 20, Text: 1 << 10, Processor: most}))
	reply := asking.Posting("/v1/batch", `{"items": [{"route": "/v1/burn", "request": `+asking.EMCBody+`}]}`).Of(t, s)
	require.Equal(t, http.StatusOK, reply.Code)
	assert.Contains(t, reply.Body.String(), `"code":"too_much_work"`)
	assert.Contains(t, reply.Body.String(), "processor time")
	assert.GreaterOrEqual(t, took, most*95/100)
	assert.LessOrEqual(t, took, most*3/2)
	for name, held := range s.Held() {
		assert.Zero(t, held, name)
	}
}

// A caller may ask for less time, and for more up to what the operator allows; the steps
// of simulations go with it.
func TestCallersAskForTime(t *testing.T) {
	usual := asking.FreshService(t, io.Discard)
	generous, err := api.New(serve.Config{Work: 10 * time.Second})
	require.NoError(t, err)
	steps := int(stepsOf(t, weekOfDrying))
	for _, row := range []struct {
		s       *serve.Service
		seconds string
		most    int // time steps where nothing is asked for
		status  int
		says    string
	}{
		{usual, "", steps, 200, ""},
		{usual, "4", steps, 200, ""},
		{usual, "1", steps, 200, ""},
		{usual, "5", steps, 400, "from 1 to 4"},
		{usual, "0", steps, 400, "from 1 to 4"},
		{usual, "soon", steps, 400, "from 1 to 4"},
		{usual, "4", steps / 2, 422, "time steps"},
		{generous, "11", steps, 400, "from 1 to 10"},
		{generous, "", steps / 2, 422, "time steps"},
		{generous, "9", steps/2 + 1, 200, ""},
	} {
		row.s.SetMostSimulated(row.most)
		target := "/v1/seasoning"
		if row.seconds != "" {
			target += "?work_seconds=" + row.seconds
		}
		r := asking.Posting(target, weekOfDrying).Of(t, row.s)
		require.Equal(t, row.status, r.Code, "%s: %s", target, r.Body)
		assert.Contains(t, r.Body.String(), row.says)
	}
	assert.Equal(t, http.StatusBadRequest, asking.Posting("/v1/emc?work_seconds=1", asking.EMCBody).Of(t, usual).Code, "of heavy routes only")
	told := func(s *serve.Service) serve.Limits {
		return asking.Decoded[serve.Limits](t, asking.Getting("/v1/limits").Of(t, s).Body.Bytes())
	}
	assert.InDelta(t, 4, told(usual).Heavy.Work, 0)
	assert.InDelta(t, 10, told(generous).Heavy.Work, 0)
}

func stepsOf(t *testing.T, body string) float64 {
	s := asking.FreshService(t, io.Discard)
	require.Equal(t, http.StatusOK, asking.Posting("/v1/seasoning", body).Of(t, s).Code)
	return asking.MetricsOf(t, s)["latewood_drying_steps_total"]
}

// A list that is far too long takes no memory for its entries: it is told that it is too
// long, and the rest is passed over.
func TestListsThatAreFarTooLong(t *testing.T) {
	s := asking.SharedService()
	for path, member := range map[string]string{"/v1/moisture": "readings", "/v1/laminate": "layers", "/v1/resaw-plan": "billets", "/v1/readiness": "readings", "/v1/batch": "items"} {
		body := []byte(`{"` + member + `": [` + strings.TrimSuffix(strings.Repeat("{},", 60_000), ",") + `]}`)
		r := asking.Posting(path, string(body)).Of(t, s)
		p := asking.ProblemOf(t, r, http.StatusUnprocessableEntity)
		assert.Contains(t, fmt.Sprint(p.Errors), "/"+member+" ", path)
		assert.Contains(t, fmt.Sprint(p.Errors), "entries", path)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		for range 4 {
			s.ServeHTTP(asking.NewQuiet(), posted(path, string(body)))
		}
		runtime.ReadMemStats(&after)
		allocated := int64(after.TotalAlloc-before.TotalAlloc) / 4
		t.Logf("%s: %d bytes allocated for %d", path, allocated, len(body))
		if !asking.UnderRace {
			assert.Less(t, allocated, int64(7*len(body)), path)
		}
	}
}

// A long body is read by another reader than a short one, to the same end.
func TestLongBodiesAreReadAlike(t *testing.T) {
	asking.OneByOne(t)
	s := asking.SharedService()
	for path, bodies := range asking.ExampleBodies(t) {
		for _, body := range bodies {
			short := asking.Posting(path, string(body), "X-Request-Id", "same").Of(t, s)
			long := asking.Posting(path, string(body)+strings.Repeat(" ", 20<<10), "X-Request-Id", "same").Of(t, s)
			assert.Equal(t, http.StatusOK, long.Code)
			assert.True(t, short.Body.String() == long.Body.String(), path)
		}
	}
}
