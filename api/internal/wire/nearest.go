package wire

import (
	"strings"
)

// Nearest returns the candidate closest to name in spelling, or "" if none is
// close: at most a third of its letters may differ, case not counted.
func Nearest(name string, candidates []string) string {
	const longest = 64 // no member has a name as long
	if len(name) > longest {
		return ""
	}
	best, bestDistance := "", len(name)/3+1
	for _, candidate := range candidates {
		if d := editDistance(strings.ToLower(name), strings.ToLower(candidate)); d < bestDistance {
			best, bestDistance = candidate, d
		}
	}
	return best
}

// editDistance counts the insertions, deletions and substitutions of bytes
// that turn a into b (Levenshtein 1966).
func editDistance(a, b string) int {
	previous := make([]int, len(b)+1)
	current := make([]int, len(b)+1)
	for j := range previous {
		previous[j] = j
	}
	for i := range len(a) {
		current[0] = i + 1
		for j := range len(b) {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			current[j+1] = min(previous[j]+cost, previous[j+1]+1, current[j]+1)
		}
		previous, current = current, previous
	}
	return previous[len(b)]
}
