package exact

import (
	"math"
	"math/bits"

	"latewood/woodphys/quantity"
)

// Cubic is an exact volume in whole cubic nanometres, 0 to 2^128-1 (some
// 3.4e11 m3). The zero value is no volume.
type Cubic struct{ hi, lo uint64 }

// CubicOf returns v (nm3), rounded down; less than nothing counts as nothing.
//
// Accuracy: that of floating point, below 1e-15. Source: derived by arithmetic.
func CubicOf(v float64) Cubic {
	v = math.Max(0, v)
	high := math.Floor(v / (1 << 63) / 2)
	return Cubic{uint64(high), uint64(math.Max(0, v-high*(1<<63)*2))}
}

// Box returns the volume of a box, of sides up to 100 m. Negative sides count as
// zero.
//
// Accuracy: exact. Source: derived by arithmetic.
func Box(l, w, t NM) Cubic {
	if l <= 0 || w <= 0 || t <= 0 {
		return Cubic{}
	}
	hi, lo := bits.Mul64(uint64(l), uint64(w))
	return Cubic{hi, lo}.times(uint64(t))
}

// times returns c n times over. The product of three lengths of at most 100 m
// is below 1.1e33, and 2^128 is 3.4e38.
func (c Cubic) times(n uint64) Cubic {
	hi, lo := bits.Mul64(c.lo, n)
	return Cubic{hi + c.hi*n, lo}
}

// Plus returns c + d.
func (c Cubic) Plus(d Cubic) Cubic {
	lo, carry := bits.Add64(c.lo, d.lo, 0)
	hi, _ := bits.Add64(c.hi, d.hi, carry)
	return Cubic{hi, lo}
}

// Minus returns c - d; d must not be greater than c.
func (c Cubic) Minus(d Cubic) Cubic {
	lo, borrow := bits.Sub64(c.lo, d.lo, 0)
	hi, _ := bits.Sub64(c.hi, d.hi, borrow)
	return Cubic{hi, lo}
}

// Compare returns -1, 0 or 1 as c is smaller than, equal to or greater than d.
func (c Cubic) Compare(d Cubic) int {
	switch {
	case c.hi < d.hi || c.hi == d.hi && c.lo < d.lo:
		return -1
	case c == d:
		return 0
	}
	return 1
}

// Volume returns the volume in cubic metres as a floating point quantity
// (relative error below 1e-15). Volume().BoardFeet() gives board feet of true
// volume.
func (c Cubic) Volume() quantity.Volume {
	return quantity.Volume((math.Ldexp(float64(c.hi), 64) + float64(c.lo)) / 1e27)
}
