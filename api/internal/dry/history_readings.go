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

// gather turns the readings into observations: those of meters and samples first, then the
// weights of each body.
func (h *history) gather(notes *method.Notes) error {
	var wrong []error
	for i := range h.req.Readings {
		switch r := &h.req.Readings[i]; {
		case r.Prongs() != nil:
			wrong = append(wrong, prongs(r.Prongs(), placeOf(i), notes))
		case r.Weight() == nil:
			wrong = append(wrong, h.reading(i, notes))
		}
	}
	for body, of := range []string{theBillet, sampleBoard} {
		wrong = append(wrong, h.weights(body, of))
	}
	return errors.Join(wrong...)
}

// prongs tells what a prong test means; it says nothing of moisture.
func prongs(test *shelf.ProngTest, place string, notes *method.Notes) error {
	if err := test.Check(); err != nil {
		return wire.Under(place, err)
	}
	notes.Warn(method.Warning{Code: method.Caution, Input: place, Detail: test.Says()})
	return nil
}

func (h *history) add(o readiness.Observation, s source) {
	h.question.Observations, h.sources = append(h.question.Observations, o), append(h.sources, s)
}

// weights adds the weights of a body.
func (h *history) weights(body int, of string) error {
	var wrong []error
	previous := quantity.Duration(math.Inf(-1))
	list := h.req.weights(of)
	bodies := h.req.bodiesOf(of, body)
	for i, w := range list {
		if h.rested.leaves(w.place, w.Date) {
			continue
		}
		at, err := h.day(w.place+"/date", w.Date)
		switch {
		case err != nil || h.stay == nil:
		case at <= previous:
			err = outOfOrder(w.place+"/date", h.stay.date(previous))
		case at > h.question.Today:
			err = h.ahead(w.place)
		default:
			previous = at
		}
		if err != nil {
			wrong = append(wrong, err)
			continue
		}
		h.add(readiness.Observation{Kind: readiness.Weight, At: at, Body: bodies[i],
			Weighing: shelf.Weighing(w.Mass, h.req.Scale), Written: written(w.Mass), Unit: w.Mass.Unit},
			source{pointer: "/" + w.place, date: w.Date, unit: w.Mass.Unit})
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
	date, at := h.req.AsOf, h.question.Today
	var noDay error
	if h.rested.leaves(place, r.Day()) {
		return nil
	}
	if r.Day() != "" {
		date = r.Day()
		if at, noDay = h.day(place+"/date", date); noDay == nil && at > h.question.Today {
			noDay = h.ahead(place)
		}
	}
	estimate, _, err := r.Estimate(h.wood, h.req.Billet.Thickness)
	if err := errors.Join(noDay, wire.Under(place, err)); err != nil {
		return err
	}
	notes.Merge(estimate.Notes.Below(place))
	meter := -1
	pin, isPin := r.Form.(*shelf.PinMeterReading)
	if isPin {
		meter = h.meter("pin meter", pin.Meter, readiness.MeterSD(wire.FromPercent(*pin.Reading), estimate.SD))
	} else if pinless, is := r.Form.(*shelf.PinlessMeterReading); is {
		meter = h.meter("pinless meter", pinless.Meter, readiness.MeterSD(estimate.MC.Value, estimate.SD))
	}
	o := readiness.ObservationOf(estimate, at, meter)
	if isPin {
		o.Depth, o.DepthKnown, _ = pin.Share(h.req.Billet.Thickness) // or the estimate was refused
	}
	if stated, is := r.Form.(*shelf.StatedReading); is {
		o.Written = quantity.FormatNumber(*stated.MC, 6)
	}
	if at, ofPlace := r.TakenAt(); ofPlace {
		if h.question.TakenAt == nil {
			h.question.TakenAt = map[int]readiness.WedgePlace{}
		}
		h.question.TakenAt[len(h.sources)] = readiness.WedgePlace(at)
	}
	h.add(o, source{pointer: "/" + place, date: date, mc: estimate})
	return nil
}

// meter finds or adds a meter by its name. What is common to its readings is that of the surest of
// them, whichever comes first: one is less sure by itself, for where or how wet it was.
func (h *history) meter(kind, name string, sd quantity.Moisture) int {
	if name == "" {
		name = kind
	}
	setup := &h.question.Setup
	bias, _ := readiness.MeterBias(sd)
	for i := range setup.Meters {
		if m := &setup.Meters[i]; m.Name == name {
			m.BiasSD = min(m.BiasSD, bias)
			return i
		}
	}
	setup.Meters = append(setup.Meters, readiness.Meter{Name: name, BiasSD: bias})
	return len(setup.Meters) - 1
}
