package year

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/quantity"
)

// RoomAir is the air of the room on a day.
type RoomAir struct {
	Date        string        `json:"date" required:"true" description:"month and day; of a record the whole date"`
	Temperature wire.Quantity `json:"temperature" required:"true"`
	RHPct       float64       `json:"rh_pct" required:"true"`
	EMCPct      float64       `json:"emc_pct" required:"true" description:"where wood of unknown history would settle"`
}

// RoomUsed is the room as the answer took it.
type RoomUsed struct {
	Place   string    `json:"place" required:"true"`
	Repeats bool      `json:"repeats" required:"true" description:"the year comes again every year; false for a record shorter than 300 days"`
	Days    float64   `json:"days" required:"true" description:"that the answer covers"`
	Driest  RoomAir   `json:"driest" required:"true"`
	Wettest RoomAir   `json:"wettest" required:"true"`
	Months  []RoomAir `json:"months" required:"true" nullable:"false" description:"the middle of each month; of a record every thirtieth day"`
}

// describe words the room.
func (l *lived) describe(report wire.Reporter) RoomUsed {
	at := func(a inservice.AirAt) RoomAir {
		return RoomAir{Date: l.date(a.At), Temperature: report.Temperature(a.Temperature), RHPct: quantity.Tidy(100 * a.RH),
			EMCPct: a.EMC.Percent()}
	}
	year := l.Year()
	used := RoomUsed{Place: l.place, Repeats: l.repeats, Days: l.span.Days(), Driest: at(year.Driest),
		Wettest: at(year.Wettest), Months: make([]RoomAir, 0, len(year.Months))}
	for _, month := range year.Months {
		used.Months = append(used.Months, at(month))
	}
	return used
}
