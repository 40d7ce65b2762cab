package serve_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
	"latewood/api/internal/serve"
)

// twentyReadings is a billet of three years with twenty readings: fifteen weights
// and five readings of a meter, on the course that the service itself foretells.
func twentyReadings(t testing.TB) string {
	t.Helper()
	r := asking.AnswerTo[dry.SeasoningResult](t, "/v1/seasoning", asking.ThreeYears).Result
	at := func(day float64) (string, float64) {
		i := slices.IndexFunc(r.Series, func(p dry.CoursePoint) bool { return p.Days >= day })
		require.GreaterOrEqual(t, i, 0)
		return r.Series[i].Date, r.Series[i].Mean.Value
	}
	var weights, readings []string
	for i := range 15 {
		date, pct := at(100 + 60*float64(i))
		weights = append(weights, fmt.Sprintf(`{"kind": "weight", "date": %q, "mass": "%.3f kg"}`, date, 4.4*(1+pct/100)))
	}
	for i := range 5 {
		date, pct := at(540 + 100*float64(i))
		readings = append(readings, fmt.Sprintf(`{"kind": "pin_meter", "date": %q, "reading_mc_pct": %.1f, "wood_temperature": "20 C", "depth": "14 mm", "thickness": "58 mm", "meter": "pins"}`, date, pct))
	}
	return `{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm", "rings": {"angle_deg": 80}, "stacked_on": "2023-03-15"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "scale_division": "1 g",
		"as_of": "2026-01-15", "horizon_days": 1095, "stays": [{"station": "madison-wi", "until": "2024-10-01", "exposure": "shed"}, {"air": {"temperature": "20 C", "rh_pct": 45}}],
		"readings": [` + strings.Join(append(weights, readings...), ",") + `]}`
}

// BenchmarkSeasoning is POST /v1/seasoning over three years without readings.
// Limit: 150 ms and 8 MiB.
func BenchmarkSeasoning(b *testing.B) {
	s, err := api.New(serve.Config{Log: slog.New(slog.NewJSONHandler(io.Discard, nil)), Version: "bench"})
	require.NoError(b, err)
	asking.Post(b, s, "/v1/seasoning", []byte(asking.ThreeYears))
}

// BenchmarkLearning is POST /v1/readiness with twenty readings over three years.
// Limit: 150 ms and 8 MiB.
func BenchmarkLearning(b *testing.B) {
	s, err := api.New(serve.Config{Log: slog.New(slog.NewJSONHandler(io.Discard, nil)), Version: "bench"})
	require.NoError(b, err)
	asking.Post(b, s, "/v1/readiness", []byte(twentyReadings(b)))
}

// The benchmark asks what its name says: twenty readings, none set aside.
func TestTwentyReadings(t *testing.T) {
	r := asking.AnswerTo[dry.ReadinessResult](t, "/v1/readiness", twentyReadings(t)).Result
	assert.Equal(t, 20, r.Calibration.ReadingsUsed)
	assert.Empty(t, r.Rejected)
}

// A heavy request allocates at most 8 MiB, all told.
func TestMemoryOfHeavyRequests(t *testing.T) {
	if testing.Short() || asking.UnderRace {
		t.Skip("measures")
	}
	s := asking.SharedService()
	for path, body := range map[string]string{"/v1/seasoning": asking.ThreeYears, "/v1/readiness": twentyReadings(t)} {
		measured := testing.Benchmark(func(b *testing.B) {
			for b.Loop() {
				request := posted(path, body)
				s.ServeHTTP(asking.NewQuiet(), request)
			}
		})
		t.Logf("%s: %d B/op, %d allocations, %.0f ms", path, measured.AllocedBytesPerOp(), measured.AllocsPerOp(), float64(measured.NsPerOp())/1e6)
		assert.Less(t, measured.AllocedBytesPerOp(), int64(8<<20), path)
	}
}

// posted is a calculation as it reaches the service.
func posted(path, body string) *http.Request {
	request := httptest.NewRequest(http.MethodPost, path, strings.NewReader(body))
	request.Header.Set("Content-Type", "application/json")
	return request
}

// When every turn is taken for long, a heavy request is sent away at once, with the time
// to come back; for a short while it waits, but not forever. Light ones and wrong ones
// are answered meanwhile, and a turn given back lets the next one in. The clock is that
// of the test.
func TestFullQueue(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := asking.FreshService(t, io.Discard)
		giveBack := s.TakeTurns(30 * time.Second)
		start := time.Now()
		r := asking.Posting("/v1/seasoning", asking.ThreeYears).Of(t, s)
		assert.Zero(t, time.Since(start), "it need not wait to be told")
		p := asking.ProblemOf(t, r, http.StatusServiceUnavailable)
		assert.Equal(t, "https://iana.org/assignments/http-problem-types#temporary-reduced-capacity", p.Type)
		after, err := strconv.Atoi(r.Header().Get("Retry-After"))
		require.NoError(t, err)
		assert.InDelta(t, 30, after, serve.QueuePatience.Seconds()+1)
		assert.Contains(t, p.Detail, strconv.Itoa(after)+" seconds")

		assert.Equal(t, http.StatusOK, asking.Posting("/v1/movement", string(movementBody)).Of(t, s).Code, "light work goes on")
		asking.ProblemOf(t, asking.Posting("/v1/seasoning", `{}`).Of(t, s), http.StatusUnprocessableEntity)
		plain := asking.Posting("/v1/readiness", `{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "readings": [{"kind": "stated", "mc_pct": 10, "mc_sd_points": 1}]}`)
		assert.Equal(t, http.StatusOK, plain.Of(t, s).Code, "without stays nothing is simulated")
		assert.Zero(t, time.Since(start))
		giveBack()

		giveBack = s.TakeTurns(time.Second) // it takes longer than thought
		r = asking.Posting("/v1/seasoning", asking.ThreeYears).Of(t, s)
		assert.Equal(t, serve.QueueWait, time.Since(start), "it waited for its turn")
		asking.ProblemOf(t, r, http.StatusServiceUnavailable)
		assert.NotEmpty(t, r.Header().Get("Retry-After"))
		giveBack()

		giveBack = s.TakeTurns(time.Second)
		answered := make(chan int)
		go func() { answered <- asking.Posting("/v1/seasoning", asking.ThreeYears).Of(t, s).Code }()
		synctest.Wait()
		giveBack()
		assert.Equal(t, http.StatusOK, <-answered, "a turn given back is taken")
		_, taken := s.Turns()
		assert.Zero(t, taken, "and given back after the work")

		// A caller who goes away does not wait on.
		giveBack = s.TakeTurns(time.Second)
		ctx, leave := context.WithCancel(t.Context())
		gone := make(chan struct{})
		go func() {
			request := posted("/v1/seasoning", asking.ThreeYears).WithContext(ctx)
			s.ServeHTTP(httptest.NewRecorder(), request)
			close(gone)
		}()
		synctest.Wait()
		start = time.Now()
		leave()
		<-gone
		assert.Zero(t, time.Since(start))
		giveBack()
		for name, n := range s.Held() {
			assert.Zero(t, n, name)
		}
	})
}

// A caller who goes away stops the calculation, and the turn is given back.
func TestStoppedCalculation(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	for path, body := range map[string]string{"/v1/seasoning": asking.ThreeYears, "/v1/readiness": twentyReadings(t)} {
		ctx, leave := context.WithCancel(t.Context())
		leave()
		r := httptest.NewRecorder()
		s.ServeHTTP(r, posted(path, body).WithContext(ctx))
		asking.ProblemOf(t, r, http.StatusServiceUnavailable)
		assert.NotEmpty(t, r.Header().Get("Retry-After"))
		_, taken := s.Turns()
		assert.Zero(t, taken, "no turn is kept")
	}
}

// Latency of light requests over HTTP while two callers keep asking for heavy
// ones; printed, not judged, as it hangs on the machine:
//
//	LATEWOOD_LATENCY=1 go test ./api/internal/serve -run TestLightBesideHeavy -v
func TestLightBesideHeavy(t *testing.T) {
	if os.Getenv("LATEWOOD_LATENCY") == "" {
		t.Skip("set LATEWOOD_LATENCY=1 to measure")
	}
	server := httptest.NewServer(asking.FreshService(t, io.Discard))
	defer server.Close()
	send := func(path string, body []byte) (int, time.Duration) {
		start := time.Now()
		r, err := server.Client().Post(server.URL+path, "application/json", bytes.NewReader(body))
		if err != nil {
			return 0, 0
		}
		_, _ = io.Copy(io.Discard, r.Body)
		_ = r.Body.Close()
		return r.StatusCode, time.Since(start)
	}
	measure := func(n int) (p50, p99 time.Duration) {
		var took []time.Duration
		for range n {
			status, d := send("/v1/movement", movementBody)
			require.Equal(t, http.StatusOK, status)
			took = append(took, d)
			time.Sleep(time.Millisecond)
		}
		slices.Sort(took)
		return took[n/2], took[n*99/100]
	}
	p50, p99 := measure(1000)
	t.Logf("alone: p50 %v, p99 %v", p50, p99)
	var stop atomic.Bool
	var done, refused atomic.Int64
	var callers sync.WaitGroup
	learning := []byte(twentyReadings(t))
	for range 2 {
		callers.Go(func() {
			for !stop.Load() {
				switch status, _ := send("/v1/readiness", learning); status {
				case http.StatusOK:
					done.Add(1)
				case http.StatusServiceUnavailable:
					refused.Add(1)
				}
			}
		})
	}
	p50, p99 = measure(3000)
	stop.Store(true)
	callers.Wait()
	t.Logf("beside two heavy callers: p50 %v, p99 %v; %d heavy answers, %d sent away", p50, p99, done.Load(), refused.Load())
}

// A short batch of light items is let in like a light request, whatever works in turns; a
// heavy item of it waits for its own.
func TestShortBatchBesideHeavy(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s, err := api.New(serve.Config{Heavy: 1})
		require.NoError(t, err)
		giveBack := s.TakeTurns(10 * time.Second)
		ask := func(items ...string) (took time.Duration) {
			began := time.Now()
			reply := asking.Posting("/v1/batch", `{"items": [`+strings.Join(items, ",")+`]}`).Of(t, s)
			require.Equal(t, http.StatusOK, reply.Code, reply.Body.String())
			assert.Contains(t, reply.Body.String(), fmt.Sprintf(`"answered":%d,"refused":0`, len(items)))
			return time.Since(began)
		}
		light := slices.Repeat([]string{movementItem}, 16)
		assert.Zero(t, ask(light...))
		time.AfterFunc(3*time.Second, giveBack)
		assert.Equal(t, 3*time.Second, ask(append(light, movementItem)...), "a long one waits")
		giveBack = s.TakeTurns(10 * time.Second)
		time.AfterFunc(2*time.Second, giveBack)
		heavy := `{"route": "/v1/seasoning", "request": ` + asking.ThreeYears + `}`
		assert.Equal(t, 2*time.Second, ask(movementItem, heavy))
		for name, held := range s.Held() {
			assert.Zero(t, held, name)
		}
	})
}
