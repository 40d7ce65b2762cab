package fair

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"
)

// Config says how a queue is run. Own choice where nothing is said.
type Config struct {
	Places   int            // work at a time
	Patience time.Duration  // who can expect to wait longer is sent away; 0: nobody is
	Longest  time.Duration  // nobody waits longer, whatever was expected; 0: no limit
	Window   time.Duration  // place-time by which those that fit may get ahead of one that does not
	Random   func() float64 // from 0 to 1, for the times told; nil: 0.5
}

// Queue shares places among callers. It is safe for concurrent use.
type Queue struct {
	Config

	mu      sync.Mutex
	free    int
	flows   map[string]*flow
	active  map[*flow]struct{} // that wait, work or were told a time
	virtual float64            // S of the flow let in last, in place-seconds
	waiting int
	order   uint64
}

// flow is one caller.
type flow struct {
	served   float64 // work of the requests that ended, in place-seconds, from the virtual start
	queue    []*Turn // waiting, first come first served
	running  []*Turn
	promised []promise // of times told, the earliest first
}

// Turn is a request that waits or works.
type Turn struct {
	queue *Queue
	flow  *flow
	width int
	guess float64 // seconds
	order uint64
	began time.Time
	let   chan struct{}
}

// BusyError is the error of a request that is sent away.
type BusyError struct {
	After time.Duration // when to come back
}

func (b *BusyError) Error() string { return "no place for " + b.After.String() }

// ErrTooWide says that there will never be so many places.
var ErrTooWide = errors.New("wider than the queue")

// New is a queue whose places are free.
func New(config Config) *Queue {
	if config.Random == nil {
		config.Random = func() float64 { return 0.5 }
	}
	return &Queue{Config: config, free: config.Places, flows: map[string]*flow{}, active: map[*flow]struct{}{}}
}

// Request is what a caller wants.
type Request struct {
	Caller  string
	Width   int           // places
	Guess   time.Duration // how long it will take them
	Patient bool          // it waits as long as it takes
}

// Enter waits for places. The error is *BusyError, ErrTooWide or that of ctx; else Leave
// has to be called when the work is done.
func (q *Queue) Enter(ctx context.Context, r Request) (*Turn, error) {
	if r.Width < 1 || r.Width > q.Places {
		return nil, fmt.Errorf("%w: %d of %d", ErrTooWide, r.Width, q.Places)
	}
	t, err := q.join(r)
	if err != nil || t.let == nil {
		return t, err
	}
	var late <-chan time.Time
	if q.Longest > 0 && !r.Patient {
		timer := time.NewTimer(q.Longest)
		defer timer.Stop()
		late = timer.C
	}
	select {
	case <-t.let:
		return t, nil
	case <-ctx.Done():
		err = ctx.Err()
	case <-late:
		err = &BusyError{}
	}
	return q.abandon(t, err)
}

// minGuess keeps requests that are guessed to take no time from all being let in at once.
const minGuess = 10 * time.Microsecond

// join lets a request in, puts it into the queue, or sends it away.
func (q *Queue) join(r Request) (*Turn, error) {
	q.mu.Lock()
	defer q.mu.Unlock()
	now := time.Now()
	t := q.turnFor(r)
	kept := t.flow.redeem(now)
	if q.full(t) {
		if !r.Patient && q.tooLong(t, now, kept) {
			return nil, q.sendAway(t, now)
		}
		t.let = make(chan struct{})
	}
	f := t.flow
	f.queue = append(f.queue, t)
	q.active[f] = struct{}{}
	q.waiting++
	q.dispatch(now)
	if !t.began.IsZero() {
		t.let = nil
	}
	return t, nil
}

// turnFor is the turn of a request that is not in the queue yet.
func (q *Queue) turnFor(r Request) *Turn {
	q.order++
	return &Turn{queue: q, flow: q.flowOf(r.Caller), width: r.Width, guess: max(r.Guess, minGuess).Seconds(), order: q.order}
}

// full reports whether a request would have to wait.
func (q *Queue) full(t *Turn) bool { return q.waiting > 0 || t.width > q.free }

// tooLong reports whether a request would have to wait for too long.
func (q *Queue) tooLong(t *Turn, now time.Time, kept bool) bool {
	return q.Patience > 0 && q.wait(t, now, !kept) > q.patience(kept)
}

// Ask says what Enter would say if the request came now, and lets nobody in: nil, or
// *BusyError. It is for those who have something to do before they enter.
func (q *Queue) Ask(r Request) error {
	q.mu.Lock()
	defer q.mu.Unlock()
	now := time.Now()
	t := q.turnFor(r)
	if !q.full(t) || r.Patient {
		return nil
	}
	kept := t.flow.due(now)
	if !q.tooLong(t, now, kept) {
		return nil
	}
	t.flow.redeem(now)
	return q.sendAway(t, now)
}

// SendAway is the error of a request for which there is no room elsewhere, with a time
// to come back from this queue.
func (q *Queue) SendAway(r Request) error {
	q.mu.Lock()
	defer q.mu.Unlock()
	now := time.Now()
	t := q.turnFor(r)
	t.flow.redeem(now)
	return q.sendAway(t, now)
}

// patience is how long a request may have to wait that is let into the queue: more, if
// it was told to come now.
func (q *Queue) patience(kept bool) time.Duration {
	if kept {
		return max(q.Patience, q.Longest-q.Patience*5/4)
	}
	return q.Patience
}

// flowOf is the flow of a caller, brought up to the others if it was idle.
func (q *Queue) flowOf(caller string) *flow {
	f := q.flows[caller]
	if f == nil {
		if len(q.flows) >= mostFlows {
			q.sweep()
		}
		f = &flow{}
		q.flows[caller] = f
	}
	if f.idle() {
		f.served = max(f.served, q.virtual)
	}
	return f
}

// mostFlows is how many callers are remembered before those are forgotten of whom there
// is nothing to remember.
const mostFlows = 10_000

// sweep forgets callers who are idle and owe nothing, and if that does not help, all who
// are idle.
func (q *Queue) sweep() {
	for name, f := range q.flows {
		if f.idle() && f.served <= q.virtual {
			delete(q.flows, name)
		}
	}
	if len(q.flows) < mostFlows {
		return
	}
	for name, f := range q.flows {
		if f.idle() {
			delete(q.flows, name)
		}
	}
}

func (f *flow) idle() bool { return len(f.queue) == 0 && len(f.running) == 0 }

// account is S of the flow at a moment.
func (f *flow) account(now time.Time) float64 {
	s := f.served
	for _, t := range f.running {
		s += float64(t.width) * max(t.guess, now.Sub(t.began).Seconds())
	}
	return s
}

// dispatch lets in whoever is next, as long as there are places.
func (q *Queue) dispatch(now time.Time) {
	for q.waiting > 0 && q.free > 0 {
		f, s := q.next(now)
		if f == nil {
			return
		}
		t := f.queue[0]
		f.queue[0] = nil
		f.queue = f.queue[1:]
		if len(f.queue) == 0 {
			f.queue = nil
		}
		f.running = append(f.running, t)
		q.waiting--
		q.free -= t.width
		q.virtual = max(q.virtual, s)
		t.began = now
		if t.let != nil {
			close(t.let)
		}
	}
}

// next is the flow whose first request is let in now, with its account; nil for none.
func (q *Queue) next(now time.Time) (best *flow, account float64) {
	least := -1.0
	type candidate struct {
		*flow
		s float64
	}
	var all []candidate
	for f := range q.active {
		if len(f.queue) == 0 {
			continue
		}
		s := f.account(now)
		all = append(all, candidate{f, s})
		if least < 0 || s < least {
			least = s
		}
	}
	for _, c := range all {
		if c.queue[0].width > q.free || c.s > least && c.s > least+q.Window.Seconds() {
			continue
		}
		if best == nil || c.before(c.s, best, account) {
			best, account = c.flow, c.s
		}
	}
	return best, account
}

// before reports whether f comes before another flow: the wider, then the less served,
// then who came first.
func (f *flow) before(s float64, other *flow, sOther float64) bool {
	a, b := f.queue[0], other.queue[0]
	switch {
	case a.width != b.width:
		return a.width > b.width
	case s != sOther:
		return s < sOther
	}
	return a.order < b.order
}

// Leave gives the places back. spent is the time that the work took; the caller may know
// it better than the clock, if others made the work wait.
func (t *Turn) Leave(spent time.Duration) {
	q := t.queue
	q.mu.Lock()
	defer q.mu.Unlock()
	f := t.flow
	f.running = slices.DeleteFunc(f.running, func(other *Turn) bool { return other == t })
	f.served += float64(t.width) * spent.Seconds()
	q.free += t.width
	q.settle(f)
	q.dispatch(time.Now())
}

// settle takes a flow out of the active ones if it is none of them any more.
func (q *Queue) settle(f *flow) {
	if f.idle() && len(f.promised) == 0 {
		delete(q.active, f)
	}
}

// abandon takes a request that waits out of the queue, unless it was let in at the same
// moment: then the turn is given back.
func (q *Queue) abandon(t *Turn, err error) (*Turn, error) {
	q.mu.Lock()
	if !t.began.IsZero() {
		q.mu.Unlock()
		t.Leave(0)
		return nil, q.busyOr(t, err)
	}
	t.flow.queue = slices.DeleteFunc(t.flow.queue, func(other *Turn) bool { return other == t })
	q.waiting--
	q.settle(t.flow)
	q.dispatch(time.Now()) // it may have been what the others waited for
	q.mu.Unlock()
	return nil, q.busyOr(t, err)
}

// busyOr is the error with the time to come back, if it is that of a busy queue.
func (q *Queue) busyOr(t *Turn, err error) error {
	var busy *BusyError
	if !errors.As(err, &busy) {
		return err
	}
	q.mu.Lock()
	defer q.mu.Unlock()
	return q.sendAway(t, time.Now())
}

// Working is how many places are taken; Waiting how many requests wait for some.
func (q *Queue) Working() int {
	q.mu.Lock()
	defer q.mu.Unlock()
	return q.Places - q.free
}

// Waiting is how many requests wait for places.
func (q *Queue) Waiting() int {
	q.mu.Lock()
	defer q.mu.Unlock()
	return q.waiting
}
