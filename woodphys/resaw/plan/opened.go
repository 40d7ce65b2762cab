package plan

import (
	"math"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// PairOf names a planned pair of leaves: of a blank of a billet the first leaf, by its
// number, which is opened with the next; of leaves that are parted the strip, by its number from 1,
// else 0.
type PairOf struct{ Billet, Blank, Leaf, Strip int }

// opened returns what the match of the halves is to be asked about the sets of a plan:
// of every blank whose rings are known the pairs that are opened in each way, the first
// leaf of a set with the second, the third with the fourth. The tag of a pair is its
// place in the list of pairs. unread says that some pairs have no rings to go by, or are wedges
// without a pith.
func opened(q *Request, p *Plan) (stacks []resaw.Opened, pairs []PairOf, unread bool) {
	saw := &q.Saws[p.Saw]
	for i := range p.Billets {
		b := &q.Billets[i]
		for j := range p.Billets[i].Blanks {
			blank := &p.Billets[i].Blanks[j]
			if blank.Split {
				if s, known := openedWedge(q, saw, b, blank); known {
					s.Pairs[0].Tag = len(pairs)
					stacks, pairs = append(stacks, s), append(pairs, PairOf{i, j, blank.Leaves[0].Number, 0})
				} else {
					unread = true
				}
				continue
			}
			if len(blank.Leaves) < 2 || blank.Turned {
				continue
			}
			if b.Pith == nil && b.RingAngle == nil {
				unread = unread || hasPair(q, blank)
				continue
			}
			for _, opening := range []resaw.Opening{resaw.Bookmatch, resaw.SlipMatch} {
				first := pairsOf(q, blank, opening)
				if len(first) == 0 {
					continue
				}
				for _, at := range pairPlaces(blank, first) {
					s := at.opened(b, blank, saw, opening)
					for _, n := range at.leaves {
						l, next := &blank.Leaves[n], &blank.Leaves[n+1]
						if q.Parts[l.Part].AsSawn { // no clean-up is counted
							s.CleanupShow, s.CleanupBack = 0, 0
						}
						s.Pairs = append(s.Pairs,
							resaw.OpenedPair{Tag: len(pairs), First: resaw.LeafFaces{Front: l.From, Back: l.To},
								Second: resaw.LeafFaces{Front: next.From, Back: next.To}})
						pairs = append(pairs, PairOf{i, j, l.Number, at.strip})
					}
					stacks = append(stacks, s)
				}
			}
		}
	}
	return stacks, pairs, unread
}

// openedWedge is the pair of a wedge that is sawn along its middle; false where no pith is known,
// without which nobody knows how the rings lie to that cut.
//
// The pair is told in the frame of the cut: X along it across the wood from the near edge of the
// first half, Z square to it. Both faces of the kerf are parallel there, and they are those that
// show; how thick the halves are behind them has no bearing. The thick edges lie at the seam.
func openedWedge(q *Request, saw *Saw, b *Billet, blank *Blank) (resaw.Opened, bool) {
	if b.Pith == nil {
		return resaw.Opened{}, false
	}
	near, far := &blank.Leaves[0].To, blank.Leaves[0].FarTo
	rise, across := float64(*far-*near), float64(blank.Width)
	wide := math.Hypot(across, rise)
	y, z := float64(b.Pith.X-blank.Y), float64(b.Pith.Z-blank.Face1-*near) // from the near edge of the cut
	thick := max(*near, *far)
	kerf := (blank.Leaves[1].From - *near) * quantity.Length(across/wide)
	s := resaw.Opened{Opening: resaw.Bookmatch, Width: quantity.Length(wide), CleanupShow: saw.CleanupShow,
		CleanupBack: saw.CleanupBack, Seam: resaw.NearEdge,
		Pith: &resaw.Point{X: quantity.Length((y*across + z*rise) / wide),
			Z: quantity.Length((z*across-y*rise)/wide) + thick},
		Pairs: []resaw.OpenedPair{{First: resaw.LeafFaces{Back: thick},
			Second: resaw.LeafFaces{Front: thick + kerf, Back: 2*thick + kerf}}}}
	if *far > *near {
		s.Seam = resaw.FarEdge
	}
	if q.Parts[blank.Leaves[0].Part].AsSawn {
		s.CleanupShow, s.CleanupBack = 0, 0
	}
	if b.RunoutOneIn != nil {
		s.RunoutOneIn = *b.RunoutOneIn
	}
	return s, true
}

// pairPlace is leaves, by their places in a blank, that begin pairs at one place across its face:
// whole ones, or one strip of such as are parted alike.
type pairPlace struct {
	leaves   []int
	strip    int // number from 1; 0 of whole leaves
	y, width quantity.Length
}

// pairPlaces are those of the first leaves of pairs.
func pairPlaces(b *Blank, first []int) []pairPlace {
	var out []pairPlace
	add := func(p pairPlace) {
		for i := range out {
			if o := &out[i]; o.strip == p.strip && samePlace(o.y, p.y) && samePlace(o.width, p.width) {
				o.leaves = append(o.leaves, p.leaves...)
				return
			}
		}
		out = append(out, p)
	}
	for _, n := range first {
		l := &b.Leaves[n]
		if l.Strips == nil {
			add(pairPlace{[]int{n}, 0, b.Y, b.Width})
		}
		for i := range l.Strips {
			if s := &l.Strips[i]; s.Role == RoleSet {
				add(pairPlace{[]int{n}, i + 1, s.Y, s.Width})
			}
		}
	}
	return out
}

// opened is the stack of the leaves at a place, without its pairs.
func (p *pairPlace) opened(b *Billet, blank *Blank, saw *Saw, opening resaw.Opening) resaw.Opened {
	s := resaw.Opened{Opening: opening, Width: p.width, CleanupShow: saw.CleanupShow, CleanupBack: saw.CleanupBack,
		RingAngle: b.RingAngle}
	if b.Pith != nil {
		s.Pith = &resaw.Point{X: b.Pith.X - p.y, Z: b.Pith.Z - blank.Face1}
	}
	if b.RunoutOneIn != nil {
		s.RunoutOneIn = *b.RunoutOneIn
	}
	return s
}

// pairsOf are the places in a blank of the first leaves of the pairs that are opened in
// one way.
func pairsOf(q *Request, b *Blank, opening resaw.Opening) []int {
	var first []int
	for n := 0; n+1 < len(b.Leaves); n++ {
		l, next := &b.Leaves[n], &b.Leaves[n+1]
		if l.Role != RoleSet || next.Part != l.Part || next.Set != l.Set ||
			string(q.Parts[l.Part].Match) != string(opening) {
			continue
		}
		first = append(first, n)
		n++ // a leaf belongs to one pair
	}
	return first
}

// hasPair reports whether a blank holds leaves that are to match.
func hasPair(q *Request, b *Blank) bool {
	for _, l := range b.Leaves {
		if l.Role == RoleSet && q.Parts[l.Part].Match != MatchNone {
			return true
		}
	}
	return false
}
