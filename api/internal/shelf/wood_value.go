package shelf

import (
	"fmt"
	"math"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// valueOf is a wood of the tables in the physics' form.
func valueOf(t *species.Tables, w *species.Wood) wood.Wood {
	value := wood.Wood{
		Name:            w.Common,
		SpecificGravity: figure(w.BestGravity(), 1), LowerEMC: w.LowerEMC.Applies,
		Radial: figure(w.BestRadial(), 0.01), Tangential: figure(w.BestTangential(), 0.01), Volumetric: figure(w.Volumetric, 0.01),
		CoefficientRadial: figure(w.CoefficientRadial, 1), CoefficientTangential: figure(w.CoefficientTangential, 1),
		CoefficientFibreSaturation: wire.FromPercent(w.CoefficientFibreSaturation.Or(0)),
		OnsetInferred:              w.CoefficientFibreSaturation.Checked == species.Inferred,
		BendingModulus:             figure(w.BestModulus(), 1), Ratios: ratios(&w.Elastic),
	}
	value.Radial = partly(value.Radial, w.RadialTo12, w.SwellingRadial)
	value.Tangential = partly(value.Tangential, w.TangentialTo12, w.SwellingTangential)
	saturates(&value, w.FibreSaturation)
	value.SaturationGeneral = w.FibreSaturationGeneral
	value.DifferentialRadial, value.DifferentialTangential = figure(w.SwellingRadial, 0.01), figure(w.SwellingTangential, 0.01)
	value.SwellingVolumetric = figure(w.SwellingVolumetric, 0.01)
	value.SwellingVolumetric.SD = 0.01 * w.SwellingVolumetric.Spread.Or(0) / quantity.Z90 // between trees
	dries(&value, w)
	return inGroup(t, value, wood.Group(w.Botany()))
}

// inGroup is a wood with the mean ratios of a group, which stand in for those that are
// not known of it.
func inGroup(t *species.Tables, w wood.Wood, group wood.Group) wood.Wood {
	means := t.ElasticMeans(species.Group(group))
	w.Group, w.StandIn = group, ratios(&means)
	return w
}

func ratios(e *species.ElasticRatios) wood.Ratios {
	return wood.Ratios{
		ETEL: figure(e.ETEL, 1), EREL: figure(e.EREL, 1), GLREL: figure(e.GLREL, 1), GLTEL: figure(e.GLTEL, 1),
		GRTEL:     figure(e.GRTEL, 1),
		PoissonLR: figure(e.PoissonLR, 1), PoissonLT: figure(e.PoissonLT, 1), PoissonRT: figure(e.PoissonRT, 1),
	}
}

// saturates sets the fibre saturation of a wood, with its spread.
func saturates(w *wood.Wood, v species.Value) {
	w.FibreSaturation, w.FibreSaturationSpread = wire.FromPercent(v.Or(0)), wire.FromPercent(v.Spread.Or(0))
}

// partly is a total shrinkage whose band holds what the shrinkage to 12 % and that of a point
// below it come to, where a publication prints them.
func partly(total wood.Figure, to12, perPoint species.Value) wood.Figure {
	part, partKnown := to12.Get()
	point, pointKnown := perPoint.Get()
	if !total.Known || !partKnown || !pointKnown {
		return total
	}
	return total.Against(wood.TotalOfParts(part/100, point/100, 12*quantity.PercentMC))
}

// figure turns a published value into the physics' form, with its mark, or an estimated
// one with its spread. The band of a disputed figure holds the other one as well.
func figure(v species.Value, scale float64) wood.Figure {
	number, known := v.Get()
	f := wood.Figure{Value: number * scale, Known: known}
	switch {
	case !known:
	case v.Checked == species.Estimated:
		f.Estimated, f.How, f.SD = true, v.Note, scale*v.Spread.Or(0)/quantity.Z90
	case v.Other != nil:
		f.Recalled, f.How, f.SD = true, disputed(v, number), scale*math.Abs(v.Other.Number-number)/quantity.Z90
	case !trusted(v.Checked):
		f.Recalled, f.How = true, v.Checked.Meaning()+recalled(v.Recall)
	}
	return f
}

// disputed tells both figures.
func disputed(v species.Value, number float64) string {
	return "disputed: the tables take " + quantity.FormatNumber(number, 4) + ", " + v.Other.Source + " has " +
		quantity.FormatNumber(v.Other.Number, 4) + "; the band holds both"
}

// recalled tells what recall of the publication is worth, where it could be checked.
func recalled(r *species.Recall) string {
	if r == nil {
		return ""
	}
	told := fmt.Sprintf("; of %d recalled figures of the publication that were found in print since, ", r.Checked)
	if r.Differed == 0 {
		return told + "none differed"
	}
	return told + fmt.Sprintf("%d differed, by %.0f %% at most", r.Differed, r.LargestPct)
}

// trusted says whether a figure was read in its source or follows from figures
// that were.
func trusted(c species.Checked) bool {
	return c.SeenInPrint() || c == species.Derived || c == species.Computed
}
