package sorption

import (
	"math"

	"latewood/woodphys/quantity"
)

// sharedError is the correlation of the errors of the EMC of one piece in two
// airs: the scatter between woods is the same piece's in both, its history only
// partly. Own choice.
const sharedError = 0.8

// SamePiece returns the bands of the EMC of one piece in two airs, narrowed so
// that the standard deviation of their difference comes out right when they are
// then taken as independent. The values stay; equal bands keep a fifth of their
// variance. Bands of any width, moisture contents as fractions.
//
// Accuracy: the correlation of 0.8 is our own choice.
//
// Source: variance of a difference of correlated variables.
func SamePiece(a, b quantity.Band[quantity.Moisture]) (first, second quantity.Band[quantity.Moisture]) {
	s1, s2 := float64(a.SD()), float64(b.SD())
	sum := s1*s1 + s2*s2
	if !(sum > 0) {
		return a, b
	}
	// Var(x - y) = s1^2 + s2^2 - 2 r s1 s2
	shrink := quantity.Moisture(math.Sqrt((sum - 2*sharedError*s1*s2) / sum))
	return quantity.NormalBand(a.Value, shrink*a.SD()), quantity.NormalBand(b.Value, shrink*b.SD())
}
