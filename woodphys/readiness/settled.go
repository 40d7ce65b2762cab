package readiness

import (
	"math"

	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// judgedAt is the temperature at which the scatter between woods is taken out of a
// target: that of a workshop.
var judgedAt = quantity.Celsius(20)

// TargetOf returns the target of a piece that comes to rest at a moisture content, 0.5
// to 30 %MC with its band. The scatter between woods belongs to piece and target
// alike; what the target's band has beyond it (an unknown history, a wood rich in
// extractives) is the target's own. A stated target, which has no band, is what it is.
//
// Accuracy: that of the band given.
//
// Source: variances of independent errors subtract; the share of the wood is
// DefaultWoodShare.
func TargetOf(rest quantity.Band[quantity.Moisture]) Target {
	all := float64(rest.SD())
	if all == 0 {
		return Target{Mean: rest.Value}
	}
	shared := float64(sorption.UncertaintySD(rest.Value, sorption.Desorption, judgedAt))
	own := math.Sqrt(max(all*all-shared*shared, 0))
	return Target{Mean: rest.Value, SD: quantity.Moisture(own), WoodShare: DefaultWoodShare}
}
