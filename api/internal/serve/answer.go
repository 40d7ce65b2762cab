package serve

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/decode"
	"latewood/api/internal/refuse"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Answer is the envelope of every successful calculation.
type Answer[T any] struct {
	Result      T                `json:"result" required:"true" description:"the answer of the route"`
	Basis       []string         `json:"basis" required:"true" nullable:"false" description:"ids of the methods the answer rests on; GET /v1/methods explains them"`
	Warnings    []method.Warning `json:"warnings" required:"true" nullable:"false" description:"what to know before trusting the answer"`
	DataVersion string           `json:"data_version" required:"true" description:"version of the embedded tables"`
}

// calculation is the body of a route that answers a request: one function from
// the request to the result and what it rests on.
type calculation[Req, Res any] func(ctx context.Context, t *shelf.Tables, req *Req) (Res, method.Notes, error)

func (a *Answer[T]) bare() any                           { return a.Result }
func (a *Answer[T]) notes() ([]string, []method.Warning) { return a.Basis, a.Warnings }

// worded is a result that begins with its wood, whose text may be known beforehand.
type worded interface{ UsedWood() *shelf.WoodUsed }

// encode writes what the encoder would, and a line end. The description of a wood of the
// tables, half of a short answer and always the same, is copied and not encoded
// again.
func (a *Answer[T]) encode(out *bytes.Buffer, encoder *wire.Encoder) error {
	result, ok := any(&a.Result).(worded)
	if !ok || encoder.Brief || result.UsedWood().Encoded() == nil {
		return encoder.Encode(a)
	}
	wood := result.UsedWood()
	keep := *wood
	*wood = shelf.WoodUsed{} // and so left out
	defer func() { *wood = keep }()
	out.WriteString(`{"result":{"wood":`)
	out.Write(keep.Encoded())
	if err := encodeMore(out, encoder, &a.Result); err != nil {
		return err
	}
	rest := struct {
		Basis       []string         `json:"basis"`
		Warnings    []method.Warning `json:"warnings"`
		DataVersion string           `json:"data_version"`
	}{a.Basis, a.Warnings, a.DataVersion}
	if err := encodeMore(out, encoder, &rest); err != nil {
		return err
	}
	out.WriteByte('\n')
	return nil
}

// encodeMore continues an object with the members of v, and ends it.
func encodeMore(out *bytes.Buffer, encoder *wire.Encoder, v any) error {
	start := out.Len()
	if err := encoder.Encode(v); err != nil {
		return err
	}
	out.Bytes()[start] = ','
	out.Truncate(out.Len() - 1)
	return nil
}

// calculator is the work of one calculation.
type calculator[Req, Res any] struct {
	compute calculation[Req, Res]
	turns   bool
	needs   Needs
}

// Calculate makes the endpoint of a calculation: decode, validate, one call,
// encode.
func Calculate[Req, Res any](compute calculation[Req, Res]) Work {
	return &calculator[Req, Res]{compute: compute, needs: lightNeeds}
}

// light is a request to a heavy route that may ask for little.
type light interface {
	// light reports that nothing is simulated for this request.
	Light() bool
}

// bulky is a request whose answer may be long.
type bulky interface {
	// Bulk is how many bytes its answer holds at most.
	Bulk() int
}

// InTurn makes a calculation wait for its turn among the heavy ones, and says what the
// dearest request of it needs. A request that is wrong is answered before that, and one
// that is light at once.
func InTurn[Req, Res any](compute calculation[Req, Res], needs Needs) Work {
	return &calculator[Req, Res]{compute: compute, turns: true, needs: needs}
}

func (w *calculator[Req, Res]) heavy() bool { return w.turns }

// Types are those of the calculation.
func (w *calculator[Req, Res]) Types() (request, reply any, heavy bool) {
	return *new(Req), Answer[Res]{}, w.turns
}

// Needs are those of the dearest request.
func (w *calculator[Req, Res]) Needs() Needs { return w.needs }

func (w *calculator[Req, Res]) Read(body []byte) (task, error) {
	request, err := decode.Body[Req](body, readDays)
	if err != nil {
		return nil, err
	}
	return question[Req, Res]{w, request}, nil
}

func (w *calculator[Req, Res]) on(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error { return d.answer(c, w) }
}

// question is a request with the calculation that answers it.
type question[Req, Res any] struct {
	work    *calculator[Req, Res]
	request *Req
}

func (q question[Req, Res]) heavy() bool {
	l, ok := any(q.request).(light)
	return q.work.turns && (!ok || !l.Light())
}

func (q question[Req, Res]) bulk() int {
	if b, ok := any(q.request).(bulky); ok {
		return b.Bulk()
	}
	return 0
}

func (q question[Req, Res]) Run(ctx context.Context, t *shelf.Tables) (reply, error) {
	result, notes, err := q.work.compute(ctx, t, q.request)
	if err != nil {
		return nil, err
	}
	notes.Warnings = alike(pointed(q.request, inUnitsOf(q.request, notes.Warnings)))
	return envelope(t, result, notes), nil
}

func envelope[T any](t *shelf.Tables, result T, notes method.Notes) *Answer[T] {
	a := &Answer[T]{Result: result, Basis: notes.Basis, Warnings: notes.Warnings, DataVersion: t.Version}
	if a.Basis == nil {
		a.Basis = []string{}
	}
	if a.Warnings == nil {
		a.Warnings = []method.Warning{}
	}
	return a
}

func writeJSON(c echo.Context, v any) error {
	return wire.EncodeJSON(v, func(text []byte) error { return sendAnswer(c, echo.MIMEApplicationJSON, text) })
}

// writeTable sends a look-up with a strong ETag of its bytes and answers 304
// to a caller who has them.
func writeTable(c echo.Context, v any) error {
	return wire.EncodeJSON(v, func(text []byte) error { return sendTable(c, echo.MIMEApplicationJSON, text) })
}

// tagOf is a strong entity tag of the bytes (RFC 9110, 8.8.3).
func tagOf(text []byte) string {
	sum := sha256.Sum256(text)
	return `"` + hex.EncodeToString(sum[:12]) + `"`
}

const taggedAnswer = "latewood.tagged"

// Tagged makes a calculation send a strong ETag of its answer, by which a shop
// tool sees whether the figures it holds are still those. Whoever names the tag in
// If-None-Match is told 412 if they are, as every method but GET and HEAD tells it
// (RFC 9110, 13.1.2).
func Tagged(w Work) Work { return TaggedWork{w} }

// TaggedWork is a calculation whose answer carries an ETag.
type TaggedWork struct{ Work }

func (w TaggedWork) on(d *Desk) echo.HandlerFunc {
	answer := w.Work.on(d)
	return func(c echo.Context) error {
		c.Set(taggedAnswer, true)
		return answer(c)
	}
}

// sendAnswer sends the answer of a calculation.
func sendAnswer(c echo.Context, media string, text []byte) error {
	switch {
	case isQuery(c):
		if tagQuestion(c, len(text)) {
			return notModifiedReply(c)
		}
	case c.Get(taggedAnswer) != nil:
		tag := tagOf(text)
		if holds(c, tag) {
			return refuse.Header(http.StatusPreconditionFailed, ifNoneMatch, "conflict", "the answer is still the one that If-None-Match names: "+tag)
		}
		c.Response().Header().Set("ETag", tagFor(c, tag, len(text)))
	}
	return sendWhole(c, media, text)
}

// sendWhole sends an answer with its length, which is known, so that it does not
// go out in chunks. The seat of the request is free from then on: a caller who takes
// the answer slowly holds its bytes and nothing else.
func sendWhole(c echo.Context, media string, text []byte) error {
	if a := askedOf(c); a != nil {
		if err := a.hold(cap(text)); err != nil {
			return err
		}
	}
	return withZip(c, text, func(text []byte) error { return sendRaw(c, media, text) })
}

// sendRaw sends bytes with their length.
func sendRaw(c echo.Context, media string, text []byte) error {
	leaveSeat(c)
	c.Response().Header()["Content-Length"] = []string{strconv.Itoa(len(text))}
	return c.Blob(http.StatusOK, media, text)
}

// hold takes room for an answer on its way. The error is a *refuse.Problem.
func (a *asked) hold(bytes int) error {
	room := a.who.texts
	switch {
	case bytes <= freeText || a.text.bytes >= int64(bytes):
		return nil
	case bytes <= smallText:
		room = a.who.small.texts
	}
	if !a.text.try(room, int64(bytes)) {
		return noRoom("as many answers as fit are on their way")
	}
	return nil
}

// noRoom is the problem of a request for which there is no memory.
func noRoom(detail string) *refuse.Problem {
	p := refuse.New(http.StatusServiceUnavailable, detail+"; come back in a few seconds")
	p.RetryAfter = busyRetry
	return p
}

func sendTable(c echo.Context, media string, text []byte) error {
	if notModified(c, tagOf(text), len(text)) {
		return c.NoContent(http.StatusNotModified)
	}
	return sendWhole(c, media, text)
}

// notModified sets the headers of a look-up of so many bytes, and reports whether the
// caller has it already, compressed or not.
func notModified(c echo.Context, tag string, length int) bool {
	header := c.Response().Header()
	header.Set("ETag", tagFor(c, tag, length))
	header.Set("Cache-Control", keptBy(c))
	return holds(c, tag)
}

// holds reports whether a caller has the answer with that tag, compressed or not.
func holds(c echo.Context, tag string) bool {
	have := c.Request().Header.Get("If-None-Match")
	return have != "" && (matches(have, tag) || matches(have, strings.TrimSuffix(tag, `"`)+tagEnd))
}

// keptBy says who may keep a table: everyone between here and the caller, but the
// caller alone if it had to show a token (RFC 9111, 3.5).
func keptBy(c echo.Context) string {
	if c.Request().Header.Get(echo.HeaderAuthorization) != "" {
		return "private, max-age=3600"
	}
	return "public, max-age=3600"
}

// matches reports whether an If-None-Match header names the tag (RFC 9110,
// 13.1.2: weak comparison).
func matches(header, tag string) bool {
	for candidate := range strings.SplitSeq(header, ",") {
		candidate = strings.TrimPrefix(strings.TrimSpace(candidate), "W/")
		if candidate == "*" || candidate == tag {
			return true
		}
	}
	return false
}
