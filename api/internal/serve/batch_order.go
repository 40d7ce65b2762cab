package serve

import (
	"bytes"
	"context"
	"runtime"
	"slices"
	"sync"
	"time"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/fair"
)

// Limits of what a batch or stream holds. Own choice.
const (
	mostWorkers  = 4        // goroutines that answer pieces
	pieceText    = 64 << 10 // of answers that wait for those before them, for each
	batchOwn     = 256 << 10
	mostDocument = 16 << 20 // of one document of answers
)

// batching is one batch or stream being answered. Its pieces are numbered; each is
// answered by one goroutine, several at a time, and what was answered is sent in their
// order: a piece sends only when all before it have been sent. Until then it keeps a
// little; then it waits. So a batch holds a bounded number of bytes however long it is,
// and the piece whose turn it is to send can always go on.
type batching struct {
	desk     *Desk
	instance string
	lines    bool // one answer on each line, not a list
	brief    bool // answers are summaries
	total    int  // items of a document
	who      caller
	send     func([]byte) error

	pull   chan struct{} // taken by who calls next, which may wait for a caller for long
	next   func() *piece
	pulled int

	mu      sync.Mutex
	moved   *sync.Cond // on sending and failed
	sending int        // number of the piece whose answers are sent now
	failed  error
	abort   func() // wakes next

	sent              int64 // bytes
	answered, refused int
	basis             []string
}

func (d *Desk) newBatch(c echo.Context) *batching {
	b := &batching{desk: d, pull: make(chan struct{}, 1), instance: c.Response().Header().Get(echo.HeaderXRequestID)}
	b.moved = sync.NewCond(&b.mu)
	b.who, b.brief = askedOf(c).who, isBrief(c)
	b.who.header = nil // only the handler may change it
	return b
}

// workers is how many goroutines answer so many items; more than there can be pieces
// for, if their number is not known.
func workers(items int) int {
	return max(1, min(mostWorkers, runtime.GOMAXPROCS(0), (items+pieceItems-1)/pieceItems))
}

// roomFor is what a batch with so many workers holds, besides its body.
func roomFor(workers int) int64 { return batchOwn + int64(workers)*2*pieceText }

// run answers the pieces that next gives until there are no more, and returns when all
// goroutines have ended. The error is that of sending.
func (b *batching) run(ctx context.Context, workers int) error {
	var others sync.WaitGroup
	for range workers - 1 {
		others.Go(func() { b.work(ctx) })
	}
	b.work(ctx)
	others.Wait()
	return b.failed
}

func (b *batching) work(ctx context.Context) {
	for {
		p := b.take()
		if p == nil {
			return
		}
		w := worker{batching: b, piece: p}
		w.answer(ctx)
		w.finish()
		p.free()
	}
}

// take is the next piece; nil when there are no more, or nobody takes the answers.
func (b *batching) take() *piece {
	b.pull <- struct{}{}
	defer func() { <-b.pull }()
	if b.over() {
		return nil
	}
	p := b.next()
	if p != nil {
		p.number = b.pulled
		b.pulled++
	}
	return p
}

// over reports whether nobody takes the answers any more.
func (b *batching) over() bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.failed != nil
}

// worker answers one piece.
type worker struct {
	*batching
	*piece
	turn  *fair.Turn // for light items; nil: it has none
	place seat       // in its stead, for those of a short batch
	began time.Time
}

// short reports whether the batch is of one piece: it takes hardly more than a light
// request does, and its light items are let in like one.
func (b *batching) short() bool { return b.total > 0 && b.total <= pieceItems }

// sitDown takes a turn for light items, if the worker has none.
func (w *worker) sitDown(ctx context.Context) error {
	switch {
	case w.turn != nil || w.place.of != nil:
		return nil
	case w.short():
		w.place = w.desk.seats.sit()
	default:
		turn, err := w.desk.seats.turns.Enter(ctx, fair.Request{Caller: w.who.name, Width: 1, Guess: pieceGuess, Patient: true})
		if err != nil {
			return timeOver()
		}
		w.turn = turn
	}
	w.began = time.Now()
	return nil
}

// pieceGuess is about how long the light items of a piece take.
const pieceGuess = time.Millisecond

// standUp gives the turn back, or the place.
func (w *worker) standUp() {
	if w.turn == nil && w.place.of == nil {
		return
	}
	spent := time.Since(w.began)
	if w.turn != nil {
		w.turn.Leave(spent)
		w.turn = nil
	}
	w.place.leave()
	w.spent += spent
}

// flush sends what was answered so far, when all before it has been sent, and reports
// whether anybody takes it.
func (w *worker) flush() bool {
	w.standUp()
	b := w.batching
	b.mu.Lock()
	for b.sending != w.number && b.failed == nil {
		b.moved.Wait()
	}
	gone := b.failed != nil
	b.sent += int64(w.out.Len())
	b.mu.Unlock()
	// From here on the others wait for this one, up to finish.
	if text := w.out.Bytes(); len(text) > 0 && !gone {
		w.bytes += len(text)
		if err := b.send(text); err != nil {
			b.fail(err)
			gone = true
		}
	}
	w.out.Reset()
	if w.out.Cap() > 2*pieceText {
		w.out = bytes.Buffer{}
	}
	return !gone
}

// fail ends it: nobody takes the answers.
func (b *batching) fail(err error) {
	b.mu.Lock()
	b.failed = err
	b.mu.Unlock()
	b.moved.Broadcast()
	if b.abort != nil {
		b.abort()
	}
}

// finish sends the rest, lets the next piece send, and settles the price.
func (w *worker) finish() {
	w.flush()
	b := w.batching
	paid := float64(len(w.items)) / itemsPerUnit
	w.who.settle(paid, max(paid, priceOfWork(w.spent, w.bytes)-RequestCost))
	b.mu.Lock()
	defer b.mu.Unlock()
	b.answered += w.piece.answered
	b.refused += w.piece.refused
	for _, id := range w.piece.basis {
		if !slices.Contains(b.basis, id) {
			b.basis = append(b.basis, id)
		}
	}
	b.sending++
	b.moved.Broadcast()
}
