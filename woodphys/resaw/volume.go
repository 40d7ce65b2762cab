package resaw

import "latewood/woodphys/quantity"

// BilletVolume returns the exact volume of a box-shaped billet.
//
// length, width, thickness: each 0 to 100 m. Errors: method.OutOfRange. The
// result is true volume; a trade tally counts stock under 1 in as 1 in and
// rounds the surface measure, so it differs. Accuracy: exact in whole cubic
// nanometres, of sides rounded to whole nanometres.
//
// Source: 1 board foot = 144 cubic inches (1 ft x 1 ft x 1 in).
func BilletVolume(length, width, thickness quantity.Length) (Cubic, error) {
	for _, g := range []given{{"length", length}, {"width", width}, {"thickness", thickness}} {
		if _, err := rowVolume.Check(g.name, millimetres(g.l)); err != nil {
			return Cubic{}, err
		}
	}
	return box(whole(length), whole(width), whole(thickness)), nil
}
