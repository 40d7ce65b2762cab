package serve

import (
	"net/http"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/wire"
)

const chosenForm = "latewood.form"

// chooseForm finds the form a caller wants of those that a route has and keeps it for
// the handler; one that is not among the offers is a problem.
func chooseForm(c echo.Context, forms []wire.Form, offers []string) error {
	as := ""
	if c.Request().URL.RawQuery != "" { // else echo would make a map to look into
		as = c.QueryParam("as")
	}
	if as != "" && len(forms) > 0 {
		if as == wire.JSONName {
			return nil
		}
		names := []string{wire.JSONName}
		for i := range forms {
			if forms[i].Name == as {
				c.Set(chosenForm, &forms[i])
				return nil
			}
			names = append(names, forms[i].Name)
		}
		limit := "one of " + strings.Join(names, ", ")
		return badParameter("as", "not_a_choice", "as is "+limit+", got "+strconv.Quote(as), limit)
	}
	accept := c.Request().Header.Get(echo.HeaderAccept)
	if accept == "" || accept == "*/*" || offers == nil {
		return nil
	}
	media := choose(accept, offers)
	if media == "" {
		p := NewProblem(http.StatusNotAcceptable, "this path answers only in the forms listed in offers")
		p.Offers = offers
		return p
	}
	for i := range forms {
		if forms[i].Media == media {
			c.Set(chosenForm, &forms[i])
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
