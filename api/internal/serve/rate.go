package serve

import (
	"context"
	"math"
	"net/http"
	"strconv"
	"time"

	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
)

// Rate is how often one caller may ask, in units: each has a bucket of Burst units that
// fills at PerSecond. The zero value sets no limit.
type Rate struct {
	PerSecond float64
	Burst     int
}

// DefaultRate is that of a service that others can reach. Own choice: fifty
// requests a second are more than a shop tool asks and take 1 % of a processor;
// heavy ones pay for the time they take, which is half a processor at most.
var DefaultRate = Rate{PerSecond: 50, Burst: 500}

// limiter is the rate with what replies tell of it; nil: no limit.
type limiter struct {
	Rate
	policy []string
}

func newLimiter(r Rate) *limiter {
	if r.PerSecond <= 0 {
		return nil
	}
	r.Burst = max(r.Burst, MinBurst)
	// draft-ietf-httpapi-ratelimit-headers-10, from memory: q is the quota, qu its unit
	// (which would be requests if it were left out), w the window in seconds; here the
	// time an empty bucket takes to fill.
	window := strconv.Itoa(int(math.Ceil(float64(r.Burst) / r.PerSecond)))
	return &limiter{Rate: r, policy: []string{`"caller";q=` + strconv.Itoa(r.Burst) + `;qu="units";w=` + window}}
}

// charge takes units out of the caller's bucket, all or none. again is the price
// of the whole request, which a caller who comes back pays anew: the wait that a
// refusal tells is for that. The error is a *refuse.Problem.
func (who *caller) charge(units, again int) error {
	if who.bucket == nil || units <= 0 {
		return nil
	}
	ok, left := who.bucket.take(float64(units))
	who.tell(left)
	if ok {
		return nil
	}
	pace := strconv.FormatFloat(who.limiter.PerSecond, 'g', -1, 64) + " units"
	if who.limiter.PerSecond == 1 {
		pace = "1 unit"
	}
	wait := max(1, int(math.Ceil((float64(again)-left-tiny)/who.limiter.PerSecond)), who.limiter.more(left))
	p := refuse.New(http.StatusTooManyRequests, "this is more than "+pace+" a second; come back in "+wire.CountOf(wait, "second")+". GET /v1/limits tells what a request costs")
	p.RetryAfter, p.Violated = wait, []string{"caller"}
	return p
}

// settle takes what work turned out to cost beyond what was paid, or gives back what was
// paid too much.
func (who *caller) settle(paid, due float64) {
	if who.bucket == nil || paid == due {
		return
	}
	who.tell(who.bucket.settle(due - paid))
}

// more is the time in whole seconds until there is more than is left: the next unit.
func (l *limiter) more(left float64) int {
	if left >= float64(l.Burst) {
		return 0
	}
	next := math.Floor(max(left, 0)+tiny) + 1
	return int(math.Ceil((min(next, float64(l.Burst)) - left - tiny) / l.PerSecond))
}

// tell puts into the reply what is left: r units, and t seconds until there are more.
func (who *caller) tell(left float64) {
	if who.header == nil {
		return
	}
	text := make([]byte, 0, 32)
	text = append(text, `"caller";r=`...)
	text = strconv.AppendInt(text, int64(max(left, 0)+tiny), 10)
	text = append(text, ";t="...)
	text = strconv.AppendInt(text, int64(who.limiter.more(left)), 10)
	who.header["Ratelimit"] = []string{string(text)}
}

// wait takes units out of the bucket and waits until they are there.
func (who *caller) wait(ctx context.Context, units int) error {
	if who.bucket == nil || units <= 0 {
		return nil
	}
	return who.bucket.wait(ctx, float64(units))
}

// Work is paid by what it takes: a unit for so much time of a processor, and one for so
// many bytes of an answer. Own choice: a light request takes less of both.
const (
	timeOfUnit  = 10 * time.Millisecond
	bytesOfUnit = 64 << 10
)

// priceOfWork is what work costs in units, not rounded.
func priceOfWork(spent time.Duration, bytes int) float64 {
	return max(RequestCost, spent.Seconds()/timeOfUnit.Seconds()) + float64(bytes/bytesOfUnit)
}
