package seasoning_test

import (
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

func ofUnknownStart(p *seasoning.Piece) { p.MayBeDry = true }

func inRoom(q *readiness.HistoryQuestion, room *seasoning.Room) {
	q.Room = readiness.Room{Temperature: room.Temperature, RelativeHumidity: room.RelativeHumidity}
}
