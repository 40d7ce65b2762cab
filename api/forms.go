package api

import (
	"net/http"
	"strconv"
	"strings"

	"github.com/labstack/echo/v4"
)

const chosenForm = "latewood.form"

// chooseForm finds the form a caller wants of a route and keeps it for the
// handler; a form that is not offered is a problem.
func chooseForm(c echo.Context, r *route, offers []string) error {
	if as := c.QueryParam("as"); as != "" && len(r.forms) > 0 {
		if as == jsonName {
			return nil
		}
		names := []string{jsonName}
		for i := range r.forms {
			if r.forms[i].name == as {
				c.Set(chosenForm, &r.forms[i])
				return nil
			}
			names = append(names, r.forms[i].name)
		}
		limit := "one of " + strings.Join(names, ", ")
		return badParameter("as", "not_offered", "as is "+limit+", got "+strconv.Quote(as), limit)
	}
	accept := c.Request().Header.Get(echo.HeaderAccept)
	if accept == "" || accept == "*/*" || r.asset {
		return nil
	}
	media := choose(accept, offers)
	if media == "" {
		p := newProblem(http.StatusNotAcceptable, "this path answers only in the forms listed in offers")
		p.Offers = offers
		return p
	}
	for i := range r.forms {
		if r.forms[i].media == media {
			c.Set(chosenForm, &r.forms[i])
			return nil
		}
	}
	return nil
}

// formOf is the form chosen for this request; nil for JSON.
func formOf(c echo.Context) *form {
	f, _ := c.Get(chosenForm).(*form)
	return f
}

func writeForm(c echo.Context, as *form, result any) error {
	r, ok := result.(rendered)
	if !ok {
		return newProblem(http.StatusInternalServerError, "")
	}
	text, err := r.render(as.name)
	if err != nil {
		return err
	}
	return sendAnswer(c, as.media, text)
}

// asParameter describes ?as= in the contract.
func asParameter(r *route) parameter {
	names := []string{jsonName}
	for _, f := range r.forms {
		names = append(names, f.name)
	}
	return parameter{name: "as", description: "form of the answer, in place of the Accept header: " + strings.Join(names, ", "), example: jsonName, choices: names}
}
