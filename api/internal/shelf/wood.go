package shelf

import (
	"bytes"
	"slices"
	"strings"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// Wood is a wood of the tables or of the caller: its value, which the chapters take,
// and what can be told of it.
type Wood struct {
	Value wood.Wood

	id, Common, botanical string
	Row                   *species.Wood // nil for the caller's own
	cautions              []species.Caution
	known                 []Provenance // the values of the row
	moved                 WoodUsed     // with the values that a movement rests on
	anyOf                 []string     // ids of the woods that it stands for; nil: one wood
}

// Covers reports whether another wood, which may be nil, is this one: the same of the tables,
// one of those it stands for, or one of the caller's own of the same name.
func (w *Wood) Covers(other *Wood) bool {
	switch {
	case other == nil:
		return false
	case w.anyOf != nil:
		return slices.Contains(w.anyOf, other.id) || slices.Equal(w.anyOf, other.anyOf)
	case w.id != "":
		return w.id == other.id
	}
	return other.id == "" && other.anyOf == nil && strings.EqualFold(w.Common, other.Common)
}

func fromTables(t *species.Tables, w *species.Wood) *Wood {
	made := &Wood{
		id: w.ID, Common: w.Common, botanical: w.Botanical, Row: w, cautions: w.Cautions, Value: valueOf(t, w),
	}
	made.provenance(w)
	return made
}

// Sorption is the isotherm and the fibre saturation of the wood; a wood that was not found
// counts as ordinary.
func (w *Wood) Sorption() sorption.Curves {
	if w == nil {
		return sorption.Curves{}
	}
	return sorption.CurvesOf(&w.Value)
}

// physics is the value of the wood; nil for a wood that was not found.
func (w *Wood) physics() *wood.Wood {
	if w == nil {
		return nil
	}
	return &w.Value
}

// BasicGravity is the basic specific gravity of the wood; without one it is refused.
func (w *Wood) BasicGravity(notes *method.Notes) (float64, error) { return w.Value.Gravity(notes) }

// VolumetricShrinkage as a fraction, 0 when it is not known.
func (w *Wood) VolumetricShrinkage(notes *method.Notes) float64 {
	return w.Value.VolumetricShrinkage(notes)
}

// FibreSaturation at room temperature, 0 when it is not known.
func (w *Wood) FibreSaturation() quantity.Moisture { return w.Value.FibreSaturation }

// provenance keeps where the values of the row come from, and what a movement rests on
// as it will be encoded.
func (w *Wood) provenance(row *species.Wood) {
	for name, v := range row.Figures() {
		if number, is := v.Get(); is {
			w.known = append(w.known, Provenance{Name: name, Value: number, Unit: v.Unit, Source: v.Source,
				Checked: MarkOf(v.Checked)})
		}
	}
	w.moved = w.Used(MovementFigures...)
	_ = wire.EncodeJSON(w.moved, func(text []byte) error { // or else it is encoded each time
		w.moved.text = bytes.Clone(bytes.TrimSuffix(text, []byte{'\n'}))
		return nil
	})
}

// UsedInMovement describes the wood with the values that a movement rests on.
// The description of a wood of the tables is made once; it is not to be changed.
func (w *Wood) UsedInMovement() WoodUsed {
	return w.moved
}

// Used describes the wood with those of its values that are known, of those named as in the
// tables.
func (w *Wood) Used(names ...string) WoodUsed {
	u := WoodUsed{ID: w.id, Common: w.Common, Botanical: w.botanical, Figures: make([]Provenance, 0, len(names))}
	for i := range w.known {
		if slices.Contains(names, w.known[i].Name) {
			one := w.known[i]
			one.Name = FigureName(one.Name)
			u.Figures = append(u.Figures, one)
		}
	}
	return u
}
