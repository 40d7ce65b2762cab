package fair

import (
	"slices"
	"time"
)

// promise is a time that was told to a caller: the work that is then expected.
type promise struct {
	due  time.Time
	work float64 // place-seconds
}

// forgotten is how long after its time a promise counts: who has not come by then does
// not come. Own choice; answers to obedient callers are under way for less.
const forgotten = 3 * time.Second

// early is how much before its time a caller may come who was told one.
const early = 100 * time.Millisecond

// mostPromised is how many times are told to one flow apart; further ones are told the
// time of the last.
const mostPromised = 200

// mostAfter is the longest time that is told.
const mostAfter = 120 * time.Second

// redeem takes the earliest promise of the flow that is due, or nearly: the request that
// comes is taken for the one that was sent away. It reports whether there was one.
func (f *flow) redeem(now time.Time) bool {
	if !f.due(now) {
		return false
	}
	f.promised = slices.Delete(f.promised, 0, 1)
	return true
}

// due reports whether the flow was told to come about now.
func (f *flow) due(now time.Time) bool {
	f.forget(now)
	return len(f.promised) > 0 && f.promised[0].due.Sub(now) <= early
}

// forget drops the promises whose callers did not come.
func (f *flow) forget(now time.Time) {
	f.promised = slices.DeleteFunc(f.promised, func(p promise) bool { return now.Sub(p.due) > forgotten })
}

// queued is the work of a flow that waits.
func (f *flow) queued() float64 {
	work := 0.0
	for _, t := range f.queue {
		work += float64(t.width) * t.guess
	}
	return work
}

// owed is the work that was promised to a flow and is due before a moment.
func (f *flow) owed(before time.Time) float64 {
	work := 0.0
	for _, p := range f.promised {
		if p.due.Before(before) {
			work += p.work
		}
	}
	return work
}

// wait is how long a request that is not in the queue yet can expect to wait, behind
// those who are before it in the fair order. Who comes for the first time is behind those
// too who were told to come soon.
func (q *Queue) wait(t *Turn, now time.Time, fresh bool) time.Duration {
	horizon := now
	if fresh {
		horizon = now.Add(q.Patience)
	}
	return q.behind(t, now, horizon)
}

// behind is the time that the work before a request takes, those promised before the
// horizon included.
func (q *Queue) behind(t *Turn, now, horizon time.Time) time.Duration {
	own := t.flow.queued() + t.flow.owed(horizon)
	finish := t.flow.account(now) + own + float64(t.width)*t.guess
	before := own
	for f := range q.active {
		f.forget(now)
		for _, r := range f.running {
			before += float64(r.width) * max(0, r.guess-now.Sub(r.began).Seconds())
		}
		q.settle(f)
		if f == t.flow {
			continue
		}
		start := f.account(now)
		if f.idle() {
			start = max(start, q.virtual)
		}
		before += min(f.queued()+f.owed(horizon), max(0, finish-start))
	}
	return time.Duration(before / float64(q.Places) * float64(time.Second))
}

// sendAway is the error of a request for which there is no place, with the time at which
// one can be expected; it is kept as a promise. The time is a little earlier than what
// is expected, and differs a little from one to the next: who comes early waits in the
// queue, and no place is idle.
func (q *Queue) sendAway(t *Turn, now time.Time) *BusyError {
	f := t.flow
	expected := q.behind(t, now, now.Add(2*mostAfter))
	ahead := time.Duration((0.25 + 0.25*q.Random()) * float64(q.Patience))
	after := min(max(expected-ahead, time.Second), mostAfter).Round(time.Second)
	due := now.Add(after)
	p := promise{due: due, work: float64(t.width) * t.guess}
	if len(f.promised) < mostPromised {
		at, _ := slices.BinarySearchFunc(f.promised, due, func(p promise, due time.Time) int {
			if p.due.After(due) {
				return 1
			}
			return -1
		})
		f.promised = slices.Insert(f.promised, at, p)
		q.active[f] = struct{}{}
	}
	return &BusyError{After: after}
}
