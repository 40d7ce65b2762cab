package serve

import (
	"net/http"
	"strconv"
	"time"
)

// Deprecation says that a route goes: each of its replies tells it (RFC 9745, RFC 8594), so
// that whoever joined it to something learns of it without reading.
type Deprecation struct {
	Since   time.Time // from then on there is something better
	Gone    time.Time // from then on it may answer nothing
	Instead string    // the path of what takes its place
}

// ShortestNotice is the time between the two at the least. Own choice; the promise stands in
// VERSIONING.md.
const ShortestNotice = 365 * 24 * time.Hour

// toldBy are the headers of every reply of a route that are the same each time.
func (r *Route) toldBy() http.Header {
	header := http.Header{}
	if types := r.AcceptQuery(); types != "" {
		header[AcceptQueryHeader] = []string{types}
	}
	if d := r.Deprecated; d != nil {
		header["Deprecation"] = []string{"@" + strconv.FormatInt(d.Since.Unix(), 10)}
		header["Sunset"] = []string{d.Gone.UTC().Format(http.TimeFormat)}
		header["Link"] = []string{`</docs/>; rel="deprecation"; type="text/html"`, "<" + d.Instead + `>; rel="successor-version"`}
	}
	return header
}
