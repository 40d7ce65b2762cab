package inservice

import (
	"fmt"
	"math"

	"latewood/woodphys/air"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// yearLength is the year of a room; leap days are left out.
const yearLength = 365 * quantity.Day

// Room is the air around finished work. It does not change and may be shared.
type Room struct {
	climate *drying.Climate
	span    quantity.Duration // of the answer
	repeats bool
	rough   bool // changes from day to day: extremes are looked for every day
	// recorded says that the room is a record, which has dates of its own.
	recorded bool
	notes    method.Notes
}

// Span returns the time the room is told for: a year, or the length of a record
// that is shorter.
//
// Accuracy: exact.
//
// Source: the year of 365 days, or the last row of the record.
func (r *Room) Span() quantity.Duration { return r.span }

// Repeats reports whether the year comes again every year.
//
// Accuracy: exact.
//
// Source: the function that made the room.
func (r *Room) Repeats() bool { return r.repeats }

// Notes returns what the room rests on.
//
// Accuracy: those of the methods it names.
//
// Source: the function that made the room.
func (r *Room) Notes() method.Notes { return r.notes }

// At returns temperature and relative humidity (fraction) at a time since the
// start of the room, from 0 to Span; outside, those of the repeated year or of
// the nearer end.
//
// Accuracy: that of the function that made the room.
//
// Source: the function that made the room.
func (r *Room) At(d quantity.Duration) (quantity.Temperature, float64) { return r.climate.At(d) }

// Heating is how a room is kept.
type Heating struct {
	To quantity.Temperature // -10 to 50 degC, the least; in summer the room is a little warmer than outdoors
	// Added is the vapour of people and work with the windows shut, 0 to 3000 Pa;
	// it falls in proportion as it gets warmer outdoors, to nothing at 20 degC. nil takes
	// drying.UsualVapour, with a warning.
	Added *quantity.Pressure
	// Least and Most are the relative humidities (fractions, 0 to 1) that a
	// humidifier and a drier hold; 0 for none.
	Least, Most float64
}

// Indoors returns the room at a place with these monthly means outdoors (-40 to
// 80 degC), from 1 January.
//
// Errors: *method.Error with input "heated_to", "added_vapour", "least_rh_pct",
// "most_rh_pct", "months/<n>/temperature", "months/<n>/rh_pct"; code Unsupported
// (input "station") for a place without temperatures; Contradictory for Least
// above Most.
// Accuracy: see the row inservice.room.
//
// Source: row inservice.room.
func Indoors(outdoor drying.Normals, heating Heating) (*Room, error) {
	var notes method.Notes
	if err := notes.Use(&roomRow, "heated_to", heating.To.Celsius()); err != nil {
		return nil, err
	}
	vapour, err := drying.VapourOfPeople(heating.Added, &roomRow, &notes)
	if err != nil {
		return nil, err
	}
	heating.Added = &vapour
	most := heating.Most
	if most == 0 {
		most = 1
	}
	if _, err := roomRow.Check("rh_pct", 100*heating.Least); err != nil {
		return nil, method.Named(err, "least_rh_pct")
	}
	if _, err := roomRow.Check("rh_pct", 100*most); err != nil {
		return nil, method.Named(err, "most_rh_pct")
	}
	if heating.Least > most {
		return nil, &method.Error{Code: method.Contradictory, Input: "most_rh_pct", Limit: method.AtLeast(quantity.RoundedUp(100*heating.Least, 4), "%"),
			Detail: fmt.Sprintf("the drier holds %.4g %%, and the humidifier more, %.4g %%", 100*most, 100*heating.Least)}
	}
	return heating.room(outdoor, most, notes)
}

// UnderCover returns the air outdoors, under a roof, at a place with these monthly means (-40 to
// 80 degC), from 1 January.
//
// Errors: *method.Error with input "months/<n>/temperature", "months/<n>/rh_pct"; code Unsupported
// (input "station") for a place without temperatures.
// Accuracy: as drying.Station; rain, sun and damp ground, which make wood wetter and drier than
// the air does, are not in it.
//
// Source: drying.Station; row inservice.room.
func UnderCover(outdoor drying.Normals) (*Room, error) {
	var notes method.Notes
	climate, err := drying.Station(outdoor, 0)
	if err != nil {
		return nil, err
	}
	notes.Rest(&roomRow)
	notes.Merge(climate.Basis())
	notes.Warn(method.Warning{Code: method.Assumption, Method: roomRow.ID, Input: "outdoors",
		Detail: "the work stands under cover, in the mean air of the months: rain, sun and damp ground, which make it wetter and drier than told, are not counted, and neither are dry and damp spells within a month"})
	return &Room{climate: climate, span: yearLength, repeats: true, notes: notes}, nil
}

// roomKnot is the spacing at which the smooth air outdoors is turned into that of a room;
// straight lines between lie within the set-points, as its values do.
const roomKnot = 2.5 * quantity.Day

// room is the air indoors at each knot: outdoor air of the time of year, warmed, with its
// vapour and that of people, then held between the set-points.
func (h *Heating) room(outdoor drying.Normals, most float64, notes method.Notes) (*Room, error) {
	outdoor.EMC = [12]quantity.Moisture{} // a room keeps the vapour of the mean air
	climate, err := drying.Station(outdoor, 0)
	if err != nil {
		return nil, err
	}
	saturated := false
	rows := make([]drying.Reading, 0, int(yearLength/roomKnot)+1)
	for at := quantity.Duration(0); at <= yearLength; at += roomKnot {
		t, rh := climate.At(at)
		warm := drying.RoomAt(t, h.To)
		e := math.Min(math.Max(rh, 0), 1)*air.SaturationPressureOverWater(t).Pascals() +
			drying.VapourAt(t.Celsius(), *h.Added).Pascals()
		humidity := e / air.SaturationPressureOverWater(warm).Pascals()
		saturated = saturated || humidity > 1
		rows = append(rows, drying.Reading{Time: at, Temperature: warm, RH: math.Min(math.Max(math.Min(humidity, 1), h.Least), most)})
	}
	if saturated {
		notes.Warn(method.Warning{Code: method.Assumption, Method: roomRow.ID, Input: "added_vapour",
			Detail: "at times the air of the room is saturated; the humidity is held at 100 %"})
	}
	inside, err := drying.Logged(rows)
	if err != nil {
		return nil, err
	}
	notes.Rest(&roomRow)
	notes.Merge(climate.Basis())
	return &Room{climate: inside, span: yearLength, repeats: true, notes: notes}, nil
}

// UsualWinter is the month of winter where none is told: January, as north of the equator.
const UsualWinter = 1

// TwoSeasons returns a room that swings in a cosine between a winter, reached in
// the middle of winterMonth (1 to 12), and a summer half a year later. winterT and
// summerT -40 to 80 degC, winterRH and summerRH as fractions 0 to 1.
//
// Errors: *method.Error with input "winter/temperature", "winter/rh_pct",
// "summer/temperature", "summer/rh_pct" or "winter_month".
// Accuracy: the course between the two is assumed.
//
// Source: row inservice.room.
func TwoSeasons(winterT quantity.Temperature, winterRH float64, summerT quantity.Temperature, summerRH float64, winterMonth int) (*Room, error) {
	var notes method.Notes
	if err := checkAir(winterT, winterRH); err != nil {
		return nil, method.Below(err, "winter")
	}
	if err := checkAir(summerT, summerRH); err != nil {
		return nil, method.Below(err, "summer")
	}
	if err := notes.Use(&roomRow, "winter_month", float64(winterMonth)); err != nil {
		return nil, err
	}
	days := [12]float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	begin := [13]float64{}
	for m, d := range days {
		begin[m+1] = begin[m] + d
	}
	deepest := (begin[winterMonth-1] + begin[winterMonth]) / 2
	omega := 2 * math.Pi / yearLength.Days()
	n := drying.Normals{HasTemperature: true}
	for m := range 12 {
		// mean of the cosine over the month
		c := (math.Sin(omega*(begin[m+1]-deepest)) - math.Sin(omega*(begin[m]-deepest))) / (omega * days[m])
		between := func(winter, summer float64) float64 { return (winter+summer)/2 + (winter-summer)/2*c }
		n.Temperature[m] = quantity.Celsius(between(winterT.Celsius(), summerT.Celsius()))
		n.RH[m] = between(winterRH, summerRH)
	}
	return monthly(n, notes)
}

func monthly(n drying.Normals, notes method.Notes) (*Room, error) {
	climate, err := drying.Station(n, 0)
	if err != nil {
		return nil, err
	}
	notes.Rest(&roomRow)
	notes.Merge(climate.Basis())
	return &Room{climate: climate, span: yearLength, repeats: true, notes: notes}, nil
}

// leastYear is how long a record must be to stand for a year.
const leastYear = 300 * quantity.Day

// Recorded returns the room of a record, 2 to 200 000 rows that rise in time and
// start at 0 or later. One of 300 days and more stands for a year that repeats
// (its first 365 days; a gap at the end is bridged by a straight line); a shorter
// one is told as it is, from wood at rest in its mean air.
//
// Errors: *method.Error with input "rows", "rows/<n>/time", "rows/<n>/temperature"
// or "rows/<n>/rh_pct".
// Accuracy: that of the record.
//
// Source: the caller's record; straight lines between its rows.
func Recorded(rows []drying.Reading) (*Room, error) {
	var notes method.Notes
	notes.Rest(&roomRow)
	if _, err := drying.Logged(rows); err != nil {
		return nil, err
	}
	first := rows[0].Time
	kept := make([]drying.Reading, 0, len(rows)+1)
	for _, r := range rows {
		if r.Time -= first; r.Time >= yearLength {
			break
		}
		kept = append(kept, r)
	}
	if len(kept) < len(rows) {
		notes.Warn(method.Warning{Code: method.Assumption, Method: roomRow.ID, Input: "rows", Detail: "the record is longer than a year; its first 365 days are used"})
	}
	room := &Room{rough: true, recorded: true}
	if room.span = kept[len(kept)-1].Time; room.span >= leastYear || len(kept) < len(rows) {
		room.span, room.repeats = yearLength, true
		kept = append(kept, drying.Reading{Time: yearLength, Temperature: kept[0].Temperature, RH: kept[0].RH})
	} else {
		notes.Warn(method.Warning{Code: method.Assumption, Method: roomRow.ID, Input: "rows",
			Detail: "the record is shorter than 300 days: the driest and the wettest state are those of the record, not of a year, and the wood starts at rest in its mean air"})
	}
	climate, err := drying.Logged(kept)
	if err != nil {
		return nil, err
	}
	room.climate, room.notes = climate, notes
	return room, nil
}

// Weekly returns the room with a swing of the relative humidity by swing
// (fraction 0 to 0.3) up and down within each of 52 weeks of the year, held
// between 2 and 98 %. It is for rooms of monthly air; a record has its own weeks.
//
// Errors: *method.Error with input "weekly_swing_pct"; Contradictory for a record.
// Accuracy: a sine stands for the weather.
//
// Source: none; an assumption.
func (r *Room) Weekly(swing float64) (*Room, error) {
	if r.rough {
		return nil, &method.Error{Code: method.Contradictory, Input: "weekly_swing_pct", Detail: "a record has its own weeks; weekly_rh_swing_points goes with monthly air"}
	}
	out := *r
	out.notes = method.Notes{Basis: append([]string{}, r.notes.Basis...), Warnings: append([]method.Warning{}, r.notes.Warnings...)}
	if err := out.notes.Use(&roomRow, "weekly_swing_pct", 100*swing); err != nil {
		return nil, err
	}
	days := int(yearLength.Days())
	rows := make([]drying.Reading, days+1)
	for i := range rows {
		at := quantity.Duration(i) * quantity.Day
		t, rh := r.At(at)
		rh += swing * math.Sin(2*math.Pi*52*float64(i)/float64(days))
		rows[i] = drying.Reading{Time: at, Temperature: t, RH: math.Min(math.Max(rh, 0.02), 0.98)}
	}
	climate, err := drying.Logged(rows)
	if err != nil {
		return nil, err
	}
	out.climate, out.rough = climate, true
	return &out, nil
}

func checkAir(t quantity.Temperature, rh float64) error {
	if _, err := roomRow.Check("temperature", t.Celsius()); err != nil {
		return err
	}
	_, err := roomRow.Check("rh_pct", 100*rh)
	return err
}
