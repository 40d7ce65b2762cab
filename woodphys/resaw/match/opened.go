package match

import (
	"cmp"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// OpenedResult is how pairs of several stacks match, the best first.
type OpenedResult struct {
	Pairs []OpenedMatch
	Notes method.Notes
}

// OpenedMatch is how one pair matches with its better edge at the seam.
type OpenedMatch struct {
	Tag      int // of the pair asked about
	Opening  resaw.Opening
	Distance quantity.Length // d
	Seam     Seam
}

// Opened returns how pairs of planned stacks match, each with its better edge at the
// seam, or the one that is to lie there, in order of merit. A stack of more than MostLeaves leaves is left out.
//
// stacks: see resaw.Opened; each with a pith or one ring angle. Errors: as Halves.
// Accuracy: as Halves, with the usual weights and the usual spare wood.
//
// Source: as Halves.
func Opened(stacks []resaw.Opened) (OpenedResult, error) {
	var out OpenedResult
	for i := range stacks {
		s := &stacks[i]
		in := openedInput(s)
		if len(in.Leaves) > MostLeaves {
			continue
		}
		matched, err := Halves(in)
		if err != nil {
			return OpenedResult{}, err
		}
		out.Notes.Merge(matched.Notes)
		for j := range matched.Pairs {
			first := matched.Pairs[j].First - 1 // among the leaves asked about
			if first%2 != 0 {
				continue // two pairs that lie side by side
			}
			l := &matched.Pairs[j].Layouts[0]
			out.Pairs = append(out.Pairs, OpenedMatch{Tag: s.Pairs[first/2].Tag, Opening: s.Opening,
				Distance: l.Distance, Seam: l.Seams[seamOf(s, l)]})
		}
	}
	slices.SortStableFunc(out.Pairs, func(a, b OpenedMatch) int { return cmp.Compare(a.Seam.Cured, b.Seam.Cured) })
	return out, nil
}

// seamOf is which of the two seams of a layout is glued.
func seamOf(s *resaw.Opened, l *Layout) int {
	switch s.Seam {
	case resaw.NearEdge:
		return 0
	case resaw.FarEdge:
		return 1
	case resaw.BetterEdge:
	}
	return l.Better
}

func openedInput(s *resaw.Opened) Input {
	in := Input{Width: s.Width, CleanupShow: s.CleanupShow, CleanupBack: s.CleanupBack,
		Openings: []resaw.Opening{s.Opening}, Runout: s.RunoutOneIn}
	for _, p := range s.Pairs {
		in.Leaves = append(in.Leaves, p.First, p.Second)
	}
	if in.Rings.Pith = s.Pith; s.Pith == nil && s.RingAngle != nil {
		in.Rings.Readings = []RingReading{{Angle: *s.RingAngle}}
	}
	return in
}
