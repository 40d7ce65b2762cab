package dry

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
)

// Of a target that is stated, in percent.
const (
	driestTarget  = 3
	wettestTarget = 30
)

// rest is where a piece comes to rest that starts somewhere (nil: not told) and is wanted in a
// condition, and the room in whose air that is.
func rest(c *shelf.Condition, start *seasoning.Start, w *shelf.Wood) (seasoning.Room, seasoning.Rest, error) {
	room, branch := seasoning.Room{}, sorption.Middle
	if start != nil {
		branch = seasoning.Branch(start.MC)
	}
	switch {
	case c.Stated() != nil:
		return restStated(c.Stated(), branch, w)
	case c.Settled() == nil:
		return room, seasoning.Rest{}, wire.Contradictory("target_condition",
			"no work is done in green wood; give the air of the room as air, or a moisture content as mc_pct")
	}
	const member = "target_condition/air"
	var notes method.Notes
	state, err := c.Settled().Air.State(member, &notes)
	if err != nil {
		return room, seasoning.Rest{}, err
	}
	room.Temperature, room.RelativeHumidity = state.DryBulb, state.RelativeHumidity
	var at seasoning.Rest
	if said := c.Settled().Branch(branch); start == nil || said != branch {
		at, err = room.At(said, w.Sorption())
	} else {
		at, err = room.For(start.MC, start.Spread(), w.Sorption())
	}
	notes.Merge(at.Notes.Below(member))
	at.Notes = notes
	return room, at, wire.Under(member, err)
}

// usualRoom is the temperature of a room of which only the moisture content of its wood is
// told. Own choice.
var usualRoom = quantity.Celsius(20)

// restStated is the target that is stated, and the room that keeps wood there.
func restStated(m *shelf.MoistureCondition, branch sorption.Branch, w *shelf.Wood) (seasoning.Room, seasoning.Rest, error) {
	room := seasoning.Room{Temperature: usualRoom}
	if *m.MC < driestTarget || *m.MC > wettestTarget {
		limit := method.AtLeast(driestTarget, "%")
		if *m.MC > wettestTarget {
			limit = method.AtMost(wettestTarget, "%")
		}
		return room, seasoning.Rest{}, &method.Error{Code: method.OutOfRange, Input: "target_condition/mc_pct", Limit: limit,
			Detail: "the mc_pct of a target must be " + limit.String()}
	}
	sd := quantity.Moisture(0)
	if m.SD != nil {
		sd = wire.FromPercent(*m.SD)
	}
	at := seasoning.Rest{Moisture: quantity.NormalBand(wire.FromPercent(*m.MC), sd)}
	if kept, err := sorption.HumidityFor(usualRoom, at.Moisture.Value, branch, w.Sorption()); err == nil {
		room.RelativeHumidity = kept.RH.Value
	}
	return room, at, nil
}

// targetOf shows where a wood comes to rest, but for the gap.
func targetOf(room *seasoning.Room, at *seasoning.Rest) Target {
	out := Target{MC: wire.MoistureBandOf(at.Moisture), RHPct: percentKnown(room.RelativeHumidity)}
	if at.Room != (readiness.Room{}) {
		out.Sorption, out.Detail = sides[at.Branch], whySide[at.Branch]
	}
	return out
}

// from is the target of wood that holds so much now.
func (t Target) from(now quantity.Moisture) Target {
	t.GapPoints = now.Percent() - t.MC.Value
	return t
}

// sides are the sides of the sorption loop for programs.
var sides = map[sorption.Branch]string{sorption.Middle: "unknown", sorption.Desorption: "drying", sorption.Adsorption: "wetting"}

// percentKnown is a fraction in percent; nil for 0, which is not known.
func percentKnown(fraction float64) *float64 {
	if fraction == 0 {
		return nil
	}
	pct := fraction * 100
	return &pct
}

// whySide says why a target is taken on a side of the loop.
var whySide = map[sorption.Branch]string{
	sorption.Desorption: "the wood dries from green, and so settles on the drying side of the sorption loop: above what wood that was dry " +
		"before comes to in the same air",
	sorption.Middle: "the wood was dry before or may have been, and so is taken to settle in the middle of the sorption loop: below what wood " +
		"that dries from green comes to in the same air",
	sorption.Adsorption: "the wood takes up moisture, and so settles on the wetting side of the sorption loop: below what wood that dries " +
		"comes to in the same air",
}
