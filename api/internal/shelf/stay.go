package shelf

import (
	"cmp"
	"strconv"
	"strings"
	"time"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// LoggedAir is one row of a record of air.
type LoggedAir struct {
	Time        string            `json:"time" validate:"required,max=30" description:"a day, 2026-03-01, or a time, 2026-03-01T14:00:00Z"`
	Temperature *wire.Temperature `json:"temperature" validate:"required,gte=233.15,lte=353.15" description:"of the air"`
	RH          *float64          `json:"rh_pct" validate:"required,gte=0,lte=100" description:"relative humidity, over water"`
}

// ParseDay reads a day such as 2026-03-01.
func ParseDay(input, text string) (time.Time, error) {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return time.Time{}, &method.Error{Code: method.OutOfRange, Input: input, Limit: method.SuchAs("2026-03-01"), Detail: input + " must be a date such as 2026-03-01"}
	}
	return day, nil
}

// Station resolves an id or an exact name of a place.
func (t *Tables) Station(name string) (*species.Station, error) {
	if st, ok := t.Species.Station(name); ok {
		return st, nil
	}
	switch exact := t.placesNamed(name); {
	case len(exact) == 1:
		return exact[0], nil
	case len(exact) > 1:
		return nil, severalPlaces(name, exact)
	}
	detail := "there is no place called " + strconv.Quote(name) + " in the tables"
	if near := t.Species.SuggestStations(name, 5); len(near) > 0 {
		detail += "; did you mean " + strings.Join(near, ", ") + "?"
	}
	return nil, &method.Error{Code: method.Unknown, Detail: detail, Limit: method.OneOf(t.NearestStations(name)...)}
}

// placesNamed are the places that a name is one of, as it stands in the tables.
func (t *Tables) placesNamed(name string) []*species.Station {
	var exact []*species.Station
	matches := t.Species.FindStations(name, mostOfOneName)
	for _, m := range matches {
		if m.Kind <= species.ExactSynonym && m.Kind == matches[0].Kind {
			exact = append(exact, m.Station)
		}
	}
	return exact
}

// severalPlaces refuses a name that several places have, with their ids as choices. Its code
// is that of a name that none has, as it was promised.
func severalPlaces(name string, places []*species.Station) error {
	listed, ids := make([]string, 0, len(places)), make([]string, 0, len(places))
	for _, p := range places {
		ids = append(ids, p.ID)
		listed = append(listed, p.ID+" ("+cmp.Or(p.RegionName, p.Country)+")")
	}
	return &method.Error{Code: method.Unknown, Detail: strconv.Quote(name) + " names several places: " + strings.Join(listed, "; ") + "; say which", Limit: method.OneOf(ids...)}
}

// Recorded reads a record of air, given as rows or as CSV, with times since
// start (the zero time: since its first row). member is where it was given.
func Recorded(log []LoggedAir, text string, start time.Time) (readings []drying.Reading, member string, err error) {
	rows, member := log, "log"
	if text != "" {
		member = "log_csv"
		if rows, err = ReadLog(text); err != nil {
			return nil, member, err
		}
	}
	readings = make([]drying.Reading, 0, len(rows))
	for i := range rows {
		at, err := ParseTime(rows[i].Time)
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

// AtRow points an error of a record at the row the caller sent.
func AtRow(member string, err error) error {
	domain, failed := wire.AsDomain(err)
	if !failed {
		return err
	}
	moved := *domain
	moved.Input = strings.TrimPrefix(strings.TrimPrefix(moved.Input, "rows"), "/")
	number, name, _ := strings.Cut(moved.Input, "/")
	row, err := strconv.Atoi(number)
	if err != nil { // of the whole record
		return wire.Under(member, &moved)
	}
	moved.Input = name
	return inRow(member, row, &moved)
}

// inRow says that an error speaks of a row of a record: a member of the list, or
// a line of the text, which has no members to point at.
func inRow(member string, row int, err error) error {
	if member == "log" {
		return wire.Under(member+"/"+strconv.Itoa(row), err)
	}
	domain, ok := wire.AsDomain(err)
	if !ok {
		return err
	}
	moved := *domain
	moved.Input, moved.Detail = member, "row "+strconv.Itoa(row+1)+" after the header: "+moved.Detail
	return &moved
}

// ParseTime reads a day or a time.
func ParseTime(text string) (time.Time, error) {
	for _, form := range []string{time.DateOnly, time.RFC3339, "2006-01-02T15:04:05", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02 15:04", "2006/01/02 15:04:05", "2006/01/02 15:04"} {
		if at, err := time.Parse(form, text); err == nil {
			return at, nil
		}
	}
	return time.Time{}, &method.Error{Code: method.OutOfRange, Input: "time", Limit: method.SuchAs("2026-03-01T14:00:00Z"), Detail: strconv.Quote(text) + " is not a day or a time"}
}
