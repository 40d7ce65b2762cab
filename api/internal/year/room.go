package year

import (
	"errors"
	"time"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// lived is a room ready for the physics.
type lived struct {
	*inservice.Room
	place string // for people
	calendar
}

// roomNames are what a request calls the inputs of a room.
var roomNames = [][2]string{{"least_rh_pct", "min_rh_pct"}, {"most_rh_pct", "max_rh_pct"},
	{"weekly_swing_pct", "weekly_rh_swing_points"}, {"winter_month", "seasons/winter_month"}, {"rows", ""}}

// roomFor turns the request into a room; errors point below the member "room".
func roomFor(t *shelf.Tables, r *shelf.Room, report wire.Reporter, notes *method.Notes) (*lived, error) {
	told := len(notes.Warnings)
	l, err := roomOf(t, r, report, notes)
	notes.Place(told, "room")
	if err != nil {
		return nil, wire.Under("room", err, roomNames...)
	}
	if r.Weekly != nil {
		if l.Room, err = l.Weekly(*r.Weekly / 100); err != nil {
			return nil, wire.Under("room", err, roomNames...)
		}
	}
	notes.Merge(wire.AtMembers(l.Notes(), func(err error) error { return wire.Under("room", err, roomNames...) }))
	l.span, l.repeats = l.Span(), l.Repeats()
	return l, nil
}

// together are the members that go with one way to tell a room.
func together(r *shelf.Room) error {
	given := 0
	for _, is := range []bool{r.Station != "", len(r.Months) > 0, r.Air != nil, r.Seasons != nil, len(r.Log) > 0, r.LogCSV != "", r.Outdoors != nil} {
		if is {
			given++
		}
	}
	if given > 1 {
		return wire.Contradictory("", "give only one of station, months, air, seasons, log, log_csv and outdoors")
	}
	if given == 0 {
		return wire.Missing("", "a room has exactly one of station, months, air, seasons, log, log_csv and outdoors")
	}
	if !r.Outdoor() {
		for _, m := range []struct {
			name string
			is   bool
		}{{"heated_to", r.HeatedTo != nil}, {"added_vapour", r.Vapour != nil}, {"min_rh_pct", r.MinRH != nil},
			{"max_rh_pct", r.MaxRH != nil}} {
			if m.is {
				return wire.Contradictory(m.name, m.name+" goes with station or months")
			}
		}
	}
	if r.Outdoor() && r.HeatedTo == nil {
		return wire.Missing("heated_to", "say heated_to, the temperature the room is kept at in winter; work that stands outdoors under cover has "+
			"its station or months in outdoors; air, seasons, log and log_csv tell the air of the place itself")
	}
	return nil
}

func roomOf(t *shelf.Tables, r *shelf.Room, report wire.Reporter, notes *method.Notes) (*lived, error) {
	if err := together(r); err != nil {
		return nil, err
	}
	switch {
	case r.Outdoors != nil:
		return underCover(t, r.Outdoors)
	case r.Outdoor():
		return heated(t, r, report)
	case r.Air != nil:
		return kept(r.Air, notes)
	case r.Seasons != nil:
		return ofTwoSeasons(r.Seasons, notes)
	}
	return recorded(r)
}

// kept is a room that keeps its air: one of two seasons that are alike.
func kept(a *shelf.Air, notes *method.Notes) (*lived, error) {
	state, err := a.State("air", notes)
	if err != nil {
		return nil, err
	}
	room, err := inservice.TwoSeasons(state.DryBulb, state.RelativeHumidity, state.DryBulb, state.RelativeHumidity,
		inservice.UsualWinter)
	return &lived{Room: room, place: "room that keeps its air"}, wire.Under("air", err,
		[2]string{"winter/temperature", "temperature"}, [2]string{"winter/rh_pct", "rh_pct"})
}

func ofTwoSeasons(s *shelf.Seasons, notes *method.Notes) (*lived, error) {
	winter, noWinter := s.WinterAir.State("seasons/winter_air", notes)
	summer, noSummer := s.SummerAir.State("seasons/summer_air", notes)
	if err := errors.Join(noWinter, noSummer); err != nil {
		return nil, err
	}
	month := inservice.UsualWinter
	if s.WinterMonth != nil {
		month = *s.WinterMonth
	}
	room, err := inservice.TwoSeasons(winter.DryBulb, winter.RelativeHumidity, summer.DryBulb, summer.RelativeHumidity,
		month)
	return &lived{Room: room, place: "room of two seasons"}, method.Renamed(err, [2]string{"winter/", "seasons/winter_air/"},
		[2]string{"summer/", "seasons/summer_air/"}, [2]string{"winter_month", "seasons/winter_month"})
}

func recorded(r *shelf.Room) (*lived, error) {
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

func underCover(t *shelf.Tables, o *shelf.OutdoorAir) (*lived, error) {
	switch {
	case o.Station == "" && len(o.Months) == 0:
		return nil, wire.Missing("outdoors/station", "outdoors has station or months")
	case o.Station != "" && len(o.Months) > 0:
		return nil, wire.Contradictory("outdoors", "give station or months, not both")
	}
	name, normals, err := t.Outdoors(o.Station, o.Months)
	if err != nil {
		return nil, wire.Under("outdoors", err)
	}
	room, err := inservice.UnderCover(normals)
	return &lived{Room: room, place: name + ", outdoors under cover"}, wire.Under("outdoors", err)
}

func heated(t *shelf.Tables, r *shelf.Room, report wire.Reporter) (*lived, error) {
	name, normals, err := t.Outdoors(r.Station, r.Months)
	if err != nil {
		return nil, err
	}
	heating := inservice.Heating{To: r.HeatedTo.SI}
	place := name + ", heated to " + report.SaidTemperature(r.HeatedTo.SI)
	if r.Vapour != nil {
		heating.Added = &r.Vapour.SI
	}
	if r.MinRH != nil {
		heating.Least = *r.MinRH / 100
		place += ", at least " + quantity.FormatNumber(*r.MinRH, 0) + " % RH"
	}
	if r.MaxRH != nil {
		heating.Most = *r.MaxRH / 100
		place += ", at most " + quantity.FormatNumber(*r.MaxRH, 0) + " % RH"
	}
	room, err := inservice.Indoors(normals, heating)
	return &lived{Room: room, place: place}, err
}
