package shelf

import (
	"bytes"
	"slices"

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

// BasicGravity is the basic specific gravity of the wood; without one it is refused.
func (w *Wood) BasicGravity(notes *method.Notes) (float64, error) { return w.Value.Gravity(notes) }

// VolumetricShrinkage as a fraction, 0 when it is not known.
func (w *Wood) VolumetricShrinkage(notes *method.Notes) float64 {
	return w.Value.VolumetricShrinkage(notes)
}

// FibreSaturation at room temperature, 0 when it is not known.
func (w *Wood) FibreSaturation() quantity.Moisture { return w.Value.FibreSaturation }

// movementValues are the values that a movement rests on.
var movementValues = []string{"radial", "tangential", "longitudinal", "coefficient_radial", "coefficient_tangential",
	"coefficient_fibre_saturation", "fibre_saturation", "swelling_radial", "swelling_tangential", "swelling_volumetric"}

// provenance keeps where the values of the row come from, and what a movement rests on
// as it will be encoded.
func (w *Wood) provenance(row *species.Wood) {
	for name, v := range row.Figures() {
		if number, is := v.Get(); is {
			w.known = append(w.known, Provenance{Name: name, Value: number, Unit: v.Unit, Source: v.Source,
				Checked: MarkOf(v.Checked)})
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
