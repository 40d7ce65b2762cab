package plan

import (
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
// place in the list of pairs. unread says that some pairs have no rings to go by.
func opened(q *Request, p *Plan) (stacks []resaw.Opened, pairs []PairOf, unread bool) {
	saw := &q.Saws[p.Saw]
	for i := range p.Billets {
		b := &q.Billets[i]
		for j := range p.Billets[i].Blanks {
			blank := &p.Billets[i].Blanks[j]
			if len(blank.Leaves) < 2 || blank.Turned || blank.Split {
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
