//go:build !race

package serve

// detectorSlows is how many times as long the same work takes where the race detector
// watches; nothing watches here.
const detectorSlows = 1
