package rack

import (
	"encoding/json"
	"slices"
	"time"

	jsonv2 "github.com/go-json-experiment/json"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// Weighings are what the scale showed last of a piece of wood and what it will show.
type Weighings struct {
	Last      *LastWeight `json:"last_weight,omitempty" description:"that answers rest on, as it was written. Left out: it was never weighed, or none can be used"`
	Doubted   *LastWeight `json:"doubted_weight,omitempty" description:"a later one that was set aside, as it was written: contradictions tell why. Left out: there is none"`
	Mass      *wire.Band  `json:"expected_mass,omitempty" description:"what it will weigh on the day of the answer if all is well, in the unit of last_weight. Left out: not known"`
	Plausible *wire.Range `json:"plausible_mass,omitempty" description:"about one of a thousand weights lies outside: look at the scale again, and keep what it shows"`

	lighter *store.Record // what took wood off since the last weight; nil: nothing
}

// LastWeight is the last weight of a piece of wood.
type LastWeight struct {
	ID   string        `json:"id" required:"true" description:"of the reading on the rack"`
	Date string        `json:"date" required:"true" format:"date" description:"of the weighing"`
	Mass wire.Quantity `json:"mass" required:"true" description:"in the unit that it was written in"`
}

// lastWeightOf reads a weight on the rack; nil where its mass cannot be read.
func lastWeightOf(r *store.Record) *LastWeight {
	var kept struct {
		Reading struct {
			Mass wire.Mass `json:"mass"`
		} `json:"reading"`
	}
	if jsonv2.Unmarshal(r.Body, &kept) != nil {
		return nil
	}
	unit := quantity.Symbol(kept.Reading.Mass.Unit)
	value, is := kept.Reading.Mass.SI.In(unit)
	if !is {
		return nil
	}
	return &LastWeight{ID: r.ID, Date: r.Day, Mass: wire.Quantity{Value: value, Unit: unit}}
}

// weighings are those of a piece of wood, on a day.
func (s *standing) weighings(answer *judged, day string) Weighings {
	var w Weighings
	for i := len(s.weights) - 1; i >= 0 && w.Last == nil; i-- {
		one := s.weights[i]
		switch weight := lastWeightOf(one); {
		case !s.setAside(answer, one.ID):
			w.Last = weight
			w.lighter = s.lighterSince(one.Day)
		case w.Doubted == nil:
			w.Doubted = weight
		}
	}
	if w.Last == nil || w.lighter != nil {
		return w
	}
	f, told := answer.foreseenOn(day)
	if !told {
		return w
	}
	unit := w.Last.Mass.Unit
	in := func(m quantity.Mass) float64 {
		value, _ := m.In(unit) // it is one of ours
		return value
	}
	w.Mass = &wire.Band{Value: in(f.Mass.Value), Low: in(f.Mass.Low), High: in(f.Mass.High), Unit: unit}
	w.Plausible = &wire.Range{Low: in(f.Least), High: in(f.Most), Unit: unit}
	return w
}

// setAside reports a reading that the answer left out.
func (s *standing) setAside(answer *judged, id string) bool {
	for i := range answer.Result.Rejected {
		if s.found.reading(answer.Result.Rejected[i].Pointer) == id {
			return true
		}
	}
	return false
}

// lighterSince is what took wood off after a day; nil for nothing.
func (s *standing) lighterSince(day string) *store.Record {
	if i := slices.IndexFunc(s.lightens, func(e *store.Record) bool { return e.Day > day }); i >= 0 {
		return s.lightens[i]
	}
	return nil
}

// foreseenOn is what the answer leads to expect of the scale on a day.
func (j *judged) foreseenOn(day string) (f readiness.Foreseen, told bool) {
	on, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return f, false
	}
	var all []readiness.Foreseen
	for i := range j.Result.Weights {
		w := &j.Result.Weights[i]
		at, err := time.Parse(time.DateOnly, w.Date)
		if err != nil {
			return f, false
		}
		mass := func(value float64) quantity.Mass {
			m, _ := quantity.MassOf(value, w.Mass.Unit) // the service wrote it
			return m
		}
		all = append(all, readiness.Foreseen{At: since(on, at), Least: mass(w.Plausible.Low), Most: mass(w.Plausible.High),
			Mass: quantity.Band[quantity.Mass]{Value: mass(w.Mass.Value), Low: mass(w.Mass.Low), High: mass(w.Mass.High)}})
	}
	return readiness.ForeseenOn(all, 0)
}

func since(from, to time.Time) quantity.Duration { return quantity.Duration(to.Sub(from).Seconds()) }

// spotOf is where in its place a piece of wood lies.
func spotOf(body []byte) string {
	var kept struct {
		Spot string `json:"spot"`
	}
	if json.Unmarshal(body, &kept) != nil {
		return ""
	}
	return kept.Spot
}
