package exact

import (
	"math"

	"latewood/woodphys/quantity"
)

// NM is a length in whole nanometres. Every whole micrometre and every 1/64 in
// is a whole number of nanometres.
type NM = int64

// perMetre is the number of nanometres in a metre.
const perMetre = 1e9

// Whole returns l rounded to the nearest nanometre. Callers have checked that
// l is finite and at most 100 m.
//
// Accuracy: half a nanometre. Source: derived by arithmetic.
func Whole(l quantity.Length) NM { return NM(math.Round(float64(l) * perMetre)) }

// Length returns the length of n nanometres.
//
// Accuracy: that of floating point, below 1e-15. Source: derived by arithmetic.
func Length(n NM) quantity.Length { return quantity.Length(float64(n) / perMetre) }

// LengthPtr returns a pointer to the length of n nanometres.
//
// Accuracy: as Length. Source: derived by arithmetic.
func LengthPtr(n NM) *quantity.Length {
	l := Length(n)
	return &l
}

// Millimetres returns l in millimetres, free of what floating point adds below
// a nanometre, so that a value on a limit is inside it.
//
// Accuracy: half a nanometre. Source: derived by arithmetic.
func Millimetres(l quantity.Length) float64 { return math.Round(float64(l)*perMetre) / 1e6 }

// Max returns the larger of a length and one that may not be given.
//
// Accuracy: exact. Source: derived by arithmetic.
func Max(l quantity.Length, other *quantity.Length) quantity.Length {
	if other == nil {
		return l
	}
	return max(l, *other)
}

// Tiny is far below a saw's reach: sizes that differ by no more are the same.
const Tiny = 1e-9 * quantity.Metre
