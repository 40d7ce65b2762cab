package shelf

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// OwnWood is a wood that is not in the tables, or is better known to the caller.
type OwnWood struct {
	Name            string   `json:"name,omitempty" validate:"max=100"`
	Radial          *float64 `json:"radial_shrinkage_pct,omitempty" validate:"omitempty,gte=0.1,lte=20" description:"green to ovendry"`
	Tangential      *float64 `json:"tangential_shrinkage_pct,omitempty" validate:"omitempty,gte=0.1,lte=25" description:"green to ovendry"`
	SpecificGravity *float64 `json:"specific_gravity,omitempty" validate:"omitempty,gte=0.05,lte=1.4" description:"basic: ovendry mass over green volume"`
	FibreSaturation *float64 `json:"fibre_saturation_pct,omitempty" validate:"omitempty,gte=15,lte=40" default:"30"`
	LowerEMC        bool     `json:"rich_in_extractives,omitempty" description:"settles 1 to 3 points lower in damp air, as mahogany, teak and the rosewoods do"`
}

// Wood is a wood of the tables or of the caller: its value, which the chapters take,
// and what can be told of it.
type Wood struct {
	Value wood.Wood

	id, Common, botanical string
	gravity               species.Value // basic specific gravity
	saturation            species.Value // fibre saturation, %MC
	Row                   *species.Wood // nil for the caller's own
	known                 []Provenance  // the values of the row
	moved                 WoodUsed      // with the values that a movement rests on
}

func fromTables(w *species.Wood) *Wood {
	var known []Provenance
	for name, v := range w.Values() {
		if number, is := v.Get(); is {
			known = append(known, Provenance{Name: name, Value: number, Unit: v.Unit, Source: v.Source, Checked: string(v.Checked)})
		}
	}
	made := &Wood{
		known: known,
		id:    w.ID, Common: w.Common, botanical: w.Botanical, Row: w,
		gravity: w.SpecificGravityGreen, saturation: w.FibreSaturation,
		Value: wood.Wood{
			SpecificGravity: Figure(w.SpecificGravityGreen, 1), LowerEMC: w.LowerEMC.Applies,
			Radial: Figure(w.Radial, 0.01), Tangential: Figure(w.Tangential, 0.01), Volumetric: Figure(w.Volumetric, 0.01),
			CoefficientRadial: Figure(w.CoefficientRadial, 1), CoefficientTangential: Figure(w.CoefficientTangential, 1),
			CoefficientFibreSaturation: wire.FromPercent(w.CoefficientFibreSaturation.Or(0)),
			FibreSaturation:            wire.FromPercent(w.FibreSaturation.Or(0)),
		},
	}
	setDrying(w, &made.Value)
	made.moved = made.Used(movementValues...)
	_ = wire.EncodeJSON(made.moved, func(text []byte) error { // or else it is encoded each time
		made.moved.text = bytes.Clone(bytes.TrimSuffix(text, []byte{'\n'}))
		return nil
	})
	return made
}

// movementValues are the values that a movement rests on.
var movementValues = []string{"radial", "tangential", "coefficient_radial", "coefficient_tangential", "coefficient_fibre_saturation", "fibre_saturation"}

// Figure turns a published value into the physics' form, with its mark.
func Figure(v species.Value, scale float64) wood.Figure {
	number, known := v.Get()
	return wood.Figure{Value: number * scale, Known: known, Recalled: known && !trusted(v.Checked)}
}

// trusted says whether a figure was read in its source or follows from figures
// that were.
func trusted(c species.Checked) bool {
	return c.SeenInPrint() || c == species.Derived || c == species.Computed
}

func fromCaller(own *OwnWood, notes *method.Notes) *Wood {
	w := &Wood{Common: own.Name, Value: wood.Wood{LowerEMC: own.LowerEMC}}
	if w.Common == "" {
		w.Common = "the caller's wood"
	}
	given := func(v *float64, scale float64) wood.Figure {
		if v == nil {
			return wood.Figure{}
		}
		return wood.Published(*v * scale)
	}
	w.Value.Radial, w.Value.Tangential = given(own.Radial, 0.01), given(own.Tangential, 0.01)
	if own.Radial != nil && own.Tangential != nil && *own.Tangential < *own.Radial {
		notes.Warn(method.Warning{Code: method.Assumption, Input: "wood/tangential_shrinkage_pct",
			Detail: "the tangential shrinkage is smaller than the radial; are they exchanged?"})
	}
	if own.FibreSaturation != nil {
		w.Value.FibreSaturation = wire.FromPercent(*own.FibreSaturation)
		w.saturation = callersValue(*own.FibreSaturation)
	}
	if own.SpecificGravity != nil {
		w.gravity = callersValue(*own.SpecificGravity)
		w.Value.SpecificGravity = wood.Published(*own.SpecificGravity)
	}
	return w
}

func callersValue(v float64) species.Value {
	return species.Value{Optional: species.Known(v), Source: "the caller", Checked: species.Read}
}

// WoodOf finds the wood a request names, or takes the caller's own.
func (t *Tables) WoodOf(name string, own *OwnWood, notes *method.Notes) (*Wood, error) {
	switch {
	case name != "" && own != nil:
		return nil, wire.Contradictory("wood", "give species or wood, not both")
	case own != nil:
		return fromCaller(own, notes), nil
	case name == "":
		return nil, wire.Missing("species", "give the species by id or name, or your own figures as wood")
	}
	return t.OptionalWood(name)
}

// OptionalWood finds the wood by that name; no name is no wood.
func (t *Tables) OptionalWood(name string) (*Wood, error) {
	if name == "" {
		return nil, nil //nolint:nilnil // no name, no wood
	}
	w, err := t.Find(name)
	return w, wire.Under("species", err)
}

// Besides joins what else is wrong to the error of a wood that was not found, and
// leaves out what only follows from it.
func Besides(noWood, err error) error {
	if noWood == nil {
		return err
	}
	return errors.Join(noWood, wire.EachError(err, func(one error) error {
		if e, is := wire.AsDomain(one); is && e.Code == method.Missing && (e.Input == "/species" || strings.HasSuffix(e.Input, "specific_gravity")) {
			return nil
		}
		return one
	}))
}

// SettlesLower reports a wood rich in extractives; a wood that was not found counts as
// ordinary.
func (w *Wood) SettlesLower() bool { return w != nil && w.Value.LowerEMC }

// Find resolves an id or an exact name; anything else is refused with
// suggestions.
func (t *Tables) Find(name string) (*Wood, error) {
	if w, ok := t.Woods[name]; ok {
		return w, nil
	}
	matches := t.Species.Find(name, 5)
	var exact []string
	for _, m := range matches {
		if m.Kind <= species.ExactSynonym && m.Kind == matches[0].Kind {
			exact = append(exact, m.Wood.ID)
		}
	}
	if len(exact) == 1 {
		return t.Woods[exact[0]], nil
	}
	candidates := exact
	if len(exact) == 0 {
		candidates = t.Species.Suggest(name, 5)
	}
	detail := "there is no wood called " + strconv.Quote(name) + " in the tables"
	switch {
	case len(exact) > 1:
		detail = strconv.Quote(name) + " may be one of several woods; say which: " + strings.Join(exact, ", ")
	case len(candidates) > 0:
		detail += "; did you mean " + strings.Join(candidates, ", ") + "?"
	default:
		detail += "; GET /v1/species lists them"
	}
	return nil, &method.Error{Code: method.Unknown, Detail: detail}
}

// Cautions notes what the tables warn of for this wood, or for every wood when
// none is known, where the answer is about working it.
func (t *Tables) Cautions(w *Wood, notes *method.Notes) {
	all := t.Species.Cautions("") // those for every wood
	if w != nil && w.Row != nil {
		all = w.Row.Cautions
	}
	for _, c := range all {
		notes.Warn(method.Warning{Code: method.Caution, Input: "species", Detail: c.Text})
	}
}

func (w *Wood) BasicGravity(notes *method.Notes) (float64, error) {
	g, known := w.gravity.Get()
	if !known {
		return 0, &method.Error{Code: method.Unsupported, Input: "specific_gravity", Detail: "the tables hold no specific gravity of " + w.Common + "; give specific_gravity"}
	}
	w.Recalled(w.gravity, "specific_gravity", notes)
	return g, nil
}

// VolumetricShrinkage as a fraction, 0 when it is not known.
func (w *Wood) VolumetricShrinkage(notes *method.Notes) float64 {
	if w.Value.Volumetric.Known && w.Row != nil {
		w.Recalled(w.Row.Volumetric, "volumetric_shrinkage", notes)
	}
	return w.Value.Volumetric.Value
}

// FibreSaturation at room temperature, 0 when it is not known.
func (w *Wood) FibreSaturation() quantity.Moisture { return wire.FromPercent(w.saturation.Or(0)) }

// remarkFraction notes a moisture content that was probably meant as a fraction.
func remarkFraction(member string, pct float64, notes *method.Notes) {
	if pct > 0 && pct < 1 {
		notes.Warn(method.Warning{Code: method.Assumption, Input: member,
			Detail: member + " is in percent: " + quantity.FormatNumber(pct, 3) + " % is ovendry wood"})
	}
}

// RemarkOnset notes where the shrinkage of this wood is taken to start, if that
// was concluded from its coefficients and read nowhere.
func (w *Wood) RemarkOnset(notes *method.Notes) {
	if w.Row == nil {
		return
	}
	v := w.Row.CoefficientFibreSaturation
	if pct, known := v.Get(); known && pct != UsualOnset && v.Checked == species.Inferred {
		notes.Warn(method.Warning{Code: method.Assumption, Method: "movement.total-shrinkage", Input: "fibre_saturation_pct",
			Detail: "shrinkage of " + w.Common + " is taken to start at " + quantity.FormatNumber(pct, 0) + " %, which is inferred from its coefficients and was not read; with the usual 30 % the total shrinkage form gives about a quarter less"})
	}
}

// UsualOnset is where the handbook's formulas let shrinkage start, %MC.
const UsualOnset = 30

func (w *Wood) Recalled(v species.Value, name string, notes *method.Notes) {
	if !trusted(v.Checked) {
		notes.Warn(method.Warning{Code: method.Recalled, Input: name,
			Detail: fmt.Sprintf("%s of %s is %s", strings.ReplaceAll(name, "_", " "), w.Common, v.Checked.Meaning())})
	}
}

// generalSaturation is the fibre saturation of woods in general and its spread
// at room temperature: Wood Handbook ch. 4 and published values of 23 to 33 %.
const (
	generalSaturation       = 30 * quantity.PercentMC
	generalSaturationSpread = 3 * quantity.PercentMC
)

// FibreSaturation is the band of the fibre saturation of a wood, or of woods in
// general, at an air temperature.
func FibreSaturation(w *Wood, t quantity.Temperature, notes *method.Notes) (quantity.Band[quantity.Moisture], error) {
	at20, spread := generalSaturation, generalSaturationSpread
	if w != nil && w.FibreSaturation() > 0 {
		at20 = w.FibreSaturation()
		if s, known := w.saturation.Spread.Get(); known {
			spread = wire.FromPercent(s)
		}
	}
	m, err := sorption.FibreSaturation(t, at20)
	if err != nil {
		return quantity.Band[quantity.Moisture]{}, err
	}
	notes.Basis = append(notes.Basis, "fsp.temperature")
	return quantity.Band[quantity.Moisture]{Value: m, Low: m - spread, High: m + spread}, nil
}

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

// UsedInMovement describes the wood with the values that a movement rests on.
// The description of a wood of the tables is made once; it is not to be changed.
func (w *Wood) UsedInMovement() WoodUsed {
	if w.Row == nil {
		return w.Used()
	}
	return w.moved
}

// Used describes the wood with those of its named values that are known.
func (w *Wood) Used(names ...string) WoodUsed {
	u := WoodUsed{ID: w.id, Common: w.Common, Botanical: w.botanical, Figures: make([]Provenance, 0, len(names))}
	if w.Row == nil {
		return u
	}
	for i := range w.known {
		if slices.Contains(names, w.known[i].Name) {
			u.Figures = append(u.Figures, w.known[i])
		}
	}
	return u
}
