package plan

import "math"

// unitOfWorth outweighs all the cuts of a billet.
const unitOfWorth = 1 << 20

// scale is the number of price steps in one unit of worth.
const scale = 256

// prices are whole shadow prices, scale to a unit of worth, of the limits.
type prices struct{ most, least [MaxKinds]int64 }

// hold rounds a price and holds it in its bounds.
func hold(v float64, low, high int64) int64 {
	if !(v > float64(low)) {
		return low
	}
	if v >= float64(high) {
		return high
	}
	return int64(math.Round(v))
}
