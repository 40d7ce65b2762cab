package dry

import (
	"math"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

// history is a billet that is judged by where it has lain and by its readings.
type history struct {
	req      *ReadinessRequest
	wood     *shelf.Wood
	stay     *storage // nil where it is wrong
	horizon  quantity.Duration
	before   shelf.FactorUsed // the drying factor as known of the wood
	question readiness.HistoryQuestion
	piece    seasoning.Piece // as its forecast starts
	sources  []source        // of the observations
	rested   *rested         // nil but for old wood
	target   Target          // but for the gap
	report   wire.Reporter
}

// source is where an observation came from.
type source struct {
	pointer, date string
	unit          string            // of a weight, as the caller wrote it
	mc            moisture.Estimate // for the drawing; empty for a weight
}

// day is a date within the forecast, counted from stacking.
func (h *history) day(input, text string) (quantity.Duration, error) {
	date, err := shelf.ParseDay(input, text)
	if err != nil || h.stay == nil {
		return 0, err
	}
	at := h.stay.since(date)
	if at < 0 || at > h.horizon {
		first, last := h.stay.date(0), h.stay.date(h.horizon)
		text := "the date must lie between the day of stacking, " + first + ", and the end of the forecast, " + last
		switch longest := seasoning.LongestHorizon; {
		case at > longest:
			text += ". A forecast lasts " + quantity.FormatNumber(longest.Days(), 0) + " days at most"
		case at > h.horizon:
			text += ", which horizon_days sets: let it be " + quantity.FormatNumber(math.Ceil(at.Days()), 0) + " or more"
		}
		return 0, &method.Error{Code: method.OutOfRange, Input: input, Limit: method.Days(first, last), Detail: text}
	}
	return at, nil
}

func (h *history) ahead(place string) error {
	return &method.Error{Code: method.OutOfRange, Input: place + "/date", Limit: method.Days("", h.req.AsOf),
		Detail: "this lies after as_of; a reading cannot be of the future"}
}
