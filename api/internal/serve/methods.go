package serve

import (
	"github.com/labstack/echo/v4"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// MethodDetail is a row of the registry of methods.
type MethodDetail struct {
	ID       string        `json:"id" required:"true"`
	Chapter  string        `json:"chapter" required:"true"`
	Summary  string        `json:"summary" required:"true"`
	Equation string        `json:"equation" required:"true"`
	Inputs   []MethodInput `json:"inputs" required:"true" nullable:"false"`
	Accuracy string        `json:"accuracy" required:"true"`
	Source   string        `json:"source" required:"true"`
	Checked  string        `json:"checked" required:"true" description:"how the source was verified"`
}

// MethodInput is one input of a method. An end that is left out is open.
type MethodInput struct {
	Name       string   `json:"name" required:"true"`
	Unit       string   `json:"unit,omitempty"`
	FittedLow  *float64 `json:"fitted_low,omitempty" description:"outside the fitted range a warning comes with the answer"`
	FittedHigh *float64 `json:"fitted_high,omitempty"`
	LimitLow   *float64 `json:"limit_low,omitempty" description:"outside the limit the request is refused"`
	LimitHigh  *float64 `json:"limit_high,omitempty"`
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
			return badParameter("chapter", "not_found", "no method stands in a chapter "+wire.Quoted(chapter)+"; leave the parameter out for all of them", "")
		}
		p, err := page(c, all, d.tables.Version)
		if err != nil {
			return err
		}
		return writeTable(c, p)
	}
}

func methodDetail(m *method.Method) MethodDetail {
	d := MethodDetail{ID: m.ID, Chapter: m.Chapter, Summary: m.Summary, Equation: m.Equation, Inputs: []MethodInput{}, Accuracy: m.Accuracy, Source: m.Source, Checked: string(m.Checked)}
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
