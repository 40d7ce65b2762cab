package serve

import (
	"net/http"
	"net/netip"
	"sync"
	"sync/atomic"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/ledger"
)

// party is a caller as the service knows it from one request to the next: a token, or
// else an address.
type party struct {
	name    string
	bucket  *bucket         // nil: no limit
	bodies  *ledger.Account // large ones
	texts   *ledger.Account
	small   smallRoom
	streams atomic.Int32
}

// smallRoom is what one party may hold of short bodies and answers.
type smallRoom struct{ bodies, texts *ledger.Account }

// callers keeps the parties, in bounded memory: of those who asked least recently it
// forgets the oldest half.
type callers struct {
	limiter *limiter
	stores  *stores

	mu         sync.Mutex
	young, old map[string]*party
}

// mostCallers is how many parties one generation holds; there are two.
const mostCallers = 5000

func newCallers(l *limiter, s *stores) *callers {
	return &callers{limiter: l, stores: s, young: map[string]*party{}}
}

// named is the party of a name.
func (all *callers) named(name string) *party {
	all.mu.Lock()
	defer all.mu.Unlock()
	if p, ok := all.young[name]; ok {
		return p
	}
	p, ok := all.old[name]
	if !ok {
		// One party leaves room to others.
		p = &party{name: name, bodies: all.stores.largeBodies.Open(largeBodies / 2), texts: all.stores.largeTexts.Open(largeTexts / 2),
			small: smallRoom{all.stores.smallBodies.Open(smallBodies * 3 / 4), all.stores.smallTexts.Open(smallTexts * 3 / 4)}}
		if all.limiter != nil {
			p.bucket = newBucket(all.limiter.Rate)
		}
	}
	if len(all.young) >= mostCallers {
		all.old, all.young = all.young, make(map[string]*party, mostCallers)
	}
	all.young[name] = p
	return p
}

// of is the caller of a request: the key, or else the address.
func (all *callers) of(c echo.Context, key string) caller {
	name := "key " + key
	if key == "" {
		name = "from " + network(c.RealIP())
	}
	who := caller{party: all.named(name), limiter: all.limiter}
	if all.limiter != nil {
		who.header = c.Response().Header()
		who.header["Ratelimit-Policy"] = all.limiter.policy
	}
	return who
}

// caller is who asks one request, as far as limits go.
type caller struct {
	*party
	limiter *limiter // nil: no limit
	header  http.Header
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
