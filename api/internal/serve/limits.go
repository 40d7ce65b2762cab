package serve

import (
	"reflect"
	"slices"
	"time"

	"latewood/api/internal/decode"
	"latewood/api/internal/wire"
)

// batchTime is the time of a batch: what is not begun by then is not done. Own choice.
const batchTime = 45 * time.Second

// Timeouts of the server, which is set up elsewhere but published here. The
// longest request holds 1 MiB, so a client that needs longer is not making progress.
const (
	ReadHeaderTimeout = 5 * time.Second
	ReadTimeout       = 15 * time.Second
	WriteTimeout      = 60 * time.Second
	IdleTimeout       = 120 * time.Second
	MaxHeaderBytes    = 16 << 10

	// MaxConnections are those with room at a time; one with TLS takes two places, one
	// with HTTP/2 sixteen.
	MaxConnections = 800

	// StopTime is what the longest request may take that was let in before the service
	// was told to stop: a batch whose body comes slowly, that takes all its time, and
	// whose answer is taken slowly.
	StopTime = ReadTimeout + batchTime + WriteTimeout
)

// Limits says how much may be asked, and how often.
type Limits struct {
	Routes []RouteLimits `json:"routes" required:"true" nullable:"false" description:"each with its limits"`
	Heavy  HeavyLimits   `json:"heavy" required:"true" description:"of calculations that simulate or search"`
	Batch  BatchLimits   `json:"batch" required:"true" description:"of /v1/batch with one document"`
	Stream StreamLimits  `json:"stream" required:"true" description:"of /v1/batch with lines"`
	Client ClientLimits  `json:"client" required:"true" description:"slower clients are cut off"`
	Rate   *RateLimits   `json:"rate,omitempty" description:"of each caller: its token, or else its address; left out when there is no limit"`
}

// RouteLimits are those of one route.
type RouteLimits struct {
	Method    string       `json:"method" required:"true" description:"of HTTP"`
	Route     string       `json:"route" required:"true" description:"its path"`
	BodyBytes int64        `json:"body_bytes" required:"true" description:"longest body"`
	Lists     []ListLimit  `json:"lists,omitempty" description:"longest lists of its request"`
	Budgets   []WorkBudget `json:"budgets,omitempty" description:"work beyond these is refused, code too_much_work or out_of_range"`
	Work      *WorkLimits  `json:"work,omitempty" description:"of one request, at most; left out for look-ups"`
	Heavy     bool         `json:"heavy" required:"true" description:"simulates or searches, one after the other"`
	Units     int          `json:"units" required:"true" description:"price of a request in units of the rate; a heavy route asked for little costs 1, a batch as batch_items_per_unit tells. Retry-After is the wait for this price where the body was not read yet"`
}

// ListLimit is the longest a list of a request may be.
type ListLimit struct {
	Member string `json:"member" required:"true" description:"pointer to the list; - stands for every index"`
	Most   int    `json:"max_items" required:"true" description:"most entries"`
}

// WorkBudget is the most work of one kind that a request may cause.
type WorkBudget struct {
	Of   string `json:"of" required:"true" description:"what is bounded"`
	Most int    `json:"max" required:"true" description:"the most"`
	Unit string `json:"unit" required:"true" description:"of the most"`
}

// HeavyLimits are those of heavy calculations.
type HeavyLimits struct {
	AtOnce     int     `json:"at_once" required:"true" description:"calculations under way"`
	QueueWait  float64 `json:"queue_wait_seconds" required:"true" resolution:"as given" description:"the others wait so long for their turn and are then told to come back (503)"`
	RetryAfter int     `json:"retry_after_seconds" required:"true" description:"told where the queue does not tell better"`
	Work       float64 `json:"max_processor_seconds" required:"true" resolution:"as given" description:"that work_seconds may ask for"`
}

// BatchLimits are those of a batch.
type BatchLimits struct {
	Items      int     `json:"items" required:"true" description:"in one document"`
	HeavyItems int     `json:"heavy_items" required:"true" description:"of routes that simulate or search"`
	Seconds    float64 `json:"seconds" required:"true" resolution:"as given" description:"items not begun by then are not answered (503)"`
}

// StreamLimits are those of a stream.
type StreamLimits struct {
	AtOnce       int     `json:"at_once" required:"true" description:"streams of one caller"`
	LineBytes    int     `json:"line_bytes" required:"true" description:"longest line"`
	PauseSeconds float64 `json:"pause_seconds" required:"true" resolution:"as given" description:"without a byte"`
	Seconds      float64 `json:"seconds" required:"true" resolution:"as given" description:"in all"`
}

// ClientLimits are the times in which a request must arrive and its reply must
// be taken.
type ClientLimits struct {
	HeaderSeconds float64 `json:"header_seconds" required:"true" resolution:"as given" description:"until the headers are there"`
	HeaderBytes   int     `json:"header_bytes" required:"true" description:"all headers together"`
	BodySeconds   float64 `json:"body_seconds" required:"true" resolution:"as given" description:"from the first byte of the request"`
	ReplySeconds  float64 `json:"reply_seconds" required:"true" resolution:"as given" description:"until the reply was taken"`
	Connections   int     `json:"max_connections" required:"true" description:"open at a time, of all callers together; one with TLS counts as two, one with HTTP/2 as sixteen. The longest idle one is closed for a new one"`
}

// RateLimits are what a caller may ask over time.
type RateLimits struct {
	PerSecond    float64 `json:"units_per_second" required:"true" resolution:"as given" description:"that each caller is given"`
	Burst        int     `json:"burst" required:"true" description:"units at once, after a rest"`
	ItemsPerUnit int     `json:"batch_items_per_unit" required:"true" description:"light items of a batch or a stream; a stream that is faster is slowed down"`
}

// ListsIn finds the lists of a request type and reads the longest they may be
// off the tags that the validator holds them to.
func ListsIn(t reflect.Type, at string, above []reflect.Type) []ListLimit {
	t = wire.Pointed(t)
	if t.Kind() != reflect.Struct || slices.Contains(above, t) {
		return nil
	}
	var lists []ListLimit
	for _, form := range wire.FormsOf(t) {
		lists = append(lists, ListsIn(form, at, append(above[:len(above):len(above)], t))...)
	}
	for field := range wire.Members(t) {
		inner, member := wire.Pointed(field.Type), at+"/"+wire.MemberName(field)
		if inner.Kind() == reflect.Slice && inner.Elem().Kind() != reflect.Uint8 {
			if most := decode.MostEntries(field.Tag.Get("validate")); most > 0 {
				lists = append(lists, ListLimit{member, most})
			}
			inner, member = inner.Elem(), member+"/-"
		}
		lists = append(lists, ListsIn(inner, member, append(above[:len(above):len(above)], t))...)
	}
	return lists
}
