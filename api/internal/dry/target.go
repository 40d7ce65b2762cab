package dry

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
)

// rest is the build room, and where a piece that starts at a moisture content (0: green;
// nil: not told) comes to rest in its air.
func rest(air *shelf.Air, start *quantity.Moisture, w *shelf.Wood) (seasoning.Room, seasoning.Rest, error) {
	room := seasoning.Room{}
	state, err := air.State("build_room", &room.Notes)
	if err != nil {
		return room, seasoning.Rest{}, err
	}
	room.Temperature, room.RelativeHumidity = state.DryBulb, state.RelativeHumidity
	var at seasoning.Rest
	if start == nil {
		at, err = room.At(sorption.Middle, w.SettlesLower())
	} else {
		at, err = room.For(*start, w.SettlesLower())
	}
	return room, at, wire.Under("build_room", err, [2]string{"temperature", "dry_bulb"})
}
