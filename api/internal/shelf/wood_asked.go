package shelf

import (
	"slices"

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
	Group           string          `json:"group,omitempty" validate:"omitempty,oneof=hardwood softwood" enum:"hardwood,softwood" description:"broadleaved or conifer: it dries as woods of the group do, and their mean elastic ratios stand in for those that are not known. Left out: that of the species"`
	SpecificGravity *float64        `json:"specific_gravity,omitempty" validate:"omitempty,gte=0.05,lte=1.4" description:"basic: ovendry mass over green volume, over the density of water"`
	Radial          *float64        `json:"radial_shrinkage_pct,omitempty" validate:"omitempty,gte=0.1,lte=20" description:"across the rings, green to ovendry, in percent of the green size"`
	Tangential      *float64        `json:"tangential_shrinkage_pct,omitempty" validate:"omitempty,gte=0.1,lte=25" description:"along the rings, green to ovendry, in percent of the green size"`
	Longitudinal    *float64        `json:"longitudinal_shrinkage_pct,omitempty" validate:"omitempty,gte=0.001,lte=5" description:"along the grain, green to ovendry, in percent of the green size. Left out: 0.15 %"`
	RadialC         *float64        `json:"radial_coefficient,omitempty" validate:"omitempty,gte=0.00001,lte=0.02" description:"dimensional change coefficient across the rings: change per point of moisture content as a fraction of the size at 10 %MC, such as 0.00158"`
	TangentialC     *float64        `json:"tangential_coefficient,omitempty" validate:"omitempty,gte=0.00001,lte=0.02" description:"dimensional change coefficient along the rings: change per point of moisture content as a fraction of the size at 10 %MC, such as 0.00369"`
	RadialQ         *float64        `json:"radial_swelling_pct_per_point,omitempty" validate:"omitempty,gte=0.001,lte=2" description:"differential shrinkage across the rings: percent of the size per point of moisture content in the range of use, such as 0.19"`
	TangentialQ     *float64        `json:"tangential_swelling_pct_per_point,omitempty" validate:"omitempty,gte=0.001,lte=2" description:"differential shrinkage along the rings: percent of the size per point of moisture content in the range of use, such as 0.36"`
	VolumetricQ     *float64        `json:"volumetric_swelling_pct_per_point,omitempty" validate:"omitempty,gte=0.002,lte=3" description:"percent of the green volume per point of moisture content, as measured on pieces; split between the directions as radial and tangential shrinkage, and without both of no bearing"`
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
	found, err := t.called(asked)
	switch {
	case err != nil:
		return nil, wire.Under("wood", err)
	case found == nil:
		return t.fromCaller(asked, notes), nil
	}
	return t.better(found, asked, notes), nil
}

// called is the wood of the tables that is named; nil for none. Errors point below the wood.
func (t *Tables) called(asked *WoodAsked) (*Wood, error) {
	name := asked.Species
	switch {
	case asked.Species != "" && asked.Any != "":
		return nil, wire.Contradictory("any", "give species or any, not both")
	case asked.Any != "":
		name = anyWord + asked.Any
	}
	if name == "" {
		return nil, nil //nolint:nilnil // none is named
	}
	found, err := t.Find(name)
	return found, wire.Under(asked.named(), err)
}

// fromCaller is a wood of which the caller gives all that is known.
func (t *Tables) fromCaller(asked *WoodAsked, notes *method.Notes) *Wood {
	value := wood.Wood{Name: asked.Name, Own: true}
	if value.Name == "" {
		value.Name = "the caller's wood"
	}
	made := &Wood{Common: value.Name, Value: t.withFigures(value, asked, notes), known: asked.figures()}
	made.moved = made.Used(MovementFigures...)
	return made
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
		replaced := slices.ContainsFunc(figures, func(f Provenance) bool { return f.Name == k.Name })
		if !replaced && !asked.replaces(k.Name) {
			made.known = append(made.known, k)
		}
	}
	made.known = append(made.known, figures...)
	made.moved = made.Used(MovementFigures...)
	return &made
}

// replaces reports whether a figure of the tables no longer holds, since the caller gave one
// of the same thing: a rate for a point of moisture beside a total shrinkage or another
// rate, or the onset that coefficients go with. A total shrinkage stays until it is given,
// because the volumetric swelling is split by it.
func (w *WoodAsked) replaces(figure string) bool {
	radial := w.Radial != nil || w.RadialC != nil || w.RadialQ != nil
	tangential := w.Tangential != nil || w.TangentialC != nil || w.TangentialQ != nil
	switch figure {
	case "coefficient_radial", "swelling_radial":
		return radial
	case "coefficient_tangential", "swelling_tangential":
		return tangential
	case "swelling_volumetric":
		return radial || tangential
	case "coefficient_fibre_saturation": // goes with the coefficients
		return w.FibreSaturation != nil || radial && tangential
	}
	return false
}

// fromTheCaller marks a figure of the request.
const fromTheCaller = "given by the caller"

// figures are those that the caller gives of a wood, by the names of the tables.
func (w *WoodAsked) figures() []Provenance {
	var all []Provenance
	add := func(name, unit string, value float64) {
		all = append(all, Provenance{Name: name, Value: value, Unit: unit, Source: fromTheCaller, Checked: ByCaller})
	}
	for _, one := range []struct {
		name, unit string
		is         *float64
	}{
		{"radial", species.UnitShrinkage, w.Radial}, {"tangential", species.UnitShrinkage, w.Tangential},
		{"longitudinal", species.UnitShrinkage, w.Longitudinal},
		{"coefficient_radial", species.UnitCoefficient, w.RadialC}, {"coefficient_tangential", species.UnitCoefficient, w.TangentialC},
		{"swelling_radial", species.UnitSwelling, w.RadialQ}, {"swelling_tangential", species.UnitSwelling, w.TangentialQ},
		{"swelling_volumetric", species.UnitSwelling, w.VolumetricQ},
		{"fibre_saturation", species.UnitMC, w.FibreSaturation}, {"specific_gravity_green", species.UnitRatio, w.SpecificGravity},
	} {
		if one.is != nil {
			add(one.name, one.unit, *one.is)
		}
	}
	if w.Modulus != nil {
		add("modulus_of_elasticity_12", species.UnitMPa, float64(w.Modulus.SI/quantity.Megapascal))
	}
	return all
}

// withFigures puts the figures of the caller in place of those of a wood.
func (t *Tables) withFigures(value wood.Wood, asked *WoodAsked, notes *method.Notes) wood.Wood {
	asked.moves(&value)
	if asked.SpecificGravity != nil {
		value.SpecificGravity = wood.Published(*asked.SpecificGravity)
	}
	value.LowerEMC = value.LowerEMC || asked.LowerEMC
	if asked.FibreSaturation != nil {
		value.FibreSaturation, value.FibreSaturationSpread, value.SaturationGeneral = wire.FromPercent(*asked.FibreSaturation), 0, false
	}
	if asked.Modulus != nil {
		value.BendingModulus = wood.Published(float64(asked.Modulus.SI / quantity.Megapascal))
	}
	if asked.Group != "" {
		value = inGroup(t.Species, value, wood.Group(asked.Group))
	}
	if asked.VolumetricQ != nil && (!value.Radial.Known || !value.Tangential.Known) {
		notes.Warn(method.Warning{Code: method.NotUsed, Input: "wood/volumetric_swelling_pct_per_point",
			Detail: "volumetric_swelling_pct_per_point is split between the directions as their shrinkage: without radial_shrinkage_pct and tangential_shrinkage_pct it has no bearing on this answer"})
	}
	if (asked.Radial != nil || asked.Tangential != nil) && value.Exchanged() {
		notes.Warn(method.Warning{Code: method.Assumption, Input: "wood/tangential_shrinkage_pct",
			Detail: "the tangential shrinkage is smaller than the radial; are they exchanged?"})
	}
	return value
}

// moves puts the caller's figures of movement in place of those of a wood.
func (w *WoodAsked) moves(value *wood.Wood) {
	for _, one := range [...]struct {
		name  string
		to    *wood.Figure
		given *float64
		scale float64
	}{
		{"radial", &value.Radial, w.Radial, 0.01}, {"tangential", &value.Tangential, w.Tangential, 0.01},
		{"longitudinal", &value.Longitudinal, w.Longitudinal, 0.01},
		{"coefficient_radial", &value.CoefficientRadial, w.RadialC, 1},
		{"coefficient_tangential", &value.CoefficientTangential, w.TangentialC, 1},
		{"swelling_radial", &value.DifferentialRadial, w.RadialQ, 0.01},
		{"swelling_tangential", &value.DifferentialTangential, w.TangentialQ, 0.01},
		{"swelling_volumetric", &value.SwellingVolumetric, w.VolumetricQ, 0.01},
	} {
		switch {
		case one.given != nil:
			*one.to = wood.Published(*one.given * one.scale)
		case w.replaces(one.name):
			*one.to = wood.Figure{}
		}
	}
	if w.replaces("coefficient_fibre_saturation") {
		value.CoefficientFibreSaturation, value.OnsetInferred = 0, false
	}
}
