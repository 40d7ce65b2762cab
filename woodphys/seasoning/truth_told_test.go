package seasoning_test

import (
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

func ofUnknownStart(*seasoning.Piece) {}

func inRoom(*readiness.HistoryQuestion, *seasoning.Room) {}
