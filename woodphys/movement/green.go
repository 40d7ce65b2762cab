package movement

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

var greenRow = method.Method{
	ID: "movement.from-green", Chapter: "movement",
	Summary:  "Shrinkage from green to a moisture content, and the green size for a dry size",
	Equation: "S_M = S_0 (1 - M/30); t_green = t_dry/(1 - S (FSP - M)/(100 FSP))",
	Inputs: []method.Input{
		{Name: "target_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "size", Unit: "mm", Fitted: lengthRange, Limit: lengthRange},
	},
	Accuracy: "pieces of a species vary by 15 % (1 SD); collapse is not in it",
	Source:   "Wood Handbook FPL-GTR-190 ch. 4, S_x = S_0 (1 - x/30)",
	Checked:  method.Memory,
}

// Shrunk is the shrinkage from green to a moisture content.
type Shrunk struct {
	Shrinkage quantity.Band[float64] // fraction of the green size
	Onset     quantity.Moisture      // fibre saturation used
	Notes     method.Notes
}

// Sized is a size before or after drying from green.
type Sized struct {
	Size      quantity.Band[quantity.Length]
	Shrinkage quantity.Band[float64] // fraction of the green size
	Notes     method.Notes
}

// ShrinkageFromGreen returns the shrinkage of green wood dried to mc (0 to 2.5),
// as a fraction of the green size; zero at and above fibre saturation. It uses
// the total shrinkage, never the coefficient.
//
// Errors: as Change, with target_mc_pct for mc; unsupported when the total
// shrinkage in this direction is not known.
// Accuracy: 90 % band of 15 % variation, the moisture content and ring angle.
// Source: Wood Handbook ch. 4 (from memory).
func ShrinkageFromGreen(direction Direction, mc quantity.Band[quantity.Moisture], wood Wood) (Shrunk, error) {
	var out Shrunk
	if err := checkBand(&out.Notes, &greenRow, "target_mc_pct", mc); err != nil {
		return Shrunk{}, err
	}
	var p parts
	if err := p.rates(&out.Notes, direction, &wood); err != nil {
		return Shrunk{}, err
	}
	if !p.hasS {
		return Shrunk{}, noShrinkage()
	}
	r := byShrinkage(p.s, uncertain{}, dryness(mc, p.onset)) // relative change, negative
	b := r.band()
	out.Shrinkage = quantity.Band[float64]{Value: 0 - b.Value, Low: max(0, 0-b.High), High: max(0, 0-b.Low)}
	out.Onset = p.onset
	return out, nil
}

// SizeFromGreen returns the size at mc of a piece that measures green (1
// micrometre to 1 km) when green.
//
// Errors: as ShrinkageFromGreen, and out_of_range for size.
// Accuracy: as ShrinkageFromGreen.
// Source: Wood Handbook ch. 4 (from memory).
func SizeFromGreen(green quantity.Length, direction Direction, mc quantity.Band[quantity.Moisture], wood Wood) (Sized, error) {
	return sized(green, direction, mc, wood, func(s float64) quantity.Length { return green * quantity.Length(1-s) }, true)
}

// GreenOversize returns the size to saw green so that dry (1 micrometre to 1
// km) is left at the moisture content target. The upper end of the band is the
// size that leaves enough in 95 of 100 pieces.
//
// Errors: as ShrinkageFromGreen, and out_of_range for size.
// Accuracy: as ShrinkageFromGreen; the middle undoes SizeFromGreen exactly.
// Source: arithmetic on Wood Handbook ch. 4.
func GreenOversize(dry quantity.Length, direction Direction, target quantity.Band[quantity.Moisture], wood Wood) (Sized, error) {
	return sized(dry, direction, target, wood, func(s float64) quantity.Length { return dry / quantity.Length(1-s) }, false)
}

func sized(size quantity.Length, direction Direction, mc quantity.Band[quantity.Moisture], wood Wood, at func(float64) quantity.Length, falls bool) (Sized, error) {
	var out Sized
	if err := out.Notes.Use(&greenRow, "size", size.Millimetres()); err != nil {
		return Sized{}, err
	}
	s, err := ShrinkageFromGreen(direction, mc, wood)
	if err != nil {
		return Sized{}, err
	}
	out.Notes.Merge(s.Notes)
	out.Shrinkage = s.Shrinkage
	out.Size = quantity.Band[quantity.Length]{Value: at(s.Shrinkage.Value), Low: at(s.Shrinkage.Low), High: at(s.Shrinkage.High)}
	if falls {
		out.Size.Low, out.Size.High = out.Size.High, out.Size.Low
	}
	return out, nil
}

// Leaf is the green thickness and width of a leaf.
type Leaf struct{ Thickness, Width Sized }

// GreenLeaf returns the size to saw a leaf green so that thickness and width (1
// micrometre to 1 km each) are left at target, for rings that meet its face at ringAngle (0 to 90 degrees,
// standard deviation sd). In a quartered leaf (90) the thickness moves
// tangentially and the width radially; in a flat-cut one (0) the reverse.
//
// Errors: as GreenOversize.
// Accuracy: as GreenOversize. Saw marks, wander and clean-up come on top.
// Source: arithmetic on Wood Handbook ch. 4; rotation of plane strain.
func GreenLeaf(thickness, width quantity.Length, ringAngle, sd quantity.Angle, target quantity.Band[quantity.Moisture], wood Wood) (Leaf, error) {
	t, err := GreenOversize(thickness, ThicknessAt(ringAngle, sd), target, wood)
	if err != nil {
		return Leaf{}, rename(err, "size", "thickness")
	}
	w, err := GreenOversize(width, WidthAt(ringAngle, sd), target, wood)
	if err != nil {
		return Leaf{}, rename(err, "size", "width")
	}
	return Leaf{Thickness: t, Width: w}, nil
}

func noShrinkage() error {
	return &method.Error{Code: method.Unsupported, Input: "wood", Detail: "the total shrinkage of this wood in this direction is not known, and a coefficient does not reach to green"}
}
