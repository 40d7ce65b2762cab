package serve

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/wire"
)

// Parameter is a query parameter of a look-up.
type Parameter struct {
	Name, Description, Example string
	Choices                    []string // nil: any text
	Whole                      bool     // a whole number
	Low, High                  int      // its range
	Fallback                   int      // used when it is not given
}

// Paging are the parameters that every list has.
var Paging = []Parameter{
	{Name: "limit", Description: "entries on a page", Whole: true, Low: 1, High: 500, Fallback: 50},
	{Name: "offset", Description: "entries to skip", Whole: true, Low: 0, High: 1_000_000},
}

// SystemParameter is the system of units of a look-up.
var SystemParameter = Parameter{Name: "report_in", Description: "metric or inch", Choices: []string{wire.Metric, wire.InchLB}}

// unknownParameters finds the parameters of a request that are not among the known, and
// those given twice.
func unknownParameters(c echo.Context, known []Parameter) []FieldError {
	query, err := parseQuery(c)
	if err != nil {
		return []FieldError{{Code: "invalid_format", Detail: "the query string is malformed"}}
	}
	var fields []FieldError
	for name, values := range query {
		is := slices.ContainsFunc(known, func(p Parameter) bool { return p.Name == name })
		switch {
		case !is:
			detail := "this path has no query parameter " + wire.Quoted(name)
			if names := parameterNames(known); len(names) > 0 {
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

func parameterNames(known []Parameter) []string {
	var names []string
	for _, p := range known {
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
		return 0, NewProblem(http.StatusBadRequest, detail, FieldError{Parameter: p.Name, Code: "out_of_range", Detail: detail, Limit: limitOf(limit)})
	}
	return n, nil
}

func parseQuery(c echo.Context) (url.Values, error) { return url.ParseQuery(c.Request().URL.RawQuery) }
