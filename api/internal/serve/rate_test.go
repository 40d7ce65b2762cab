package serve_test

import (
	"io"
	"net/http"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

// The fields are those of draft-ietf-httpapi-ratelimit-headers: structured
// fields with q and w in the policy, r and t in the state.
var (
	policyField = regexp.MustCompile(`^"caller";q=(\d+);qu="units";w=(\d+)$`)
	stateField  = regexp.MustCompile(`^"caller";r=(\d+);t=(\d+)$`)
)

func leftIn(t testing.TB, h http.Header) (left, seconds int) {
	t.Helper()
	found := stateField.FindStringSubmatch(h.Get("RateLimit"))
	require.NotNil(t, found, h.Get("RateLimit"))
	left, _ = strconv.Atoi(found[1])
	seconds, _ = strconv.Atoi(found[2])
	return left, seconds
}

// The clock of these tests stands still unless they sleep.
func TestRate(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := asking.RatedService(t, serve.Rate{PerSecond: 10, Burst: 100})
		ask := asking.Posting("/v1/emc", asking.EMCBody)
		for i := range 100 {
			r := ask.From(t, s, "192.0.2.7:1000")
			require.Equal(t, http.StatusOK, r.Code, i)
			assert.Equal(t, []string{"", "100", "10"}, append([]string{""}, policyField.FindStringSubmatch(r.Header().Get("RateLimit-Policy"))[1:]...))
			left, seconds := leftIn(t, r.Header())
			assert.Equal(t, 99-i, left)
			assert.Equal(t, 1, seconds, "until there is one more")
		}
		r := ask.From(t, s, "192.0.2.7:2000")
		p := asking.ProblemOf(t, r, http.StatusTooManyRequests)
		assert.Equal(t, "https://iana.org/assignments/http-problem-types#quota-exceeded", p.Type)
		assert.Equal(t, []string{"caller"}, p.Violated)
		assert.Contains(t, p.Detail, "more than 10 units a second; come back in 1 second.")
		assert.Equal(t, "1", r.Header().Get("Retry-After"))
		left, seconds := leftIn(t, r.Header())
		assert.Zero(t, left)
		assert.Equal(t, 1, seconds, "and the time to come back is not before")

		assert.Equal(t, http.StatusOK, ask.From(t, s, "192.0.2.8:1000").Code, "another caller has a bucket of its own")
		for range 200 {
			assert.Equal(t, http.StatusOK, asking.Getting("/livez").From(t, s, "192.0.2.7:1000").Code, "probes cost nothing")
		}
		assert.Empty(t, asking.Getting("/livez").From(t, s, "192.0.2.7:1000").Header().Get("RateLimit"))

		// Retry-After is honest: after so long the request is let in.
		time.Sleep(time.Second)
		for range 10 {
			assert.Equal(t, http.StatusOK, ask.From(t, s, "192.0.2.7:1000").Code)
		}
		assert.Equal(t, http.StatusTooManyRequests, ask.From(t, s, "192.0.2.7:1000").Code)
		time.Sleep(time.Minute)
		left, _ = leftIn(t, ask.From(t, s, "192.0.2.7:1000").Header())
		assert.Equal(t, 99, left, "full, and not more")
	})
}

func TestHeavyRequestsCostMore(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := asking.RatedService(t, serve.Rate{PerSecond: 1, Burst: 100})
		worked(s, 200*time.Millisecond)
		heavy := asking.Posting("/v1/seasoning", `{"billet": {"wood": "maple-sugar", "thickness": "3 mm", "stacked_on": "2024-04-05", "start_condition": {"mc_pct": 20}}, "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}], "target_condition": {"mc_pct": 9}, "horizon_days": 7}`)
		for i := range 5 {
			r := heavy.From(t, s, "192.0.2.7:1")
			require.Equal(t, http.StatusOK, r.Code, r.Body.String())
			left, _ := leftIn(t, r.Header())
			assert.Equal(t, 100-20*(i+1), left)
		}
		// Whoever waits as long as the first refusal says is let in.
		r := heavy.From(t, s, "192.0.2.7:1")
		p := asking.ProblemOf(t, r, http.StatusTooManyRequests)
		assert.Contains(t, p.Detail, "more than 1 unit a second; come back in 20 seconds.")
		assert.Equal(t, "20", r.Header().Get("Retry-After"), "the price of the route and not of asking")
		time.Sleep(19 * time.Second)
		r = heavy.From(t, s, "192.0.2.7:1")
		asking.ProblemOf(t, r, http.StatusTooManyRequests)
		assert.Equal(t, "2", r.Header().Get("Retry-After"), "18 units are left, one was paid for asking, and asking again costs 20")
		left, _ := leftIn(t, r.Header())
		assert.Equal(t, 18, left)
		time.Sleep(2 * time.Second)
		assert.Equal(t, http.StatusOK, heavy.From(t, s, "192.0.2.7:1").Code)

		light := asking.Posting("/v1/readiness", `{"billet": {"wood": "maple-sugar", "length": "600 mm", "width": "225 mm", "thickness": "58 mm"}, "target_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "readings": [{"kind": "pin_meter", "reading_mc_pct": 12}]}`)
		r = light.From(t, s, "192.0.2.9:1")
		require.Equal(t, http.StatusOK, r.Code, r.Body.String())
		left, _ = leftIn(t, r.Header())
		assert.Equal(t, 99, left, "a request to a heavy route that asks for little costs little")
	})
}

func TestBatchesPayByTheItem(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := asking.RatedService(t, serve.Rate{PerSecond: 1, Burst: 100})
		for _, row := range []struct{ items, left int }{{1, 99}, {10, 98}, {11, 96}, {960, 0}} {
			r := asking.BatchOf(strings.TrimSuffix(strings.Repeat(asking.EMCItem+",", row.items), ",")).From(t, s, "192.0.2.7:1")
			require.Equal(t, http.StatusOK, r.Code, r.Body.String())
			left, _ := leftIn(t, r.Header())
			assert.Equal(t, row.left, left)
		}
		time.Sleep(99 * time.Second)
		whole := asking.BatchOf(strings.TrimSuffix(strings.Repeat(asking.EMCItem+",", 1000), ","))
		r := whole.From(t, s, "192.0.2.7:1")
		asking.ProblemOf(t, r, http.StatusTooManyRequests)
		after, err := strconv.Atoi(r.Header().Get("Retry-After"))
		require.NoError(t, err)
		time.Sleep(time.Duration(after) * time.Second)
		assert.Equal(t, http.StatusOK, whole.From(t, s, "192.0.2.7:1").Code, "the largest batch fits into the smallest bucket")
	})
}

// worked makes a service believe that every piece of work in a turn takes so long.
func worked(s *serve.Service, each time.Duration) {
	now := time.Duration(0)
	s.SetClock(func() time.Duration { now += each; return now })
}

// Work is paid by the time it takes: what was paid too much comes back, what was paid too
// little is owed.
func TestWorkIsPaidByItsTime(t *testing.T) {
	heavy := asking.Posting("/v1/seasoning", weekOfDrying)
	for _, row := range []struct {
		takes time.Duration
		units int
	}{{time.Millisecond, 1}, {10 * time.Millisecond, 1}, {100 * time.Millisecond, 10}, {200 * time.Millisecond, 20}, {900 * time.Millisecond, 90}, {3 * time.Second, 300}} {
		synctest.Test(t, func(t *testing.T) {
			s := asking.RatedService(t, serve.Rate{PerSecond: 1, Burst: 200})
			worked(s, row.takes)
			r := heavy.From(t, s, "192.0.2.7:1")
			require.Equal(t, http.StatusOK, r.Code, r.Body.String())
			left, seconds := leftIn(t, r.Header())
			assert.Equal(t, max(0, 200-row.units), left)
			assert.Equal(t, max(1, row.units-199), seconds, "until there is one more than now")
			if row.units > 200 {
				time.Sleep(time.Duration(row.units-200) * time.Second)
				assert.Equal(t, http.StatusTooManyRequests, heavy.From(t, s, "192.0.2.7:1").Code, "the debt is paid, and nothing is left")
			}
		})
	}
}

// Whoever guesses at tokens pays for each guess.
func TestGuessingCosts(t *testing.T) {
	s, token := asking.ExposedService(t, serve.Rate{PerSecond: 0.001, Burst: 100}, io.Discard)
	guess := asking.Getting("/version", "Authorization", "Bearer guess")
	for range 100 {
		require.Equal(t, http.StatusUnauthorized, guess.Of(t, s).Code)
	}
	assert.Equal(t, http.StatusTooManyRequests, guess.Of(t, s).Code)
	assert.Equal(t, http.StatusOK, asking.Getting("/version", "Authorization", "Bearer "+token).Of(t, s).Code, "who has a token is another caller")
}
