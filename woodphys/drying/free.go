package drying

import "math"

// Above fibre saturation free water fills the pores, and vapour hardly diffuses through
// them: over freeRamp D falls smoothly to freeShare of its value at fibre saturation. A
// sharp front (freeShare 0.05 and less) dries thick stock too slowly, D held at its value
// (as building physics often has it) needs a pace of its own in kilns; see the package.
const (
	freeShare = 0.10
	freeRamp  = 0.02
)

// Where the wet-stage pace of an exposure acts, by the moisture content of the middle
// over fibre saturation: not at all below the first, fully above the second, smooth
// between. A narrower ramp lets the daily loss of oak rise again as it passes 22 %.
const (
	wetFrom = 0.40
	wetFull = 1.05
)

// freeWater returns the potential above its value at fibre saturation and the
// diffusivity, over that at fibre saturation, for moisture over above it.
func freeWater(over float64) (phi, d float64) {
	if over >= freeRamp {
		return freeRamp*(1+freeShare)/2 + freeShare*(over-freeRamp), freeShare
	}
	s := over / freeRamp
	return freeRamp * (s - (1-freeShare)*s*s*s*(1-s/2)), 1 - (1-freeShare)*s*s*(3-2*s)
}

// wetness is the share of the wet-stage pace that acts while the middle is at core.
func (s *Solver) wetness(core float64) float64 {
	u := (core/float64(s.tables.wood.fsp) - wetFrom) / (wetFull - wetFrom)
	if u <= 0 {
		return 0
	}
	if u >= 1 {
		return 1
	}
	return u * u * (3 - 2*u)
}

// slowed is what the wet-stage pace leaves of the diffusivity.
func (s *Solver) slowed(core float64) float64 {
	if s.lnPace == 0 {
		return 1
	}
	return math.Exp(s.lnPace * s.wetness(core))
}
