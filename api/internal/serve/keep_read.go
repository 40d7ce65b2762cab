package serve

import (
	"bytes"
	"crypto/sha256"
	"net/http"
	"regexp"
	"slices"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/decode"
	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
)

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
			return nil, nil, refuse.Header(http.StatusBadRequest, "Content-Length", "missing", "send the picture with Content-Length")
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
	req, err := decode.Body[Req](body)
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
		return refuse.Media("send the changes with Content-Type: "+MergePatch, MergePatch)
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

// Reader reads and checks an object as a request of its type; what is wrong with it is told
// member by member.
func Reader[T any](body []byte) (*T, []*wire.Refused) {
	read, err := decode.Body[T](body)
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
func ReadAs[T any](body []byte) (*T, error) { return decode.Body[T](body) }

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
		return refuse.New(http.StatusForbidden, "pages of other origins may not write here, whatever else they may ask")
	}
	if a := askedOf(c); a != nil && !a.role.may(role) {
		return refuse.New(http.StatusForbidden, "this token may only "+string(a.role)+"; this needs one with the role "+string(role))
	}
	return nil
}

// entityTag is what If-Match holds (RFC 9110, section 8.8.3).
var entityTag = regexp.MustCompile(`^(\*|(W/)?"[\x21\x23-\x7e\x80-\xff]*")$`)

// sentOf is what comes with a request besides its body.
func sentOf(c echo.Context) (*wire.Sent, error) {
	s := &wire.Sent{ID: pathWord(c, "id"), Base: c.Scheme() + "://" + c.Request().Host, Asked: map[string]string{}}
	if a := askedOf(c); a != nil {
		s.By = a.key
	}
	for tag := range strings.SplitSeq(c.Request().Header.Get(ifMatch), ",") {
		if tag = strings.TrimSpace(tag); tag != "" {
			if !entityTag.MatchString(tag) {
				detail := ifMatch + " is *, or ETags as they were sent, each in its quotes"
				return nil, refuse.Header(http.StatusBadRequest, ifMatch, "invalid_format", detail)
			}
			s.Seen = append(s.Seen, strings.TrimSuffix(strings.TrimSuffix(tag, tagEnd), `"`)+endOf(tag))
		}
	}
	if len(s.Seen) > 1 && slices.Contains(s.Seen, "*") {
		detail := ifMatch + " is * alone, or one or more ETags"
		return nil, refuse.Header(http.StatusBadRequest, ifMatch, "invalid_format", detail)
	}
	s.New = strings.TrimSpace(c.Request().Header.Get(ifNoneMatch)) == "*"
	if s.Key = c.Request().Header.Get(idempotencyKey); s.Key != "" {
		s.Key = strings.Trim(s.Key, `"`)
		if !wire.ID.MatchString(s.Key) {
			limit := wire.IDLimit()
			return nil, badParameter(idempotencyKey, "invalid_format", idempotencyKey+" is "+limit.String(), limit)
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
