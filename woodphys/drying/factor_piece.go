package drying

import (
	"math"

	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// RadialFactor is D_R over D_T: rays make radial drying 1.1 to 2 times faster
// (from memory); 1.2 is used.
const RadialFactor = 1.2

// UsualRingAngle is that of a board of which nobody has told how its rings stand:
// halfway between flatsawn and quartersawn, about what the factors were fitted on.
const UsualRingAngle = 45 * quantity.Degree

// UsualSpreadLog is the spread of ln k of a factor that somebody gives without one: a
// ratio of 1.4.
const UsualSpreadLog = 0.336

// DirectionFactor returns what the factor of a board is multiplied by when its
// rings stand at ringAngle (rad, 0 flatsawn to pi/2 quartersawn; the sign and
// whole turns do not matter) to the wide face: moisture leaves a flatsawn board
// along the rays (radially) and a quartersawn one across them (tangentially,
// slower). It is 1 at UsualRingAngle.
//
// Accuracy: D_R/D_T between 1.1 and 2.
//
// Source: rotation of the diffusion tensor; D_R = 1.2 D_T (from memory).
func DirectionFactor(ringAngle float64) float64 {
	s := math.Sin(ringAngle)
	along := RadialFactor*(1-s*s) + s*s // thickness direction, over D_T
	return along / ((RadialFactor + 1) / 2)
}

// FactorOf returns the drying factor of a piece of a wood of a thickness (0.5 to 600
// mm) with its rings at an angle (0 to 90 degrees) to the wide face. A factor that is
// given (a median above 0, 0.005 to 20, and the spread of its logarithm, 0 to 1.5)
// takes the place of that of the wood and of the rule for thickness; a wet-stage pace
// that is given takes that of the wood's.
//
// Errors: as FactorFor and ForThickness.
// Accuracy: the spread that comes with it.
//
// Source: rows drying.factor and drying.thickness; DirectionFactor.
func FactorOf(w *wood.Wood, thickness quantity.Length, ringAngle quantity.Angle, given Factor) (Factor, error) {
	f, err := FactorFor(w)
	if err != nil {
		return Factor{}, err
	}
	if given.Median != 0 {
		f.Median, f.SpreadLog, f.How = given.Median, given.SpreadLog, Given
	} else if f, err = ForThickness(f, thickness); err != nil {
		return Factor{}, err
	}
	if given.Wet.Median != 0 {
		f.Wet = WetPace{Median: given.Wet.Median, SpreadLog: given.Wet.SpreadLog, How: Given}
	}
	f.Median *= DirectionFactor(float64(ringAngle))
	return f, nil
}

// Band returns the pace with the ends of its 90 % band.
func (p *WetPace) Band() quantity.Band[float64] {
	return quantity.Band[float64]{Value: p.Median, Low: p.Median * math.Exp(-quantity.Z90*p.SpreadLog),
		High: p.Median * math.Exp(quantity.Z90*p.SpreadLog)}
}

// Band returns the factor with the ends of its 90 % band.
func (f *Factor) Band() quantity.Band[float64] {
	return quantity.Band[float64]{Value: f.Median, Low: f.Median * math.Exp(-quantity.Z90*f.SpreadLog),
		High: f.Median * math.Exp(quantity.Z90*f.SpreadLog)}
}

// AtThickness returns the factor of the same piece in another thickness (both 0.5 to
// 600 mm). A factor that was given for the piece stays.
//
// Errors: as ForThickness.
// Accuracy: that of the rule of thickness.
//
// Source: row drying.thickness.
func (f *Factor) AtThickness(here, there quantity.Length) (float64, error) {
	if f.How == Given {
		return f.Median, nil
	}
	from, err := ForThickness(Factor{Median: f.Median}, here)
	if err != nil {
		return 0, err
	}
	to, err := ForThickness(Factor{Median: f.Median}, there)
	return f.Median * to.Median / from.Median, err
}
