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

// inRoom is which of the stays is in the air of a room, counted back from the last of all, and how
// far it is that room, 0 to 1: the last of those that are it most. Only air that stays as it is is
// that of a room: that of a season is so on some day.
func (s *Setup) inRoom(room Room) (stay int, share float64) {
	phases := joined(s.Phases)
	for back := range phases {
		air := phases[len(phases)-1-back].Climate
		if air == nil || !air.Steady() {
			continue
		}
		t, rh := air.At(0)
		same := alike(t.Celsius()-room.Temperature.Celsius(), sameTemperature) * alike(rh-room.RelativeHumidity, sameHumidity)
		if same > share {
			stay, share = back, same
		}
	}
	return stay, share
}

// alike is how far two figures are the same by how far they are apart: half where that is the
// tolerance, and by steps of nothing from all to none, so that a percent of humidity more does not
// turn a verdict.
func alike(apart, tolerance float64) float64 {
	return min(max(1.5-math.Abs(apart)/tolerance, 0), 1)
}
