package fair_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/fair"
)

// Margins of the shares, as parts of the capacity, and the least use of it.
const (
	marginEqual  = 0.02 // requests of one width
	marginWidths = 0.02 // of several
	leastUse     = 0.95
)

// caller is a flow in a scenario: so many connections, each of which asks again as soon
// as it was answered and has rested.
type caller struct {
	name        string
	connections int
	width       int
	service     time.Duration // in the mean
	spread      float64       // of the service, as a part of it
	rest        time.Duration
	share       float64 // of the capacity, that is fair
}

// scenario runs callers for a time on the clock of the test.
type scenario struct {
	name    string
	places  int
	callers []caller
	margin  float64
	guess   time.Duration // 0: it is known
}

const span = 400 * time.Second

var scenarios = []scenario{
	{"two alike", 1, []caller{{name: "a", connections: 4, service: 100 * ms, share: 0.5}, {name: "b", connections: 4, service: 100 * ms, share: 0.5}}, marginEqual, 0},
	{"twenty connections against one", 1, []caller{{name: "a", connections: 20, service: 100 * ms, share: 0.5}, {name: "b", connections: 1, service: 100 * ms, share: 0.5}}, marginEqual, 0},
	{"long requests against short ones", 1, []caller{{name: "a", connections: 8, service: 2 * time.Second, share: 0.5}, {name: "b", connections: 8, service: 20 * ms, share: 0.5}}, marginEqual, 0},
	{"long against short, all guessed alike", 1, []caller{{name: "a", connections: 8, service: 2 * time.Second, share: 0.5}, {name: "b", connections: 8, service: 20 * ms, share: 0.5}}, marginEqual, 100 * ms},
	{"three, of which one wants little", 1, []caller{{name: "a", connections: 6, service: 100 * ms, share: 0.45}, {name: "b", connections: 6, service: 300 * ms, spread: 0.9, share: 0.45}, {name: "c", connections: 1, service: 50 * ms, rest: 320 * ms, share: 0.10}}, marginEqual, 0},
	{"many on seven places", 7, []caller{{name: "a", connections: 30, service: 150 * ms, spread: 0.9, share: 0.25}, {name: "b", connections: 30, service: 40 * ms, spread: 0.9, share: 0.25},
		{name: "c", connections: 10, service: 400 * ms, spread: 0.9, share: 0.25}, {name: "d", connections: 50, service: 100 * ms, share: 0.25}}, marginEqual, 100 * ms},
	{"wide against narrow", 7, []caller{{name: "a", connections: 4, width: 5, service: 300 * ms, spread: 0.5, share: 0.5}, {name: "b", connections: 30, service: 100 * ms, spread: 0.9, share: 0.5}}, marginWidths, 150 * ms},
	{"three widths", 8, []caller{{name: "a", connections: 4, width: 4, service: 300 * ms, spread: 0.5, share: 1.0 / 3}, {name: "b", connections: 12, width: 2, service: 100 * ms, spread: 0.9, share: 1.0 / 3}, {name: "c", connections: 30, service: 100 * ms, spread: 0.9, share: 1.0 / 3}}, marginWidths, 150 * ms},
}

const ms = time.Millisecond

// work asks until the end, and counts what was done for it.
func (c *caller) work(q *fair.Queue, seed uint64, guess time.Duration, end time.Time, done func(float64)) {
	random := rand.New(rand.NewPCG(seed, 5))
	for time.Now().Before(end) {
		takes := time.Duration(float64(c.service) * (1 + c.spread*(2*random.Float64()-1)))
		g := guess
		if g == 0 {
			g = takes
		}
		t, err := q.Enter(context.Background(), fair.Request{Caller: c.name, Width: max(c.width, 1), Guess: g})
		if err != nil {
			panic(err)
		}
		began := time.Now()
		time.Sleep(takes)
		t.Leave(takes)
		done(float64(max(c.width, 1)) * max(0, min(takes, end.Sub(began))).Seconds())
		time.Sleep(c.rest)
	}
}

// Every caller gets its fair share, and nearly all of the capacity is used.
func TestShares(t *testing.T) {
	for _, s := range scenarios {
		t.Run(s.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				q := fair.New(fair.Config{Places: s.places, Window: 3 * time.Second})
				end := time.Now().Add(span)
				var mu sync.Mutex
				got := make([]float64, len(s.callers))
				var group sync.WaitGroup
				for i := range s.callers {
					for n := range s.callers[i].connections {
						group.Go(func() {
							s.callers[i].work(q, uint64(1000*i+n), s.guess, end, func(work float64) {
								mu.Lock()
								got[i] += work
								mu.Unlock()
							})
						})
					}
				}
				group.Wait()
				capacity, used := float64(s.places)*span.Seconds(), 0.0
				for i, c := range s.callers {
					used += got[i]
					assert.InDelta(t, c.share, got[i]/capacity, s.margin, c.name)
				}
				assert.GreaterOrEqual(t, used/capacity, leastUse)
				t.Logf("used %.4f of the capacity; shares %v", used/capacity, parts(got, capacity))
				assert.Zero(t, q.Working())
				assert.Zero(t, q.Waiting())
			})
		})
	}
}

func parts(got []float64, capacity float64) (all []string) {
	for _, g := range got {
		all = append(all, fmt.Sprintf("%.4f", g/capacity))
	}
	return all
}

// The bound of the package's text: two flows that always wait differ by at most
// (2C+1)L, at any time.
func TestBound(t *testing.T) {
	for _, places := range []int{1, 2, 7} {
		synctest.Test(t, func(t *testing.T) {
			const longest = time.Second
			q := fair.New(fair.Config{Places: places})
			end := time.Now().Add(100 * time.Second)
			var mu sync.Mutex
			got := [2]float64{}
			worst := 0.0
			var group sync.WaitGroup
			for i := range 2 {
				for n := range 3 * places {
					group.Go(func() {
						c := caller{name: fmt.Sprint(i), service: longest / 2, spread: 1}
						if i == 1 {
							c.service, c.spread = 30*ms, 0.5
						}
						c.work(q, uint64(i*100+n), 200*ms, end, func(work float64) {
							mu.Lock()
							defer mu.Unlock()
							if got[i] += work; time.Now().Before(end) {
								worst = max(worst, math.Abs(got[0]-got[1]))
							}
						})
					})
				}
			}
			group.Wait()
			assert.LessOrEqual(t, worst, float64(2*places+1)*longest.Seconds())
			assert.Greater(t, worst, 0.1*longest.Seconds(), "the test can see a difference")
		})
	}
}

// Of a hundred callers who come at once and obey, 99 are served at the second try at the
// latest, and the last within 1.2 times of what it takes to serve them one after the
// other. They may be one caller or many, and the guess may be off.
func TestObedientCallers(t *testing.T) {
	const takes = 115 * ms
	for _, row := range []struct {
		name  string
		flows int
		guess time.Duration
	}{{"each of its own", 100, takes}, {"all one", 1, takes}, {"ten", 10, takes}, {"guessed a tenth short", 100, takes * 9 / 10}, {"a tenth long", 100, takes * 11 / 10}} {
		t.Run(row.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				random := rand.New(rand.NewPCG(3, 4))
				var mu sync.Mutex
				q := fair.New(fair.Config{Places: 1, Patience: 2 * time.Second, Longest: 6 * time.Second, Random: func() float64 { return random.Float64() }})
				began := time.Now()
				tries := map[int]int{}
				var last time.Duration
				var group sync.WaitGroup
				for n := range 100 {
					group.Go(func() {
						for try := 1; ; try++ {
							turn, err := q.Enter(t.Context(), fair.Request{Caller: fmt.Sprint(n % row.flows), Width: 1, Guess: row.guess})
							var busy *fair.BusyError
							if err == nil {
								time.Sleep(takes)
								turn.Leave(takes)
								mu.Lock()
								tries[try]++
								last = max(last, time.Since(began))
								mu.Unlock()
								return
							}
							require.ErrorAs(t, err, &busy)
							assert.Zero(t, busy.After%time.Second, "whole seconds, as they are told")
							time.Sleep(busy.After)
						}
					})
				}
				group.Wait()
				ideal := 100 * takes
				t.Logf("tries %v, last after %v, ideal %v", tries, last, ideal)
				assert.GreaterOrEqual(t, tries[1]+tries[2], 99)
				assert.LessOrEqual(t, last, ideal*12/10)
			})
		})
	}
}

// Who does not obey takes nothing from who does: the obedient one is served as soon as
// its share allows.
func TestDisobedientCaller(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		q := fair.New(fair.Config{Places: 1, Patience: 2 * time.Second, Longest: 6 * time.Second})
		ctx, stop := context.WithCancel(t.Context())
		var group sync.WaitGroup
		for range 50 {
			group.Go(func() {
				for ctx.Err() == nil {
					if turn, err := q.Enter(ctx, fair.Request{Caller: "greedy", Width: 1, Guess: 100 * ms}); err == nil {
						time.Sleep(100 * ms)
						turn.Leave(100 * ms)
					} else {
						time.Sleep(10 * ms) // and again, whatever it was told
					}
				}
			})
		}
		time.Sleep(10 * time.Second)
		for range 10 {
			began := time.Now()
			turn, err := q.Enter(t.Context(), fair.Request{Caller: "modest", Width: 1, Guess: 100 * ms})
			require.NoError(t, err)
			assert.LessOrEqual(t, time.Since(began), 200*ms)
			time.Sleep(100 * ms)
			turn.Leave(100 * ms)
			time.Sleep(time.Second)
		}
		stop()
		group.Wait()
	})
}

// Who goes away, or waits too long, leaves the queue, and what is behind goes on.
func TestLeavingTheQueue(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		q := fair.New(fair.Config{Places: 2, Patience: time.Minute, Longest: 4 * time.Second})
		first, err := q.Enter(t.Context(), fair.Request{Caller: "a", Width: 1, Guess: time.Second})
		require.NoError(t, err)
		debt, err := q.Enter(t.Context(), fair.Request{Caller: "c", Width: 1, Guess: time.Second})
		require.NoError(t, err)
		debt.Leave(time.Second)
		ctx, leave := context.WithCancel(t.Context())
		gone := make(chan error, 1)
		go func() {
			_, err := q.Enter(ctx, fair.Request{Caller: "b", Width: 2, Guess: time.Second})
			gone <- err
		}()
		synctest.Wait()
		assert.Equal(t, 1, q.Waiting())
		narrow := make(chan *fair.Turn, 1)
		go func() {
			turn, _ := q.Enter(t.Context(), fair.Request{Caller: "c", Width: 1, Guess: time.Second})
			narrow <- turn
		}()
		synctest.Wait()
		assert.Empty(t, narrow, "no window: nobody passes")
		leave()
		require.ErrorIs(t, <-gone, context.Canceled)
		(<-narrow).Leave(0)
		assert.Equal(t, 1, q.Working())
		began := time.Now()
		_, err = q.Enter(t.Context(), fair.Request{Caller: "d", Width: 2, Guess: time.Second})
		var busy *fair.BusyError
		require.ErrorAs(t, err, &busy)
		assert.GreaterOrEqual(t, busy.After, time.Second)
		assert.Equal(t, 4*time.Second, time.Since(began))
		_, err = q.Enter(t.Context(), fair.Request{Caller: "d", Width: 3, Guess: time.Second})
		require.ErrorIs(t, err, fair.ErrTooWide)
		first.Leave(time.Second)
		assert.Zero(t, q.Working())
		assert.Zero(t, q.Waiting())
	})
}

// A great many callers are not all remembered for good.
func TestCallersAreForgotten(t *testing.T) {
	q := fair.New(fair.Config{Places: 1})
	for n := range 30_000 {
		turn, err := q.Enter(t.Context(), fair.Request{Caller: fmt.Sprint(n), Width: 1, Guess: time.Second})
		require.NoError(t, err)
		turn.Leave(time.Duration(n) * ms)
	}
	assert.LessOrEqual(t, q.Remembered(), 10_000)
}

func BenchmarkEnterLeave(b *testing.B) {
	q := fair.New(fair.Config{Places: 2})
	for b.Loop() {
		turn, err := q.Enter(context.Background(), fair.Request{Caller: "a", Width: 1, Guess: time.Millisecond})
		if err != nil {
			b.Fatal(err)
		}
		turn.Leave(time.Millisecond)
	}
}

// Ask says beforehand what Enter would say, and lets nobody in.
func TestAsk(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		q := fair.New(fair.Config{Places: 1, Patience: 2 * time.Second})
		want := fair.Request{Caller: "a", Width: 1, Guess: 3 * time.Second}
		require.NoError(t, q.Ask(want))
		turn, err := q.Enter(t.Context(), want)
		require.NoError(t, err)
		var busy *fair.BusyError
		require.ErrorAs(t, q.Ask(want), &busy)
		assert.Equal(t, 2*time.Second, busy.After)
		assert.NoError(t, q.Ask(fair.Request{Caller: "a", Width: 1, Guess: time.Second, Patient: true}))
		require.ErrorAs(t, q.SendAway(want), &busy)
		assert.Equal(t, 5*time.Second, busy.After, "behind the one before")
		time.Sleep(2 * time.Second)
		require.NoError(t, q.Ask(want), "who was told this time may come")
		turn.Leave(3 * time.Second)
		require.NoError(t, q.Ask(want))
		assert.Zero(t, q.Working())
		assert.Zero(t, q.Waiting())
	})
}
