package serve

import (
	"bytes"
	"context"
	"log/slog"
	"net/http"
	"sync/atomic"
	"time"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Desk is where the handlers of one service find what they share: the tables, the
// turns of heavy work, the counts. It is built once; what it holds is safe for
// concurrent use.
type Desk struct {
	tables  *shelf.Tables
	version string
	log     *slog.Logger
	limiter *limiter // nil: no limit
	tally   *tally
	works   map[string]Work // the calculations, by path
	stores  *stores         // what is held for callers
	callers *callers
	seats   *seats
	aside   aside
	paces   map[Work]*pace // how long their work takes
	limits  []RouteLimits

	licences []byte
	rack     any // what Keep and Question ask; nil: none is kept

	mostSimulated int           // time steps of one request
	mostWork      time.Duration // of a processor that one request may ask for

	streams  atomic.Int32    // under way
	stopping context.Context //nolint:containedctx // ends when the service is told to stop
}

// Endpoint answers a route.
type Endpoint interface {
	on(d *Desk) echo.HandlerFunc
}

// Plain is an Endpoint that is a handler and no more.
type Plain func(*Desk) echo.HandlerFunc

func (p Plain) on(d *Desk) echo.HandlerFunc { return p(d) }

// Work is a calculation whose types are hidden, so that one request can ask for
// many kinds.
type Work interface {
	Endpoint
	// read decodes and checks a request.
	Read(body []byte) (task, error)
	// heavy reports that requests wait for their turn.
	heavy() bool
	// Needs are those of the dearest request.
	Needs() Needs
	// Types are the zero values of request and reply, and whether requests wait for
	// their turn: what the route table and the contract say of the calculation.
	Types() (request, reply any, heavy bool)
}

// task is a request that was read and is right as far as can be seen.
type task interface {
	heavy() bool
	// bulk is how many bytes the answer holds at most; 0 where it is always short.
	bulk() int
	Run(ctx context.Context, t *shelf.Tables) (reply, error)
}

// reply is the envelope of an answer.
type reply interface {
	bare() any
	notes() ([]string, []method.Warning)
	// encode appends the JSON of the reply to out, which the encoder writes to.
	encode(out *bytes.Buffer, encoder *wire.Encoder) error
}

// fail answers with the problem that an error is.
func (d *Desk) fail(err error, c echo.Context) {
	if c.Response().Committed {
		return
	}
	p := asProblem(err)
	d.tally.refuse(p)
	if p.Status == http.StatusInternalServerError {
		d.log.Error("failed", "id", c.Response().Header().Get(echo.HeaderXRequestID), "error", err.Error())
	}
	if err := writeProblem(c, p); err != nil {
		d.log.Warn("reply not sent", "error", err.Error())
	}
}
