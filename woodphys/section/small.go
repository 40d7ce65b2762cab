package section

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Small is the first-order answer for a centred flatsawn face.
type Small struct {
	Cup   quantity.Length // sagitta, positive: hollow towards the bark
	Width float64         // shrinkage of the width, a fraction
	Notes method.Notes
}

// SmallStrain returns the cup and the width shrinkage of a flat face of the given
// width (0.01 mm to 100 m) whose middle is square above the pith at the distance h
// (0.01 mm to 1 km), for small shrinkages radial and tangential (fractions, -0.4
// to 0.4, positive for drying). It is the first order of the exact map and serves
// for a quick sum and as a check; Change is exact.
//
// Errors: out_of_range for width, pith_distance, radial_pct, tangential_pct.
// Accuracy: first order in the shrinkages; for 6 % and 3 % and w = 2 h the cup is
// 1.2 % too large.
// Source: derived; c = (e_T - e_R) h theta tan theta, S_w = e_R + (e_T - e_R) theta/tan theta.
func SmallStrain(width, h quantity.Length, radial, tangential float64) (Small, error) {
	var out Small
	for _, in := range [...]struct {
		name string
		v    float64
	}{{"width", tidy(width.Millimetres())}, {"pith_distance", tidy(h.Millimetres())}, {"radial_pct", radial * 100}, {"tangential_pct", tangential * 100}} {
		if err := out.Notes.Use(&smallRow, in.name, in.v); err != nil {
			return Small{}, err
		}
	}
	tan := float64(width / (2 * h))
	theta := math.Atan(tan)
	out.Cup = h * quantity.Length((tangential-radial)*theta*tan)
	out.Width = radial + (tangential-radial)*theta/tan
	return out, nil
}
