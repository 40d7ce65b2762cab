package wire

import (
	"slices"
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

// NearestFew are the n candidates that are closest to name in spelling, the closest first;
// unlike Nearest it has some for any name.
func NearestFew(name string, candidates []string, n int) []string {
	const longest = 40 // letters that are looked at; no name of the tables differs only beyond
	name = strings.ToLower(strings.ToValidUTF8(name[:min(len(name), longest)], ""))
	far := make(map[string]int, len(candidates))
	for _, one := range candidates {
		far[one] = editDistance(name, strings.ToLower(one))
	}
	all := slices.Clone(candidates)
	slices.SortStableFunc(all, func(a, b string) int { return far[a] - far[b] })
	return all[:min(n, len(all))]
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
