package readiness

import (
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Billet is a piece as it measures now.
type Billet struct {
	Wood             wood.Wood
	Width, Thickness quantity.Length    // above 0
	Length           quantity.Length    // 0: not known
	Thickest         quantity.Length    // of a wedge, at its thickest; 0: a board
	RingAngle        *quantity.Angle    // of the rings to the wide face, 0 to 90 degrees; nil: not known
	Weighing         *moisture.Weighing // the last; nil where it was not weighed
}

// judged is the thickness by which the limits of a step go: the thickest place is the last to
// be ready.
func (b *Billet) judged() quantity.Length { return max(b.Thickness, b.Thickest) }

// Rings say how the rings of a movement stand.
type Rings string

// How the rings stand.
const (
	RingsAsGiven     Rings = "as_given"
	RingsQuartersawn Rings = "if_quartersawn"
	RingsFlatsawn    Rings = "if_flatsawn"
)

// Move is how a dimension of the billet moves on its way to the target.
type Move struct {
	Dimension string // "width" or "thickness"
	Rings     Rings
	Size      quantity.Length
	Change    quantity.Band[quantity.Length]
	Lacking   bool // the wood lacks the figures for it, and nothing is said
	Notes     method.Notes
}

// Settled is the billet when it has come to rest.
type Settled struct {
	Moves  []Move
	Weight *moisture.TargetWeight // nil where it was not weighed
}

// Settle returns what becomes of the billet between a moisture content with its
// standard deviation and the target. Where the ring angle is not known it says what a
// quartersawn and what a flatsawn billet would do.
//
// Errors: those of movement.Change, but for a wood that lacks its figures; those of
// moisture.WeightAt, below "weight/".
// Accuracy: as movement.Change and moisture.WeightAt.
//
// Source: movement.Change; row mc.target-weight.
func (b *Billet) Settle(now quantity.Band[quantity.Moisture], sd quantity.Moisture,
	target quantity.Band[quantity.Moisture]) (Settled, error) {
	var s Settled
	for _, way := range b.ringsToShow() {
		for _, d := range []struct {
			name string
			size quantity.Length
			in   movement.Direction
		}{
			{"width", b.Width, movement.WidthAt(way.angle, 0)},
			{"thickness", b.Thickness, movement.ThicknessAt(way.angle, 0)},
		} {
			m, err := movement.Change(d.size, d.in, now, target, b.Wood)
			lacking := codeOf(err) == method.MissingData
			if err != nil && !lacking {
				return Settled{}, err
			}
			change := m.Change
			if err == nil {
				change, err = insideEnds(change, now, func(end quantity.Band[quantity.Moisture]) (quantity.Band[quantity.Length], error) {
					at, err := movement.Change(d.size, d.in, end, target, b.Wood)
					return at.Change, err
				})
				if err != nil {
					return Settled{}, err
				}
			}
			s.Moves = append(s.Moves, Move{d.name, way.rings, d.size, change, lacking, m.Notes})
		}
	}
	if b.Weighing == nil {
		return s, nil
	}
	weigh := func(mc quantity.Band[quantity.Moisture]) (moisture.TargetWeight, error) {
		return moisture.WeightAt(moisture.Known{Weighing: *b.Weighing, MC: mc}, target.Value)
	}
	at, err := weigh(quantity.NormalBand(now.Value, sd))
	if err == nil {
		at.Mass, err = insideEnds(at.Mass, now, func(end quantity.Band[quantity.Moisture]) (quantity.Band[quantity.Mass], error) {
			settled, err := weigh(end)
			return settled.Mass, err
		})
	}
	if err != nil {
		return Settled{}, method.Renamed(err, [2]string{"mass", "weight/mass"}, [2]string{"mass_resolution",
			"weight/mass_resolution"},
			[2]string{"mc_pct", "weight/mc_pct"}, [2]string{"target_mc_pct", "weight/target_mc_pct"})
	}
	s.Weight = &at
	return s, nil
}

// insideEnds keeps the band of what falls with the moisture content of now inside of what it is at the ends
// of that: where it was cut, as at no water at all, the band of a normal error goes beyond what can be.
func insideEnds[T quantity.Length | quantity.Mass](band quantity.Band[T], now quantity.Band[quantity.Moisture],
	of func(quantity.Band[quantity.Moisture]) (quantity.Band[T], error)) (quantity.Band[T], error) {
	driest, err := of(quantity.NormalBand(now.Low, 0))
	if err != nil {
		return band, err
	}
	wettest, err := of(quantity.NormalBand(now.High, 0))
	band.Low, band.High = max(band.Low, wettest.Low), min(band.High, driest.High)
	return band, err
}

// shownRings is a ring angle that movement is shown for.
type shownRings struct {
	angle quantity.Angle
	rings Rings
}

func (b *Billet) ringsToShow() []shownRings {
	if b.RingAngle != nil {
		return []shownRings{{*b.RingAngle, RingsAsGiven}}
	}
	return []shownRings{{90 * quantity.Degree, RingsQuartersawn}, {0, RingsFlatsawn}}
}

// codeOf is the code of an error; empty for none.
func codeOf(err error) method.Code {
	if e, is := err.(*method.Error); is { //nolint:errorlint // made by a chapter, never wrapped
		return e.Code
	}
	return ""
}
