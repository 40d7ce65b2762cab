package exact

import "math/bits"

// Between returns a + (b-a) x/l, the size at x of a straight taper, rounded down;
// x, a, b >= 0, up to 100 m.
//
// Accuracy: exact. Source: derived by arithmetic.
func Between(a, b, x, l NM) NM {
	q, _ := share(b-a, x, l)
	return a + q
}

// share returns d x/l as a whole number rounded down and what is left over, in
// parts of l; x >= 0.
func share(d, x, l NM) (q NM, rest uint64) {
	if l <= 0 || d == 0 {
		return 0, 0
	}
	hi, lo := bits.Mul64(uint64(max(d, -d)), uint64(x))
	n, r := bits.Div64(hi, lo, uint64(l))
	if d > 0 {
		return NM(n), r
	}
	if r > 0 {
		return -NM(n) - 1, uint64(l) - r
	}
	return -NM(n), 0
}

// BothShares returns d x/l + e y/w, what two tapers add together, rounded down;
// x, y >= 0, up to 100 m.
//
// Accuracy: exact. Source: derived by arithmetic.
func BothShares(d, x, l, e, y, w NM) NM {
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
