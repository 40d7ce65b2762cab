package serve

import (
	"slices"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// MethodDetail is a row of the registry of methods.
type MethodDetail struct {
	ID       string        `json:"id" required:"true" description:"as basis and warnings name it"`
	Chapter  string        `json:"chapter" required:"true" description:"of the physics"`
	Summary  string        `json:"summary" required:"true" description:"what it tells"`
	Equation string        `json:"equation" required:"true" description:"in plain text"`
	Inputs   []MethodInput `json:"inputs" required:"true" nullable:"false" description:"with the range it was fitted in"`
	Accuracy string        `json:"accuracy" required:"true" description:"against measurements"`
	Source   string        `json:"source" required:"true" description:"author, title, table and page"`
	Checked  shelf.Mark    `json:"provenance" required:"true" description:"how the source was verified"`
}

// MethodInput is one input of a method. An end that is left out is open.
type MethodInput struct {
	Name       string   `json:"name" required:"true" description:"of the input"`
	Unit       string   `json:"unit,omitempty" description:"none for a pure number"`
	FittedLow  *float64 `json:"fitted_min,omitempty" resolution:"as given" description:"outside the fitted range a warning comes with the answer"`
	FittedHigh *float64 `json:"fitted_max,omitempty" resolution:"as given" description:"the upper end"`
	LimitLow   *float64 `json:"limit_min,omitempty" resolution:"as given" description:"outside the limit the request is refused"`
	LimitHigh  *float64 `json:"limit_max,omitempty" resolution:"as given" description:"the upper end"`
}

// ListMethods answers GET /v1/methods.
func ListMethods(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		chapter := c.QueryParam("chapter")
		var all []MethodDetail
		for _, m := range d.tables.Methods {
			if chapter == "" || m.Chapter == chapter {
				all = append(all, methodDetail(m))
			}
		}
		if chapter != "" && all == nil {
			return badParameter("chapter", "not_found", "no method stands in a chapter "+wire.Quoted(chapter)+"; leave the parameter out for all of them", method.OneOf(chapters(d.tables.Methods)...))
		}
		p, err := page(c, all, d.tables.Version)
		if err != nil {
			return err
		}
		return writeTable(c, p)
	}
}

// chapters are those that methods stand in, in order.
func chapters(methods []*method.Method) []string {
	var all []string
	for _, m := range methods {
		if !slices.Contains(all, m.Chapter) {
			all = append(all, m.Chapter)
		}
	}
	return all
}

func methodDetail(m *method.Method) MethodDetail {
	d := MethodDetail{ID: m.ID, Chapter: m.Chapter, Summary: m.Summary, Equation: m.Equation, Inputs: []MethodInput{}, Accuracy: m.Accuracy, Source: m.Source, Checked: shelf.MarkOf(m.Checked)}
	for _, in := range m.Inputs {
		d.Inputs = append(d.Inputs, MethodInput{in.Name, in.Unit, finite(in.Fitted.Low), finite(in.Fitted.High), finite(in.Limit.Low), finite(in.Limit.High)})
	}
	return d
}

func finite(v float64) *float64 {
	if quantity.Finite(v) {
		return &v
	}
	return nil
}
