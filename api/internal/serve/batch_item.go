package serve

import (
	"bytes"
	"context"
	"encoding/json"
	"maps"
	"net/http"
	"runtime/debug"
	"slices"
	"strconv"
	"sync"
	"time"
	"unicode/utf8"

	json2 "github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"latewood/api/internal/decode"
	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
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
	problem            *refuse.Problem
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

// piece is some items of a batch and what was answered to them and is not sent yet.
type piece struct {
	number            int
	items             []item
	body              []byte // of a stream: the lines
	room              held   // for a long line
	out               bytes.Buffer
	bytes             int           // sent
	spent             time.Duration // by light items
	basis             []string
	answered, refused int
}

var pieces = sync.Pool{New: func() any { return new(piece) }}

func newPiece() *piece {
	p, ok := pieces.Get().(*piece)
	if !ok {
		p = new(piece)
	}
	return p
}

// free gives a piece back whose answers were handed on.
func (p *piece) free() {
	clear(p.items)
	p.items, p.body, p.basis = p.items[:0], p.body[:0], p.basis[:0]
	p.answered, p.refused, p.bytes, p.spent = 0, 0, 0, 0
	p.out.Reset()
	p.room.give()
	if p.out.Cap() <= 2*pieceText && cap(p.body) <= 2*pieceBytes {
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

// answer answers the items of the piece.
func (w *worker) answer(ctx context.Context) {
	defer w.standUp()
	encoder := wire.NewEncoder(&w.out)
	encoder.Brief = w.brief
	done := 0
	for i := range w.items {
		one := &w.items[i]
		start := w.out.Len()
		basis, err := w.answerOne(ctx, one, encoder)
		if err == nil {
			done++
			for _, id := range basis {
				if !slices.Contains(w.piece.basis, id) {
					w.piece.basis = append(w.piece.basis, id)
				}
			}
		} else {
			w.out.Truncate(min(start, w.out.Len()))
			w.refuse(one, err, encoder)
		}
		w.separate(one)
		if w.out.Len() >= pieceText && !w.flush() {
			return
		}
	}
	w.piece.answered += done
	w.desk.tally.items.WithLabelValues("2xx").Add(float64(done))
}

// separate ends an answer: with a line, or with what stands between two of a list.
func (w *worker) separate(one *item) {
	switch last := one.number+1 == w.total; {
	case w.lines || last:
		w.out.WriteString("\n")
	case (one.number+1)%pieceItems == 0:
		w.out.WriteString(",")
	default:
		w.out.WriteString(",\n")
	}
}

// timeOver is the problem of an item that was not begun in time.
func timeOver() *refuse.Problem {
	return refuse.New(http.StatusServiceUnavailable, "the time of this batch is over; send the item again")
}

// answerOne answers one item: {"id": ..., "status": 200, "answer": {...}}, in a
// stream with its line before. A fault in
// it is told as a problem of the item, as the service does for a request.
func (w *worker) answerOne(ctx context.Context, one *item, encoder *wire.Encoder) (basis []string, err error) {
	defer func() {
		if r := recover(); r != nil {
			w.desk.log.Error("panic", "id", w.instance, "panic", r, "stack", string(debug.Stack()))
			err = refuse.New(http.StatusInternalServerError, "")
		}
	}()
	if !w.lines && w.sentSoFar() > mostDocument {
		detail := "the answers of this batch hold more than " + strconv.Itoa(mostDocument) + " bytes; send this item in another, or take the answers as lines"
		return nil, refuse.Invalid(refuse.FieldError{Code: "too_much_work", Detail: detail, Limit: method.AtMost(mostDocument, "bytes")})
	}
	if err := w.sitDown(ctx); err != nil {
		return nil, err
	}
	asked, err := w.desk.workFor(one)
	if err != nil {
		return nil, err
	}
	if len(one.request) > decode.Small {
		return w.answerDear(ctx, one, asked, mostAnswer, encoder)
	}
	t, err := w.desk.read(asked, one.request)
	if err != nil {
		return nil, err
	}
	if ctx.Err() != nil {
		return nil, timeOver()
	}
	if bulk := t.bulk(); t.heavy() || bulk > smallText {
		return w.answerDear(ctx, one, asked, bulk, encoder)
	}
	answer, err := t.Run(ctx, w.desk.tables)
	if err != nil {
		return nil, err
	}
	w.desk.done(answer)
	return w.put(one, answer, encoder)
}

func (b *batching) sentSoFar() int64 {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.sent
}

// put writes an answer behind those before it.
func (w *worker) put(one *item, answer reply, encoder *wire.Encoder) (basis []string, err error) {
	one.head(&w.out, w.desk, http.StatusOK)
	w.out.WriteString(`"answer":`)
	if err := answer.encode(&w.out, encoder); err != nil {
		return nil, err
	}
	w.out.Truncate(w.out.Len() - 1) // the encoder ends with a line
	w.out.WriteByte('}')
	basis, _ = answer.notes()
	return basis, nil
}

// answerDear answers an item that is heavy, long or answered at length: when all before
// it has been sent, so that the batch holds one such answer at most, in a turn of its
// own, and with room for the answer taken beforehand.
func (w *worker) answerDear(ctx context.Context, one *item, work Work, bulk int, encoder *wire.Encoder) (basis []string, err error) {
	if !w.flush() {
		return nil, timeOver()
	}
	var room held
	defer room.give()
	text := int64(bulk)
	if text == 0 {
		text = work.Needs().Text
	}
	if text > smallText && !room.take(ctx, w.who.texts, min(text, mostAnswer), batchTime) {
		return nil, timeOver()
	}
	paid := 0.0
	if work.heavy() {
		if err := w.who.charge(HeavyCost-RequestCost, HeavyCost); err != nil {
			return nil, err
		}
		paid = HeavyCost - RequestCost
	}
	r := w.desk.turnFor(&w.who, work)
	r.Patient = true
	at, ctx, err := w.desk.takeTurn(ctx, r, work.Needs())
	if err != nil {
		return nil, timeOver()
	}
	defer func() {
		spent := at.leave()
		w.desk.worked(work, spent)
		if work.heavy() {
			w.who.settle(paid, priceOfWork(spent, 0))
		}
		if err == nil && !w.flush() {
			err = timeOver()
		}
	}()
	return w.inTurn(ctx, one, work, encoder)
}

// inTurn reads, computes and encodes an item.
func (w *worker) inTurn(ctx context.Context, one *item, work Work, encoder *wire.Encoder) (basis []string, err error) {
	t, err := w.desk.read(work, one.request)
	if err != nil {
		return nil, err
	}
	answer, err := w.desk.run(ctx, t, w.desk.mostSimulated)
	if err != nil {
		return nil, w.desk.usedUp(ctx, err, work.Needs())
	}
	if basis, err = w.put(one, answer, encoder); err == nil && w.out.Len() > mostAnswer {
		err = tooLongAnswer()
	}
	if err != nil {
		w.out.Reset() // it held nothing else
	}
	return basis, err
}

// NoRoute is what the answer to an item has in place of the path of a calculation where the
// item names none.
const NoRoute = "none"

// head writes the beginning of an answer.
func (one *item) head(out *bytes.Buffer, d *Desk, status int) {
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
	out.WriteString(`"route":"`)
	if _, known := d.works[string(one.route)]; known {
		out.Write(one.route)
	} else {
		out.WriteString(NoRoute)
	}
	out.WriteString(`","status":`)
	out.WriteString(strconv.Itoa(status))
	out.WriteByte(',')
}

// workFor finds the calculation an item asks for. The error is a *refuse.Problem.
func (d *Desk) workFor(one *item) (Work, error) {
	if one.problem != nil {
		return nil, one.problem
	}
	if one.odd {
		one.id = idIn(one.raw)
		asked, err := decode.Body[BatchItem](one.raw)
		if err != nil {
			one.route = nil // it is no question: what is wrong is pointed at from the item
			return nil, err
		}
		one.route, one.request = []byte(asked.Route), asked.Request
	}
	w := d.works[string(one.route)]
	switch {
	case w == nil:
		detail := "route is the path of a calculation other than a batch, such as /v1/movement; not " + wire.Quoted(string(one.route))
		return nil, refuse.Invalid(refuse.FieldError{Pointer: "/route", Code: "not_a_choice", Detail: detail, Limit: method.OneOf(slices.Sorted(maps.Keys(d.works))...)})
	case one.beyond:
		detail := "a batch holds at most " + strconv.Itoa(mostHeavyItems) + " items for routes that simulate or search; send this one in another, or in a stream"
		return nil, refuse.Invalid(refuse.FieldError{Code: "too_much_work", Detail: detail, Limit: method.AtMost(mostHeavyItems, "")})
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

// refuse writes the problem of an item. Its pointers lead from the request, as those of a
// problem of the route alone; those of an item that names no route from the item.
func (w *worker) refuse(one *item, err error, encoder *wire.Encoder) {
	problem := *asProblem(err)
	if problem.Status == http.StatusInternalServerError {
		w.desk.log.Error("failed", "id", w.instance, "error", err.Error())
	}
	w.desk.tally.refuse(&problem)
	w.desk.tally.items.WithLabelValues(statusClass(problem.Status)).Inc()
	problem.Instance = w.instance
	w.piece.refused++
	one.head(&w.out, w.desk, problem.Status)
	w.out.WriteString(`"problem":`)
	start := w.out.Len()
	if err := encoder.Encode(&problem); err != nil {
		w.out.Truncate(start)
		w.out.WriteString("{}\n")
	}
	w.out.Truncate(w.out.Len() - 1)
	w.out.WriteByte('}')
}
