package shelf

import (
	"errors"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
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
	Row                   *species.Wood // nil for the caller's own
	cautions              []species.Caution
	known                 []Provenance // the values of the row
	moved                 WoodUsed     // with the values that a movement rests on
}

func fromTables(t *species.Tables, w *species.Wood) *Wood {
	made := &Wood{
		id: w.ID, Common: w.Common, botanical: w.Botanical, Row: w, cautions: w.Cautions,
		Value: inGroup(t, wood.Wood{
			Name:            w.Common,
			SpecificGravity: figure(w.SpecificGravityGreen, 1), LowerEMC: w.LowerEMC.Applies,
			Radial: figure(w.Radial, 0.01), Tangential: figure(w.Tangential, 0.01), Volumetric: figure(w.Volumetric, 0.01),
			CoefficientRadial: figure(w.CoefficientRadial, 1), CoefficientTangential: figure(w.CoefficientTangential, 1),
			CoefficientFibreSaturation: wire.FromPercent(w.CoefficientFibreSaturation.Or(0)),
			OnsetInferred:              w.CoefficientFibreSaturation.Checked == species.Inferred,
			BendingModulus:             figure(w.ModulusOfElasticity12, 1), Ratios: ratios(&w.Elastic),
		}, wood.Group(w.Botany())),
	}
	saturates(&made.Value, w.FibreSaturation)
	made.provenance(w)
	return made
}

// InGroup is a wood with the mean ratios of a group, hardwood or softwood, which stand in
// for those that are not known of it.
func (t *Tables) InGroup(w wood.Wood, group string) wood.Wood {
	return inGroup(t.Species, w, wood.Group(group))
}

func inGroup(t *species.Tables, w wood.Wood, group wood.Group) wood.Wood {
	means := t.ElasticMeans(species.Group(group))
	w.Group, w.StandIn = group, ratios(&means)
	return w
}

func ratios(e *species.ElasticRatios) wood.Ratios {
	return wood.Ratios{
		ETEL: figure(e.ETEL, 1), EREL: figure(e.EREL, 1), GLREL: figure(e.GLREL, 1), GLTEL: figure(e.GLTEL, 1), GRTEL: figure(e.GRTEL, 1),
		PoissonLR: figure(e.PoissonLR, 1), PoissonLT: figure(e.PoissonLT, 1), PoissonRT: figure(e.PoissonRT, 1),
	}
}

// saturates sets the fibre saturation of a wood, with its spread.
func saturates(w *wood.Wood, v species.Value) {
	w.FibreSaturation, w.FibreSaturationSpread = wire.FromPercent(v.Or(0)), wire.FromPercent(v.Spread.Or(0))
}

// figure turns a published value into the physics' form, with its mark.
func figure(v species.Value, scale float64) wood.Figure {
	number, known := v.Get()
	f := wood.Figure{Value: number * scale, Known: known, Recalled: known && !trusted(v.Checked)}
	if f.Recalled {
		f.How = v.Checked.Meaning()
	}
	return f
}

// trusted says whether a figure was read in its source or follows from figures
// that were.
func trusted(c species.Checked) bool {
	return c.SeenInPrint() || c == species.Derived || c == species.Computed
}

func fromCaller(own *OwnWood, notes *method.Notes) *Wood {
	w := &Wood{Common: own.Name}
	if w.Common == "" {
		w.Common = "the caller's wood"
	}
	given := func(v *float64, scale float64) wood.Figure {
		if v == nil {
			return wood.Figure{}
		}
		return wood.Published(*v * scale)
	}
	w.Value = wood.Wood{
		Name: w.Common, Own: true, LowerEMC: own.LowerEMC,
		Radial: given(own.Radial, 0.01), Tangential: given(own.Tangential, 0.01), SpecificGravity: given(own.SpecificGravity, 1),
	}
	if own.FibreSaturation != nil {
		w.Value.FibreSaturation = wire.FromPercent(*own.FibreSaturation)
	}
	if w.Value.Exchanged() {
		notes.Warn(method.Warning{Code: method.Assumption, Input: "wood/tangential_shrinkage_pct",
			Detail: "the tangential shrinkage is smaller than the radial; are they exchanged?"})
	}
	return w
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
	if w != nil && w.cautions != nil {
		all = w.cautions
	}
	for _, c := range all {
		notes.Warn(method.Warning{Code: method.Caution, Input: "species", Detail: c.Text})
	}
}

// BasicGravity is the basic specific gravity of the wood; without one it is refused.
func (w *Wood) BasicGravity(notes *method.Notes) (float64, error) { return w.Value.Gravity(notes) }

// VolumetricShrinkage as a fraction, 0 when it is not known.
func (w *Wood) VolumetricShrinkage(notes *method.Notes) float64 {
	return w.Value.VolumetricShrinkage(notes)
}

// FibreSaturation at room temperature, 0 when it is not known.
func (w *Wood) FibreSaturation() quantity.Moisture { return w.Value.FibreSaturation }
