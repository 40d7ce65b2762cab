package client

import "encoding/json"

// Amount is a quantity: a number with its unit, or a text such as "2 1/16 in".
type Amount struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
	text  string
}

// Of is an amount: Of(330, "mm").
func Of(value float64, unit string) Amount { return Amount{Value: value, Unit: unit} }

// Text is an amount as people write it: Text("2 1/16 in").
func Text(text string) Amount { return Amount{text: text} }

type numbered Amount

// MarshalJSON writes the text, or the number with its unit.
func (q Amount) MarshalJSON() ([]byte, error) {
	if q.text != "" {
		return json.Marshal(q.text)
	}
	return json.Marshal(numbered(q))
}

// UnmarshalJSON reads either.
func (q *Amount) UnmarshalJSON(text []byte) error {
	*q = Amount{}
	if json.Unmarshal(text, &q.text) == nil {
		return nil
	}
	return json.Unmarshal(text, (*numbered)(q))
}

// TextOr is a name, or an object that says more.
type TextOr[T any] struct {
	Name string
	More *T
}

// MarshalJSON writes the name, or the object where there is one.
func (t TextOr[T]) MarshalJSON() ([]byte, error) {
	if t.More != nil {
		return json.Marshal(t.More)
	}
	return json.Marshal(t.Name)
}

// UnmarshalJSON reads either.
func (t *TextOr[T]) UnmarshalJSON(text []byte) error {
	if json.Unmarshal(text, &t.Name) == nil {
		return nil
	}
	t.More = new(T)
	return json.Unmarshal(text, t.More)
}
