package serve

import (
	"net/http"
	"strconv"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// LinesForm is the form of streams: one JSON value on each line.
var LinesForm = wire.Form{Name: "ndjson", Media: "application/x-ndjson"}

// widthParameter is the room that a drawing has on a screen.
var widthParameter = Parameter{Name: "width", Whole: true, Low: 240, High: 1600,
	Description: "room for the drawing on a screen, in px: it is laid out for that and comes as wide, no text is less than 11 px high, its colours follow those of the page it stands in, and its title tells lengths as they were sent. Each path that has the form svg takes it. Left out: as it is printed"}

// rendered gives a result in a form, a drawing in the width that was asked for.
func rendered(c echo.Context, r wire.Rendered, as *wire.Form) ([]byte, error) {
	if *as != wire.DrawnForm || c.Request().URL.RawQuery == "" {
		return r.Render(as.Name)
	}
	width, err := wholeNumber(c, widthParameter)
	if err != nil || width == 0 {
		return r.Render(as.Name)
	}
	shown, is := r.(wire.Shown)
	if !is {
		return nil, refuse.New(http.StatusInternalServerError, "")
	}
	return shown.RenderShown(width)
}

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
		limit := method.OneOf(names...)
		return badParameter("as", "not_a_choice", "as is "+limit.String()+", got "+strconv.Quote(as), limit)
	}
	accept := c.Request().Header.Get(echo.HeaderAccept)
	if accept == "" || accept == "*/*" || offers == nil {
		return nil
	}
	media := choose(accept, offers)
	if media == "" {
		p := refuse.Header(http.StatusNotAcceptable, echo.HeaderAccept, "not_a_choice", "this path answers only in the forms listed in offers")
		p.Offers, p.Errors[0].Limit = offers, method.OneOf(offers...)
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
