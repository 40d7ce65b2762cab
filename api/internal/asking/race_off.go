//go:build !race

package asking

const UnderRace = false
