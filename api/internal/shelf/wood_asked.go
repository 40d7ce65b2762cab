package shelf

import (
	"github.com/go-json-experiment/json/jsontext"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// WoodAsked is a wood as a request names it: a name, or figures, or both.
type WoodAsked struct {
	Species         string          `json:"species,omitempty" validate:"max=100" description:"id or name of a wood of the tables, such as sugar-maple; GET /v1/species finds one. Figures given beside it replace those of the tables"`
	Any             string          `json:"any,omitempty" validate:"max=100" description:"a name that several woods share, or a genus: maple, Acer. Bands hold all of them"`
	Name            string          `json:"name,omitempty" validate:"max=100" description:"what you call it; given back in the answer"`
	Group           string          `json:"group,omitempty" validate:"omitempty,oneof=hardwood softwood" enum:"hardwood,softwood" description:"broadleaved or conifer: its mean elastic ratios stand in for those that are not known. Left out: that of the species"`
	SpecificGravity *float64        `json:"specific_gravity,omitempty" validate:"omitempty,gte=0.05,lte=1.4" description:"basic: ovendry mass over green volume, over the density of water"`
	Radial          *float64        `json:"radial_shrinkage_pct,omitempty" validate:"omitempty,gte=0.1,lte=20" description:"across the rings, green to ovendry, in percent of the green size"`
	Tangential      *float64        `json:"tangential_shrinkage_pct,omitempty" validate:"omitempty,gte=0.1,lte=25" description:"along the rings, green to ovendry, in percent of the green size"`
	FibreSaturation *float64        `json:"fibre_saturation_mc_pct,omitempty" validate:"omitempty,gte=15,lte=40" description:"moisture content below which the wood shrinks. Left out: that of the species, else 30 %MC"`
	LowerEMC        bool            `json:"rich_in_extractives,omitempty" description:"settles 1 to 3 points lower in damp air, as mahogany, teak and the rosewoods do"`
	Modulus         *wire.Stiffness `json:"modulus_of_elasticity,omitempty" validate:"omitempty,gte=500000000,lte=50000000000" description:"along the grain at 12 %MC, from bending. Left out: that of the species"`
	Factor          *OwnFactor      `json:"drying_factor,omitempty" description:"how fast it dries, where you know it better than the tables"`

	spelled bool
}

// Spell takes a name alone.
func (w *WoodAsked) Spell(text string) { w.Species, w.spelled = text, true }

// IsSpelled reports that a name alone was given.
func (w *WoodAsked) IsSpelled() bool { return w.spelled }

// UnmarshalJSONFrom reads a name, or an object.
func (w *WoodAsked) UnmarshalJSONFrom(dec *jsontext.Decoder) error {
	type members WoodAsked
	return wire.ReadSpelled(dec, w, (*members)(w))
}

// named is the member that names a wood of the tables, below wood.
func (w *WoodAsked) named() string {
	switch {
	case w.spelled:
		return ""
	case w.Any != "":
		return "any"
	}
	return "species"
}

// DryingFactor is the drying factor given with the wood; the zero one where none is.
func (w *WoodAsked) DryingFactor() drying.Factor {
	if w == nil {
		return drying.Factor{}
	}
	return w.Factor.Given()
}

// WoodOf finds the wood a request names, with the figures given beside its name, or takes
// the caller's own.
func (t *Tables) WoodOf(asked *WoodAsked, notes *method.Notes) (*Wood, error) {
	if asked == nil {
		return nil, wire.Missing("wood", "name the wood, such as \"black walnut\", or give your own figures of it")
	}
	return t.OptionalWood(asked, notes)
}

// OptionalWood finds the wood where one is named; without it is no wood.
func (t *Tables) OptionalWood(asked *WoodAsked, notes *method.Notes) (*Wood, error) {
	if asked == nil {
		return nil, nil //nolint:nilnil // none named, no wood
	}
	if asked.Species != "" && asked.Any != "" {
		return nil, wire.Contradictory("wood/any", "give species or any, not both")
	}
	name := asked.Species
	if asked.Any != "" {
		name = anyWord + asked.Any
	}
	if name == "" {
		return t.fromCaller(asked, notes), nil
	}
	found, err := t.Find(name)
	if err != nil {
		return nil, wire.Under("wood", wire.Under(asked.named(), err))
	}
	return t.better(found, asked, notes), nil
}

// fromCaller is a wood of which the caller gives all that is known.
func (t *Tables) fromCaller(asked *WoodAsked, notes *method.Notes) *Wood {
	value := wood.Wood{Name: asked.Name, Own: true}
	if value.Name == "" {
		value.Name = "the caller's wood"
	}
	return &Wood{Common: value.Name, Value: t.withFigures(value, asked, notes)}
}

// better is a wood of the tables with the figures that the caller knows better.
func (t *Tables) better(found *Wood, asked *WoodAsked, notes *method.Notes) *Wood {
	figures := asked.figures()
	if len(figures) == 0 && asked.Name == "" && asked.Group == "" && !asked.LowerEMC {
		return found
	}
	made := *found
	if asked.Name != "" {
		made.Common = asked.Name
	}
	made.Value = t.withFigures(found.Value, asked, notes)
	made.known = nil
	for _, k := range found.known {
		if _, replaced := figures[k.Name]; !replaced && !asked.replaces(k.Name) {
			made.known = append(made.known, k)
		}
	}
	for _, name := range movementValues {
		if _, given := figures[name]; given {
			made.known = append(made.known, figures[name])
		}
	}
	if g, given := figures["specific_gravity_green"]; given {
		made.known = append(made.known, g)
	}
	made.moved = made.Used(movementValues...)
	return &made
}

// replaces reports whether a coefficient of the tables, or the onset that it goes with, no
// longer holds, since the figure in its place was given.
func (w *WoodAsked) replaces(figure string) bool {
	switch figure {
	case "coefficient_radial":
		return w.Radial != nil
	case "coefficient_tangential":
		return w.Tangential != nil
	case "coefficient_fibre_saturation": // goes with the coefficients
		return w.FibreSaturation != nil || w.Radial != nil && w.Tangential != nil
	}
	return false
}

// fromTheCaller marks a figure of the request.
const fromTheCaller = "given by the caller"

// figures are those that the caller gives of a wood, by the names of the tables.
func (w *WoodAsked) figures() map[string]Provenance {
	all := map[string]Provenance{}
	for _, one := range []struct {
		name, unit string
		is         *float64
	}{
		{"radial", species.UnitShrinkage, w.Radial}, {"tangential", species.UnitShrinkage, w.Tangential},
		{"fibre_saturation", species.UnitMC, w.FibreSaturation}, {"specific_gravity_green", species.UnitRatio, w.SpecificGravity},
	} {
		if one.is != nil {
			all[one.name] = Provenance{Name: one.name, Value: *one.is, Unit: one.unit, Source: fromTheCaller, Checked: ByCaller}
		}
	}
	if w.Modulus != nil {
		all["modulus_of_elasticity_12"] = Provenance{Name: "modulus_of_elasticity_12", Value: float64(w.Modulus.SI / quantity.Megapascal),
			Unit: species.UnitMPa, Source: fromTheCaller, Checked: ByCaller}
	}
	return all
}

// withFigures puts the figures of the caller in place of those of a wood.
func (t *Tables) withFigures(value wood.Wood, asked *WoodAsked, notes *method.Notes) wood.Wood {
	given := func(to *wood.Figure, v *float64, scale float64) {
		if v != nil {
			*to = wood.Published(*v * scale)
		}
	}
	given(&value.Radial, asked.Radial, 0.01)
	given(&value.Tangential, asked.Tangential, 0.01)
	given(&value.SpecificGravity, asked.SpecificGravity, 1)
	if asked.replaces("coefficient_radial") {
		value.CoefficientRadial = wood.Figure{}
	}
	if asked.replaces("coefficient_tangential") {
		value.CoefficientTangential = wood.Figure{}
	}
	if asked.replaces("coefficient_fibre_saturation") {
		value.CoefficientFibreSaturation, value.OnsetInferred = 0, false
	}
	value.LowerEMC = value.LowerEMC || asked.LowerEMC
	if asked.FibreSaturation != nil {
		value.FibreSaturation, value.FibreSaturationSpread = wire.FromPercent(*asked.FibreSaturation), 0
	}
	if asked.Modulus != nil {
		value.BendingModulus = wood.Published(float64(asked.Modulus.SI / quantity.Megapascal))
	}
	if asked.Group != "" {
		value = inGroup(t.Species, value, wood.Group(asked.Group))
	}
	if (asked.Radial != nil || asked.Tangential != nil) && value.Exchanged() {
		notes.Warn(method.Warning{Code: method.Assumption, Input: "wood/tangential_shrinkage_pct",
			Detail: "the tangential shrinkage is smaller than the radial; are they exchanged?"})
	}
	return value
}
