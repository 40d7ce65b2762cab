package dry

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
)

// rest is the build room, and where a wood comes to rest in its air.
func rest(air *shelf.Air, branch sorption.Branch, w *shelf.Wood) (seasoning.Room, seasoning.Rest, error) {
	room := seasoning.Room{}
	state, err := air.State("build_room", &room.Notes)
	if err != nil {
		return room, seasoning.Rest{}, err
	}
	room.Temperature, room.RelativeHumidity = state.DryBulb, state.RelativeHumidity
	at, err := room.At(branch, w.SettlesLower())
	return room, at, wire.Under("build_room", err)
}
