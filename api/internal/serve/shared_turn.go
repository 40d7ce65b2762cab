package serve

import (
	"context"
	"runtime"
	"sync"
	"time"

	"latewood/api/internal/fair"
)

// leaver is a turn that is given back.
type leaver interface{ Leave(spent time.Duration) }

// sharedTurn is a turn of the service itself, in which several questions are worked at side by
// side: nobody waits for a processor that would lie idle. The turn ends with the last of them.
type sharedTurn struct {
	of     *aside
	turn   *fair.Turn
	inside int // at work
	joined int // in all
	spent  time.Duration
}

// aside is the work of the service between the requests of callers.
type aside struct {
	seats *seats
	mu    sync.Mutex
	open  *sharedTurn // nil: there is none to join
}

// mostJoined is how many questions share one turn for each that works at a time: a caller
// who comes meanwhile waits for so many, some tenths of a second. Own choice.
const mostJoined = 2

// abreast is how many questions that need so much memory are worked at in one turn.
func (s *seats) abreast(memory int64) int {
	return max(1, min(runtime.GOMAXPROCS(0), int(mostAtWork/max(memory, 1)))/s.turns.Places)
}

// takeTurn is a seat in a turn that is under way, else in one of its own.
func (a *aside) takeTurn(ctx context.Context, request fair.Request, needs Needs) (seat, context.Context, error) {
	if shared := a.join(a.seats.abreast(needs.Memory)); shared != nil {
		at, ctx := a.seats.work(ctx, shared, needs)
		return at, ctx, nil
	}
	turn, err := a.seats.enter(ctx, request, needs)
	if err != nil {
		return seat{}, ctx, err
	}
	shared := &sharedTurn{of: a, turn: turn, inside: 1, joined: 1}
	a.mu.Lock()
	a.open = shared
	a.mu.Unlock()
	at, ctx := a.seats.work(ctx, shared, needs)
	return at, ctx, nil
}

// join joins the turn that is under way; nil where there is no room in it.
func (a *aside) join(abreast int) *sharedTurn {
	a.mu.Lock()
	defer a.mu.Unlock()
	t := a.open
	if t == nil || t.inside >= abreast || t.joined >= mostJoined*abreast {
		return nil
	}
	t.inside, t.joined = t.inside+1, t.joined+1
	return t
}

// Leave gives the turn back with the last one in it.
func (t *sharedTurn) Leave(spent time.Duration) {
	a := t.of
	a.mu.Lock()
	defer a.mu.Unlock()
	t.inside--
	t.spent += spent
	if t.inside > 0 {
		return
	}
	if a.open == t {
		a.open = nil
	}
	t.turn.Leave(t.spent)
}
