package wire

import (
	"encoding/json"
	"math"

	"latewood/woodphys/quantity"
)

// What a request holds can be written too, so that an answer can hand back an object for
// the next question, such as a billet.

// MarshalJSON writes the length as value and unit, in the unit that it has.
func (l Length) MarshalJSON() ([]byte, error) {
	v, _ := l.SI.In(l.Unit)
	return json.Marshal(Quantity{v, l.Unit})
}

// MarshalJSON writes the stiffness as value and unit, in the unit that it has.
func (s Stiffness) MarshalJSON() ([]byte, error) {
	v, _ := s.SI.In(s.Unit)
	return json.Marshal(Quantity{v, s.Unit})
}

// MarshalJSON writes the form that the object is of.
func (o OneOf) MarshalJSON() ([]byte, error) { return json.Marshal(o.Form) }

// RoundedDown is a size for the next request, in whole hundredths of a millimetre or
// thousandths of an inch, and no larger than it is.
func (r Reporter) RoundedDown(l quantity.Length) *Length { return r.inSteps(l, math.Floor) }

// RoundedNear is a place for the next request, to the nearest of those steps.
func (r Reporter) RoundedNear(l quantity.Length) *Length { return r.inSteps(l, math.Round) }

func (r Reporter) inSteps(l quantity.Length, round func(float64) float64) *Length {
	v, _ := l.In(r.LengthUnit)
	steps := math.Pow10(r.Places())
	whole := round(Rounded(v*steps, 6)) / steps // an exact size keeps its last step
	si, err := quantity.LengthOf(whole, r.LengthUnit)
	if err != nil { // the units of a reporter are known
		return &Length{l, r.LengthUnit}
	}
	return &Length{si, r.LengthUnit}
}

// In is the stiffness in the unit of an answer, where that does not speak its own.
func (s *Stiffness) In(r Reporter) *Stiffness {
	if s == nil || r.Speaks(s.Unit) {
		return s
	}
	return &Stiffness{s.SI, r.stress}
}
