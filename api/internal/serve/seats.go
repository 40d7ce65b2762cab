package serve

import (
	"context"
	"errors"
	"net/http"
	"runtime"
	"sync"
	"time"

	"latewood/api/internal/fair"
	"latewood/api/internal/refuse"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Needs are what the dearest request of a calculation takes.
type Needs struct {
	Memory    int64         // bytes: request, working set and answer
	Text      int64         // of these, the answer as it is sent
	Processor time.Duration // of one processor; at its end the work is stopped
}

// Waiting for a turn. Own choice.
const (
	queuePatience = 2 * time.Second // whoever can expect to wait longer is sent away at once
	queueWait     = 6 * time.Second // nobody waits longer
	queueWindow   = 3 * time.Second // of processor time, by which narrow work may pass wide
	bytesPatience = 2 * time.Second // for room in memory
)

// seats are where requests work. Light ones take a place for the moment that they
// compute, of which there are many; all else takes turns, so that light ones stay fast.
type seats struct {
	light chan struct{}
	turns *fair.Queue
	clock func() time.Duration // processor time of this thread
}

// Light requests that compute at a time: so many for each processor, and so many at most.
// More would only hold memory.
const (
	lightPlaces     = 4
	mostLightPlaces = 24
)

func newSeats(turns int, random func() float64) *seats {
	return &seats{light: make(chan struct{}, min(mostLightPlaces, lightPlaces*runtime.GOMAXPROCS(0))), clock: threadTime,
		turns: fair.New(fair.Config{Places: turns, Patience: queuePatience, Longest: queueWait, Window: queueWindow, Random: random})}
}

// width is how many turns work takes that needs so much memory: all of them share
// mostAtWork.
func (s *seats) width(memory int64) int {
	each := int64(mostAtWork / s.turns.Places)
	return int(min(int64(s.turns.Places), max(1, (memory+each-1)/each)))
}

// seat is the place a request works at. The zero value is none.
type seat struct {
	of    *seats
	turn  leaver        // nil: a light place
	began time.Duration // on the clock of the thread
	watch *watch        // of the limit; nil: there is none
}

// sit takes a place among the light ones.
func (s *seats) sit() seat {
	s.light <- struct{}{}
	return seat{of: s}
}

// leave gives the place back, once; it returns the processor time that a turn took.
func (at *seat) leave() (spent time.Duration) {
	of := at.of
	if of == nil {
		return 0
	}
	at.of = nil
	if at.turn == nil {
		<-of.light
		return 0
	}
	spent = of.clock() - at.began
	if at.watch != nil {
		at.watch.stop()
	}
	runtime.UnlockOSThread()
	at.turn.Leave(spent)
	at.turn = nil
	return spent
}

// takeTurn waits for a turn for work that needs so much. The context ends when the work
// took its time; it is that of the work until the seat is left, by the same goroutine.
// The error is a *refuse.Problem.
func (s *seats) takeTurn(ctx context.Context, request fair.Request, needs Needs) (seat, context.Context, error) {
	turn, err := s.enter(ctx, request, needs)
	if err != nil {
		return seat{}, ctx, err
	}
	at, ctx := s.work(ctx, turn, needs)
	return at, ctx, nil
}

// enter waits for a turn that is as wide as so much memory needs. The error is a *refuse.Problem.
func (s *seats) enter(ctx context.Context, request fair.Request, needs Needs) (*fair.Turn, error) {
	request.Width = s.width(needs.Memory)
	turn, err := s.turns.Enter(ctx, request)
	if err != nil {
		return nil, busyProblem(err)
	}
	return turn, nil
}

// work begins to work in a turn.
func (s *seats) work(ctx context.Context, turn leaver, needs Needs) (seat, context.Context) {
	// The clock is that of a thread: the work stays on one.
	runtime.LockOSThread()
	at := seat{of: s, turn: turn, began: s.clock()}
	if needs.Processor > 0 {
		ctx, at.watch = watched(ctx, at.began, needs.Processor)
	}
	return at, ctx
}

// watch ends a context when a thread has worked for long enough. Work cannot take more
// time of a processor than passes, so that it is enough to look when so much passed.
type watch struct {
	spent func() time.Duration
	until time.Duration // on that clock
	end   context.CancelCauseFunc

	mu      sync.Mutex
	timer   *time.Timer
	stopped bool
}

// watched is a context that ends when the calling thread has worked for so long since
// began.
func watched(ctx context.Context, began, most time.Duration) (context.Context, *watch) {
	ctx, end := context.WithCancelCause(ctx)
	w := &watch{spent: otherThreadTime(), until: began + most, end: end}
	w.mu.Lock()
	defer w.mu.Unlock()
	w.timer = time.AfterFunc(most, w.look)
	return ctx, w
}

// look ends the context, or looks again later.
func (w *watch) look() {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.stopped {
		return
	}
	if left := w.until - w.spent(); left > 0 {
		w.timer.Reset(max(left, time.Millisecond))
		return
	}
	w.end(method.ErrUsedUp)
}

func (w *watch) stop() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.stopped = true
	w.timer.Stop()
	w.end(nil)
}

// busyProblem is the problem of a request that got no turn.
func busyProblem(err error) *refuse.Problem {
	p := refuse.New(http.StatusServiceUnavailable, "as much work as fits is under way; come back in a few seconds")
	p.RetryAfter = busyRetry
	var busy *fair.BusyError
	if errors.As(err, &busy) {
		p.RetryAfter = int((busy.After + time.Second - 1) / time.Second)
		p.Detail = "as much work as fits is under way; come back in " + wire.CountOf(p.RetryAfter, "second")
	}
	return p
}

// busyRetry is told to whoever waits for something else than a turn, in seconds.
const busyRetry = 2

// usedUp turns the error of work that was stopped at its limit into one that says so.
func (d *Desk) usedUp(ctx context.Context, err error, needs Needs) error {
	if err == nil || !method.IsUsedUp(ctx) {
		return err
	}
	most := secondsInWords(needs.Processor)
	return refuse.Invalid(refuse.FieldError{Code: "too_much_work", Detail: "this takes more than " + most + "; ask for less at a time" + d.moreTime(needs.Processor), Limit: method.AtMost(float64(needs.Processor/time.Second), "seconds of processor time")})
}

// simulating is a context with the budget of simulated steps of a request; the function
// counts those that it took.
func (d *Desk) simulating(ctx context.Context, steps int) (context.Context, func()) {
	simulated, work := shelf.Simulating(ctx, steps)
	return simulated, func() { d.tally.simulated.Add(float64(work.Steps())) }
}
