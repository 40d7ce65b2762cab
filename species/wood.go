package species

import (
	"iter"
	"slices"
)

// Group is the part of the source tables a wood stands in.
type Group string

// The groups of the tables.
const (
	Hardwood Group = "hardwood" // grown in the United States
	Softwood Group = "softwood" // grown in the United States
	Imported Group = "imported" // grown elsewhere, broadleaved or conifer
)

// Kind says what a row of figures stands for.
type Kind string

// What a row stands for.
const (
	Species Kind = "species" // one species, or one trade wood of a few species
	Trade   Kind = "group"   // a commercial group that is sold mixed
	Genus   Kind = "genus"   // the average of a genus, an estimate over several sources
)

// DryingClass is how a wood takes drying: how easily it checks and collapses.
type DryingClass string

// The drying classes. A wood without a class carries the empty string.
const (
	Refractory DryingClass = "refractory" // dries slowly, checks easily
	Moderate   DryingClass = "moderate"
	Easy       DryingClass = "easy"
)

// Wood is one wood with all that the tables say about it. It is shared and
// must not be changed.
type Wood struct {
	ID        string // stable, such as "maple-sugar"
	Common    string // as printed, such as "Maple, sugar"
	Botanical string
	Synonyms  []string // other trade names and botanical synonyms
	Names     []Name   // the same with language and source
	Group     Group
	Kind      Kind
	NameFrom  string  // source of the names
	NameMark  Checked // how the row of names was checked

	// Shrinkage from green to ovendry, percent of the green dimension.
	Radial, Tangential, Volumetric Value
	// Change of dimension per %MC between 6 and 14 %MC, as a fraction of the
	// dimension at 10 %MC.
	CoefficientRadial, CoefficientTangential Value
	// The fibre saturation the coefficients were made with, 30 or 22 %MC. It is
	// inferred from the figures and was not read.
	CoefficientFibreSaturation Value
	// Differential shrinkage: percent of the dimension for a point of moisture, in the
	// range of use (DIN 68100 and the like); that of the volume was measured on trees.
	SwellingRadial, SwellingTangential, SwellingVolumetric Value
	// Shrinkage from green to 12 and to 17 %MC, percent of the green dimension.
	RadialTo12, TangentialTo12, RadialTo17, TangentialTo17 Value

	SpecificGravityGreen   Value // basic: ovendry mass over green volume over water
	SpecificGravity12      Value // ovendry mass over volume at 12 %MC over water
	ModulusOfElasticity12  Value // along the grain from bending, MPa, at 12 %MC or as AtMC says
	GreenHeartwood         Value // moisture of green heartwood, %MC
	GreenSapwood           Value // moisture of green sapwood, %MC
	GreenStem              Value // moisture of the whole stem when green, %MC
	Elastic                ElasticRatios
	FibreSaturation        Value // %MC with spread; the general 30 where the wood has no figure of its own
	FibreSaturationGeneral bool  // the general figure stands in FibreSaturation

	Estimates Estimates // of what no source gives

	LowerEMC     LowerEMC
	Drying       DryingMark
	SafeLoss     Value // largest safe loss of moisture in 25 mm (4/4) stock above about 45 %MC, %MC per day
	AirDrying    []AirDryingTime
	DryingFactor DryingFactor
	Cautions     []Caution // never empty; silence on a hazard does not mean safe
}

// Name is another name of a wood: of the trade, or botanical.
type Name struct {
	Text      string
	Botanical bool
	Language  string // ISO 639-1, "la" for a botanical name; empty where it was not noted
	Source    string
	Checked   Checked
}

// ElasticRatios are the stiffness ratios and Poisson's ratios at about 12 %MC,
// all without unit. L, R and T are along the grain, radial and tangential; EL
// is 1.10 times the bending modulus (Wood Handbook p. 5-2, from memory). The
// first letter of a Poisson's ratio is the direction of stress, the second of
// the strain. The recalled rows are not reciprocal; do not derive one ratio
// from another.
type ElasticRatios struct {
	ETEL, EREL, GLREL, GLTEL, GRTEL                                  Value
	PoissonLR, PoissonLT, PoissonRT, PoissonTR, PoissonRL, PoissonTL Value
}

// LowerEMC marks a wood high in extractives, whose equilibrium moisture lies
// below the common table at high relative humidity by Low to High points (%MC).
type LowerEMC struct {
	Applies   bool
	Low, High float64
	Source    string
	Checked   Checked
	Note      string
}

// DryingMark is the drying class of a wood, empty where it has none.
type DryingMark struct {
	Class   DryingClass
	Source  string
	Checked Checked
	Note    string
}

// AirDryingTime is the time that green 25 mm (4/4) boards take to reach 20 %MC
// in the open, over places and seasons of the United States.
type AirDryingTime struct {
	Class            string // "", or the part of the wood or region it is for: light, sinker, heartwood, sapwood, northern, southern
	MinDays, MaxDays float64
	Source           string
	Checked          Checked
	Note             string
}

type slot struct {
	name  string
	unit  string
	value *Value
}

func (w *Wood) slots() []slot {
	e := &w.Elastic
	return []slot{
		{"radial", UnitShrinkage, &w.Radial},
		{"tangential", UnitShrinkage, &w.Tangential},
		{"volumetric", UnitShrinkage, &w.Volumetric},
		{"coefficient_radial", UnitCoefficient, &w.CoefficientRadial},
		{"coefficient_tangential", UnitCoefficient, &w.CoefficientTangential},
		{"coefficient_fibre_saturation", UnitMC, &w.CoefficientFibreSaturation},
		{"swelling_radial", UnitSwelling, &w.SwellingRadial},
		{"swelling_tangential", UnitSwelling, &w.SwellingTangential},
		{"swelling_volumetric", UnitSwelling, &w.SwellingVolumetric},
		{"radial_to_12", UnitShrinkage, &w.RadialTo12},
		{"tangential_to_12", UnitShrinkage, &w.TangentialTo12},
		{"radial_to_17", UnitShrinkage, &w.RadialTo17},
		{"tangential_to_17", UnitShrinkage, &w.TangentialTo17},
		{"specific_gravity_green", UnitRatio, &w.SpecificGravityGreen},
		{"specific_gravity_12", UnitRatio, &w.SpecificGravity12},
		{"modulus_of_elasticity_12", UnitMPa, &w.ModulusOfElasticity12},
		{"green_heartwood", UnitMC, &w.GreenHeartwood},
		{"green_sapwood", UnitMC, &w.GreenSapwood},
		{"green_stem", UnitMC, &w.GreenStem},
		{"et_el", UnitRatio, &e.ETEL},
		{"er_el", UnitRatio, &e.EREL},
		{"glr_el", UnitRatio, &e.GLREL},
		{"glt_el", UnitRatio, &e.GLTEL},
		{"grt_el", UnitRatio, &e.GRTEL},
		{"poisson_lr", UnitRatio, &e.PoissonLR},
		{"poisson_lt", UnitRatio, &e.PoissonLT},
		{"poisson_rt", UnitRatio, &e.PoissonRT},
		{"poisson_tr", UnitRatio, &e.PoissonTR},
		{"poisson_rl", UnitRatio, &e.PoissonRL},
		{"poisson_tl", UnitRatio, &e.PoissonTL},
		{"fibre_saturation", UnitMC, &w.FibreSaturation},
		{"safe_daily_loss", UnitLossPerDay, &w.SafeLoss},
	}
}

// Values returns every value of w, known or not, under its name in snake case,
// always in the same order.
func (w *Wood) Values() iter.Seq2[string, Value] {
	return func(yield func(string, Value) bool) {
		for _, s := range w.slots() {
			if !yield(s.name, *s.value) {
				return
			}
		}
	}
}

// Figures returns what Values does, with estimates in place of the values that no source
// gives and that can be estimated.
func (w *Wood) Figures() iter.Seq2[string, Value] {
	estimates := map[string]Value{
		"radial": w.Estimates.Radial, "tangential": w.Estimates.Tangential, "specific_gravity_green": w.Estimates.SpecificGravityGreen,
		"green_stem": w.Estimates.GreenStem, "modulus_of_elasticity_12": w.Estimates.ModulusOfElasticity12,
	}
	return func(yield func(string, Value) bool) {
		for name, v := range w.Values() {
			if e := estimates[name]; e.Known() {
				v = e
			}
			if !yield(name, v) {
				return
			}
		}
	}
}

func (w *Wood) slot(name string) *Value {
	all := w.slots()
	i := slices.IndexFunc(all, func(s slot) bool { return s.name == name })
	if i < 0 {
		return nil
	}
	return all[i].value
}
