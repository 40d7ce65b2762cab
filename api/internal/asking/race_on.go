//go:build race

package asking

// UnderRace says that the race detector is on, which makes calculations ten
// times slower: tests of one goroutine that ask for many forecasts are left out.
const UnderRace = true
