package serve

import (
	"latewood/api/internal/wire"
	"net/http"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"
)

const chosenForm = "latewood.form"

// chooseForm finds the form a caller wants of a route and keeps it for the
// handler; a form that is not offered is a problem.
func chooseForm(c echo.Context, r *Route, offers []string) error {
	if as := c.QueryParam("as"); as != "" && len(r.Forms) > 0 {
		if as == wire.JsonName {
			return nil
		}
		names := []string{wire.JsonName}
		for i := range r.Forms {
			if r.Forms[i].Name == as {
				c.Set(chosenForm, &r.Forms[i])
				return nil
			}
			names = append(names, r.Forms[i].Name)
		}
		limit := "one of " + strings.Join(names, ", ")
		return badParameter("as", "not_offered", "as is "+limit+", got "+strconv.Quote(as), limit)
	}
	accept := c.Request().Header.Get(echo.HeaderAccept)
	if accept == "" || accept == "*/*" || r.Asset {
		return nil
	}
	media := choose(accept, offers)
	if media == "" {
		p := NewProblem(http.StatusNotAcceptable, "this path answers only in the forms listed in offers")
		p.Offers = offers
		return p
	}
	for i := range r.Forms {
		if r.Forms[i].Media == media {
			c.Set(chosenForm, &r.Forms[i])
			return nil
		}
	}
	return nil
}

// formOf is the form chosen for this request; nil for JSON.
func formOf(c echo.Context) *wire.Form {
	f, _ := c.Get(chosenForm).(*wire.Form)
	return f
}

func writeForm(c echo.Context, as *wire.Form, result any) error {
	r, ok := result.(wire.Rendered)
	if !ok {
		return NewProblem(http.StatusInternalServerError, "")
	}
	text, err := r.Render(as.Name)
	if err != nil {
		return err
	}
	return sendAnswer(c, as.Media, text)
}

// asParameter describes ?as= in the contract.
func asParameter(r *Route) Parameter {
	names := []string{wire.JsonName}
	for _, f := range r.Forms {
		names = append(names, f.Name)
	}
	return Parameter{Name: "as", Description: "form of the answer, in place of the Accept header: " + strings.Join(names, ", "), Example: wire.JsonName, Choices: names}
}
