package api

import (
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Stay is a time the wood lies in one place. Exactly one of station, air, log
// and log_csv says what the air is.
type Stay struct {
	Until    string       `json:"until,omitempty" validate:"omitempty,datetime=2006-01-02" description:"first day in the next place; left out for the last stay"`
	Station  string       `json:"station,omitempty" validate:"max=100" description:"id or name of a place: outdoors under cover, by its monthly air"`
	HeatedTo *Temperature `json:"heated_to,omitempty" validate:"omitempty,gte=263.15,lte=323.15" description:"with station: indoors, outdoor air warmed to this"`
	Vapour   *Pressure    `json:"added_vapour,omitempty" validate:"omitempty,gte=0,lte=3000" description:"with heated_to: vapour that people and work add indoors, usually 1 to 5 hPa"`
	Air      *Air         `json:"air,omitempty" description:"a room that keeps this air"`
	Log      []LoggedAir  `json:"log,omitempty" validate:"max=5000,dive" description:"your own record, in order of time"`
	LogCSV   string       `json:"log_csv,omitempty" validate:"max=400000" description:"the same as CSV with the header time,temperature_c,rh_pct"`
	Exposure string       `json:"exposure,omitempty" validate:"omitempty,oneof=open_stack shed closed_room wrapped" description:"how the air reaches the wood; default: open_stack outdoors, closed_room indoors"`
}

// LoggedAir is one row of a record of air.
type LoggedAir struct {
	Time        string       `json:"time" validate:"required,max=30" description:"a day, 2026-03-01, or a time, 2026-03-01T14:00:00Z"`
	Temperature *Temperature `json:"temperature" validate:"required,gte=233.15,lte=353.15"`
	RH          *float64     `json:"rh_pct" validate:"required,gte=0,lte=100"`
}

// storage is where the wood lies from the day it was stacked.
type storage struct {
	start   time.Time
	phases  []drying.Phase
	climate *drying.Climate // of the last stay
	places  []string        // for people
}

// horizonLimit is the longest forecast.
const horizonLimit = 3650 * quantity.Day

// store turns the stays into phases from the day of stacking over the horizon.
// Errors point below the member "storage", all at once.
func (t *tables) store(stackedOn string, stays []Stay, horizon quantity.Duration, notes *method.Notes) (*storage, error) {
	start, err := parseDay("stacked_on", stackedOn)
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
		climate, place, outdoors, err := t.climate(stay, start, notes)
		if err == nil && noEnd == nil && climate.End() < end {
			err = s.tooShort(stay, climate.End(), end)
		}
		if err != nil {
			wrong = append(wrong, under(member, err))
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
func (s *storage) end(stay *Stay, last bool, begin, horizon quantity.Duration, member string) (quantity.Duration, error) {
	switch {
	case last && stay.Until != "":
		return 0, under(member, contradictory("until", "the last stay has no until: it lasts to the end of the forecast"))
	case last && horizon <= begin:
		return 0, &method.Error{Code: method.Contradictory, Input: "horizon_days", Limit: "more than " + quantity.FormatNumber(begin.Days(), 0) + " days",
			Detail: "the forecast must reach into the last stay"}
	case last:
		return horizon, nil
	case stay.Until == "":
		return 0, under(member, missing("until", "every stay but the last needs until, the first day in the next place"))
	}
	day, err := parseDay("until", stay.Until)
	if err != nil {
		return 0, under(member, err)
	}
	end := s.since(day)
	if end <= begin {
		return 0, &method.Error{Code: method.OutOfRange, Input: member + "/until", Limit: "after " + s.date(begin),
			Detail: "the stays must follow each other: until must be after " + s.date(begin)}
	}
	if end > horizonLimit {
		return 0, &method.Error{Code: method.OutOfRange, Input: member + "/until", Limit: "at most 3650 days after stacking", Detail: "until lies more than ten years after stacking"}
	}
	return end, nil
}

// tooShort says that a record of air ends before the stay does.
func (s *storage) tooShort(stay *Stay, known, end quantity.Duration) error {
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

func parseDay(input, text string) (time.Time, error) {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return time.Time{}, &method.Error{Code: method.OutOfRange, Input: input, Limit: "a date such as 2026-03-01", Detail: input + " must be a date such as 2026-03-01"}
	}
	return day, nil
}

// climate is the air of a stay in run time, with a name for people.
func (t *tables) climate(stay *Stay, start time.Time, notes *method.Notes) (climate *drying.Climate, place string, outdoors bool, err error) {
	given := 0
	for _, is := range []bool{stay.Station != "", stay.Air != nil, len(stay.Log) > 0, stay.LogCSV != ""} {
		if is {
			given++
		}
	}
	switch {
	case given != 1:
		return nil, "", false, missing("", "a stay has exactly one of station, air, log and log_csv")
	case stay.HeatedTo != nil && stay.Station == "":
		return nil, "", false, contradictory("heated_to", "heated_to goes with station")
	case stay.Vapour != nil && stay.HeatedTo == nil:
		return nil, "", false, contradictory("added_vapour", "added_vapour goes with heated_to")
	case stay.Air != nil:
		state, err := stay.Air.state("air", notes)
		if err != nil {
			return nil, "", false, err
		}
		climate, err := drying.Constant(state.DryBulb, state.RelativeHumidity)
		return climate, "room at " + state.DryBulb.Format("C") + ", " + quantity.FormatNumber(100*state.RelativeHumidity, 0) + " % RH", false, under("air", err, [2]string{"temperature", "dry_bulb"})
	case stay.Station == "":
		climate, err := logged(stay, start, notes)
		return climate, "recorded air", false, err
	}
	st, err := t.station(stay.Station)
	if err != nil {
		return nil, "", false, under("station", err)
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
	return climate, st.Name + ", heated to " + stay.HeatedTo.SI.Format("C"), false, under("", err, [2]string{"temperature", "heated_to"})
}

// station resolves an id or an exact name of a place.
func (t *tables) station(name string) (*species.Station, error) {
	if st, ok := t.species.Station(name); ok {
		return st, nil
	}
	matches := t.species.FindStations(name, 5)
	if len(matches) > 0 && matches[0].Kind <= species.ExactSynonym && (len(matches) == 1 || matches[1].Kind > matches[0].Kind) {
		return matches[0].Station, nil
	}
	detail := "there is no place called " + strconv.Quote(name) + " in the tables"
	if near := t.species.SuggestStations(name, 5); len(near) > 0 {
		detail += "; did you mean " + strings.Join(near, ", ") + "?"
	}
	return nil, &method.Error{Code: method.Unknown, Detail: detail}
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

func exposureOf(stay *Stay, outdoors bool) drying.Exposure {
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
func logged(stay *Stay, start time.Time, notes *method.Notes) (*drying.Climate, error) {
	readings, member, err := recorded(stay.Log, stay.LogCSV, start)
	if err != nil {
		return nil, err
	}
	climate, err := drying.Logged(readings)
	if err != nil || len(readings) <= longestRecord {
		return climate, atRow(member, err)
	}
	averaged := drying.Averaged(readings, longestRecord)
	if len(averaged) < len(readings) {
		notes.Warn(method.Warning{Code: method.Assumption, Method: "drying.climate", Input: member,
			Detail: "the record was averaged to " + strconv.Itoa(len(averaged)) + " rows; the wood does not follow the hours, but the result may differ by some tenths of a point"})
	}
	climate, err = drying.Logged(averaged)
	return climate, atRow(member, err)
}

// longestRecord is how many rows of a record the simulation follows; more are
// averaged, because the work grows with them.
const longestRecord = 400

// recorded reads a record of air, given as rows or as CSV, with times since
// start (the zero time: since its first row). member is where it was given.
func recorded(log []LoggedAir, text string, start time.Time) (readings []drying.Reading, member string, err error) {
	rows, member := log, "log"
	if text != "" {
		member = "log_csv"
		if rows, err = readLog(text); err != nil {
			return nil, member, err
		}
	}
	readings = make([]drying.Reading, 0, len(rows))
	for i := range rows {
		at, err := parseTime(rows[i].Time)
		if err != nil {
			return nil, member, inRow(member, i, err)
		}
		if start.IsZero() {
			start = at
		}
		readings = append(readings, drying.Reading{Time: quantity.Duration(at.Sub(start).Seconds()), Temperature: rows[i].Temperature.SI, RH: *rows[i].RH / 100})
	}
	return readings, member, nil
}

// atRow points an error of a record at the row the caller sent.
func atRow(member string, err error) error {
	domain, failed := asDomain(err)
	if !failed {
		return err
	}
	moved := *domain
	moved.Input = strings.TrimPrefix(strings.TrimPrefix(moved.Input, "rows"), "/")
	number, name, _ := strings.Cut(moved.Input, "/")
	row, err := strconv.Atoi(number)
	if err != nil { // of the whole record
		return under(member, &moved)
	}
	moved.Input = name
	return inRow(member, row, &moved)
}

// inRow says that an error speaks of a row of a record: a member of the list, or
// a line of the text, which has no members to point at.
func inRow(member string, row int, err error) error {
	if member == "log" {
		return under(member+"/"+strconv.Itoa(row), err)
	}
	domain, ok := asDomain(err)
	if !ok {
		return err
	}
	moved := *domain
	moved.Input, moved.Detail = member, "row "+strconv.Itoa(row+1)+" after the header: "+moved.Detail
	return &moved
}

func parseTime(text string) (time.Time, error) {
	for _, form := range []string{time.DateOnly, time.RFC3339, "2006-01-02T15:04", "2006-01-02 15:04"} {
		if at, err := time.Parse(form, text); err == nil {
			return at, nil
		}
	}
	return time.Time{}, &method.Error{Code: method.OutOfRange, Input: "time", Limit: "a day, 2026-03-01, or a time, 2026-03-01T14:00:00Z", Detail: strconv.Quote(text) + " is not a day or a time"}
}

// logHeader is the header of a record as CSV.
var logHeader = []string{"time", "temperature_c", "rh_pct"}

// mostLogRows is the longest record.
const mostLogRows = 5000

// readLog reads a record given as CSV (RFC 4180). Errors point at log_csv.
func readLog(text string) ([]LoggedAir, error) {
	reader := csv.NewReader(strings.NewReader(text))
	reader.TrimLeadingSpace = true
	reader.FieldsPerRecord = len(logHeader)
	header, err := reader.Read()
	if err != nil || !slices.Equal(header, logHeader) {
		return nil, &method.Error{Code: method.OutOfRange, Input: "log_csv", Limit: strings.Join(logHeader, ","), Detail: "the first line of a record is " + strings.Join(logHeader, ",")}
	}
	var rows []LoggedAir
	for {
		record, err := reader.Read()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, inRow("log_csv", len(rows), &method.Error{Code: method.OutOfRange, Detail: "it must have three cells, with every quote closed"})
		}
		if len(rows) == mostLogRows {
			return nil, &method.Error{Code: method.TooMuchWork, Input: "log_csv", Limit: "at most 5000 rows", Detail: "the record has more than 5000 rows; average it to days"}
		}
		row, err := logRow(record)
		if err != nil {
			return nil, inRow("log_csv", len(rows), err)
		}
		rows = append(rows, row)
	}
}

func logRow(record []string) (LoggedAir, error) {
	celsius, err := strconv.ParseFloat(record[1], 64)
	if err != nil || !quantity.Finite(celsius) {
		return LoggedAir{}, &method.Error{Code: method.OutOfRange, Input: "temperature_c", Limit: "a number", Detail: "temperature_c must be a number, got " + strconv.Quote(record[1])}
	}
	rh, err := strconv.ParseFloat(record[2], 64)
	if err != nil || !(rh >= 0 && rh <= 100) {
		return LoggedAir{}, &method.Error{Code: method.OutOfRange, Input: "rh_pct", Limit: "0 to 100 %", Detail: "rh_pct must be a number from 0 to 100, got " + strconv.Quote(record[2])}
	}
	return LoggedAir{Time: record[0], Temperature: &Temperature{SI: quantity.Celsius(celsius), Unit: "C"}, RH: &rh}, nil
}
