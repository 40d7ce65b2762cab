package serve

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"net/http"
	"runtime/debug"
	"slices"
	"strconv"
	"sync"
	"unicode/utf8"

	json2 "github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
	"github.com/labstack/echo/v4"

	"latewood/api/internal/wire"
)

// lenient reads a batch only to find where its items begin and end; each is
// then read strictly.
var lenient = json2.JoinOptions(jsontext.AllowDuplicateNames(true), jsontext.AllowInvalidUTF8(true))

// item is one question of a batch, as it came. Its parts lie in the body.
type item struct {
	raw                []byte
	id, route, request []byte // JSON values; route without its quotes
	number             int    // in its batch; -1 in a stream
	line               int    // in its stream, from 1; 0 in a batch
	odd                bool   // not of the form that an item has
	beyond             bool   // one heavy item more than a batch may hold
	problem            *Problem
}

// readItem reads the next value of dec, which reads body, as an item.
func readItem(dec *jsontext.Decoder, body []byte) (item, error) {
	var one item
	if dec.PeekKind() != '{' {
		raw, err := readRaw(dec, body)
		return item{raw: raw, odd: true}, err
	}
	if _, err := dec.ReadToken(); err != nil {
		return one, err
	}
	start := dec.InputOffset() - 1
	for dec.PeekKind() != '}' {
		name, err := dec.ReadToken()
		if err != nil {
			return one, err
		}
		part := one.part(name)
		value, err := readRaw(dec, body)
		if err != nil {
			return one, err
		}
		if part == nil || *part != nil {
			one.odd = true
			continue
		}
		*part = value
	}
	if _, err := dec.ReadToken(); err != nil {
		return one, err
	}
	one.raw = body[start:dec.InputOffset()]
	plainText := func(v []byte) bool { return len(v) >= 2 && v[0] == '"' && bytes.IndexByte(v, '\\') < 0 }
	one.odd = one.odd || one.request == nil || one.request[0] == 'n' || !plainText(one.route) ||
		one.id != nil && (!plainText(one.id) || len(one.id) == 2 || len(one.id) > mostID+2 || !utf8.Valid(one.id))
	if !one.odd {
		one.route = one.route[1 : len(one.route)-1]
	}
	return one, nil
}

func (one *item) part(name jsontext.Token) *[]byte {
	switch name.String() {
	case "id":
		return &one.id
	case "route":
		return &one.route
	case "request":
		return &one.request
	}
	return nil
}

func readRaw(dec *jsontext.Decoder, body []byte) ([]byte, error) {
	value, err := dec.ReadValue()
	if err != nil {
		return nil, err
	}
	end := dec.InputOffset()
	return body[end-int64(len(value)) : end : end], nil
}

const mostID = 100 // characters

// pieceItems is how many items one goroutine answers at a stretch.
const pieceItems = 16

// piece is some items of a batch and what was answered to them, one line each.
type piece struct {
	items             []item
	body              []byte // of a stream: the lines
	out               bytes.Buffer
	basis             []string
	answered, refused int
	done              chan struct{}
}

var pieces = sync.Pool{New: func() any { return new(piece) }}

func newPiece() *piece {
	p, ok := pieces.Get().(*piece)
	if !ok {
		p = new(piece)
	}
	p.done = make(chan struct{})
	return p
}

// free gives a piece back whose answers were handed on.
func (p *piece) free() {
	clear(p.items)
	p.items, p.body, p.basis = p.items[:0], p.body[:0], p.basis[:0]
	p.answered, p.refused = 0, 0
	p.out.Reset()
	if p.out.Cap() <= wire.MaxPooled && cap(p.body) <= wire.MaxPooled {
		pieces.Put(p)
	}
}

// piecesOf cuts the items of a batch into pieces.
func piecesOf(items []item) func() *piece {
	return func() *piece {
		if len(items) == 0 {
			return nil
		}
		n := min(pieceItems, len(items))
		p := newPiece()
		p.items = append(p.items, items[:n]...)
		items = items[n:]
		return p
	}
}

// batching is one batch or stream being answered.
type batching struct {
	desk     *Desk
	instance string
	lines    bool // one answer on each line, not a list
	who      *caller
	one      chan struct{} // heavy items of one batch do not crowd each other out
}

func (d *Desk) newBatch(c echo.Context) *batching {
	b := &batching{desk: d, instance: c.Response().Header().Get(echo.HeaderXRequestID), one: make(chan struct{}, 1)}
	if who := callerOf(c); who != nil {
		b.who = &caller{limiter: who.limiter, bucket: who.bucket} // without the header, which only the handler may change
	}
	return b
}

// answer answers the items of a piece.
func (b *batching) answer(ctx context.Context, p *piece) {
	encoder := json.NewEncoder(&p.out)
	encoder.SetEscapeHTML(false)
	for i := range p.items {
		start := p.out.Len()
		basis, err := b.answerOne(ctx, &p.items[i], &p.out, encoder)
		if err == nil {
			p.answered++
			for _, id := range basis {
				if !slices.Contains(p.basis, id) {
					p.basis = append(p.basis, id)
				}
			}
		} else {
			p.out.Truncate(start)
			b.refuse(p, &p.items[i], err, encoder)
		}
		if !b.lines && i < len(p.items)-1 {
			p.out.WriteByte(',')
		}
		p.out.WriteByte('\n')
	}
	b.desk.tally.items.WithLabelValues("2xx").Add(float64(p.answered))
}

// answerOne answers one item: {"id": ..., "status": 200, "answer": {...}}, in a
// stream with its line before. A fault in
// it is told as a problem of the item, as the service does for a request.
func (b *batching) answerOne(ctx context.Context, one *item, out *bytes.Buffer, encoder *json.Encoder) (basis []string, err error) {
	defer func() {
		if r := recover(); r != nil {
			b.desk.log.Error("panic", "id", b.instance, "panic", r, "stack", string(debug.Stack()))
			err = NewProblem(http.StatusInternalServerError, "")
		}
	}()
	w, err := b.desk.workFor(one)
	if err != nil {
		return nil, err
	}
	t, err := w.Read(one.request)
	if err != nil {
		return nil, pointedInto(err, "/request")
	}
	if ctx.Err() != nil {
		return nil, NewProblem(http.StatusServiceUnavailable, "the time of this batch is over; send the item again")
	}
	if t.heavy() {
		select {
		case b.one <- struct{}{}:
			defer func() { <-b.one }()
		case <-ctx.Done():
			return nil, NewProblem(http.StatusServiceUnavailable, "the time of this batch is over; send the item again")
		}
	}
	answer, err := b.desk.do(ctx, b.who, t)
	if err != nil {
		return nil, pointedInto(err, "/request")
	}
	one.head(out, http.StatusOK)
	out.WriteString(`"answer":`)
	if err := answer.encode(out, encoder); err != nil {
		return nil, err
	}
	out.Truncate(out.Len() - 1) // the encoder ends with a line
	out.WriteByte('}')
	basis, _ = answer.notes()
	return basis, nil
}

// head writes the beginning of an answer.
func (one *item) head(out *bytes.Buffer, status int) {
	out.WriteByte('{')
	if one.line > 0 {
		out.WriteString(`"line":`)
		out.WriteString(strconv.Itoa(one.line))
		out.WriteByte(',')
	}
	if one.id != nil {
		out.WriteString(`"id":`)
		out.Write(one.id)
		out.WriteByte(',')
	}
	out.WriteString(`"status":`)
	out.WriteString(strconv.Itoa(status))
	out.WriteByte(',')
}

// workFor finds the calculation an item asks for. The error is a *Problem.
func (d *Desk) workFor(one *item) (Work, error) {
	if one.problem != nil {
		return nil, one.problem
	}
	if one.odd {
		one.id = idIn(one.raw)
		asked, err := decode[BatchItem](one.raw)
		if err != nil {
			return nil, err
		}
		one.route, one.request = []byte(asked.Route), asked.Request
	}
	w := d.works[string(one.route)]
	switch {
	case w == nil:
		detail := "route is the path of a calculation other than a batch, such as /v1/movement; not " + wire.Quoted(string(one.route))
		return nil, invalid(FieldError{Pointer: "/route", Code: "not_a_choice", Detail: detail})
	case one.beyond:
		detail := "a batch holds at most " + strconv.Itoa(mostHeavyItems) + " items for routes that simulate or search; send this one in another, or in a stream"
		return nil, invalid(FieldError{Pointer: "/route", Code: "too_much_work", Detail: detail, Limit: "at most " + strconv.Itoa(mostHeavyItems)})
	}
	return w, nil
}

// idIn finds the id of an item that is wrong otherwise; nil if it has none.
func idIn(raw []byte) []byte {
	var known struct {
		ID *string `json:"id"`
	}
	// The plain decoder is content with members it does not know.
	if err := json.Unmarshal(raw, &known); err != nil || known.ID == nil || utf8.RuneCountInString(*known.ID) > mostID {
		return nil
	}
	id, err := json.Marshal(*known.ID)
	if err != nil {
		return nil
	}
	return id
}

// refuse writes the problem of an item, whose pointers then lead into the batch.
func (b *batching) refuse(p *piece, one *item, err error, encoder *json.Encoder) {
	problem := *asProblem(err)
	if problem.Status == http.StatusInternalServerError {
		b.desk.log.Error("failed", "id", b.instance, "error", err.Error())
	}
	b.desk.tally.refuse(&problem)
	b.desk.tally.items.WithLabelValues(statusClass(problem.Status)).Inc()
	problem.Instance = b.instance
	if one.number >= 0 {
		var moved *Problem
		if errors.As(pointedInto(&problem, "/items/"+strconv.Itoa(one.number)), &moved) {
			problem = *moved
		}
	}
	p.refused++
	one.head(&p.out, problem.Status)
	p.out.WriteString(`"problem":`)
	start := p.out.Len()
	if err := encoder.Encode(&problem); err != nil {
		p.out.Truncate(start)
		p.out.WriteString("{}\n")
	}
	p.out.Truncate(p.out.Len() - 1)
	p.out.WriteByte('}')
}

// pointedInto moves the pointers of a problem below a member.
func pointedInto(err error, member string) error {
	p := *asProblem(err)
	p.Errors = slices.Clone(p.Errors)
	for i := range p.Errors {
		p.Errors[i].Pointer = member + p.Errors[i].Pointer
	}
	return &p
}
