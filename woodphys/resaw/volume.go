package resaw

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// BilletVolume returns the exact volume of a box-shaped billet.
//
// length, width, thickness: each 0 to 100 m. Errors: method.OutOfRange. The
// result is true volume; a trade tally counts stock under 1 in as 1 in and
// rounds the surface measure, so it differs. Accuracy: exact in whole cubic
// nanometres, of sides rounded to whole nanometres.
//
// Source: 1 board foot = 144 cubic inches (1 ft x 1 ft x 1 in).
func BilletVolume(length, width, thickness quantity.Length) (exact.Cubic, error) {
	for _, g := range []exact.Given{exact.Named("length", length), exact.Named("width", width),
		exact.Named("thickness", thickness)} {
		if _, err := rowVolume.Check(g.Name, exact.Millimetres(g.L)); err != nil {
			return exact.Cubic{}, err
		}
	}
	return exact.Box(exact.Whole(length), exact.Whole(width), exact.Whole(thickness)), nil
}
