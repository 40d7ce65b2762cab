package serve

import (
	"context"
	"math"
	"sync"
	"time"
)

// bucket holds units of the rate. It fills with time and may be in debt: what work took
// is known only afterwards.
type bucket struct {
	perSecond, burst float64

	mu    sync.Mutex
	units float64
	at    time.Time // when so many were there
}

func newBucket(r Rate) *bucket {
	return &bucket{perSecond: r.PerSecond, burst: float64(r.Burst), units: float64(r.Burst), at: time.Now()}
}

// fill brings the bucket up to now.
func (b *bucket) fill() {
	now := time.Now()
	b.units = min(b.burst, b.units+now.Sub(b.at).Seconds()*b.perSecond)
	b.at = now
}

// take takes units if they are there, all or none, and tells what is left.
func (b *bucket) take(units float64) (ok bool, left float64) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.fill()
	if b.units+tiny < units {
		return false, b.units
	}
	b.units -= units
	return true, b.units
}

// tiny is what counts as nothing: times are not exact to the last bit.
const tiny = 1e-6

// settle takes units whether they are there or not; fewer than none gives them back.
// Nobody gets so deep into debt that it takes longer than a few full buckets.
func (b *bucket) settle(units float64) (left float64) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.fill()
	b.units = min(b.burst, max(b.units-units, -mostDebt*b.burst))
	return b.units
}

// mostDebt is the deepest debt, in full buckets.
const mostDebt = 2

// wait takes units and waits until the bucket is not in debt any more.
func (b *bucket) wait(ctx context.Context, units float64) error {
	left := b.settle(units)
	if left >= 0 {
		return ctx.Err()
	}
	timer := time.NewTimer(time.Duration(math.Ceil(-left / b.perSecond * float64(time.Second))))
	defer timer.Stop()
	select {
	case <-timer.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}
