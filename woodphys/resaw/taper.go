package resaw

import "math/bits"

// between returns a + (b-a) x/l, the size at x of a straight taper, rounded down,
// exactly; x, a, b >= 0.
func between(a, b, x, l nm) nm {
	q, _ := share(b-a, x, l)
	return a + q
}

// share returns d x/l as a whole number rounded down and what is left over, in
// parts of l; x >= 0.
func share(d, x, l nm) (q nm, rest uint64) {
	if l <= 0 || d == 0 {
		return 0, 0
	}
	hi, lo := bits.Mul64(uint64(max(d, -d)), uint64(x))
	n, r := bits.Div64(hi, lo, uint64(l))
	if d > 0 {
		return nm(n), r
	}
	if r > 0 {
		return -nm(n) - 1, uint64(l) - r
	}
	return -nm(n), 0
}

// bothShares returns d x/l + e y/w rounded down, exactly.
func bothShares(d, x, l, e, y, w nm) nm {
	q1, r1 := share(d, x, l)
	q2, r2 := share(e, y, w)
	// r1/l + r2/w >= 1 ?
	h1, l1 := bits.Mul64(r1, uint64(w))
	h2, l2 := bits.Mul64(r2, uint64(l))
	lo, carry := bits.Add64(l1, l2, 0)
	hi, _ := bits.Add64(h1, h2, carry)
	th, tl := bits.Mul64(uint64(l), uint64(w))
	if hi > th || hi == th && lo >= tl {
		return q1 + q2 + 1
	}
	return q1 + q2
}
