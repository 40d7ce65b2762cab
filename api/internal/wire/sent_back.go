package wire

import (
	"encoding/json"
	"math"
	"reflect"

	"latewood/woodphys/quantity"
)

// What a request holds can be written too, so that an answer can hand back an object for
// the next question, such as a billet.

// sentBack is a quantity of a request; an answer writes it as its own.
type sentBack interface{ sent() Quantity }

func (l Length) sent() Quantity {
	v, _ := l.SI.In(l.Unit)
	return Quantity{Value: v, Unit: l.Unit, cut: true}
}

func (s Stiffness) sent() Quantity {
	v, _ := s.SI.In(s.Unit)
	return Quantity{Value: v, Unit: s.Unit}
}

// writeSentBack writes such a quantity to the resolution of an answer.
func writeSentBack(e *Encoder, text []byte, v reflect.Value) ([]byte, error) {
	if given, is := v.Interface().(sentBack); is {
		v = reflect.ValueOf(given.sent())
	}
	return e.append(text, v)
}

// MarshalJSON writes the length as value and unit, in the unit that it has.
func (l Length) MarshalJSON() ([]byte, error) { return json.Marshal(l.sent()) }

// MarshalJSON writes the stiffness as value and unit, in the unit that it has.
func (s Stiffness) MarshalJSON() ([]byte, error) { return json.Marshal(s.sent()) }

// MarshalJSON writes the form that the object is of.
func (o OneOf) MarshalJSON() ([]byte, error) { return json.Marshal(o.Form) }

// SizeAgain is a size for the next request, to the nanometre and no larger than it is.
func (r Reporter) SizeAgain(l quantity.Length) *Length {
	const dust = 1e-6 // of a nanometre, so that a whole one stays
	return r.PlaceAgain(quantity.Length(math.Floor(float64(l)*1e9+dust) / 1e9))
}

// PlaceAgain is a place for the next request, to the nanometre.
func (r Reporter) PlaceAgain(l quantity.Length) *Length {
	return &Length{quantity.Length(math.Round(float64(l)*1e9) / 1e9), r.LengthUnit}
}

// In is the stiffness in the unit of an answer, where that does not speak its own.
func (s *Stiffness) In(r Reporter) *Stiffness {
	if s == nil || r.Speaks(s.Unit) {
		return s
	}
	return &Stiffness{s.SI, r.stress}
}
