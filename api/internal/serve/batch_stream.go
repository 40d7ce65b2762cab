package serve

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"io"
	"net/http"
	"os"
	"strings"
	"time"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/labstack/echo/v4"

	"latewood/api/internal/ledger"
	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Limits of streams. Own choice.
const (
	mostStreams    = 16               // at a time
	mostOwnStreams = 8                // of one caller
	mostLine       = HeavyBody        // bytes of one line
	streamTime     = 10 * time.Minute // of one stream
	streamPause    = 15 * time.Second // without a byte, either way
	pieceBytes     = 64 << 10         // lines read ahead for one piece
)

// isLines reports whether the body of a request is one JSON value on each line.
func isLines(request *http.Request) bool {
	media, _, _ := strings.Cut(request.Header.Get(echo.HeaderContentType), ";")
	return strings.EqualFold(strings.TrimSpace(media), LinesForm.Media)
}

// wantsDocument reports whether the caller of a request wants one JSON document, and not
// lines, which come first if both will do.
func wantsDocument(c echo.Context) bool {
	if as := c.QueryParam("as"); as != "" {
		return as == wire.JSONName
	}
	return choose(c.Request().Header.Get(echo.HeaderAccept), []string{LinesForm.Media, echo.MIMEApplicationJSON}) == echo.MIMEApplicationJSON
}

// itemsOfLines finds the items of a body of lines that is answered with one document.
func (d *Desk) itemsOfLines(body []byte) ([]item, error) {
	var items []item
	var dec jsontext.Decoder
	for line := range bytes.Lines(body) {
		if line = bytes.Trim(line, " \t\r\n"); len(line) == 0 {
			continue
		}
		if len(items) == mostItems {
			limit := method.AtMost(mostItems, "entries")
			return nil, refuse.Invalid(refuse.FieldError{Code: "out_of_range", Detail: "one document answers " + limit.String() + "; take the answers as lines", Limit: limit})
		}
		one := itemOfLine(&dec, line)
		one.number = len(items)
		items = append(items, one)
	}
	if len(items) == 0 {
		return nil, refuse.NoBody("an item on each line")
	}
	return items, d.checkItems(items)
}

// itemOfLine reads a line that is not blank.
func itemOfLine(dec *jsontext.Decoder, line []byte) item {
	dec.Reset(bytes.NewBuffer(line), lenient)
	one, err := readItem(dec, line)
	if err != nil || len(line) != len(one.raw) {
		return item{raw: line, odd: true}
	}
	return one
}

// stream answers items as they come, a line each, until the caller ends the
// body. Memory is bounded: a few pieces are under way at a time, and no more is
// read before the first of them is sent.
func (d *Desk) stream(c echo.Context) error {
	who := askedOf(c).who
	if giveBack := d.takeStream(who.party); giveBack != nil {
		defer giveBack()
	} else {
		return refuseStream(c, "as many streams as fit are under way, or as many of yours")
	}
	n := workers(mostItems)
	var room held
	defer room.give()
	if !room.take(c.Request().Context(), d.stores.batches, roomFor(n)+2*pieceBytes, bytesPatience) {
		return refuseStream(c, "as many streams as fit are under way")
	}
	// Only now that nothing refuses it any more: a connection that reads and writes at
	// once cannot be used again after a refusal that leaves the body unread.
	control := http.NewResponseController(c.Response().Writer)
	_ = control.EnableFullDuplex() // HTTP/1 else reads on before it replies; elsewhere there is no need
	ctx, cancel := context.WithTimeout(c.Request().Context(), streamTime)
	defer cancel()
	l := &lineReader{desk: d, control: control, body: c.Request().Body, room: who.bodies}
	l.lines = bufio.NewReaderSize(l, pieceBytes)
	// What wakes a read that waits: the end of the service, or of the time.
	defer context.AfterFunc(d.stopping, l.wake)()
	defer context.AfterFunc(ctx, l.wake)()
	return d.answerLines(ctx, c, l, n)
}

// refuseStream is the problem of a stream for which there is no room.
func refuseStream(c echo.Context, detail string) *refuse.Problem {
	if c.Request().ContentLength < 0 {
		// A body without an end is not waited for; nobody can ask again behind it.
		c.Response().Header().Set("Connection", "close")
	}
	return noRoom(detail)
}

// takeStream counts a stream of a party; nil if there are too many.
func (d *Desk) takeStream(who *party) (giveBack func()) {
	if who.streams.Add(1) > mostOwnStreams {
		who.streams.Add(-1)
		return nil
	}
	if d.streams.Add(1) > mostStreams {
		who.streams.Add(-1)
		d.streams.Add(-1)
		return nil
	}
	return func() {
		who.streams.Add(-1)
		d.streams.Add(-1)
	}
}

// answerLines sends the answers one line after the other, as they come.
func (d *Desk) answerLines(ctx context.Context, c echo.Context, from *lineReader, workers int) error {
	out := newOutlet(c, time.Now().Add(streamTime+streamPause))
	out.begin(LinesForm.Media)
	if out.flush() != nil {
		return nil //nolint:nilerr // the caller is gone and cannot be told
	}
	b := d.newBatch(c)
	b.lines, b.send, b.abort = true, out.sendLines, from.wake
	b.next = func() *piece { return from.next(ctx, &b.who) }
	if b.run(ctx, workers) != nil {
		return nil //nolint:nilerr // the caller is gone and cannot be told
	}
	_ = out.control.SetWriteDeadline(time.Now().Add(streamPause)) // for the end
	if end := from.ending(ctx); end != nil {
		d.tally.refuse(end)
		end.Instance = b.instance
		_ = wire.EncodeJSON(BatchAnswer{Route: NoRoute, Status: end.Status, Problem: end, End: true}, out.write)
	}
	return nil
}

// lineReader cuts a body into pieces of whole lines.
type lineReader struct {
	desk    *Desk
	control *http.ResponseController
	body    io.Reader
	lines   *bufio.Reader
	decoder jsontext.Decoder
	room    *ledger.Account // for long lines
	line    int             // number of the last line read
	owed    int             // items not yet paid for
	failed  error           // why the reading ended; nil at the end of the body
}

// Read reads the body and gives the caller a while for each part of it.
func (l *lineReader) Read(p []byte) (int, error) {
	_ = l.control.SetReadDeadline(time.Now().Add(streamPause)) // outside a server there are none
	if l.desk.stopping.Err() != nil {
		return 0, os.ErrDeadlineExceeded
	}
	return l.body.Read(p)
}

// wake ends a read that waits.
func (l *lineReader) wake() { _ = l.control.SetReadDeadline(time.Unix(1, 0)) }

// next is the next piece: the lines that are there, up to a number, or the next
// that comes.
func (l *lineReader) next(ctx context.Context, who *caller) *piece {
	if l.failed != nil || ctx.Err() != nil {
		return nil
	}
	p := newPiece()
	for len(p.items) == 0 || len(p.items) < pieceItems && len(p.body) < pieceBytes && l.ready() {
		one, ok := l.item(ctx, p)
		if !ok {
			break
		}
		if one.raw == nil && one.problem == nil {
			continue // a blank line
		}
		p.items = append(p.items, one)
		if w := l.desk.works[string(one.route)]; w != nil && w.heavy() {
			break // its answer is not kept waiting for that of others
		}
	}
	if len(p.items) == 0 {
		p.free()
		return nil
	}
	l.owed += len(p.items)
	if err := who.wait(ctx, l.owed/itemsPerUnit); err != nil {
		l.failed = err
	}
	l.owed %= itemsPerUnit
	return p
}

// ready reports whether a whole line is there already.
func (l *lineReader) ready() bool {
	there, err := l.lines.Peek(l.lines.Buffered())
	return err == nil && bytes.IndexByte(there, '\n') >= 0
}

// item reads one line. Its text is kept in the piece, which may move: so the
// parts of an item point into a copy that stays when the piece grows.
func (l *lineReader) item(ctx context.Context, p *piece) (one item, ok bool) {
	start := len(p.body)
	tooLong := false
	l.line++
	for {
		part, err := l.lines.ReadSlice('\n')
		if len(p.body)-start+len(part) > mostLine+1 {
			tooLong = true
			p.body = p.body[:start]
		}
		if !tooLong && len(p.body)+len(part) > pieceBytes && p.room.bytes == 0 && !p.room.take(ctx, l.room, 2*mostLine, streamTime) {
			l.failed = ctx.Err()
			return one, false
		}
		if !tooLong {
			p.body = append(p.body, part...)
		}
		if err == nil {
			break
		}
		if errors.Is(err, bufio.ErrBufferFull) {
			continue
		}
		l.failed = err
		if !errors.Is(err, io.EOF) || len(p.body) == start && !tooLong {
			return one, false // a line that breaks off is not one
		}
		break
	}
	if tooLong {
		return item{number: -1, line: l.line, problem: refuse.TooLarge("a line", HeavyBody)}, true
	}
	line := bytes.Trim(p.body[start:], " \t\r\n")
	if len(line) == 0 {
		return item{}, true
	}
	one = itemOfLine(&l.decoder, line)
	one.number, one.line = -1, l.line
	return one, true
}

// ending is the problem that ended a stream before its caller did; nil if none.
func (l *lineReader) ending(ctx context.Context) *refuse.Problem {
	switch {
	case l.desk.stopping.Err() != nil && !errors.Is(l.failed, io.EOF):
		p := refuse.New(http.StatusServiceUnavailable, "the service is stopping; send the lines after the last answer elsewhere or again")
		return p
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return refuse.New(http.StatusServiceUnavailable, "the time of this stream is over; send the lines after the last answer in a new one")
	case errors.Is(l.failed, os.ErrDeadlineExceeded):
		return refuse.New(http.StatusRequestTimeout, "no line came for too long")
	case l.failed == nil || errors.Is(l.failed, io.EOF):
		return nil
	}
	return unfinished(l.failed)
}
