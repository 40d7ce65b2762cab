package serve

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// Headers of requests about what is kept.
const (
	ifMatch        = "If-Match"
	ifNoneMatch    = "If-None-Match"
	idempotencyKey = "Idempotency-Key"
)

// noRack is the problem of a service that keeps nothing.
func noRack() *Problem {
	return NewProblem(http.StatusNotFound, "this service keeps no rack; whoever runs it starts it with: latewood serve --rack FILE")
}

// Nothing is the request of what is asked without a body.
type Nothing struct{}

// keeper answers what is asked of the rack, which is an R.
type keeper[R, Req, Res any] struct {
	role   Role
	await  func(ctx context.Context, rack R, sent *wire.Sent) error // nil: nothing is waited for
	answer func(ctx context.Context, rack R, t *shelf.Tables, sent *wire.Sent, req *Req) (Res, error)
}

// Keep makes the endpoint of something that is kept, for tokens with a role.
func Keep[R, Req, Res any](role Role, answer func(context.Context, R, *shelf.Tables, *wire.Sent, *Req) (Res, error)) Endpoint {
	return &keeper[R, Req, Res]{role: role, answer: answer}
}

// KeepAfter is Keep for what is worth waiting for: await waits, in no seat.
func KeepAfter[R, Res any](role Role, await func(context.Context, R, *wire.Sent) error, answer func(context.Context, R, *wire.Sent) (Res, error)) Endpoint {
	return &keeper[R, Nothing, Res]{role: role, await: await, answer: func(ctx context.Context, rack R, _ *shelf.Tables, sent *wire.Sent, _ *Nothing) (Res, error) {
		return answer(ctx, rack, sent)
	}}
}

// upload and patch are the requests of what is sent as a picture, or as changes of members of
// an E.
type (
	upload       struct{}
	patch[E any] struct{}
	patched      interface{ read(body []byte) error }
)

// read refuses changes that are not one object, or that name what an E has not; what comes of
// them is checked when they are merged.
func (patch[E]) read(body []byte) error { return wrongChanges[E](body) }

// MergePatch is the media type of changes of members (RFC 7396).
const MergePatch = "application/merge-patch+json"

// KeepUpload makes the endpoint of a picture that is sent.
func KeepUpload[R, Res any](role Role, answer func(context.Context, R, *shelf.Tables, *wire.Sent) (Res, error)) Endpoint {
	return &keeper[R, upload, Res]{role: role, answer: func(ctx context.Context, rack R, t *shelf.Tables, sent *wire.Sent, _ *upload) (Res, error) {
		return answer(ctx, rack, t, sent)
	}}
}

// KeepPatch makes the endpoint of changes of members.
func KeepPatch[E, R, Res any](role Role, answer func(context.Context, R, *shelf.Tables, *wire.Sent) (Res, error)) Endpoint {
	return &keeper[R, patch[E], Res]{role: role, answer: func(ctx context.Context, rack R, t *shelf.Tables, sent *wire.Sent, _ *patch[E]) (Res, error) {
		return answer(ctx, rack, t, sent)
	}}
}

func (k *keeper[R, Req, Res]) on(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		rack, is := d.rack.(R)
		if !is {
			passOver(c)
			return noRack()
		}
		sent, req, err := received[Req](c, k.role)
		if err != nil {
			return err
		}
		if k.await != nil {
			leaveSeat(c)
			if err := k.await(c.Request().Context(), rack, sent); err != nil {
				return d.rackFailed(c, rack, err)
			}
		}
		sit(c, d)
		result, err := k.answer(c.Request().Context(), rack, d.tables, sent, req)
		if err != nil {
			return d.rackFailed(c, rack, err)
		}
		return sendKept(c, result)
	}
}

// sit takes a light place for a request that was read.
func sit(c echo.Context, d *Desk) {
	if a := askedOf(c); a != nil && a.seat.of == nil {
		a.seat = d.seats.sit()
	}
}

// rackFailed tells what is refused as it is; all else is a failure that may pass.
func (d *Desk) rackFailed(c echo.Context, rack any, err error) error {
	if err := likes(c.Request().Context(), rack, err); err != nil {
		d.log.Error("the rack failed", "error", err.Error())
	}
	if p := asProblem(err); p.Status != http.StatusInternalServerError {
		return p
	}
	d.log.Error("the rack failed", "error", err.Error())
	p := NewProblem(http.StatusServiceUnavailable, "the rack did not answer; nothing was changed that was not told: send the request again, with the same Idempotency-Key")
	p.retryAfter = busyRetry
	return p
}

// likes adds to what is refused for an entry that is not there the ids that are spelled like its
// id, if the rack knows them.
func likes(ctx context.Context, rack any, err error) error {
	knows, is := rack.(interface {
		Alike(ctx context.Context, absent wire.Absent) ([]string, error)
	})
	var refused *wire.Refused
	if !is || !errors.As(err, &refused) || refused.Absent.ID == "" {
		return nil
	}
	ids, err := knows.Alike(ctx, refused.Absent)
	if len(ids) > 0 {
		refused.Limit = "one of " + strings.Join(ids, ", ")
	}
	return err
}

// received reads a request about what is kept, if its sender may ask it.
func received[Req any](c echo.Context, role Role) (*wire.Sent, *Req, error) {
	if err := mayKeep(c, role); err != nil {
		passOver(c)
		return nil, nil, err
	}
	sent, err := sentOf(c)
	if err != nil {
		return nil, nil, err
	}
	if _, none := any(Nothing{}).(Req); none {
		sent.Digest = digestOf(c, nil)
		return sent, new(Req), nil
	}
	if _, is := any(upload{}).(Req); is {
		if c.Request().ContentLength < 0 {
			return nil, nil, wrongHeader(http.StatusBadRequest, "Content-Length", "missing", "send the picture with Content-Length")
		}
		sent.Media = mediaOf(c)
		sent.Body, err = readWhole(c)
		return sent, new(Req), err
	}
	if changes, is := any(*new(Req)).(patched); is {
		return sent, new(Req), receivedPatch(c, sent, changes)
	}
	body, err := readBody(c)
	if err != nil {
		return nil, nil, err
	}
	req, err := decode[Req](body)
	if err != nil {
		return nil, nil, err
	}
	// What is kept outlives the buffer of the request.
	sent.Body, sent.Digest = bytes.Clone(bytes.TrimSpace(body)), digestOf(c, body)
	return sent, req, nil
}

// receivedPatch reads changes of members.
func receivedPatch(c echo.Context, sent *wire.Sent, changes patched) error {
	if media := mediaOf(c); media != MergePatch {
		c.Response().Header().Set("Accept-Patch", MergePatch)
		return wrongMedia("send the changes with Content-Type: "+MergePatch, MergePatch)
	}
	if err := inUTF8(c, MergePatch); err != nil {
		return err
	}
	body, err := readWhole(c)
	if err != nil {
		return err
	}
	if err := changes.read(body); err != nil {
		return err
	}
	sent.Body, sent.Digest = bytes.Clone(bytes.TrimSpace(body)), digestOf(c, body)
	return nil
}

// AsForm answers in one form, whatever the caller takes: what calendars fetch, for one, say
// nothing of.
func AsForm(form wire.Form, endpoint Endpoint) Endpoint {
	return Plain(func(d *Desk) echo.HandlerFunc {
		answer := endpoint.on(d)
		return func(c echo.Context) error {
			c.Set(chosenForm, &form)
			return answer(c)
		}
	})
}

// Reader reads and checks an object as a request of its type; what is wrong with it is told
// member by member.
func Reader[T any](body []byte) (*T, []*wire.Refused) {
	read, err := decode[T](body)
	if err == nil {
		return read, nil
	}
	p := asProblem(err)
	if len(p.Errors) == 0 {
		return nil, []*wire.Refused{{Why: wire.Wrong, Detail: p.Detail}}
	}
	wrong := make([]*wire.Refused, 0, len(p.Errors))
	for i := range p.Errors {
		wrong = append(wrong, &wire.Refused{Why: wire.Wrong, Pointer: p.Errors[i].Pointer, Code: p.Errors[i].Code, Detail: p.Errors[i].Detail})
	}
	return nil, wrong
}

// ReadAs reads and checks an object as a request of its type; the error is a problem that tells
// all that is wrong with it.
func ReadAs[T any](body []byte) (*T, error) { return decode[T](body) }

// digestOf is the digest of all that makes a request what it is.
func digestOf(c echo.Context, body []byte) [32]byte {
	sum := sha256.New()
	for _, part := range []string{c.Request().Method, c.Request().URL.Path, c.Request().Header.Get(ifMatch)} {
		_, _ = sum.Write([]byte(part + "\x00"))
	}
	_, _ = sum.Write(body)
	return [32]byte(sum.Sum(nil))
}

// noOrigin lets no page of another origin write, also none that may ask.
var noOrigin = http.NewCrossOriginProtection()

// mayKeep says why a request may not ask this of what is kept; nil if it may.
func mayKeep(c echo.Context, role Role) error {
	if noOrigin.Check(c.Request()) != nil {
		return NewProblem(http.StatusForbidden, "pages of other origins may not write here, whatever else they may ask")
	}
	if a := askedOf(c); a != nil && !a.role.may(role) {
		return NewProblem(http.StatusForbidden, "this token may only "+string(a.role)+"; this needs one with the role "+string(role))
	}
	return nil
}

// sentOf is what comes with a request besides its body.
func sentOf(c echo.Context) (*wire.Sent, error) {
	s := &wire.Sent{ID: pathWord(c, "id"), Base: c.Scheme() + "://" + c.Request().Host, Asked: map[string]string{}}
	if a := askedOf(c); a != nil {
		s.By = a.key
	}
	for tag := range strings.SplitSeq(c.Request().Header.Get(ifMatch), ",") {
		if tag = strings.TrimSpace(tag); tag != "" {
			s.Seen = append(s.Seen, strings.TrimSuffix(strings.TrimSuffix(tag, tagEnd), `"`)+endOf(tag))
		}
	}
	if len(s.Seen) > 1 && slices.Contains(s.Seen, "*") {
		detail := ifMatch + " is * alone, or one or more ETags"
		return nil, wrongHeader(http.StatusBadRequest, ifMatch, "invalid_format", detail)
	}
	s.New = strings.TrimSpace(c.Request().Header.Get(ifNoneMatch)) == "*"
	if s.Key = c.Request().Header.Get(idempotencyKey); s.Key != "" {
		s.Key = strings.Trim(s.Key, `"`)
		if !wire.ID.MatchString(s.Key) {
			detail := idempotencyKey + " is 1 to 64 letters, digits, dots, hyphens and underscores, a letter or a digit first"
			return nil, wrongHeader(http.StatusBadRequest, idempotencyKey, "invalid_format", detail)
		}
	}
	query, err := parseQuery(c)
	if err != nil {
		return nil, err
	}
	for name := range query {
		s.Asked[name] = query.Get(name)
	}
	if s.Limit, err = wholeNumber(c, Paging[0]); err != nil {
		return nil, err
	}
	as := formOf(c)
	s.Sheet = as != nil && *as == wire.TableForm && s.Asked[Paging[0].Name] == ""
	s.Offset, err = wholeNumber(c, Paging[1])
	return s, err
}

// endOf ends a tag that is quoted.
func endOf(tag string) string {
	if strings.HasSuffix(tag, `"`) {
		return `"`
	}
	return ""
}

// sendKept sends what is kept, which nobody between here and the caller keeps.
func sendKept(c echo.Context, result any) error {
	if b, is := result.(*wire.Bytes); is {
		return sendBytes(c, b)
	}
	if as := formOf(c); as != nil {
		shown, is := result.(wire.Rendered)
		if !is {
			return NewProblem(http.StatusInternalServerError, "")
		}
		text, err := rendered(c, shown, as)
		if err != nil {
			return err
		}
		linkNext(c, result)
		if *as == wire.PageForm {
			c.Response().Header().Set("Content-Security-Policy", wire.PaperPolicy)
		}
		return sendKeptAs(c, result, as.Sent(), text)
	}
	return wire.EncodeJSON(result, func(text []byte) error { return sendKeptAs(c, result, echo.MIMEApplicationJSON, text) })
}

// linkNext tells where what does not fit into a sheet goes on (RFC 8288).
func linkNext(c echo.Context, result any) {
	page, is := result.(interface{ Next() int })
	if !is || page.Next() == 0 {
		return
	}
	next := *c.Request().URL
	query := next.Query()
	query.Set(Paging[1].Name, strconv.Itoa(page.Next()))
	next.RawQuery = query.Encode()
	c.Response().Header().Add("Link", "<"+next.RequestURI()+`>; rel="next"`)
}

// sendBytes sends what is no text, as it is.
func sendBytes(c echo.Context, b *wire.Bytes) error {
	header := c.Response().Header()
	header.Set("Cache-Control", "private, no-cache")
	header.Set("ETag", b.ETag)
	if have := c.Request().Header.Get(ifNoneMatch); have != "" && matches(have, b.ETag) {
		return c.NoContent(http.StatusNotModified)
	}
	if a := askedOf(c); a != nil {
		if err := a.hold(len(b.Body)); err != nil {
			return err
		}
	}
	return sendRaw(c, b.Media, b.Body)
}

// sendKeptAs sends what is kept in one of its forms.
func sendKeptAs(c echo.Context, result any, media string, text []byte) error {
	header := c.Response().Header()
	header.Set("Cache-Control", "private, no-cache")
	tag, only := "", c.Request().Method == http.MethodGet || c.Request().Method == http.MethodHead
	if tagged, is := result.(wire.Tagged); is {
		tag = tagged.Tag()
	} else if only {
		tag = tagOf(text)
	}
	if tag != "" {
		header.Set("ETag", tagFor(c, tag, len(text)))
	}
	have := c.Request().Header.Get("If-None-Match")
	if only && have != "" && (matches(have, tag) || matches(have, strings.TrimSuffix(tag, `"`)+tagEnd)) {
		return c.NoContent(http.StatusNotModified)
	}
	return sendWhole(c, media, text)
}

// refusedProblem is the problem of what is refused.
func refusedProblem(r *wire.Refused) *Problem {
	status := map[wire.RefusedFor]int{wire.NotThere: http.StatusNotFound, wire.Conflict: http.StatusConflict,
		wire.Changed: http.StatusPreconditionFailed, wire.Unseen: http.StatusPreconditionRequired,
		wire.Wrong: http.StatusUnprocessableEntity, wire.Unfit: http.StatusUnsupportedMediaType, wire.Unread: http.StatusBadRequest, wire.NoRoom: http.StatusConflict}[r.Why]
	var fields []FieldError
	if r.Code != "" {
		fields = []FieldError{{Pointer: r.Pointer, Parameter: r.Parameter, Code: r.Code, Detail: r.Detail, Limit: limitOf(r.Limit)}}
	}
	p := NewProblem(status, r.Detail, fields...)
	if status == http.StatusUnsupportedMediaType && len(fields) > 0 && fields[0].Limit != nil {
		p.Offers = fields[0].Limit.Choices
	}
	return p
}

// asker makes the request of a calculation of what is kept, and lets it be answered.
type asker[R, Req any] struct {
	work Work
	ask  func(ctx context.Context, rack R, sent *wire.Sent, req *Req) ([]byte, error)
}

// AskOf answers a calculation about something that is kept: ask makes the request for w.
func AskOf[R, Req any](w Work, ask func(context.Context, R, *wire.Sent, *Req) ([]byte, error)) Endpoint {
	return &asker[R, Req]{w, ask}
}

func (k *asker[R, Req]) on(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		rack, is := d.rack.(R)
		if !is {
			passOver(c)
			return noRack()
		}
		needs, err := d.needsOf(c, k.work)
		if err != nil {
			return err
		}
		sent, req, err := received[Req](c, Read)
		if err != nil {
			return err
		}
		body, err := k.ask(c.Request().Context(), rack, sent, req)
		if err != nil {
			return d.rackFailed(c, rack, err)
		}
		if len(body) > smallBody {
			return d.answerInTurn(c, askedOf(c), k.work, body, needs)
		}
		return d.answerRead(c, askedOf(c), k.work, body, needs)
	}
}

// seenHeader names the version that a change is of.
var seenHeader = Header{Name: ifMatch, Pattern: `^(\*|"[0-9a-f]{24}")$`, Required: true,
	Description: "ETag of the version that you saw, or * for any: an entry that was changed since is left as it is"}

// KeptHeaders are the headers that a request about what is kept may have, for the
// contract.
func KeptHeaders(r *Route) []Header {
	if !r.Keeps || r.Method == http.MethodGet || r.Heavy { // only asked
		return nil
	}
	if r.Once {
		return []Header{seenHeader}
	}
	if r.Uploads() {
		return []Header{
			{Name: ifMatch, Pattern: `^(\*|"[0-9a-f]{24}")$`, Description: "ETag of the picture that you saw, or * for any that is there. Give this or If-None-Match"},
			{Name: ifNoneMatch, Pattern: `^\*$`, Description: "* where you saw none"},
		}
	}
	all := []Header{{Name: idempotencyKey, Pattern: `^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$`,
		Description: "made by you for this request before you send it. Sent again with the same key, the request gives the saved answer and changes nothing; with another body it is refused"}}
	if strings.Contains(r.Path, ":id") {
		all = append(all, seenHeader)
	}
	return all
}

// Header is a header of a request.
type Header struct {
	Name, Pattern, Description string
	Required                   bool
}
