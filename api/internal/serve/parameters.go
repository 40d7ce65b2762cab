package serve

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Parameter is a query parameter of a look-up.
type Parameter struct {
	Name, Description, Example string
	Choices                    []string // nil: any text
	Whole                      bool     // a whole number
	Low, High                  int      // its range
	Fallback                   int      // used when it is not given
	Narrower                   bool     // this service may allow less of the range: who takes it judges it
}

// Paging are the parameters that every list has.
var Paging = []Parameter{
	{Name: "limit", Description: "entries on a page", Whole: true, Low: 1, High: 500, Fallback: 50},
	{Name: "offset", Description: "entries to skip", Whole: true, Low: 0, High: 1_000_000},
}

// SystemParameter is the system of units of a look-up.
var SystemParameter = Parameter{Name: "report_in", Description: "metric or inch", Choices: []string{wire.Metric, wire.InchLB}}

// parameterFaults finds what is wrong with the parameters of a request, all at once: those
// that are not among the known, those given twice, and values that no parameter has.
func parameterFaults(c echo.Context, known []Parameter) []refuse.FieldError {
	query, err := parseQuery(c)
	if err != nil {
		return []refuse.FieldError{{Code: "invalid_format", Detail: "the query string is malformed"}}
	}
	var fields []refuse.FieldError
	for name, values := range query {
		at := slices.IndexFunc(known, func(p Parameter) bool { return p.Name == name })
		switch {
		case at < 0:
			detail := "this path has no query parameter " + wire.Quoted(name)
			if names := parameterNames(known); len(names) > 0 {
				detail += "; it has " + strings.Join(names, ", ")
			}
			field := refuse.FieldError{Parameter: name, Code: "unknown_parameter", Detail: detail}
			if names := parameterNames(known); len(names) > 0 {
				field.Limit = method.OneOf(names...)
			}
			fields = append(fields, field)
		case len(values) > 1:
			fields = append(fields, refuse.FieldError{Parameter: name, Code: "duplicate_parameter", Detail: name + " is given more than once"})
		case values[0] != "" && !known[at].Narrower:
			if field := known[at].fault(values[0]); field != nil {
				fields = append(fields, *field)
			}
		}
	}
	slices.SortFunc(fields, func(a, b refuse.FieldError) int { return strings.Compare(a.Parameter, b.Parameter) })
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
	if field := p.fault(text); field != nil {
		return 0, refuse.New(http.StatusBadRequest, field.Detail, *field)
	}
	return strconv.Atoi(text)
}

// fault is what is wrong with a value of the parameter; nil for none.
func (p *Parameter) fault(text string) *refuse.FieldError {
	switch {
	case p.Whole:
		if n, err := strconv.Atoi(text); err == nil && n >= p.Low && n <= p.High {
			return nil
		}
		limit := method.Between(float64(p.Low), float64(p.High), "")
		return &refuse.FieldError{Parameter: p.Name, Code: "out_of_range", Detail: p.Name + " must be a whole number from " + limit.String() + ", got " + wire.Quoted(text), Limit: limit}
	case p.Choices == nil || slices.ContainsFunc(p.Choices, func(choice string) bool { return strings.EqualFold(choice, text) }):
		return nil
	}
	return &refuse.FieldError{Parameter: p.Name, Code: "not_a_choice", Limit: method.OneOf(p.Choices...),
		Detail: p.Name + " is " + wire.Either(p.Choices) + ", got " + wire.Quoted(text)}
}

func parseQuery(c echo.Context) (url.Values, error) { return url.ParseQuery(c.Request().URL.RawQuery) }
