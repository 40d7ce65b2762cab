package serve

import (
	"context"
	"net/http"
	"time"
)

// turns lets only so many heavy calculations run at a time, so that light
// requests stay fast. The others wait a little and are then told to come back.
type turns chan struct{}

// queueWait is how long a heavy request waits for its turn before it is sent
// away; busyRetry is when it may come back, in seconds.
const (
	queueWait = 2 * time.Second
	busyRetry = 3
)

// take waits for a turn and returns what gives it back. The error is a *Problem.
func (t turns) take(ctx context.Context) (giveBack func(), err error) {
	giveBack = func() { <-t }
	select {
	case t <- struct{}{}:
		return giveBack, nil
	default:
	}
	timer := time.NewTimer(queueWait)
	defer timer.Stop()
	select {
	case t <- struct{}{}:
		return giveBack, nil
	case <-timer.C:
	case <-ctx.Done():
	}
	p := NewProblem(http.StatusServiceUnavailable, "as many heavy calculations as fit are under way; come back in a few seconds")
	p.retryAfter = busyRetry
	return nil, p
}
