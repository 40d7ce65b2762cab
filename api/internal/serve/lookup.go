package serve

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/refuse"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
)

// MarkMeaning explains a checked mark.
type MarkMeaning struct {
	Mark    shelf.Mark `json:"provenance" required:"true" description:"a mark"`
	Meaning string     `json:"detail" required:"true" description:"what it says of a figure"`
}

// mostFound is the longest answer to a search by name.
const mostFound = 50

// pathWord is a word of the path as its caller meant it: the router leaves escapes
// in a path that needs none of them.
func pathWord(c echo.Context, name string) string {
	word := c.Param(name)
	if c.Request().URL.RawPath == "" {
		return word
	}
	if plain, err := url.PathUnescape(word); err == nil {
		return plain
	}
	return word
}

// unknownEntry is the problem of an id that is not in a table; of the ids that are, some are
// suggested to people, and the nearest told to programs.
func unknownEntry(kind, id string, suggestions, nearest []string) *refuse.Problem {
	detail := "there is no " + kind + " with the id " + wire.Quoted(id)
	if len(suggestions) > 0 {
		detail += "; did you mean " + strings.Join(suggestions, ", ") + "?"
	}
	return refuse.New(http.StatusNotFound, detail, refuse.FieldError{Parameter: "id", Code: "not_found", Detail: detail, Limit: method.OneOf(nearest...)})
}

func badParameter(name, code, detail string, limit *method.Limit) *refuse.Problem {
	return refuse.New(http.StatusBadRequest, detail, refuse.FieldError{Parameter: name, Code: code, Detail: detail, Limit: limit})
}

// SourcedSize is a length of the tables with its source.
type SourcedSize struct {
	wire.Quantity
	Source  string     `json:"source" required:"true" description:"author, title, table and page"`
	Checked shelf.Mark `json:"provenance" required:"true" description:"read: seen in the publication; common-practice: of the trade, without a source; computed: the midpoint of a range"`
}

func sourcedSize(r wire.Reporter, s species.Size) SourcedSize {
	l, _ := s.Get()
	return SourcedSize{r.Cut(l), s.Source, shelf.MarkOf(s.Checked)}
}

// optionalSize is nil for a size that the tables do not hold.
func optionalSize(r wire.Reporter, s species.Size) *SourcedSize {
	if !s.Known() {
		return nil
	}
	size := sourcedSize(r, s)
	return &size
}

// systemAsked is report_in of a look-up.
func systemAsked(c echo.Context) (wire.Reporter, error) {
	system := c.QueryParam("report_in")
	if system != "" && system != wire.Metric && system != wire.InchLB {
		return wire.Reporter{}, badParameter("report_in", "not_a_choice", "report_in is metric or inch", method.OneOf(wire.Metric, wire.InchLB))
	}
	return wire.ReportIn(system), nil
}

// offered checks a query parameter that takes one of some words; "" is none.
func offered(c echo.Context, name string, words ...string) (string, error) {
	value := strings.ToLower(c.QueryParam(name))
	if value == "" || slices.Contains(words, value) {
		return value, nil
	}
	limit := method.OneOf(words...)
	return "", badParameter(name, "not_a_choice", name+" is "+limit.String(), limit)
}

func marks() []MarkMeaning {
	all := make([]MarkMeaning, 0, len(species.Marks()))
	for _, m := range species.Marks() {
		all = append(all, MarkMeaning{shelf.MarkOf(m), m.Meaning()})
	}
	return all
}

// Page is one page of a list.
type Page[T any] struct {
	Items       []T    `json:"items" required:"true" nullable:"false" description:"of this page"`
	Total       int    `json:"total" required:"true" description:"entries in all, with the filters given"`
	Next        string `json:"next,omitempty" description:"path of the next page"`
	DataVersion string `json:"data_version" required:"true" description:"of the embedded tables"`
}

// page cuts the page asked for out of all.
func page[T any](c echo.Context, all []T, version string) (Page[T], error) {
	limit, err := wholeNumber(c, Paging[0])
	if err != nil {
		return Page[T]{}, err
	}
	offset, err := wholeNumber(c, Paging[1])
	if err != nil {
		return Page[T]{}, err
	}
	from := min(offset, len(all))
	to := min(from+limit, len(all))
	p := Page[T]{Items: all[from:to], Total: len(all), DataVersion: version}
	if p.Items == nil {
		p.Items = []T{}
	}
	if to < len(all) {
		query := c.QueryParams()
		query.Set("offset", strconv.Itoa(to))
		p.Next = c.Request().URL.Path + "?" + query.Encode()
	}
	return p, nil
}
