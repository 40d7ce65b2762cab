package dry

import (
	"errors"
	"math"
	"reflect"
	"strconv"
	"time"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
)

// storage is where the wood lies from the day it was stacked.
type storage struct {
	start  time.Time
	phases []drying.Phase
	places []place
	kilns  []seasoning.Kiln
}

// kilns lays the schedule of a stay out in time, for wood that has lain in phases before.
type kilns func(before []drying.Phase, stay *shelf.Stay, exposure drying.Exposure) (*seasoning.Kiln, error)

// errNoDay stands for a day of stacking that is not told.
var errNoDay = errors.New("no day of stacking")

// store turns the stays into phases from the day of stacking over the horizon.
// Errors point below the member stays, all at once.
func store(t *shelf.Tables, stackedOn string, stays []shelf.Stay, horizon quantity.Duration,
	run kilns, notes *method.Notes) (*storage, error) {
	begin := quantity.Duration(0)
	var noEnd error // after a stay that has none the others have no beginning
	var wrong []error
	var start time.Time
	if stackedOn == "" { // which is refused where it is needed; nothing has a beginning
		noEnd = errNoDay
	} else if start, noEnd = shelf.ParseDay("billet/stacked_on", stackedOn); noEnd != nil {
		wrong = append(wrong, noEnd)
	}
	s := &storage{start: start}
	for i := range stays {
		member := "stays/" + strconv.Itoa(i)
		stay := &stays[i]
		end := begin
		if noEnd == nil {
			end, noEnd = s.end(stay, i == len(stays)-1, begin, horizon, member)
			wrong = append(wrong, noEnd)
		}
		told := len(notes.Warnings)
		climate, at, err := climateOf(t, stay, start, notes)
		exposure, noSpeed := exposureOf(stay, at.outdoors())
		err = errors.Join(err, noSpeed)
		if err == nil && len(stay.Phases) > 0 {
			if climate, at, err = s.runKiln(stay, run, exposure); err == nil {
				end = s.kilns[len(s.kilns)-1].End()
			}
		}
		if err == nil && i > 0 && len(s.phases) == i && alike(&stays[i-1], stay) {
			climate = s.phases[i-1].Climate // one place, told in two parts
		}
		notes.Place(told, member)
		if err == nil && noEnd == nil && climate.End() < end {
			err = s.tooShort(stay, climate.End(), end)
		}
		if err != nil {
			wrong = append(wrong, wire.EachError(err, func(one error) error { return wire.Under(member, one) }))
			continue
		}
		s.phases = append(s.phases, drying.Phase{Length: end - begin, Climate: climate, Exposure: exposure})
		s.places = append(s.places, at)
		begin = end
	}
	if err := errors.Join(wrong...); err != nil || noEnd != nil {
		return nil, err
	}
	return s, nil
}

// alike reports that two stays are in one place, in its air: they differ in their days alone. The
// schedule of a kiln is run anew each time.
func alike(before, after *shelf.Stay) bool {
	a, b := *before, *after
	a.Until, b.Until = "", ""
	return len(a.Phases) == 0 && reflect.DeepEqual(a, b)
}

// end is when a stay ends, counted from the day of stacking.
func (s *storage) end(stay *shelf.Stay, last bool, begin, horizon quantity.Duration,
	member string) (quantity.Duration, error) {
	switch phased := len(stay.Phases) > 0; {
	case phased && last:
		return 0, wire.Under(member, wire.Contradictory("phases",
			"a schedule ends: the last stay says where the wood goes from the kiln"))
	case phased && stay.Until != "":
		return 0, wire.Under(member, wire.Contradictory("until", "a stay with phases has no until: it lasts as long as they do"))
	case phased:
		return begin, nil // when it ends is found with its schedule
	case last && stay.Until != "":
		return 0, wire.Under(member, wire.Contradictory("until",
			"the last stay has no until: it lasts to the end of the forecast"))
	case last && horizon <= begin:
		return 0, &method.Error{Code: method.Contradictory, Input: "horizon_days",
			Limit:  method.MoreThan(quantity.Rounded(begin.Days(), 0), "days"),
			Detail: "the forecast must reach into the last stay"}
	case last:
		return horizon, nil
	case stay.Until == "":
		return 0, wire.Under(member, wire.Missing("until",
			"every stay but the last needs until, the first day in the next place"))
	}
	day, err := shelf.ParseDay("until", stay.Until)
	if err != nil {
		return 0, wire.Under(member, err)
	}
	end := s.since(day)
	if end <= begin {
		return 0, &method.Error{Code: method.OutOfRange, Input: member + "/until", Limit: method.AfterDay(s.date(begin)),
			Detail: "the stays must follow each other: until must be after " + s.date(begin)}
	}
	if end > seasoning.LongestHorizon {
		return 0, &method.Error{Code: method.OutOfRange, Input: member + "/until",
			Limit: method.Days("", s.date(seasoning.LongestHorizon)), Detail: "until lies more than ten years after stacking"}
	}
	return end, nil
}

// left are the stays that are not over on the day of a time. What is sawn in the midst of a
// schedule does not go through the rest of it.
func (s *storage) left(stays []shelf.Stay, at quantity.Duration) []shelf.Stay {
	today := quantity.Duration(math.Floor(at.Days())) * quantity.Day
	end := quantity.Duration(0)
	for i := range stays[:len(stays)-1] {
		begin := end
		end += s.phases[i].Length
		amid := len(stays[i].Phases) > 0 && begin < at
		if end > today && !amid {
			return stays[i:]
		}
	}
	return stays[len(stays)-1:]
}

// tooShort says that a record of air ends before the stay does.
func (s *storage) tooShort(stay *shelf.Stay, known, end quantity.Duration) error {
	member := "log"
	if stay.LogCSV != "" {
		member = "log_csv"
	}
	return &method.Error{Code: method.Missing, Input: member,
		Detail: "the record ends on " + s.date(known) + " and the wood lies there until " + s.date(end) +
			"; add a stay after it, or shorten horizon_days"}
}

func (s *storage) since(day time.Time) quantity.Duration {
	return quantity.Duration(day.Sub(s.start).Seconds())
}

// date is the day a duration after stacking.
func (s *storage) date(d quantity.Duration) string {
	return s.start.Add(time.Duration(d.Seconds()) * time.Second).Format(time.DateOnly)
}

// names are those of the places for people.
func (s *storage) names(report wire.Reporter) []string {
	names := make([]string, 0, len(s.places))
	for i := range s.places {
		names = append(names, s.places[i].name(report))
	}
	return names
}

// changes are the days on which the wood changes place.
func (s *storage) changes() []float64 {
	var days []float64
	at := quantity.Duration(0)
	for _, phase := range s.phases[:len(s.phases)-1] {
		at += phase.Length
		days = append(days, at.Days())
	}
	return days
}

// fromMonths are the same stays from the first of each month of the year of stacking on,
// each as long as it is. A record of air has only its own dates, so there are none then.
func (s *storage) fromMonths(t *shelf.Tables, stays []shelf.Stay) ([][]drying.Phase, error) {
	for i := range stays {
		if !stays[i].Outdoor() && stays[i].Air == nil {
			return nil, nil
		}
	}
	var all [][]drying.Phase
	for month := time.January; month <= time.December; month++ {
		start := time.Date(s.start.Year(), month, 1, 0, 0, 0, 0, time.UTC)
		phases := append([]drying.Phase{}, s.phases...)
		for i := range phases {
			var known method.Notes // which the stays of the piece itself have told
			climate, _, err := climateOf(t, &stays[i], start, &known)
			if err != nil {
				return nil, wire.Under("stays/"+strconv.Itoa(i), err)
			}
			phases[i].Climate = climate
		}
		all = append(all, phases)
	}
	return all, nil
}
