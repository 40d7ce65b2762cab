package inservice

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// AirAt is the air of a room at a time.
type AirAt struct {
	At          quantity.Duration // since the start of the room
	Temperature quantity.Temperature
	RH          float64           // fraction
	EMC         quantity.Moisture // where wood of unknown history would settle
}

// RoomYear is the air of a room through its year or record, in short.
type RoomYear struct {
	Driest, Wettest AirAt   // of all days, by the EMC
	Months          []AirAt // the middle of each twelfth of a year; of a record every thirtieth day
}

// Year returns the air of the room through its year or record.
//
// Accuracy: that of the function that made the room; days are looked at once each.
//
// Source: the function that made the room, and the sorption curve.
func (r *Room) Year() RoomYear {
	at := func(d quantity.Duration) AirAt {
		temperature, rh := r.At(d)
		return AirAt{d, temperature, rh, sorption.NewIsotherm(temperature).Surface(rh)}
	}
	out := RoomYear{Driest: at(0), Wettest: at(0)}
	for d := quantity.Duration(0); d <= r.span; d += quantity.Day {
		now := at(d)
		if now.EMC < out.Driest.EMC {
			out.Driest = now
		}
		if now.EMC > out.Wettest.EMC {
			out.Wettest = now
		}
	}
	step := r.span / 12
	if r.recorded {
		step = 30 * quantity.Day
	}
	for d := step / 2; d < r.span; d += step {
		out.Months = append(out.Months, at(d))
	}
	return out
}
