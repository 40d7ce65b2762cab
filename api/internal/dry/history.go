package dry

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// history is a billet that is judged by where it has lain and by its readings.
type history struct {
	req      *ReadinessRequest
	wood     *shelf.Wood
	stay     *storage // nil where it is wrong
	horizon  quantity.Duration
	before   shelf.FactorUsed // the drying factor as known of the wood
	question readiness.HistoryQuestion
	sources  []source // of the observations
	target   Target   // but for the gap
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
		return 0, &method.Error{Code: method.OutOfRange, Input: input, Limit: first + " to " + last,
			Detail: "the date must lie between the day of stacking, " + first + ", and the end of the forecast, " + last}
	}
	return at, nil
}

func (h *history) ahead(place string) error {
	return &method.Error{Code: method.OutOfRange, Input: place + "/date", Limit: "at most " + h.req.AsOf,
		Detail: "this lies after as_of; a reading cannot be of the future"}
}
