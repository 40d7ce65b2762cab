package serve

import (
	"net/http"
	"slices"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/wire"
)

// Route is one entry of the route table: what the service answers there, and
// all that the contract says of it.
type Route struct {
	Method, Path string
	ID           string // operation id, stable
	Tag          string
	Summary      string
	Description  string
	Query        []Parameter
	Request      any         // zero value of the request type; nil for look-ups
	Result       any         // zero value of the reply type
	Forms        []wire.Form // besides JSON
	Heavy        bool        // simulates or searches: only so many at a time
	Asset        bool        // served as it is: not in the contract, not negotiated
	Streams      bool        // also takes and gives one line after the other
	Safe         bool        // a calculation: changes nothing, and is asked with QUERY beside POST
	Open         Openness
	Keeps        bool         // asks or changes what is kept
	Takes        []string     // media types of a body that is no JSON
	Gives        []string     // media types of an answer that is no JSON
	Once         bool         // a change that is the same however often it is sent: it takes no key
	Deprecated   *Deprecation // nil: it stays
	Handler      Endpoint
}

// Limits of bodies, in bytes.
const (
	noBody          = 1 << 10
	CalculationBody = 256 << 10
	HeavyBody       = 1 << 20 // holds a record of air of 5000 rows, or a batch
	UsualUpload     = 2 << 20 // a picture, where the operator says nothing else
	MostUpload      = 8 << 20
)

// BodyLimit is the longest body of the route, in bytes.
func (r *Route) BodyLimit() int64 {
	switch {
	case r.Uploads():
		return UsualUpload
	case r.Takes != nil:
		return CalculationBody
	case r.Request == nil:
		return noBody
	case r.Heavy || r.Streams:
		return HeavyBody
	}
	return CalculationBody
}

// Patches reports a route that changes of members are sent to.
func (r *Route) Patches() bool { return slices.Contains(r.Takes, MergePatch) }

// Uploads reports a route that a picture is sent to, whose length the operator limits.
func (r *Route) Uploads() bool { return r.Takes != nil && !r.Patches() }

// Parameters are the query parameters of the route.
func (r *Route) Parameters() []Parameter {
	all := slices.Clone(r.Query)
	if len(r.Forms) > 0 {
		all = append(all, asParameter(r))
	}
	if slices.Contains(r.Forms, wire.DrawnForm) {
		all = append(all, widthParameter)
	}
	if w, ok := r.Handler.(Work); ok && r.Heavy {
		all = append(all, secondsParameter(w))
	}
	if r.Request != nil {
		all = append(all, detailParameter)
	}
	return all
}

// offers are the media types that the route answers in; nil for an asset, which is not
// negotiated.
func (r *Route) offers() []string {
	if r.Asset {
		return nil
	}
	if r.Gives != nil {
		return r.Gives
	}
	offers := []string{echo.MIMEApplicationJSON}
	for _, f := range r.Forms {
		if !slices.Contains(offers, f.Media) {
			offers = append(offers, f.Media)
		}
	}
	return offers
}

// asParameter describes ?as= in the contract.
func asParameter(r *Route) Parameter {
	names := []string{wire.JSONName}
	for _, f := range r.Forms {
		names = append(names, f.Name)
	}
	return Parameter{Name: "as", Description: "form of the answer, in place of the Accept header: " + strings.Join(names, ", "), Example: wire.JSONName, Choices: names}
}

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
