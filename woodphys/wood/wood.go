package wood

import "latewood/woodphys/quantity"

// Wood is what is known of a wood.
type Wood struct {
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
	// FibreSaturation is the wood's own at room temperature, 0.10 to 0.45; 0 when not
	// known.
	FibreSaturation quantity.Moisture

	// SpecificGravity is the basic one: ovendry mass over green volume over water,
	// 0.10 to 1.20.
	SpecificGravity Figure
	// LowerEMC marks a wood rich in extractives, which holds less moisture in damp air.
	LowerEMC bool
	// EMCFactor is the EMC over that of the printed curve, 0.5 to 1.5, where it is
	// known better than LowerEMC tells; 0 when it is not.
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
	// SafeDailyLoss is the largest loss of moisture in a day that boards of 25 mm stand
	// above about 45 %MC, 0.001 to 0.5; 0 when not known.
	SafeDailyLoss quantity.Moisture
}

// lowerEMCFactor is the EMC of a wood rich in extractives over that of ordinary
// wood: 2 points lower at 80 % RH, where ordinary wood holds 16 (Wood Handbook
// ch. 4, from memory).
const lowerEMCFactor = 14.0 / 16.0

// EMCScale returns the EMC of the wood over that of the printed curve, without a
// unit, 0.5 to 1.5.
//
// Accuracy: woods rich in extractives settle 1 to 3 points lower in damp air; other
// woods stray by some 5 %.
//
// Source: the field EMCFactor; else Wood Handbook ch. 4, from memory.
func (w *Wood) EMCScale() float64 {
	switch {
	case w.EMCFactor != 0:
		return w.EMCFactor
	case w.LowerEMC:
		return lowerEMCFactor
	}
	return 1
}
