package serve

import (
	"bytes"
	"context"
	"errors"
	"math"
	"net/http"
	"strconv"
	"sync/atomic"
	"time"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/decode"
	"latewood/api/internal/fair"
	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// lightNeeds are those of a light route whose request is long, or whose answer is.
var lightNeeds = Needs{Memory: 16 << 20, Text: 512 << 10, Processor: 2 * time.Second}

// pace learns how long the work of a route takes.
type pace struct{ seconds atomic.Uint64 }

// Guesses before anything was learnt, and how much each request counts. Own choice.
const (
	firstGuess = 100 * time.Millisecond
	paceOfNew  = 0.2
)

func (p *pace) guess() time.Duration {
	if p == nil {
		return firstGuess
	}
	if bits := p.seconds.Load(); bits != 0 {
		return time.Duration(math.Float64frombits(bits) * float64(time.Second))
	}
	return firstGuess
}

func (p *pace) learn(spent time.Duration) {
	if p == nil {
		return
	}
	seconds := spent.Seconds()
	if bits := p.seconds.Load(); bits != 0 {
		seconds = (1-paceOfNew)*math.Float64frombits(bits) + paceOfNew*seconds
	}
	p.seconds.Store(math.Float64bits(seconds)) // of two at once one is lost
}

// turnFor is what a request of a caller for some work says in the queue.
func (d *Desk) turnFor(who *caller, w Work) fair.Request {
	return fair.Request{Caller: who.name, Guess: d.paces[w].guess(), Width: d.seats.width(w.Needs().Memory)}
}

// answer answers one request: a light one at once; one that is heavy, long or answered at
// length in its turn. Whatever waits, waits outside of every seat, and holds its body and
// no more.
func (d *Desk) answer(c echo.Context, w Work) error {
	needs, err := d.needsOf(c, w)
	if err != nil {
		return err
	}
	a := askedOf(c)
	long := c.Request().ContentLength > decode.Small
	if long || w.heavy() && c.Request().ContentLength > freeText {
		if err := d.seats.turns.Ask(d.turnFor(&a.who, w)); err != nil {
			passOver(c)
			return busyProblem(err)
		}
	}
	body, err := readBody(c)
	if err != nil {
		return err
	}
	if len(body) > decode.Small {
		return d.answerInTurn(c, a, w, body, needs)
	}
	return d.answerRead(c, a, w, body, needs)
}

// answerRead answers a request that was read and is short.
func (d *Desk) answerRead(c echo.Context, a *asked, w Work, body []byte, needs Needs) error {
	a.seat = d.seats.sit()
	if d.held(c, needs, body) {
		return notModifiedReply(c)
	}
	t, err := d.read(w, body)
	if err != nil {
		return err
	}
	if t.heavy() || t.bulk() > smallText {
		// It is read again in its turn, so that it does not wait unfolded.
		a.seat.leave()
		return d.answerInTurn(c, a, w, body, needs)
	}
	answer, err := t.Run(c.Request().Context(), d.tables)
	if err != nil {
		return err
	}
	d.done(answer)
	return d.send(c, answer)
}

// read decodes and checks a request. Of one that is wrong all names that stand in no table
// are told as well, which else would be told only when the rest is right.
func (d *Desk) read(w Work, body []byte) (task, error) {
	t, err := w.Read(body)
	var p *refuse.Problem
	if !errors.As(err, &p) || p.Request == nil {
		return t, err
	}
	fields := p.Errors
	for _, e := range wire.DomainErrors(d.tables.Unknown(p.Request)) {
		if field := refuse.Of(e); !decode.Reported(field.Pointer, fields) && len(fields) < refuse.Most {
			fields = append(fields, field)
		}
	}
	return t, refuse.Invalid(fields...)
}

// answerInTurn does the same for a request that waits for its turn.
func (d *Desk) answerInTurn(c echo.Context, a *asked, w Work, body []byte, needs Needs) error {
	paid := RequestCost
	if w.heavy() {
		if err := a.who.charge(HeavyCost-RequestCost, HeavyCost); err != nil {
			return err
		}
		paid = HeavyCost
	}
	if a.crowded() {
		return noRoom("as many answers as fit are on their way")
	}
	at, ctx, err := d.takeTurn(c.Request().Context(), d.turnFor(&a.who, w), needs)
	if err != nil {
		return err
	}
	a.seat = at
	if d.held(c, needs, body) {
		a.who.settle(float64(paid), RequestCost)
		return notModifiedReply(c)
	}
	t, err := d.read(w, body)
	if err == nil {
		var answer reply
		if answer, err = d.run(ctx, t, d.stepsFor(w.Needs().Processor, needs.Processor)); err == nil {
			if method.IsUsedUp(ctx) {
				notRepeated(c)
			}
			err = d.sendWorked(c, a, w, answer, float64(paid))
		}
	}
	// Still seated: it failed, or was sent away.
	if a.seat.of != nil {
		spent := a.seat.leave()
		d.worked(w, spent)
		a.who.settle(float64(paid), priceOfWork(spent, 0))
	}
	return d.usedUp(ctx, err, needs)
}

// crowded reports whether there would hardly be room for a long answer: then it is not
// worked for.
func (a *asked) crowded() bool {
	return a.who.texts.Held() > largeTexts/2-mostAnswer/2 || a.stores.largeTexts.Held() > largeTexts-mostAnswer/2
}

// takeTurn waits for a turn and counts the waiting.
func (d *Desk) takeTurn(ctx context.Context, r fair.Request, needs Needs) (seat, context.Context, error) {
	asked := time.Now()
	at, ctx, err := d.seats.takeTurn(ctx, r, needs)
	d.tally.waited.Observe(time.Since(asked).Seconds())
	return at, ctx, err
}

// worked learns from work that had a turn.
func (d *Desk) worked(w Work, spent time.Duration) {
	d.paces[w].learn(spent)
	d.tally.heavy.Observe(spent.Seconds())
}

// run runs a task in its seat, with so many time steps of simulations.
func (d *Desk) run(ctx context.Context, t task, steps int) (reply, error) {
	if bulk := t.bulk(); bulk > mostAnswer {
		return nil, tooLongAnswer()
	}
	ctx, counted := d.simulating(ctx, steps)
	defer counted()
	answer, err := t.Run(ctx, d.tables)
	if err != nil {
		return nil, err
	}
	d.done(answer)
	return answer, nil
}

// done counts an answer.
func (d *Desk) done(answer reply) {
	_, warnings := answer.notes()
	d.tally.done(answer.bare(), warnings)
}

func tooLongAnswer() *refuse.Problem {
	return refuse.Invalid(refuse.FieldError{Code: "too_much_work", Detail: "the answer to this would be longer than " + strconv.Itoa(mostAnswer) + " bytes; ask for less at a time", Limit: method.AtMost(mostAnswer, "bytes")})
}

// sendWorked encodes the answer of work in a turn, ends the turn, settles the price and
// sends the answer.
func (d *Desk) sendWorked(c echo.Context, a *asked, w Work, answer reply, paid float64) error {
	return d.encoded(c, answer, func(media string, text []byte) error {
		if len(text) > mostAnswer {
			return tooLongAnswer()
		}
		if err := a.hold(cap(text)); err != nil {
			return err
		}
		spent := a.seat.leave()
		d.worked(w, spent)
		a.who.settle(paid, priceOfWork(spent, len(text)))
		return sendAnswer(c, media, text)
	})
}

// send encodes an answer and sends it.
func (d *Desk) send(c echo.Context, answer reply) error {
	return d.encoded(c, answer, func(media string, text []byte) error {
		if a := askedOf(c); len(text) > bytesOfUnit {
			a.who.settle(RequestCost, priceOfWork(0, len(text)))
		}
		return sendAnswer(c, media, text)
	})
}

// encoded hands the text of an answer, in the form that the caller chose, to use.
func (d *Desk) encoded(c echo.Context, answer reply, use func(media string, text []byte) error) error {
	if as := formOf(c); as != nil {
		r, ok := answer.bare().(wire.Rendered)
		if !ok {
			return refuse.New(http.StatusInternalServerError, "")
		}
		text, err := rendered(c, r, as)
		if err != nil {
			return err
		}
		return use(as.Sent(), text)
	}
	return wire.Encoded(func(out *bytes.Buffer, encoder *wire.Encoder) error {
		encoder.Brief = isBrief(c)
		return answer.encode(out, encoder)
	},
		func(text []byte) error { return use(echo.MIMEApplicationJSON, text) })
}
