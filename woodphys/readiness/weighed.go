package readiness

import (
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// ovendrySpread is the spread of an ovendry mass guessed from size and the published
// density: 10 % between pieces, 3 % of measuring.
const ovendrySpread = 0.105

// boardDiffers is how far a sample board strays from its billet for good. Own choice.
const boardDiffers = 1 * quantity.PercentMC

// Weighed is a whole piece with its dated weights.
type Weighed struct {
	Weights []moisture.Dated // in order of time
	// Body is the piece by its size and wood; nil where it is no box or the wood is not
	// known. The mass is that of the last weight. BodyNotes tell of its figures.
	Body      *moisture.Body
	BodyNotes method.Notes
	// Known is the moisture content on one of the days it was weighed; nil where none is
	// known.
	Known *KnownDay
}

// KnownDay is a moisture content known on a day.
type KnownDay struct {
	Weight int // number of the weight of that day; -1: it was not weighed that day
	MC     quantity.Band[quantity.Moisture]
}

// Check refuses what the weights contradict.
//
// Errors: missing for "weights" when a moisture content is known of a day and there are
// none; contradictory for "mass" of a last one that its density does not allow, and for
// "known/date" of a day on which it was not weighed.
// Accuracy: three standard deviations of the density of a wood.
//
// Source: row mc.density.
func (w *Weighed) Check() error {
	if w.Known == nil {
		return nil
	}
	if len(w.Weights) == 0 {
		return &method.Error{Code: method.Missing, Input: "weights", Detail: "a moisture content is known of a day of " +
			"the weights, and there are none"}
	}
	if w.Body != nil {
		if _, err := moisture.FromDensity(*w.Body); codeOf(err) == method.Contradictory {
			return err
		}
	}
	if w.Known.Weight < 0 {
		return &method.Error{Code: method.Contradictory, Input: "known/date",
			Detail: "the moisture content is known of a day on which the billet was not weighed"}
	}
	return nil
}

// Last returns what the last weight says of the moisture content: from a known day if
// there is one, else from the size of the piece; said is false where it says nothing.
//
// Errors: those of moisture.FromRunningWeight or moisture.FromDensity.
// Accuracy: that of the estimate.
//
// Source: rows mc.running-weight and mc.density.
func (w *Weighed) Last() (e moisture.Estimate, said bool, err error) {
	switch {
	case len(w.Weights) == 0:
		return e, false, nil
	case w.Known != nil:
		start := moisture.Known{Weighing: w.Weights[w.Known.Weight].Weighing, MC: w.Known.MC}
		e, err = moisture.FromRunningWeight(start, w.Weights[len(w.Weights)-1].Weighing)
		return e, true, err
	case w.Body == nil:
		return e, false, nil
	}
	if e, err = moisture.FromDensity(*w.Body); err != nil {
		return e, true, err
	}
	notes := method.Notes{}
	notes.Merge(w.BodyNotes)
	notes.Merge(e.Notes)
	e.Notes = notes
	return e, true, nil
}

// GuessedBody returns a box of wood of a volume (above 0, in m3) that has settled at a
// moisture content (0 to 0.3), with the ovendry mass guessed from its density.
//
// Errors: those of moisture.SpecificGravityAt.
// Accuracy: 10 % between pieces and 3 % of measuring (1 SD), as its spread says.
//
// Source: row mc.gravity; the spread is our own choice.
func GuessedBody(name string, volume quantity.Volume, w *wood.Wood, settled quantity.Moisture) (Body, error) {
	gravity, err := moisture.SpecificGravityAt(w.SpecificGravity.Value, settled, w.Volumetric.Value, w.FibreSaturation)
	if err != nil {
		return Body{}, err
	}
	const water = 1000 // kg/m3
	return Body{Name: name, Ovendry: quantity.Mass(float64(volume) * gravity.SpecificGravity * water),
		OvendrySD: w.SpecificGravity.Varied(ovendrySpread)}, nil
}

// SampleBoard returns a board that dries beside the piece and stands for it.
//
// Accuracy: a guess.
//
// Source: own choice, no source: it strays from the piece by 1 %MC for good.
func SampleBoard() Body { return Body{Name: "sample board", Differs: boardDiffers} }
