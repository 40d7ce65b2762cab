package shelf

import (
	"bytes"
	"slices"

	"latewood/api/internal/wire"
	"latewood/species"
)

// WoodUsed says which wood an answer is about and where its figures come from.
type WoodUsed struct {
	ID        string       `json:"id,omitempty"`
	Common    string       `json:"common" required:"true"`
	Botanical string       `json:"botanical,omitempty"`
	Figures   []Provenance `json:"figures" required:"true" nullable:"false" description:"the published values the answer used"`

	text []byte // all this as JSON, where it is known beforehand
}

// Encoded is all of it as JSON, where that is known beforehand.
func (u *WoodUsed) Encoded() []byte { return u.text }

// Provenance is a published value with its source and how far it was checked.
type Provenance struct {
	Name    string  `json:"name" required:"true"`
	Value   float64 `json:"value" required:"true"`
	Unit    string  `json:"unit,omitempty"`
	Source  string  `json:"source" required:"true"`
	Checked string  `json:"checked" required:"true" description:"read: seen in the publication; memory: recalled, not re-read; GET /v1/species/{id} explains the marks"`
}

// movementValues are the values that a movement rests on.
var movementValues = []string{"radial", "tangential", "coefficient_radial", "coefficient_tangential", "coefficient_fibre_saturation", "fibre_saturation"}

// provenance keeps where the values of the row come from, and what a movement rests on
// as it will be encoded.
func (w *Wood) provenance(row *species.Wood) {
	for name, v := range row.Values() {
		if number, is := v.Get(); is {
			w.known = append(w.known, Provenance{Name: name, Value: number, Unit: v.Unit, Source: v.Source, Checked: string(v.Checked)})
		}
	}
	w.moved = w.Used(movementValues...)
	_ = wire.EncodeJSON(w.moved, func(text []byte) error { // or else it is encoded each time
		w.moved.text = bytes.Clone(bytes.TrimSuffix(text, []byte{'\n'}))
		return nil
	})
}

// UsedInMovement describes the wood with the values that a movement rests on.
// The description of a wood of the tables is made once; it is not to be changed.
func (w *Wood) UsedInMovement() WoodUsed {
	if w.Value.Own {
		return w.Used()
	}
	return w.moved
}

// Used describes the wood with those of its named values that are known.
func (w *Wood) Used(names ...string) WoodUsed {
	u := WoodUsed{ID: w.id, Common: w.Common, Botanical: w.botanical, Figures: make([]Provenance, 0, len(names))}
	for i := range w.known {
		if slices.Contains(names, w.known[i].Name) {
			u.Figures = append(u.Figures, w.known[i])
		}
	}
	return u
}
