package resaw

import (
	"slices"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/resaw/exact"
)

// Run is a row of neighbouring leaves, both ends included, numbered from face 1.
type Run struct{ First, Last int }

// Len returns the number of leaves in the run.
func (r Run) Len() int { return r.Last - r.First + 1 }

// StackSets is how the leaves of one stack form sets.
type StackSets struct {
	Runs []Run // of unspoiled leaves
	Sets []Run // the leaves of each set, from the start of every run
	Odd  []int // unspoiled leaves in no set
	// LeaveOut lists the leaves that may be left out, one at a time, without
	// losing a set; with pairs the 1st, 3rd, 5th ... of a run of odd length.
	LeaveOut []int
	Notes    method.Notes
}

// Sets returns which leaves of one stack form sets. A match needs neighbours, so
// a set is made of consecutive unspoiled leaves, and a spoiled leaf splits the
// run: sets = sum of floor(run/p).
//
// n: leaves in the stack, 0 to MaxLeaves; spoiled: numbers of the spoiled leaves,
// 1 to n, in any order, none twice; perSet: leaves in a set, 1 to MaxLeaves.
// Errors: method.OutOfRange, method.TooMuchWork, method.Contradictory (a spoiled
// leaf named twice). Accuracy: exact.
//
// Source: derived; the numbering and the rule for odd leaves are common practice.
func Sets(n int, spoiled []int, perSet int) (StackSets, error) {
	var s StackSets
	s.Notes.Rest(rowSets)
	switch {
	case n > MaxLeaves:
		return StackSets{}, tooManyLeaves(int64(n))
	case n < 0:
		return StackSets{}, exact.OutOfRange("leaves", "leaves must be 0 to 100000", method.Between(0, MaxLeaves, ""))
	case perSet < 1 || perSet > MaxLeaves:
		return StackSets{}, exact.OutOfRange("per_set", "per_set must be 1 to 100000", method.Between(1, MaxLeaves, ""))
	case len(spoiled) > n:
		return StackSets{}, exact.OutOfRange("spoiled", "more leaves are spoiled than there are", method.AtMost(float64(n), "entries"))
	}
	for i, leaf := range spoiled {
		if leaf < 1 || leaf > n {
			return StackSets{}, exact.OutOfRange("spoiled/"+strconv.Itoa(i),
				"a spoiled leaf must be numbered 1 to "+strconv.Itoa(n), method.Between(1, float64(n), ""))
		}
	}
	bad := slices.Sorted(slices.Values(spoiled))
	for i := 1; i < len(bad); i++ {
		if bad[i] == bad[i-1] {
			return StackSets{}, exact.Contradictory("spoiled", "leaf "+strconv.Itoa(bad[i])+" is named twice")
		}
	}
	next := 1
	for _, leaf := range append(bad, n+1) {
		if leaf > next {
			s.add(Run{next, leaf - 1}, perSet)
		}
		next = leaf + 1
	}
	return s, nil
}

// add takes one run apart.
func (s *StackSets) add(r Run, p int) {
	s.Runs = append(s.Runs, r)
	sets := r.Len() / p
	for i := range sets {
		s.Sets = append(s.Sets, Run{r.First + i*p, r.First + i*p + p - 1})
	}
	for leaf := r.First + sets*p; leaf <= r.Last; leaf++ {
		s.Odd = append(s.Odd, leaf)
	}
	if r.Len()%p == 0 {
		return
	}
	for leaf := r.First; leaf <= r.Last; leaf++ {
		if (leaf-r.First)/p+(r.Last-leaf)/p == sets {
			s.LeaveOut = append(s.LeaveOut, leaf)
		}
	}
}
