package serve

import (
	"context"
	"math"
	"net/http"
	"net/netip"
	"strconv"
	"sync"
	"time"

	"github.com/labstack/echo/v4"
	"golang.org/x/time/rate"

	"latewood/api/internal/wire"
)

// Rate is how often one caller may ask, in units of a light request: each has a
// bucket of Burst units that fills at PerSecond. The zero value sets no limit.
type Rate struct {
	PerSecond float64
	Burst     int
}

// DefaultRate is that of a service that others can reach. Own choice: fifty
// requests a second are more than a shop tool asks and take 1 % of a processor;
// heavy ones weigh twenty and are held to two or three a second.
var DefaultRate = Rate{PerSecond: 50, Burst: 500}

// limiter keeps the buckets of the callers, in bounded memory: of those who
// asked least recently it forgets the oldest half, whose buckets are then full.
type limiter struct {
	Rate
	policy []string

	mu         sync.Mutex
	young, old map[string]*rate.Limiter
}

// mostCallers is how many buckets one generation holds; there are two.
const mostCallers = 5000

func newLimiter(r Rate) *limiter {
	if r.PerSecond <= 0 {
		return nil
	}
	r.Burst = max(r.Burst, MinBurst)
	// draft-ietf-httpapi-ratelimit-headers, from memory: q is the quota, w the
	// window in seconds; here the time an empty bucket takes to fill.
	window := strconv.Itoa(int(math.Ceil(float64(r.Burst) / r.PerSecond)))
	return &limiter{Rate: r, policy: []string{`"caller";q=` + strconv.Itoa(r.Burst) + ";w=" + window}, young: map[string]*rate.Limiter{}}
}

func (l *limiter) bucket(name string) *rate.Limiter {
	l.mu.Lock()
	defer l.mu.Unlock()
	if b, ok := l.young[name]; ok {
		return b
	}
	b, ok := l.old[name]
	if !ok {
		b = rate.NewLimiter(rate.Limit(l.PerSecond), l.Burst)
	}
	if len(l.young) >= mostCallers {
		l.old, l.young = l.young, make(map[string]*rate.Limiter, mostCallers)
	}
	l.young[name] = b
	return b
}

// caller is who asks, as far as limits go; nil where there are none.
type caller struct {
	limiter *limiter
	bucket  *rate.Limiter
	header  http.Header
}

// askedBy is a request with its caller.
type askedBy struct {
	echo.Context
	who caller
}

func callerOf(c echo.Context) *caller {
	if asked, ok := c.(*askedBy); ok {
		return &asked.who
	}
	return nil
}

// charge takes units out of the caller's bucket, all or none. again is the price
// of the whole request, which a caller who comes back pays anew: the wait that a
// refusal tells is for that. The error is a *Problem.
func (who *caller) charge(units, again int) error {
	if who == nil || units <= 0 {
		return nil
	}
	now := time.Now()
	ok := who.bucket.AllowN(now, units)
	left := who.bucket.TokensAt(now)
	who.tell(left)
	if ok {
		return nil
	}
	pace := strconv.FormatFloat(who.limiter.PerSecond, 'g', -1, 64) + " units"
	if who.limiter.PerSecond == 1 {
		pace = "1 unit"
	}
	wait := max(1, int(math.Ceil((float64(again)-left)/who.limiter.PerSecond)))
	p := NewProblem(http.StatusTooManyRequests, "this is more than "+pace+" a second; come back in "+wire.CountOf(wait, "second")+". GET /v1/limits tells what a request costs")
	p.retryAfter = wait
	return p
}

// tell puts into the reply what is left: r units, and t seconds until the
// bucket is full again.
func (who *caller) tell(left float64) {
	if who.header == nil {
		return
	}
	text := make([]byte, 0, 32)
	text = append(text, `"caller";r=`...)
	text = strconv.AppendInt(text, int64(max(left, 0)), 10)
	text = append(text, ";t="...)
	text = strconv.AppendInt(text, int64(math.Ceil((float64(who.limiter.Burst)-left)/who.limiter.PerSecond)), 10)
	who.header["Ratelimit"] = []string{string(text)}
}

// wait takes units out of the bucket and waits until they are there.
func (who *caller) wait(ctx context.Context, units int) error {
	if who == nil || units <= 0 {
		return nil
	}
	return who.bucket.WaitN(ctx, units)
}

// admit charges a request to its caller: the key, or else the address. What it
// returns knows the caller. price is what the route costs at most, its body not
// yet read; whoever is refused here is told to wait for that.
func (l *limiter) admit(c echo.Context, key string, price int) (echo.Context, error) {
	if l == nil {
		return c, nil
	}
	name := "key " + key
	if key == "" {
		name = "from " + network(c.RealIP())
	}
	header := c.Response().Header()
	header["Ratelimit-Policy"] = l.policy
	asked := &askedBy{c, caller{l, l.bucket(name), header}}
	return asked, asked.who.charge(RequestCost, price)
}

// network is the address, or for IPv6 the /64 that one subscriber usually has.
func network(address string) string {
	ip, err := netip.ParseAddr(address)
	if err != nil || !ip.Is6() || ip.Is4In6() {
		return address
	}
	prefix, err := ip.WithZone("").Prefix(64)
	if err != nil {
		return address
	}
	return prefix.String()
}
