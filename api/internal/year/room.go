package year

import (
	"time"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Room is the air that finished work lives in through the year. Exactly one of
// station, air, months, seasons, log and log_csv says what it is.
type Room struct {
	Station  string             `json:"station,omitempty" validate:"max=100" description:"id or name of a place (GET /v1/stations lists them): its outdoor air comes in and is heated"`
	Air      *shelf.Air         `json:"air,omitempty" description:"one air that does not change through the year"`
	Months   []shelf.MonthOfAir `json:"months,omitempty" validate:"omitempty,min=12,max=12,dive" description:"twelve months of outdoor air of your own, January first, in place of station"`
	HeatedTo *wire.Temperature  `json:"heated_to,omitempty" validate:"omitempty,gte=263.15,lte=323.15" description:"temperature that the room is heated to, needed with station and months: it is never colder, and in warm months 2 K warmer than outdoors"`
	Vapour   *wire.Pressure     `json:"added_vapour,omitempty" validate:"omitempty,gte=0,lte=3000" description:"vapour that people and work add with the windows shut, with station or months: usually 1 to 5 hPa; less in warm months, none from 20 C outdoors. Left out: none"`
	AtLeast  *float64           `json:"min_rh_pct,omitempty" validate:"omitempty,gte=0,lte=100" description:"humidity that a humidifier holds at least, with station or months. Left out: there is none"`
	AtMost   *float64           `json:"max_rh_pct,omitempty" validate:"omitempty,gt=0,lte=100" description:"humidity that a drier or a cooler holds at most, with station or months. Left out: there is none"`
	Seasons  *Seasons           `json:"seasons,omitempty" description:"air of the room in winter and in summer; the rest of the year lies on a cosine between both"`
	Weekly   *float64           `json:"weekly_rh_swing_points,omitempty" validate:"omitempty,gte=0,lte=30" default:"0" description:"points of humidity that it also swings up and down within the week; not with log or log_csv, which have their own weeks"`
	Log      []shelf.LoggedAir  `json:"log,omitempty" validate:"max=5000,dive" description:"a record of your own, in order of time; one of 300 days and more stands for a year that repeats"`
	LogCSV   string             `json:"log_csv,omitempty" validate:"max=400000" description:"the same as CSV with the header time,temperature_c,rh_pct"`
}

// Seasons are the air of a room in winter and in summer.
type Seasons struct {
	Winter      *shelf.Air `json:"winter_air" validate:"required" description:"air in the middle of winter_month"`
	Summer      *shelf.Air `json:"summer_air" validate:"required" description:"air half a year later"`
	WinterMonth *int       `json:"winter_month,omitempty" validate:"omitempty,gte=1,lte=12" default:"1" description:"month of the winter air, 1 to 12: 7 south of the equator"`
}

// lived is a room ready for the physics.
type lived struct {
	*inservice.Room
	place string // for people
	calendar
}

// roomFor turns the request into a room; errors point below the member "room".
func roomFor(t *shelf.Tables, r *Room, report wire.Reporter, notes *method.Notes) (*lived, error) {
	l, err := roomOf(t, r, report, notes)
	if err != nil {
		return nil, wire.Under("room", err, [2]string{"least_rh_pct", "min_rh_pct"},
			[2]string{"most_rh_pct", "max_rh_pct"},
			[2]string{"weekly_swing_pct", "weekly_rh_swing_points"})
	}
	if r.Weekly != nil && *r.Weekly > 0 {
		if l.Room, err = l.Weekly(*r.Weekly / 100); err != nil {
			return nil, wire.Under("room", err, [2]string{"weekly_swing_pct", "weekly_rh_swing_points"})
		}
	}
	notes.Merge(l.Notes())
	l.span, l.repeats = l.Span(), l.Repeats()
	return l, nil
}

// together are the members that go with one way to tell a room.
func (r *Room) together() error {
	given := 0
	for _, is := range []bool{r.Station != "", r.Air != nil, len(r.Months) > 0, r.Seasons != nil, len(r.Log) > 0, r.LogCSV != ""} {
		if is {
			given++
		}
	}
	if given != 1 {
		return wire.Missing("", "a room has exactly one of station, months, air, seasons, log and log_csv")
	}
	if !r.outdoors() {
		for _, m := range []struct {
			name string
			is   bool
		}{{"heated_to", r.HeatedTo != nil}, {"added_vapour", r.Vapour != nil}, {"min_rh_pct", r.AtLeast != nil},
			{"max_rh_pct", r.AtMost != nil}} {
			if m.is {
				return wire.Contradictory(m.name, m.name+" goes with station or months")
			}
		}
	}
	if r.outdoors() && r.HeatedTo == nil {
		return wire.Missing("heated_to", "say heated_to, the temperature the room is kept at in winter")
	}
	return nil
}

func roomOf(t *shelf.Tables, r *Room, report wire.Reporter, notes *method.Notes) (*lived, error) {
	if err := r.together(); err != nil {
		return nil, err
	}
	switch {
	case r.outdoors():
		return r.heated(t, report)
	case r.Air != nil:
		steady := Seasons{Winter: r.Air, Summer: r.Air}
		l, err := steady.room("room of one air", notes)
		return l, method.Renamed(err, [2]string{"winter_air/", "air/"}, [2]string{"winter_air", "air"})
	case r.Seasons != nil:
		l, err := r.Seasons.room("room of two seasons", notes)
		return l, wire.Under("seasons", err)
	}
	return r.recorded()
}

// room is that of two seasons.
func (s *Seasons) room(place string, notes *method.Notes) (*lived, error) {
	winter, err := s.Winter.State("winter_air", notes)
	if err != nil {
		return nil, err
	}
	summer, err := s.Summer.State("summer_air", notes)
	if err != nil {
		return nil, err
	}
	month := inservice.UsualWinter
	if s.WinterMonth != nil {
		month = *s.WinterMonth
	}
	room, err := inservice.TwoSeasons(winter.DryBulb, winter.RelativeHumidity, summer.DryBulb, summer.RelativeHumidity,
		month)
	return &lived{Room: room, place: place}, method.Renamed(err, [2]string{"winter/", "winter_air/"}, [2]string{"summer/", "summer_air/"})
}

func (r *Room) recorded() (*lived, error) {
	readings, member, err := shelf.Recorded(r.Log, r.LogCSV, time.Time{})
	if err != nil {
		return nil, err
	}
	room, err := inservice.Recorded(readings)
	if err != nil {
		return nil, shelf.AtRow(member, err)
	}
	rows := r.Log
	if r.LogCSV != "" {
		if rows, err = shelf.ReadLog(r.LogCSV); err != nil {
			return nil, err
		}
	}
	start, err := shelf.ParseTime(rows[0].Time)
	return &lived{Room: room, place: "recorded air", calendar: calendar{start: start}}, err
}

func (r *Room) heated(t *shelf.Tables, report wire.Reporter) (*lived, error) {
	name, normals, err := t.Outdoors(r.Station, r.Months)
	if err != nil {
		return nil, err
	}
	heating := inservice.Heating{To: r.HeatedTo.SI}
	place := name + ", heated to " + report.SpokenTemperature(r.HeatedTo.SI)
	if r.Vapour != nil {
		heating.Added = r.Vapour.SI
	}
	if r.AtLeast != nil {
		heating.Least = *r.AtLeast / 100
		place += ", at least " + quantity.FormatNumber(*r.AtLeast, 0) + " % RH"
	}
	if r.AtMost != nil {
		heating.Most = *r.AtMost / 100
		place += ", at most " + quantity.FormatNumber(*r.AtMost, 0) + " % RH"
	}
	room, err := inservice.Indoors(normals, heating)
	return &lived{Room: room, place: place}, err
}

// outdoors says that the air of the room comes from a place of which it is known.
func (r *Room) outdoors() bool { return r.Station != "" || len(r.Months) > 0 }
