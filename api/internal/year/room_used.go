package year

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
)

// RoomAir is the air of the room on a day.
type RoomAir struct {
	Day
	Temperature wire.Quantity `json:"temperature" required:"true" description:"temperature of the air"`
	RHPct       float64       `json:"rh_pct" required:"true" description:"relative humidity of the air"`
	EMCPct      float64       `json:"emc_pct" required:"true" description:"moisture content at which wood of unknown history would settle in it"`
}

// RoomUsed is the room as the answer took it.
type RoomUsed struct {
	Name    string    `json:"name" required:"true" description:"what the room is, in words"`
	Repeats bool      `json:"repeats" required:"true" description:"the year comes again every year; false for a record shorter than 300 days"`
	Days    float64   `json:"days" required:"true" description:"days that the answer covers"`
	Driest  RoomAir   `json:"driest" required:"true" description:"the driest day of the room"`
	Wettest RoomAir   `json:"wettest" required:"true" description:"the wettest day of the room"`
	Months  []RoomAir `json:"samples" required:"true" nullable:"false" description:"air on some days: the middle of each twelfth of a year; of a record every thirtieth day"`
}

// describe words the room.
func (l *lived) describe(report wire.Reporter) RoomUsed {
	at := func(a inservice.AirAt) RoomAir {
		return RoomAir{Day: l.on(a.At), Temperature: report.Temperature(a.Temperature), RHPct: 100 * a.RH,
			EMCPct: a.EMC.Percent()}
	}
	year := l.Year()
	used := RoomUsed{Name: l.place, Repeats: l.repeats, Days: l.span.Days(), Driest: at(year.Driest),
		Wettest: at(year.Wettest), Months: make([]RoomAir, 0, len(year.Months))}
	for _, month := range year.Months {
		used.Months = append(used.Months, at(month))
	}
	return used
}
