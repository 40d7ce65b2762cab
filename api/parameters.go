package api

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"
)

// parameter is a query parameter of a look-up.
type parameter struct {
	name, description, example string
	choices                    []string // nil: any text
	whole                      bool     // a whole number
	low, high                  int      // its range
	fallback                   int      // used when it is not given
}

// Parameters that every list has.
var paging = []parameter{
	{name: "limit", description: "entries on a page", whole: true, low: 1, high: 500, fallback: 50},
	{name: "offset", description: "entries to skip", whole: true, low: 0, high: 1_000_000},
}

// systemParameter is the system of units of a look-up.
var systemParameter = parameter{name: "report_in", description: "metric or inch", choices: []string{Metric, InchLB}}

func unknownParameters(c echo.Context, r *route) []FieldError {
	query, err := parseQuery(c)
	if err != nil {
		return []FieldError{{Code: "syntax", Detail: "the query string is malformed"}}
	}
	var fields []FieldError
	for name, values := range query {
		known := slices.ContainsFunc(r.parameters(), func(p parameter) bool { return p.name == name })
		switch {
		case !known:
			detail := "this path has no query parameter " + quoted(name)
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

func parameterNames(r *route) []string {
	var names []string
	for _, p := range r.parameters() {
		names = append(names, p.name)
	}
	return names
}

// wholeNumber reads a whole-number query parameter.
func wholeNumber(c echo.Context, p parameter) (int, error) {
	text := c.QueryParam(p.name)
	if text == "" {
		return p.fallback, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < p.low || n > p.high {
		limit := "a whole number from " + strconv.Itoa(p.low) + " to " + strconv.Itoa(p.high)
		detail := p.name + " must be " + limit + ", got " + quoted(text)
		return 0, newProblem(http.StatusBadRequest, detail, FieldError{Parameter: p.name, Code: "out_of_range", Detail: detail, Limit: limit})
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
	limit, err := wholeNumber(c, paging[0])
	if err != nil {
		return Page[T]{}, err
	}
	offset, err := wholeNumber(c, paging[1])
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
