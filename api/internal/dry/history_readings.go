package dry

import (
	"errors"
	"math"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// gather turns readings and weights into observations.
func (h *history) gather(notes *method.Notes) error {
	var wrong []error
	for i := range h.req.Readings {
		wrong = append(wrong, h.reading(i, notes))
	}
	for body, list := range [][]DatedWeight{h.req.Weights, h.req.Board} {
		member := [...]string{"weights", "sample_board_weights"}[body]
		wrong = append(wrong, h.weights(body, member, list))
	}
	if k := h.req.KnownMC; k != nil {
		at, err := h.day("known_mc/date", k.Date)
		if err == nil && at > h.question.Today {
			err = h.ahead("known_mc")
		}
		wrong = append(wrong, err)
		known := shelf.KnownMoisture(*k.MC, k.SD)
		h.add(readiness.Observation{Kind: readiness.Sample, At: at, MC: known.Value, SD: known.SD(),
			Written: quantity.FormatNumber(*k.MC, 6)},
			source{pointer: "/known_mc", date: k.Date})
	}
	return errors.Join(wrong...)
}

func (h *history) add(o readiness.Observation, s source) {
	h.question.Observations, h.sources = append(h.question.Observations, o), append(h.sources, s)
}

// weights adds dated weights of a body.
func (h *history) weights(body int, member string, list []DatedWeight) error {
	var wrong []error
	previous := quantity.Duration(math.Inf(-1))
	for i := range list {
		place := member + "/" + strconv.Itoa(i)
		at, err := h.day(place+"/date", list[i].Date)
		switch {
		case err != nil || h.stay == nil:
		case at <= previous:
			err = outOfOrder(place+"/date", h.stay.date(previous))
		case at > h.question.Today:
			err = h.ahead(place)
		default:
			previous = at
		}
		if err != nil {
			wrong = append(wrong, err)
			continue
		}
		h.add(readiness.Observation{Kind: readiness.Weight, At: at, Body: body,
			Weighing: shelf.Weighing(list[i].Mass, h.req.Scale), Written: written(list[i].Mass)},
			source{pointer: "/" + place, date: list[i].Date, unit: list[i].Mass.Unit})
	}
	return errors.Join(wrong...)
}

// written is the number of a mass in the unit the caller gave it in.
func written(m *wire.Mass) string {
	value, ok := m.SI.In(m.Unit)
	if !ok {
		return ""
	}
	const decimals = 6 // finer than any scale; rounds what the conversion left
	return quantity.FormatNumber(value, decimals)
}

// reading adds one reading of a meter or a sample.
func (h *history) reading(i int, notes *method.Notes) error {
	r, place := &h.req.Readings[i], "readings/"+strconv.Itoa(i)
	date, at := h.req.History.AsOf, h.question.Today
	var noDay error
	if r.Date != "" {
		date = r.Date
		if at, noDay = h.day(place+"/date", date); noDay == nil && at > h.question.Today {
			noDay = h.ahead(place)
		}
	}
	estimate, _, err := r.Estimate(h.wood, notes)
	if err := errors.Join(noDay, wire.Under(place, err)); err != nil {
		return err
	}
	notes.Merge(estimate.Notes)
	meter := -1
	switch {
	case r.PinMeter != nil:
		meter = h.meter("pin meter", r.PinMeter.Meter, estimate.SD)
	case r.PinlessMeter != nil:
		meter = h.meter("pinless meter", r.PinlessMeter.Meter, estimate.SD)
	}
	o := readiness.ObservationOf(estimate, at, meter)
	if p := r.PinMeter; p != nil && p.Depth != nil {
		share := float64(p.Depth.SI / p.Thickness.SI)
		o.Depth, o.DepthKnown = min(share, 1-share), true
	}
	h.add(o, source{pointer: "/" + place, date: date, mc: estimate})
	return nil
}

// meter finds or adds a meter by its name.
func (h *history) meter(kind, name string, sd quantity.Moisture) int {
	if name == "" {
		name = kind
	}
	setup := &h.question.Setup
	for i := range setup.Meters {
		if setup.Meters[i].Name == name {
			return i
		}
	}
	bias, _ := readiness.MeterBias(sd)
	setup.Meters = append(setup.Meters, readiness.Meter{Name: name, BiasSD: bias})
	return len(setup.Meters) - 1
}
