package exact

import "math/big"

// CubicNanometres is the exact volume as an integer.
func (c Cubic) CubicNanometres() *big.Int {
	n := new(big.Int).SetUint64(c.hi)
	n.Lsh(n, 64)
	return n.Or(n, new(big.Int).SetUint64(c.lo))
}
