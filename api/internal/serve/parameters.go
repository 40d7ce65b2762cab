package serve

import (
	"latewood/api/internal/wire"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"
)

// Parameter is a query parameter of a look-up.
type Parameter struct {
	Name, Description, Example string
	Choices                    []string // nil: any text
	Whole                      bool     // a whole number
	Low, High                  int      // its range
	Fallback                   int      // used when it is not given
}

// Parameters that every list has.
var Paging = []Parameter{
	{Name: "limit", Description: "entries on a page", Whole: true, Low: 1, High: 500, Fallback: 50},
	{Name: "offset", Description: "entries to skip", Whole: true, Low: 0, High: 1_000_000},
}

// SystemParameter is the system of units of a look-up.
var SystemParameter = Parameter{Name: "report_in", Description: "metric or inch", Choices: []string{wire.Metric, wire.InchLB}}

func unknownParameters(c echo.Context, r *Route) []FieldError {
	query, err := parseQuery(c)
	if err != nil {
		return []FieldError{{Code: "syntax", Detail: "the query string is malformed"}}
	}
	var fields []FieldError
	for name, values := range query {
		known := slices.ContainsFunc(r.Parameters(), func(p Parameter) bool { return p.Name == name })
		switch {
		case !known:
			detail := "this path has no query parameter " + wire.Quoted(name)
			if names := parameterNames(r); len(names) > 0 {
				detail += "; it has " + strings.Join(names, ", ")
			}
			fields = append(fields, FieldError{Parameter: name, Code: "unknown_parameter", Detail: detail})
		case len(values) > 1:
			fields = append(fields, FieldError{Parameter: name, Code: "duplicate_parameter", Detail: name + " is given more than once"})
		}
	}
	slices.SortFunc(fields, func(a, b FieldError) int { return strings.Compare(a.Parameter, b.Parameter) })
	return fields
}

func parameterNames(r *Route) []string {
	var names []string
	for _, p := range r.Parameters() {
		names = append(names, p.Name)
	}
	return names
}

// wholeNumber reads a whole-number query parameter.
func wholeNumber(c echo.Context, p Parameter) (int, error) {
	text := c.QueryParam(p.Name)
	if text == "" {
		return p.Fallback, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < p.Low || n > p.High {
		limit := "a whole number from " + strconv.Itoa(p.Low) + " to " + strconv.Itoa(p.High)
		detail := p.Name + " must be " + limit + ", got " + wire.Quoted(text)
		return 0, NewProblem(http.StatusBadRequest, detail, FieldError{Parameter: p.Name, Code: "out_of_range", Detail: detail, Limit: limit})
	}
	return n, nil
}

// Page is one page of a list.
type Page[T any] struct {
	Items       []T    `json:"items" required:"true" nullable:"false"`
	Total       int    `json:"total" required:"true" description:"entries in all, with the filters given"`
	Next        string `json:"next,omitempty" description:"path of the next page"`
	DataVersion string `json:"data_version" required:"true"`
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

func parseQuery(c echo.Context) (url.Values, error) { return url.ParseQuery(c.Request().URL.RawQuery) }
