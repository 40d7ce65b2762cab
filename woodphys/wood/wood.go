package wood

import "latewood/woodphys/quantity"

// Wood is what is known of a wood.
type Wood struct {
	// Name is the wood for people, such as "Maple, sugar"; empty where it has none.
	Name string
	// Own says that the figures are the caller's and stand in no table.
	Own bool

	// Shrinkage figures are fractions of the green dimension, green to ovendry
	// (0.086 for 8.6 %): radial and tangential 0.0001 to 0.40, volumetric 0.001 to
	// 0.50, longitudinal 0.00001 to 0.05.
	Radial, Tangential, Volumetric, Longitudinal Figure
	// Coefficients are change per %MC as a fraction (0.00369), 0.00001 to 0.02.
	CoefficientRadial, CoefficientTangential Figure
	// CoefficientFibreSaturation is the onset of shrinkage that the
	// coefficients were made with, 0.30 or 0.22 in the tables (0.10 to 0.45); 0 when
	// not known.
	CoefficientFibreSaturation quantity.Moisture
	// OnsetInferred says that CoefficientFibreSaturation was concluded from the
	// coefficients and read nowhere.
	OnsetInferred bool
	// FibreSaturation is the wood's own at room temperature, 0.10 to 0.45, or that of
	// woods in general (SaturationGeneral); 0 when not known. Isotherm and shrinkage both
	// end at it.
	FibreSaturation   quantity.Moisture
	SaturationGeneral bool
	// FibreSaturationSpread is the half width of the band of FibreSaturation, 0 to
	// 0.20; 0 when not known.
	FibreSaturationSpread quantity.Moisture

	// Differential figures are change of the dimension at 12 %MC for a point of moisture
	// content in the range of use, as a fraction (0.0039), 0.00001 to 0.02.
	DifferentialRadial, DifferentialTangential Figure
	// SwellingVolumetric is the shrinkage of the green volume for a point of moisture
	// content, measured on trees, as a fraction (0.0051), 0.00002 to 0.03; its SD is that
	// between trees.
	SwellingVolumetric Figure

	// SpecificGravity is the basic one: ovendry mass over green volume over water,
	// 0.10 to 1.20.
	SpecificGravity Figure
	// LowerEMC marks a wood rich in extractives, which holds less moisture in damp air: it
	// stands in for a fibre saturation that is not known.
	LowerEMC bool
	// EMCFactor is the EMC of a piece or a place over that of the isotherm of the wood, 0.5
	// to 1.5; 0 when it is not known.
	EMCFactor float64

	// Listing is the part of the tables it stands in; empty for a wood that is in none.
	Listing Listing
	// Pace is how fast it dries.
	Pace Pace
	// Ease is how it takes drying.
	Ease Ease
	// Green is the moisture content of green wood, heartwood and sapwood together, 0.2
	// to 2.5; 0 when not known.
	Green quantity.Moisture
	// GreenSD is one standard deviation of Green where no source gives it and it was
	// estimated, 0 to 1; GreenHow says for people how. 0 and empty where it is published.
	GreenSD  quantity.Moisture
	GreenHow string
	// SafeDailyLoss is the largest loss of moisture in a day that boards of 25 mm stand
	// above about 45 %MC, 0.001 to 0.5; 0 when not known.
	SafeDailyLoss quantity.Moisture

	// BendingModulus is the modulus of elasticity along the grain at 12 %MC, from
	// bending, in MPa, 500 to 50 000.
	BendingModulus Figure
	// Group is what it is by botany, by which it dries and whose mean ratios stand in;
	// empty when not known.
	Group Group
	// Ratios are the elastic ratios at about 12 %MC.
	Ratios Ratios
	// StandIn are the mean ratios of Group, for those of Ratios that are not known.
	StandIn Ratios
}

// Group is a group of woods whose means stand in for what is not known of one of them.
type Group string

// The groups.
const (
	Hardwood Group = "hardwood" // broadleaved
	Softwood Group = "softwood" // conifers
)

// Ratios are stiffness over that along the grain, and Poisson's ratios, all without a
// unit. L, R and T are along the grain, across the rings and along them; the first
// letter of a Poisson's ratio is the direction of the stress. 0.001 to 1, GRT 0.0005 to
// 0.5, Poisson's ratios 0 to 0.9, RT to 0.95.
type Ratios struct {
	ETEL, EREL, GLREL, GLTEL, GRTEL Figure
	PoissonLR, PoissonLT, PoissonRT Figure
}

// Conifer reports whether the wood is a conifer, wherever it grows: by its Group, or, without
// one, by the part of the tables it stands in. One of which neither tells is taken as
// broadleaved.
//
// Accuracy: exact, as far as it is told.
//
// Source: the fields Group and Listing, in that order.
func (w *Wood) Conifer() bool {
	if w.Group != "" {
		return w.Group == Softwood
	}
	return w.Listing == ListedSoftwood
}

// Exchanged reports that the tangential shrinkage is smaller than the radial, as in no
// wood of the tables; the two were probably exchanged.
//
// Accuracy: exact; false where one of them is not known.
//
// Source: Wood Handbook tables 4-3 and 4-4, where the tangential shrinkage of every
// wood is the larger.
func (w *Wood) Exchanged() bool {
	return w.Radial.Known && w.Tangential.Known && w.Tangential.Value < w.Radial.Value
}

// Onset returns the moisture content at which shrinkage starts, 0.10 to 0.45: the fibre
// saturation, at which the isotherm ends as well, else that of the coefficients; 0 when
// neither is known.
//
// Accuracy: that of the field; some onsets of coefficients are inferred.
//
// Source: the fields FibreSaturation and CoefficientFibreSaturation, in that order.
func (w *Wood) Onset() quantity.Moisture {
	if w.FibreSaturation != 0 {
		return w.FibreSaturation
	}
	return w.CoefficientFibreSaturation
}

// EMCScale returns the EMC over that of the isotherm of the wood, without a unit, 0.5 to
// 1.5; 1 where it is not known.
//
// Accuracy: exact. Source: the field EMCFactor.
func (w *Wood) EMCScale() float64 {
	if w.EMCFactor != 0 {
		return w.EMCFactor
	}
	return 1
}
