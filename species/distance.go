package species

import "math/bits"

// slack returns how many slips of the pen are forgiven in a word or name of n
// letters.
func slack(n int) int {
	switch {
	case n < 3:
		return 0
	case n < 6:
		return 1
	case n < 10:
		return 2
	}
	return 3
}

// letterSet returns the set of bytes in s, folded to 64.
func letterSet(s string) uint64 {
	var set uint64
	for i := range len(s) {
		set |= 1 << (s[i] & 63)
	}
	return set
}

// tooFar reports whether two texts are certainly more than limit slips apart,
// from their letter sets alone: one slip takes at most one letter out of a set
// and puts at most one in.
func tooFar(a, b uint64, limit int) bool {
	return bits.OnesCount64(a&^b) > limit || bits.OnesCount64(b&^a) > limit
}

// slips returns the number of single-letter slips (insert, leave out, replace,
// swap neighbours) between a and b, or limit+1 when there are more than limit.
// It is the Damerau-Levenshtein distance in its restricted form, in which no
// letter is touched twice; letters are bytes.
//
// Source: Damerau 1964, Commun. ACM 7:171-176; recurrence of Wagner and Fischer
// 1974, J. ACM 21:168-173 with the swap added (both from memory).
func slips(a, b string, limit int) int {
	if len(a)-len(b) > limit || len(b)-len(a) > limit {
		return limit + 1
	}
	if len(a) > longestQuery || len(b) > longestQuery {
		return limit + 1
	}
	var rows [3][longestQuery + 1]int
	before, last, row := &rows[0], &rows[1], &rows[2]
	for j := range len(b) + 1 {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		least := i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			d := min(last[j]+1, row[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d = min(d, before[j-2]+1)
			}
			row[j] = d
			least = min(least, d)
		}
		// A swap reaches back two rows, so both must be beyond the limit.
		if least > limit && i > 1 && leastOf(last[:len(b)+1]) > limit {
			return limit + 1
		}
		before, last, row = last, row, before
	}
	return min(last[len(b)], limit+1)
}

func leastOf(row []int) int {
	least := row[0]
	for _, v := range row[1:] {
		least = min(least, v)
	}
	return least
}
