package dry

import (
	"strconv"
	"time"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
)

// place is where a stay is, for people.
type place struct {
	station  string                // name of the station; empty indoors without one
	heatedTo *quantity.Temperature // indoors, the air of the station warmed to this
	room     *quantity.Temperature // a room that is kept so
	rh       float64               // of the room, a fraction
	kiln     []seasoning.Step      // the schedule of one
}

func (p *place) outdoors() bool { return p.station != "" && p.heatedTo == nil }

// name is what the place is called, in the units of the answer.
func (p *place) name(report wire.Reporter) string {
	switch {
	case p.kiln != nil:
		last := &p.kiln[len(p.kiln)-1]
		return "kiln, " + wire.CountOf(len(p.kiln), "phase") + ", the last at " + report.SaidTemperature(last.Temperature) + ", " +
			quantity.FormatNumber(100*last.RH, 0) + " % RH"
	case p.room != nil:
		return "room at " + report.SaidTemperature(*p.room) + ", " + quantity.FormatNumber(100*p.rh, 0) + " % RH"
	case p.heatedTo != nil:
		return p.station + ", heated to " + report.SaidTemperature(*p.heatedTo)
	case p.station == "":
		return "recorded air"
	}
	return p.station
}

// climateOf is the air of a stay in run time, and where that is.
func climateOf(t *shelf.Tables, stay *shelf.Stay, start time.Time, notes *method.Notes) (*drying.Climate, place, error) {
	given := 0
	for _, is := range []bool{stay.Station != "", len(stay.Months) > 0, stay.Air != nil, len(stay.Log) > 0, stay.LogCSV != "", len(stay.Phases) > 0} {
		if is {
			given++
		}
	}
	switch {
	case given > 1:
		return nil, place{}, wire.Contradictory("", "give only one of station, months, air, log, log_csv and phases")
	case given == 0:
		return nil, place{}, wire.Missing("", "a stay has exactly one of station, months, air, log, log_csv and phases")
	case stay.HeatedTo != nil && !stay.Outdoor():
		return nil, place{}, wire.Contradictory("heated_to", "heated_to goes with station or months")
	case stay.Vapour != nil && stay.HeatedTo == nil:
		return nil, place{}, wire.Contradictory("added_vapour", "added_vapour goes with heated_to")
	case len(stay.Phases) > 0:
		return nil, place{}, nil // which is found with its schedule
	case stay.Air != nil:
		return roomOf(stay, notes)
	case !stay.Outdoor():
		climate, err := logged(stay, start, notes)
		return climate, place{}, err
	}
	name, normals, err := t.Outdoors(stay.Station, stay.Months)
	if err != nil {
		return nil, place{}, err
	}
	if stay.HeatedTo != nil { // warming keeps the vapour of the mean air
		normals.EMC = [12]quantity.Moisture{}
	}
	climate, err := drying.Station(normals, dayOfYear(start))
	if err != nil || stay.HeatedTo == nil {
		return climate, place{station: name}, err
	}
	var vapour *quantity.Pressure
	if stay.Vapour != nil {
		vapour = &stay.Vapour.SI
	}
	climate, err = drying.Heated(climate, stay.HeatedTo.SI, vapour)
	return climate, place{station: name, heatedTo: &stay.HeatedTo.SI}, wire.Under("", err,
		[2]string{"temperature", "heated_to"})
}

// roomOf is a room that keeps its air.
func roomOf(stay *shelf.Stay, notes *method.Notes) (*drying.Climate, place, error) {
	read := stay.Air.State
	switch stay.Exposure {
	case "kiln", "dehumidifier", "solar_kiln":
		read = stay.Air.StateInKiln
	}
	state, err := read("air", notes)
	if err != nil {
		return nil, place{}, err
	}
	climate, err := drying.Constant(state.DryBulb, state.RelativeHumidity)
	return climate, place{room: &state.DryBulb, rh: state.RelativeHumidity}, wire.Under("air", err)
}

// dayOfYear counts from 0 in a year without a leap day, as the climate does.
func dayOfYear(day time.Time) float64 {
	n := day.YearDay() - 1
	if leap := day.Year()%4 == 0 && (day.Year()%100 != 0 || day.Year()%400 == 0); leap && day.Month() > time.February {
		n--
	}
	return float64(n)
}

// exposureOf is how the air reaches the wood, at the speed that is told.
func exposureOf(stay *shelf.Stay, outdoors bool) (drying.Exposure, error) {
	exposure := kindOfExposure(stay, outdoors)
	if stay.AirSpeed == nil {
		return exposure, nil
	}
	at, err := exposure.AtSpeed(*stay.AirSpeed)
	if err != nil {
		return exposure, wire.Contradictory("air_speed_m_per_s", "a speed of air goes with air that is blown through the stack: "+
			"moving_air, kiln, dehumidifier or solar_kiln")
	}
	return at, nil
}

func kindOfExposure(stay *shelf.Stay, outdoors bool) drying.Exposure {
	switch stay.Exposure {
	case "open_stack":
		return drying.OpenStack()
	case "small_stack":
		return drying.OpenSmallStack()
	case "moving_air":
		return drying.Fanned()
	case "kiln":
		return drying.Kiln()
	case "dehumidifier":
		return drying.Dehumidifier()
	case "solar_kiln":
		return drying.SolarKiln()
	case "shed":
		return drying.Shed()
	case "closed_room":
		return drying.ClosedRoom()
	case "wrapped":
		return drying.Wrapped()
	}
	switch {
	case len(stay.Phases) > 0:
		return drying.Kiln()
	case outdoors:
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
	climate, rows, err := drying.Followed(readings)
	if err == nil && rows < len(readings) {
		notes.Warn(method.Warning{Code: method.Assumption, Method: "drying.climate", Input: member,
			Detail: "the record was averaged to " + strconv.Itoa(rows) +
				" rows; the wood does not follow the hours, but the result may differ by some tenths of a point"})
	}
	return climate, shelf.AtRow(member, err)
}
