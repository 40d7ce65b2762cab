package rack

import (
	"cmp"
	"context"
	"strconv"
	"time"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// How long an overview is waited for, in seconds. Own choice.
const (
	UsualWait = 1
	MostWait  = 20
)

// AwaitOverview lets what is not known be found out, and waits a while for it.
func AwaitOverview(ctx context.Context, r *Rack, s *wire.Sent) error {
	seconds := UsualWait
	if text, given := s.Asked["wait_seconds"]; given {
		n, err := strconv.Atoi(text)
		if err != nil || n < 0 || n > MostWait {
			return &wire.Refused{Why: wire.Unread, Parameter: "wait_seconds", Code: "out_of_range", Limit: method.Between(0, MostWait, ""), Detail: "wait_seconds is a whole number from 0 to " + strconv.Itoa(MostWait)}
		}
		seconds = n
	}
	r.wake()
	over := time.NewTimer(time.Duration(seconds) * time.Second)
	defer over.Stop()
	for {
		state, changed := r.progress()
		if !state.Running {
			return nil
		}
		select {
		case <-changed:
		case <-over.C:
			return nil
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

// StartProgress lets what is not known be found out.
func StartProgress(r *Rack) { r.wake() }

// FollowProgress is how far the answers are, until they are all there.
func FollowProgress(_ context.Context, r *Rack) (state *Progress, changed <-chan struct{}, more bool) {
	now, changed := r.progress()
	now.AsOf = cmp.Or(now.AsOf, r.today())
	return &now, changed, now.Running
}
