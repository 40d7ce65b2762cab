package serve

import (
	"github.com/labstack/echo/v4"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// How much of an answer a caller wants. What a summary leaves out has the tag
// wire.DetailTag: series, outlines, and the figures of a wood with their sources.
const (
	detailName    = "detail"
	detailSummary = "summary"
)

var detailChoices = []string{wire.DetailFull, detailSummary}

const briefAnswer = "latewood.brief"

// detailParameter describes ?detail= of a calculation.
var detailParameter = Parameter{Name: detailName, Choices: detailChoices, Example: detailSummary,
	Description: "how much of the answer, as JSON: full, or summary, without series, outlines, and the figures of woods with their sources. Left out: full"}

// chooseDetail finds how much of an answer a caller wants and keeps it for the handler.
func chooseDetail(c echo.Context) error {
	switch of := c.QueryParam(detailName); of {
	case "", wire.DetailFull:
		return nil
	case detailSummary:
		c.Set(briefAnswer, true)
		return nil
	default:
		limit := method.OneOf(detailChoices...)
		return badParameter(detailName, "not_a_choice", detailName+" is "+limit.String()+", got "+wire.Quoted(of), limit)
	}
}

// isBrief reports whether a caller wants a summary.
func isBrief(c echo.Context) bool { return c.Get(briefAnswer) != nil }
