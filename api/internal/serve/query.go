package serve

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"net/http"
	"os"
	"strings"
	"sync"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/labstack/echo/v4"

	"latewood/api/internal/wire"
)

// QUERY (RFC 10008, June 2026; from memory) asks as POST does, with a body and its
// Content-Type, and says that asking is safe, may be repeated and that the answer may be
// kept. An answer follows from nothing but the question, the program and its tables, so its
// tag is made from these three, and whoever holds the answer is told so before anything is
// computed.

// MethodQuery is the method of RFC 10008, which the standard library has no name for yet.
const MethodQuery = "QUERY"

// AcceptQueryHeader tells the media types that a path takes with QUERY.
const AcceptQueryHeader = "Accept-Query"

// AcceptQuery is the value of that header, a list of structured fields (RFC 9651), for a
// route; empty where it is not asked with QUERY.
func (r *Route) AcceptQuery() string {
	switch {
	case !r.Safe:
		return ""
	case r.Streams:
		return echo.MIMEApplicationJSON + ", " + LinesForm.Media
	}
	return echo.MIMEApplicationJSON
}

// Methods are those that the route is asked with, the usual first.
func (r *Route) Methods() []string {
	switch {
	case r.Safe:
		return []string{r.Method, MethodQuery}
	case r.Method == http.MethodGet:
		return []string{r.Method, http.MethodHead}
	}
	return []string{r.Method}
}

const questionTag = "latewood.question-tag"

// isQuery reports whether a request is asked with QUERY.
func isQuery(c echo.Context) bool { return c.Request().Method == MethodQuery }

// held makes the tag of a question asked with QUERY, keeps it for the answer, and reports
// whether the caller holds that answer, which the reply then says. A body that is not JSON
// has no tag: its problem is told as that of any other.
func (d *Desk) held(c echo.Context, needs Needs, body []byte) bool {
	if !isQuery(c) || c.Get(questionTag) != nil {
		return false
	}
	tag := d.tagOfQuestion(c, needs, body)
	if tag == "" {
		return false
	}
	c.Set(questionTag, tag)
	have := c.Request().Header.Get("If-None-Match")
	for _, one := range []string{tag, zippedTag(tag)} {
		// A star asks whether there is any answer, which only the answer can tell.
		if have != "" && !strings.Contains(have, "*") && matches(have, one) {
			c.Response().Header().Set("ETag", one)
			c.Response().Header().Set("Cache-Control", keptBy(c))
			return true
		}
	}
	return false
}

// tagOfQuestion is a strong tag of the answer to a question: of its canonical form
// (RFC 8785), by which spaces and the order of members make no other question, of the form
// of the answer, and of the program and the tables. Empty for what is not JSON.
func (d *Desk) tagOfQuestion(c echo.Context, needs Needs, body []byte) string {
	canonical := jsontext.Value(append([]byte(nil), body...))
	if canonical.Canonicalize() != nil {
		return ""
	}
	form := wire.JSONName
	if as := formOf(c); as != nil {
		form = as.Name
	}
	if isBrief(c) {
		form += " " + detailSummary
	}
	sum := sha256.New()
	for _, part := range []string{programMark(), d.version, d.tables.Version, c.Path(), form, needs.Processor.String(), ""} {
		_, _ = io.WriteString(sum, part+"\n") // a hash takes everything
	}
	_, _ = sum.Write(canonical)
	return `"` + hex.EncodeToString(sum.Sum(nil)[:12]) + `"`
}

// zippedTag is the tag of the same bytes compressed.
func zippedTag(tag string) string { return strings.TrimSuffix(tag, `"`) + tagEnd }

// programMark tells one program from another, to the byte, whatever their versions say.
// Where it cannot be read, each process is one of its own.
var programMark = sync.OnceValue(func() string {
	for _, open := range []func() (*os.File, error){
		func() (*os.File, error) { return os.Open("/proc/self/exe") }, // what runs, even if its file was replaced
		func() (*os.File, error) {
			path, err := os.Executable()
			if err != nil {
				return nil, err
			}
			return os.Open(path) //nolint:gosec // the program itself
		},
	} {
		if file, err := open(); err == nil {
			sum := sha256.New()
			_, err = io.Copy(sum, file)
			_ = file.Close()
			if err == nil {
				return hex.EncodeToString(sum.Sum(nil))
			}
		}
	}
	return rand.Text()
})

// notRepeated is an answer that another time might give otherwise, because its work was
// ended by the clock: it has no tag, and nobody keeps it.
func notRepeated(c echo.Context) {
	if c.Get(questionTag) != nil {
		c.Set(questionTag, "")
	}
}

// tagQuestion sets the tag of the answer to a question asked with QUERY, of so many bytes,
// and reports whether the caller holds it.
func tagQuestion(c echo.Context, length int) bool {
	tag, _ := c.Get(questionTag).(string)
	header := c.Response().Header()
	if tag == "" {
		header.Set("Cache-Control", "no-store")
		return false
	}
	header.Set("ETag", tagFor(c, tag, length))
	header.Set("Cache-Control", keptBy(c))
	return holds(c, tag)
}

// notModifiedReply tells a caller that it holds the answer.
func notModifiedReply(c echo.Context) error {
	leaveSeat(c)
	return c.NoContent(http.StatusNotModified)
}
