//go:build race

package serve

// detectorSlows is how many times as long the same work takes where the race detector
// watches. Limits are told in time without it, so that what is answered does not depend
// on who watches: the clock of work runs so much slower. Measured on readiness of the demo:
// 8 to 10 times.
const detectorSlows = 10
