package serve

import (
	"strconv"
	"time"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/wire"
)

// WorkLimits are what one request of a calculation may take.
type WorkLimits struct {
	Seconds float64 `json:"processor_seconds" required:"true" resolution:"as given" description:"of one processor, unless the caller asks for less or more (work_seconds); work is stopped then: a plan answers with the best found so far, all else with too_much_work"`
	Memory  int64   `json:"memory_bytes" required:"true" description:"for request, work and answer together"`
}

// DefaultWork is the most processor time that a caller may ask for where the operator
// says nothing: what heavy work is given anyway.
const DefaultWork = 4 * time.Second

// MostWork is the most that an operator may allow: the server waits no longer for an
// answer to be written.
const MostWork = 30 * time.Second

// secondsParameter describes ?work_seconds= of a route whose work is heavy.
func secondsParameter(w Work) Parameter {
	return Parameter{Name: "work_seconds", Whole: true, Narrower: true, Low: 1, High: int(MostWork / time.Second),
		Fallback:    int(w.Needs().Processor / time.Second),
		Description: "processor time that the work may take, in seconds; GET /v1/limits tells the most that this service allows"}
}

// needsOf are what a request may take: what the work needs, with the time that the caller
// asks for. The error is a *refuse.Problem.
func (d *Desk) needsOf(c echo.Context, w Work) (Needs, error) {
	needs := w.Needs()
	if !w.heavy() || c.Request().URL.RawQuery == "" {
		return needs, nil
	}
	p := secondsParameter(w)
	p.High = int(d.mostWork / time.Second)
	seconds, err := wholeNumber(c, p)
	if err != nil {
		return needs, err
	}
	needs.Processor = time.Duration(seconds) * time.Second
	return needs, nil
}

// stepsFor are the time steps of simulations for so much time: more for who asked for
// more than is usual.
func (d *Desk) stepsFor(usual, given time.Duration) int {
	if given <= usual {
		return d.mostSimulated
	}
	return int(float64(d.mostSimulated) * given.Seconds() / usual.Seconds())
}

// secondsInWords is an amount of processor time.
func secondsInWords(t time.Duration) string {
	return wire.CountOf(int(t/time.Second), "second") + " of processor time"
}

// moreTime says how to get more, where there is more.
func (d *Desk) moreTime(given time.Duration) string {
	if given >= d.mostWork {
		return ""
	}
	return ", or for more time (work_seconds, at most " + strconv.Itoa(int(d.mostWork/time.Second)) + ")"
}
