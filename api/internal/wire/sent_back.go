package wire

import (
	"encoding/json"
	"math"
	"reflect"

	json2 "github.com/go-json-experiment/json"

	"latewood/woodphys/quantity"
)

// What a request holds can be written too, so that an answer can hand back an object for
// the next question, such as a billet.

// SentBack is an object of a request that an answer writes too: as what it sends.
type SentBack interface{ Sent() any }

// Sent is the length as an answer has it.
func (l Length) Sent() any {
	v, _ := l.SI.In(l.Unit)
	return Quantity{Value: v, Unit: l.Unit, cut: true}
}

// Sent is the stiffness as an answer has it.
func (s Stiffness) Sent() any {
	v, _ := s.SI.In(s.Unit)
	return Quantity{Value: v, Unit: s.Unit}
}

// Sent is the form that the object is of.
func (o OneOf) Sent() any { return o.Form }

// MarshalJSON writes the length as value and unit, in the unit that it has.
func (l Length) MarshalJSON() ([]byte, error) { return json.Marshal(l.Sent()) }

// UnmarshalJSON reads either form of a length, for those who read an answer.
func (l *Length) UnmarshalJSON(text []byte) error { return json2.Unmarshal(text, l) }

// MarshalJSON writes the stiffness as value and unit, in the unit that it has.
func (s Stiffness) MarshalJSON() ([]byte, error) { return json.Marshal(s.Sent()) }

// MarshalJSON writes the form that the object is of.
func (o OneOf) MarshalJSON() ([]byte, error) { return json.Marshal(o.Form) }

// writeSentBack writes what such an object sends, to the resolution of an answer.
func writeSentBack(e *Encoder, text []byte, v reflect.Value) ([]byte, error) {
	if v.Kind() == reflect.Pointer && v.IsNil() {
		return append(text, "null"...), nil
	}
	if object, is := v.Interface().(SentBack); is {
		v = reflect.ValueOf(object.Sent())
	}
	return e.append(text, v)
}

// SizeAgain is a size for the next request, to the nanometre and no larger than it is.
func (r Reporter) SizeAgain(l quantity.Length) *Length {
	const dust = 1e-6 // of a nanometre, so that a whole one stays
	return r.PlaceAgain(quantity.Length(math.Floor(float64(l)*1e9+dust) / 1e9))
}

// PlaceAgain is a place for the next request, to the nanometre.
func (r Reporter) PlaceAgain(l quantity.Length) *Length {
	return &Length{quantity.Length(math.Round(float64(l)*1e9) / 1e9), r.LengthUnit}
}

// FoundAgain is a size that was found, not told, for the next request: to a micrometre, so that both
// systems go on with the same size, and no larger than it is.
func (r Reporter) FoundAgain(l quantity.Length) *Length { return r.PlaceAgain(Down(l)) }

// FoundPlaceAgain is a place that was found, for the next request, to a micrometre.
func (r Reporter) FoundPlaceAgain(l quantity.Length) *Length {
	return r.PlaceAgain(quantity.Length(math.Round(float64(l)*1e6)/1e6) + 0) // no -0
}

// In is the stiffness in the unit of an answer, where that does not speak its own.
func (s *Stiffness) In(r Reporter) *Stiffness {
	if s == nil || r.Speaks(s.Unit) {
		return s
	}
	return &Stiffness{s.SI, r.stress}
}
