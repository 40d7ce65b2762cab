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

// SizeAgain is a size for the next request, to the nanometre and no larger than it is.
func (r Reporter) SizeAgain(l quantity.Length) *Length {
	const dust = 1e-6 // of a nanometre, so that a whole one stays
	return r.PlaceAgain(quantity.Length(math.Floor(float64(l)*1e9+dust) / 1e9))
}

// PlaceAgain is a place for the next request, to the nanometre.
func (r Reporter) PlaceAgain(l quantity.Length) *Length {
	q := r.ToNanometre(l)
	if si, err := quantity.LengthOf(q.Value, q.Unit); err == nil {
		l = si
	}
	return &Length{l, q.Unit}
}

// In is the stiffness in the unit of an answer, where that does not speak its own.
func (s *Stiffness) In(r Reporter) *Stiffness {
	if s == nil || r.Speaks(s.Unit) {
		return s
	}
	return &Stiffness{s.SI, r.stress}
}
