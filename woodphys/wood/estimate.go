package wood

import (
	"math"

	"latewood/woodphys/quantity"
)

const (
	// shrinkagePerGravity: S_v = 0.265 G_b from green to ovendry. Wood Handbook
	// FPL-GTR-282 eq. 4-12 (Stamm 1964), read in a transcription.
	shrinkagePerGravity = 0.265
	// cellWall is the specific gravity of the cell wall substance. Wood Handbook
	// FPL-GTR-282 eq. 4-3, read in a transcription.
	cellWall = 1.54
	// usualSaturation is where eq. 4-9 and eq. 4-13 let shrinkage start.
	usualSaturation = 0.30
	// airDry is the moisture content that dry specific gravity is printed at.
	airDry = 0.12
)

// VolumetricOf returns the volumetric shrinkage, as a fraction from green to ovendry, of
// a wood of a basic specific gravity (0.05 to 1.4).
//
// Accuracy: a third of the value (1 SD), from the woods of the tables.
//
// Source: Wood Handbook FPL-GTR-282 eq. 4-12, S0 = 26.5 Gb (Stamm 1964).
func VolumetricOf(gravity float64) float64 { return shrinkagePerGravity * gravity }

// BasicGravity returns the basic specific gravity of a wood that has the specific
// gravity at12 (0.05 to 1.4) at 12 %MC.
//
// Accuracy: 2 to 3 % (1 SD), from the woods of the tables that have both.
//
// Source: Wood Handbook FPL-GTR-282 eq. 4-13 solved for Gb; its printed example is white
// ash, 0.55 and 0.605.
func BasicGravity(at12 float64) float64 {
	return at12 / (1 + shrinkagePerGravity*at12*(1-airDry/usualSaturation))
}

// TotalShrinkage returns the shrinkage from green to ovendry of a wood that shrinks by
// partial (a fraction, 0 to 0.4) from green to a moisture content to, which lies below
// onset, where shrinkage starts (0.10 to 0.45).
//
// Accuracy: 10 to 20 %; shrinkage is not quite even below fibre saturation.
//
// Source: Wood Handbook FPL-GTR-282 eq. 4-9, Sx = S0 (1 - x/MCfs).
func TotalShrinkage(partial float64, to, onset quantity.Moisture) float64 {
	return partial / (1 - float64(to/onset))
}

// ShrinkageOfSwelling returns the shrinkage from green to ovendry, as a fraction, of a
// wood that moves by perPoint (a fraction, 0 to 0.01) for one point of moisture content
// and starts to shrink at onset (0.10 to 0.45).
//
// Accuracy: 10 to 20 %; shrinkage is not quite even below fibre saturation.
//
// Source: Wood Handbook FPL-GTR-282 eq. 4-9, from onset to ovendry.
func ShrinkageOfSwelling(perPoint float64, onset quantity.Moisture) float64 {
	return perPoint * onset.Percent()
}

// TotalOfParts returns the shrinkage from green to ovendry of a wood that shrinks by partial
// (a fraction, 0 to 0.4) from green to a moisture content to, and by perPoint (a fraction, 0
// to 0.01) for a point from there down.
//
// Accuracy: 10 %, by the rounding of both. Source: sum of the two parts.
func TotalOfParts(partial, perPoint float64, to quantity.Moisture) float64 {
	return partial + perPoint*to.Percent()
}

// Against returns the figure, unsure by so much that its 90 % band holds other, what else is
// printed of the same thing: any value in its unit.
//
// Accuracy: exact. Source: the definition of a 90 % band.
func (f Figure) Against(other float64) Figure {
	f.SD = math.Max(f.SD, math.Abs(other-f.Value)/quantity.Z90)
	return f
}

// MostMoisture returns the most water that a wood of a basic specific gravity (0.05 to
// 1.4) can hold, as a moisture content.
//
// Accuracy: 5 %. Source: Wood Handbook FPL-GTR-282 eq. 4-3, (1.54 - Gb)/(1.54 Gb).
func MostMoisture(gravity float64) quantity.Moisture {
	return quantity.Moisture((cellWall - gravity) / (cellWall * gravity))
}

// BendingModulusOf returns the modulus of elasticity along the grain at 12 %MC, in MPa, of
// a wood of a group that has the specific gravity at12 (0.05 to 1.4) at 12 %MC; a wood of
// no group counts as broadleaved.
//
// Accuracy: 20 to 25 % (1 SD), from the woods of the tables.
//
// Source: Wood Handbook FPL-GTR-190 table 5-11a, from memory: 20 500 G^0.84 MPa for
// softwoods and 16 500 G^0.70 MPa for hardwoods.
func BendingModulusOf(at12 float64, group Group) float64 {
	if group == Softwood {
		return 20500 * math.Pow(at12, 0.84)
	}
	return 16500 * math.Pow(at12, 0.70)
}

// GravityAt12 returns the specific gravity at 12 %MC of a wood of a basic specific
// gravity (0.05 to 1.4).
//
// Accuracy: 2 to 3 % (1 SD), from the woods of the tables that have both.
//
// Source: Wood Handbook FPL-GTR-282 eq. 4-13, Gx = Gb/[1 - 0.265 Gb (1 - x/MCfs)].
func GravityAt12(basic float64) float64 {
	return basic / (1 - shrinkagePerGravity*basic*(1-airDry/usualSaturation))
}
