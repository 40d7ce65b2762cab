//go:build !race

package asking

// UnderRace says that the race detector is off.
const UnderRace = false
