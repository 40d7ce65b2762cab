package timing

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

// Turn is how the outer prongs of a stress section turned.
type Turn string

// Turns.
const (
	TurnNone     Turn = ""         // no test was cut
	TurnStraight Turn = "straight" // no stress
	TurnInward   Turn = "inward"   // the skin was set while the core was wet: casehardened
	TurnOutward  Turn = "outward"  // the other way round, of too much conditioning
)

// Prongs is a prong test: a section cut across the billet, sawn into prongs that run over its
// width.
type Prongs struct {
	Turn   Turn
	Travel quantity.Length // of the tip of an outer prong, 0 to 300 mm; 0: not measured
	Length quantity.Length // of the prong, with Travel
	// Settled says that it lay in the room for a day and more: then the turn holds what the
	// moisture does as well, and is what a leaf does.
	Settled bool
}

// released is the cup that the stress gives an outer leaf of a width when the saw sets it free,
// with its standard deviation; above 0 it is hollow towards the middle of the billet. known is
// false where the turn was not measured.
func (w *work) released(width quantity.Length) (cup, sd float64, known bool, err error) {
	p := &w.q.Prongs
	if p.Turn == TurnNone || p.Turn != TurnStraight && p.Travel == 0 {
		return 0, 0, false, nil
	}
	if p.Turn == TurnStraight {
		return 0, 0, true, nil
	}
	band, notes, err := section.ProngCup(p.Travel, p.Length, width)
	if err != nil {
		return 0, 0, false, method.Renamed(err, prongNames...)
	}
	w.notes.Merge(notes.Renamed(prongNames...))
	if p.Turn == TurnOutward {
		band.Value = -band.Value
	}
	return float64(band.Value), float64(band.SD()), true, nil
}

// prongNames are the inputs of a prong test, and the width of the leaf.
var prongNames = [][2]string{{"tip_travel", "prongs/tip_travel"}, {"prong_length", "prongs/prong_length"}, {"width", "leaf_width"}}

// side is a cup with its side: above 0 where it is hollow towards the middle of the billet.
func side(cup quantity.Length, near bool) float64 {
	size := math.Abs(float64(cup))
	if hollow(cup, near) == TowardsShell {
		return -size
	}
	return size
}
