package readiness

import (
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// Target is the moisture content the piece should come to: the EMC of the build
// room for this wood.
type Target struct {
	Mean quantity.Moisture // 0.5 to 30 %MC, at the EMCFactor of the setup's wood
	// SD of what has nothing to do with the EMC scale of the piece: the air of the
	// room, and the wood too when WoodShare is 0. 0 to 10 %MC.
	SD quantity.Moisture
	// WoodShare is the share of the variance of the EMC scale that is the wood's
	// own, and so belongs to the target too, 0 to 1; the rest is the place's. With
	// the default spread it is DefaultWoodShare. 0: target and piece have nothing in
	// common.
	WoodShare float64
	// PerRH is by how much the target rises with the relative humidity of the room (%MC
	// as a fraction, over a fraction), where the room is that of a stay: what its
	// air differs from what is told holds for both. 0: another room.
	PerRH float64
	// Stay is which of the stays that is, with PerRH, counted back from the last, 0: stays that
	// follow each other in one air are one.
	Stay int
	// Loop are the edges between which the piece is at rest in that room, at the EMCFactor
	// of the setup's wood; zero: it is to come to Mean.
	Loop drying.Loop
}

// DefaultWoodShare says that the EMC scale is all of the wood, see DefaultEMCLogSD.
const DefaultWoodShare = 1.0

// Room is the air of a room.
type Room struct {
	Temperature      quantity.Temperature // -40 to 80 degC
	RelativeHumidity float64              // fraction 0 to 1
	Loop             drying.Loop          // of the wood in it; the zero one: not told
}

// settles is where a piece of a moisture content comes to rest, of which a band was told
// before that was known.
func (r *Room) settles(told quantity.Band[quantity.Moisture], holds quantity.Moisture) quantity.Band[quantity.Moisture] {
	if r.Loop == (drying.Loop{}) {
		return told
	}
	return told.Shifted(r.Loop.Rest(holds) - told.Value)
}

// A room is half that of a stay where its air is told alike within one of these; see alike.
const (
	sameTemperature = 3.0  // K
	sameHumidity    = 0.04 // fraction
)

// TargetIn returns the target of a piece that comes to rest at a moisture content (0.5 to
// 30 %MC with its band) in a room. Where the piece lies in that room, lay there or comes there,
// what its air really is belongs to piece and target alike, and so does the side of the sorption loop
// that it comes from, where the room tells its edges: a piece that has lain there for years
// is ready, whatever the hygrometer is worth and whatever it was before.
//
// Accuracy: as TargetOf.
//
// Source: as TargetOf; the slope of the sorption curve; drying.Loop.
func (s *Setup) TargetIn(rest quantity.Band[quantity.Moisture], room Room) Target {
	target := TargetOf(rest)
	if room.RelativeHumidity == 0 {
		return target
	}
	stay, share := s.inRoom(room)
	if share == 0 {
		return target
	}
	target.Stay = stay
	target.PerRH = share * sorption.CurvesOf(&s.Wood).At(room.Temperature, sorption.Middle).Slope(room.RelativeHumidity)
	if room.Loop != (drying.Loop{}) {
		// what else is not known of the wood is as the piece has it
		target.Loop = drying.Loop{Driest: toward(target.Mean, room.Loop.Driest, share), Wettest: toward(target.Mean, room.Loop.Wettest, share)}
		target.SD *= quantity.Moisture(math.Sqrt(1 - share))
	}
	return target
}

// toward is a share of the way from one to another.
func toward(from, to quantity.Moisture, share float64) quantity.Moisture {
	return from + quantity.Moisture(share)*(to-from)
}

// TargetOf returns the target of a piece that comes to rest at a moisture content, 0.5
// to 30 %MC with its band. The scatter between woods belongs to piece and target
// alike; what the target's band has beyond it (an unknown history, a wood rich in
// extractives) is the target's own. A stated target, which has no band, is what it is.
//
// Accuracy: that of the band given.
//
// Source: variances of independent errors subtract; the share of the wood is
// DefaultWoodShare.
func TargetOf(rest quantity.Band[quantity.Moisture]) Target {
	all := float64(rest.SD())
	if all == 0 {
		return Target{Mean: rest.Value}
	}
	shared := float64(sorption.UncertaintySD(rest.Value, sorption.Desorption, judgedAt))
	own := math.Sqrt(max(all*all-shared*shared, 0))
	return Target{Mean: rest.Value, SD: quantity.Moisture(own), WoodShare: DefaultWoodShare}
}
