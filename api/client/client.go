// Package client asks the service. Its types and methods are generated from the contract;
// this file and its neighbours hold what a generator says clumsily. It needs nothing but the
// standard library.
package client

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Client asks one service. It is safe for concurrent use.
type Client struct {
	base     string
	defaults []Option
}

// New is a client of the service at a base URL, such as http://127.0.0.1:8080. The options
// hold for each of its calls.
func New(base string, options ...Option) *Client {
	return &Client{strings.TrimRight(base, "/"), options}
}

// Option changes one call, or all calls of a client.
type Option func(*call)

type call struct {
	http    *http.Client
	header  http.Header
	query   url.Values
	retries int
	method  string // of calculations
}

// Token shows the token that the service asks for.
func Token(token string) Option { return Header("Authorization", "Bearer "+token) }

// Header sends a header, such as X-Request-Id or traceparent.
func Header(name, value string) Option { return func(c *call) { c.header.Set(name, value) } }

// With sends a query parameter, such as detail, work_seconds or those of a look-up.
func With(name, value string) Option { return func(c *call) { c.query.Set(name, value) } }

// Retries says how often a call is asked again (usually 2).
func Retries(n int) Option { return func(c *call) { c.retries = n } }

// Through sends calls through an HTTP client of your own.
func Through(h *http.Client) Option { return func(c *call) { c.http = h } }

// ByQuery asks calculations, and streams of them, with QUERY, which all between here and the
// service may know to be safe to repeat.
func ByQuery() Option { return func(c *call) { c.method = "QUERY" } }

// Tagged is ByQuery for an answer with a Tag. With the tag of an answer that you hold the
// error is ErrHeld while it is still right; "" where you hold none.
func Tagged(tag string) Option {
	return func(c *call) {
		c.method = "QUERY"
		if tag != "" {
			c.header.Set("If-None-Match", tag)
		}
	}
}

// ErrHeld says that the answer is the one whose tag was sent.
var ErrHeld = errors.New("the answer is the one you hold")

// String is the amount as people write it.
func (q Amount) String() string { return cmp.Or(q.text, fmt.Sprint(q.Value)+" "+q.Unit) }

// String is the band as people write it: -3.5 mm (-5 to -2.2).
func (b Band) String() string { return fmt.Sprintf("%v %s (%v to %v)", b.Value, b.Unit, b.Low, b.High) }

// Answer is what every calculation answers.
type Answer[T any] struct {
	Result      T         `json:"result"`
	Basis       []string  `json:"basis"`        // ids of the methods it rests on
	Warnings    []Warning `json:"warnings"`     // what to know before trusting it
	DataVersion string    `json:"data_version"` // of the tables

	Tag string          `json:"-"` // where it was asked for with Tagged
	Raw json.RawMessage `json:"-"` // as it came, with members that this client does not know
}

// Error makes a problem an error: errors.As(err, &problem) with a *Problem.
func (p *Problem) Error() string {
	return strings.TrimSuffix(p.Title+": "+p.Detail, ": ")
}

// At is what is wrong with the member that a pointer leads to; nil where nothing is.
func (p *Problem) At(member Pointer) *FieldError {
	at := slices.IndexFunc(p.Errors, func(e FieldError) bool { return e.Pointer == member && e.Parameter == "" })
	if at < 0 {
		return nil
	}
	return &p.Errors[at]
}

// Pointer leads to a member of the request (RFC 6901).
type Pointer string

// Members are the names and positions that it leads through.
func (p Pointer) Members() []string {
	names := strings.Split(string(p), "/")[1:]
	for i, name := range names {
		names[i] = strings.NewReplacer("~1", "/", "~0", "~").Replace(name)
	}
	return names
}

// Rendering is an answer in another form than JSON.
type Rendering struct {
	Bytes []byte
	Media string // such as image/svg+xml
	Tag   string // where it was asked for with Tagged
}

// Rendered asks a calculation for another form of its answer: svg, csv and what else its
// path offers.
func (c *Client) Rendered(ctx context.Context, path, form string, request any, options ...Option) (Rendering, error) {
	text, header, err := c.post(ctx, path, request, append(slices.Clone(options), With("as", form)))
	return Rendering{text, header.Get("Content-Type"), header.Get("ETag")}, err
}

// Ask asks the calculation at a path: Ask[MovementResult](ctx, c, "/v1/movement", request).
func Ask[T any](ctx context.Context, c *Client, path string, request any, options ...Option) (answer Answer[T], err error) {
	text, header, err := c.post(ctx, path, request, options)
	if err != nil {
		return answer, err
	}
	if media := header.Get("Content-Type"); !strings.HasPrefix(media, "application/json") {
		return answer, errors.New("the answer is " + media + ": ask for it with Rendered")
	}
	answer.Raw, answer.Tag = text, header.Get("ETag")
	return answer, json.Unmarshal(text, &answer)
}

func look[T any](ctx context.Context, c *Client, path string, options []Option) (found T, err error) {
	text, _, err := c.do(ctx, http.MethodGet, path, nil, c.call(options))
	if err == nil {
		err = json.Unmarshal(text, &found)
	}
	return found, err
}

func (c *Client) call(options []Option) *call {
	all := &call{http: http.DefaultClient, header: http.Header{}, query: url.Values{}, retries: 2, method: http.MethodPost}
	for _, option := range slices.Concat(c.defaults, options) {
		option(all)
	}
	return all
}

func (c *Client) post(ctx context.Context, path string, request any, options []Option) ([]byte, http.Header, error) {
	body, err := json.Marshal(request)
	if err != nil {
		return nil, nil, err
	}
	all := c.call(options)
	all.header.Set("Content-Type", "application/json")
	return c.do(ctx, all.method, path, body, all)
}

// do sends a request, again where it may help: everything asked here may be repeated.
func (c *Client) do(ctx context.Context, method, path string, body []byte, all *call) ([]byte, http.Header, error) {
	for tried := 0; ; tried++ {
		reply, err := c.send(ctx, method, path, bytes.NewReader(body), all)
		var text []byte
		if err == nil {
			text, err = io.ReadAll(reply.Body)
			_ = reply.Body.Close()
		}
		switch {
		case err != nil:
			reply = nil
		case reply.StatusCode == http.StatusOK:
			return text, reply.Header, nil
		case reply.StatusCode == http.StatusNotModified:
			return nil, reply.Header, ErrHeld
		default:
			err = problemOf(reply.StatusCode, text)
		}
		if !all.again(ctx, reply, tried) {
			return nil, nil, err
		}
	}
}

func (c *Client) send(ctx context.Context, method, path string, body io.Reader, all *call) (*http.Response, error) {
	request, err := http.NewRequestWithContext(ctx, method, c.base+path, body)
	if err != nil {
		return nil, err
	}
	request.Header, request.URL.RawQuery = all.header.Clone(), strings.Trim(request.URL.RawQuery+"&"+all.query.Encode(), "&")
	return all.http.Do(request)
}

// problemOf is the problem that a reply tells, or one that says what came in its place.
func problemOf(status int, text []byte) error {
	p := &Problem{Type: "about:blank", Title: "no answer of the service", Status: status}
	_ = json.Unmarshal(text, p) // what is no problem leaves it as it is
	return p
}

// again waits for the next try, as long as the reply says or longer each time, where one may
// help. No reply is a broken connection: that is tried for longer, while a service starts anew.
func (c *call) again(ctx context.Context, reply *http.Response, tried int) bool {
	wait, most := time.Duration(float64(250*time.Millisecond<<min(tried, 5))*(0.5+rand.Float64())), 3*c.retries //nolint:gosec // spreads callers, guards nothing
	if reply != nil {
		if s := reply.StatusCode; s != http.StatusRequestTimeout && s != http.StatusTooManyRequests && s < http.StatusInternalServerError {
			return false
		}
		most = c.retries
		if seconds, err := strconv.Atoi(reply.Header.Get("Retry-After")); err == nil {
			wait = time.Duration(seconds) * time.Second
		}
	}
	if tried >= most {
		return false
	}
	select {
	case <-ctx.Done():
		return false
	case <-time.After(wait):
		return true
	}
}
