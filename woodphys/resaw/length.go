package resaw

import (
	"math"

	"latewood/woodphys/quantity"
)

// nm is a length in whole nanometres. Every whole micrometre and every 1/64 in
// is a whole number of nanometres.
type nm = int64

// perMetre is the number of nanometres in a metre.
const perMetre = 1e9

// whole returns l rounded to the nearest nanometre. Callers have checked that
// l is finite and at most 100 m.
func whole(l quantity.Length) nm { return nm(math.Round(float64(l) * perMetre)) }

// length returns the length of n nanometres.
func length(n nm) quantity.Length { return quantity.Length(float64(n) / perMetre) }

// lengthPtr returns a pointer to the length of n nanometres.
func lengthPtr(n nm) *quantity.Length {
	l := length(n)
	return &l
}

// millimetres returns l in millimetres, free of what floating point adds below
// a nanometre, so that a value on a limit is inside it.
func millimetres(l quantity.Length) float64 { return math.Round(float64(l)*perMetre) / 1e6 }
