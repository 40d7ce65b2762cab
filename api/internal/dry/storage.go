package dry

import (
	"errors"
	"strconv"
	"time"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// storage is where the wood lies from the day it was stacked.
type storage struct {
	start   time.Time
	phases  []drying.Phase
	climate *drying.Climate // of the last stay
	places  []string        // for people
}

// HorizonLimit is the longest forecast.
const HorizonLimit = 3650 * quantity.Day

// store turns the stays into phases from the day of stacking over the horizon.
// Errors point below the member "storage", all at once.
func store(t *shelf.Tables, stackedOn string, stays []shelf.Stay, horizon quantity.Duration, notes *method.Notes) (*storage, error) {
	start, err := shelf.ParseDay("stacked_on", stackedOn)
	if err != nil {
		return nil, err
	}
	s := &storage{start: start}
	begin := quantity.Duration(0)
	var noEnd error // after a stay that has none the others have no beginning
	var wrong []error
	for i := range stays {
		member := "storage/" + strconv.Itoa(i)
		stay := &stays[i]
		end := begin
		if noEnd == nil {
			end, noEnd = s.end(stay, i == len(stays)-1, begin, horizon, member)
			wrong = append(wrong, noEnd)
		}
		climate, place, outdoors, err := climateOf(t, stay, start, notes)
		if err == nil && noEnd == nil && climate.End() < end {
			err = s.tooShort(stay, climate.End(), end)
		}
		if err != nil {
			wrong = append(wrong, wire.Under(member, err))
			continue
		}
		s.phases = append(s.phases, drying.Phase{Length: end - begin, Climate: climate, Exposure: exposureOf(stay, outdoors)})
		s.climate = climate
		s.places = append(s.places, place)
		begin = end
	}
	if err := errors.Join(wrong...); err != nil {
		return nil, err
	}
	return s, nil
}

// end is when a stay ends, counted from the day of stacking.
func (s *storage) end(stay *shelf.Stay, last bool, begin, horizon quantity.Duration, member string) (quantity.Duration, error) {
	switch {
	case last && stay.Until != "":
		return 0, wire.Under(member, wire.Contradictory("until", "the last stay has no until: it lasts to the end of the forecast"))
	case last && horizon <= begin:
		return 0, &method.Error{Code: method.Contradictory, Input: "horizon_days", Limit: "more than " + quantity.FormatNumber(begin.Days(), 0) + " days",
			Detail: "the forecast must reach into the last stay"}
	case last:
		return horizon, nil
	case stay.Until == "":
		return 0, wire.Under(member, wire.Missing("until", "every stay but the last needs until, the first day in the next place"))
	}
	day, err := shelf.ParseDay("until", stay.Until)
	if err != nil {
		return 0, wire.Under(member, err)
	}
	end := s.since(day)
	if end <= begin {
		return 0, &method.Error{Code: method.OutOfRange, Input: member + "/until", Limit: "after " + s.date(begin),
			Detail: "the stays must follow each other: until must be after " + s.date(begin)}
	}
	if end > HorizonLimit {
		return 0, &method.Error{Code: method.OutOfRange, Input: member + "/until", Limit: "at most 3650 days after stacking", Detail: "until lies more than ten years after stacking"}
	}
	return end, nil
}

// tooShort says that a record of air ends before the stay does.
func (s *storage) tooShort(stay *shelf.Stay, known, end quantity.Duration) error {
	member := "log"
	if stay.LogCSV != "" {
		member = "log_csv"
	}
	return &method.Error{Code: method.Missing, Input: member, Limit: "air until " + s.date(end),
		Detail: "the record ends on " + s.date(known) + " and the wood lies there until " + s.date(end) + "; add a stay after it, or shorten horizon_days"}
}

func (s *storage) since(day time.Time) quantity.Duration {
	return quantity.Duration(day.Sub(s.start).Seconds())
}

// date is the day a duration after stacking.
func (s *storage) date(d quantity.Duration) string {
	return s.start.Add(time.Duration(d.Seconds()) * time.Second).Format(time.DateOnly)
}

// climate is the air of a stay in run time, with a name for people.
func climateOf(t *shelf.Tables, stay *shelf.Stay, start time.Time, notes *method.Notes) (climate *drying.Climate, place string, outdoors bool, err error) {
	given := 0
	for _, is := range []bool{stay.Station != "", stay.Air != nil, len(stay.Log) > 0, stay.LogCSV != ""} {
		if is {
			given++
		}
	}
	switch {
	case given != 1:
		return nil, "", false, wire.Missing("", "a stay has exactly one of station, air, log and log_csv")
	case stay.HeatedTo != nil && stay.Station == "":
		return nil, "", false, wire.Contradictory("heated_to", "heated_to goes with station")
	case stay.Vapour != nil && stay.HeatedTo == nil:
		return nil, "", false, wire.Contradictory("added_vapour", "added_vapour goes with heated_to")
	case stay.Air != nil:
		state, err := stay.Air.State("air", notes)
		if err != nil {
			return nil, "", false, err
		}
		climate, err := drying.Constant(state.DryBulb, state.RelativeHumidity)
		return climate, "room at " + state.DryBulb.Format("C") + ", " + quantity.FormatNumber(100*state.RelativeHumidity, 0) + " % RH", false, wire.Under("air", err, [2]string{"temperature", "dry_bulb"})
	case stay.Station == "":
		climate, err := logged(stay, start, notes)
		return climate, "recorded air", false, err
	}
	st, err := t.Station(stay.Station)
	if err != nil {
		return nil, "", false, wire.Under("station", err)
	}
	climate, err = stationClimate(st, start)
	if err != nil || stay.HeatedTo == nil {
		return climate, st.Name, true, err
	}
	vapour := quantity.Pressure(0)
	if stay.Vapour != nil {
		vapour = stay.Vapour.SI
	}
	climate, err = drying.Heated(climate, stay.HeatedTo.SI, vapour)
	return climate, st.Name + ", heated to " + stay.HeatedTo.SI.Format("C"), false, wire.Under("", err, [2]string{"temperature", "heated_to"})
}

func stationClimate(st *species.Station, start time.Time) (*drying.Climate, error) {
	normals := drying.Normals{}
	year, complete := st.Year()
	if complete {
		normals.HasTemperature = true
		for i, month := range year {
			normals.Temperature[i], normals.RH[i] = month.Temperature, month.RelativeHumidity
		}
	}
	return drying.Station(normals, dayOfYear(start))
}

// dayOfYear counts from 0 in a year without a leap day, as the climate does.
func dayOfYear(day time.Time) float64 {
	n := day.YearDay() - 1
	if leap := day.Year()%4 == 0 && (day.Year()%100 != 0 || day.Year()%400 == 0); leap && day.Month() > time.February {
		n--
	}
	return float64(n)
}

func exposureOf(stay *shelf.Stay, outdoors bool) drying.Exposure {
	switch stay.Exposure {
	case "open_stack":
		return drying.OpenStack()
	case "shed":
		return drying.Shed()
	case "closed_room":
		return drying.ClosedRoom()
	case "wrapped":
		return drying.Wrapped()
	}
	if outdoors {
		return drying.OpenStack()
	}
	return drying.ClosedRoom()
}

// logged turns a record of air into a climate.
func logged(stay *shelf.Stay, start time.Time, notes *method.Notes) (*drying.Climate, error) {
	readings, member, err := shelf.Recorded(stay.Log, stay.LogCSV, start)
	if err != nil {
		return nil, err
	}
	climate, err := drying.Logged(readings)
	if err != nil || len(readings) <= longestRecord {
		return climate, shelf.AtRow(member, err)
	}
	averaged := drying.Averaged(readings, longestRecord)
	if len(averaged) < len(readings) {
		notes.Warn(method.Warning{Code: method.Assumption, Method: "drying.climate", Input: member,
			Detail: "the record was averaged to " + strconv.Itoa(len(averaged)) + " rows; the wood does not follow the hours, but the result may differ by some tenths of a point"})
	}
	climate, err = drying.Logged(averaged)
	return climate, shelf.AtRow(member, err)
}

// longestRecord is how many rows of a record the simulation follows; more are
// averaged, because the work grows with them.
const longestRecord = 400
