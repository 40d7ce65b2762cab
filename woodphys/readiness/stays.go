package readiness

import (
	"math"

	"latewood/woodphys/drying"
)

// joined are phases of which those that follow each other in the same air and the same exposure are
// one: a stay that is told in two parts has one error of its air, and not two. Two would make the
// air of one room change on the day that parts them, and wood that has to follow it lies elsewhere
// in the sorption loop.
func joined(phases []drying.Phase) []drying.Phase {
	one := make([]drying.Phase, 0, len(phases))
	for _, p := range phases {
		if n := len(one); n > 0 && sameStay(&one[n-1], &p) {
			one[n-1].Length += p.Length
			continue
		}
		one = append(one, p)
	}
	return one
}

// sameStay reports that two phases are told alike but for how long they last.
func sameStay(a, b *drying.Phase) bool {
	return a.Exposure == b.Exposure && a.PaceShift == b.PaceShift && a.FactorShift == b.FactorShift && a.Damper == b.Damper &&
		sameAir(a.Climate, b.Climate)
}

// sameAir reports that two climates are one, or keep the same air.
func sameAir(a, b *drying.Climate) bool {
	if a == b {
		return true
	}
	if a == nil || b == nil || !a.Steady() || !b.Steady() {
		return false
	}
	ta, ra := a.At(0)
	tb, rb := b.At(0)
	return ta == tb && ra == rb
}

// lastIn is the last of the stays that is in the air of a room, counted back from the last of all;
// -1 where there is none. Only air that stays as it is is that of a room: that of a season is so on
// some day.
func (s *Setup) lastIn(room Room) int {
	phases := joined(s.Phases)
	for back := range phases {
		air := phases[len(phases)-1-back].Climate
		if air == nil || !air.Steady() {
			continue
		}
		t, rh := air.At(0)
		if math.Abs(t.Celsius()-room.Temperature.Celsius()) < sameTemperature && math.Abs(rh-room.RelativeHumidity) < sameHumidity {
			return back
		}
	}
	return -1
}
