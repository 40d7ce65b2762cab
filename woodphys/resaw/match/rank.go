package match

import (
	"slices"

	"latewood/woodphys/resaw"
)

// TrimShare is what a miss at the seam still counts where trimming brings it into line within the
// spare wood: little, as nobody sees it any more, and not nothing, as of two edges that cure alike the
// one that gives less wood is the better. Our own choice.
const TrimShare = 0.05

// rank orders the pairs and chooses pairs without a common leaf. Figure is opened as a
// mirror, so of figured wood a slip-match, which repeats it, comes after the ways that do.
func (m *matcher) rank() {
	best := make([]RankedPair, len(m.leaves)) // by number of the first leaf
	m.out.Ranked = make([]RankedPair, 0, len(m.out.Pairs)*3)
	for i := range m.out.Pairs {
		p := &m.out.Pairs[i]
		for j := range p.Layouts {
			l := &p.Layouts[j]
			seam := &l.Seams[l.Better]
			r := RankedPair{First: p.First, Opening: l.Opening, Edge: seam.Edge, Score: seam.Score, Cured: seam.Cured}
			m.out.Ranked = append(m.out.Ranked, r)
			if best[p.First].First == 0 || m.better(&r, &best[p.First]) {
				best[p.First] = r
			}
		}
	}
	m.out.Ranked = m.inOrder(m.out.Ranked)
	m.out.Chosen = choose(best)
}

// better reports whether a pair comes before another.
func (m *matcher) better(p, other *RankedPair) bool {
	if m.in.BandLean != nil && (p.Opening == resaw.SlipMatch) != (other.Opening == resaw.SlipMatch) {
		return other.Opening == resaw.SlipMatch
	}
	return p.Cured < other.Cured
}

// inOrder returns the pairs by score once cured. Numbers are sorted in their stead, because
// pairs are heavy to move.
func (m *matcher) inOrder(pairs []RankedPair) []RankedPair {
	order := make([]int, len(pairs))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case m.better(&pairs[a], &pairs[b]):
			return -1
		case m.better(&pairs[b], &pairs[a]):
			return 1
		}
		return a - b
	})
	sorted := make([]RankedPair, len(pairs))
	for i, n := range order {
		sorted[i] = pairs[n]
	}
	return sorted
}

// choose returns as many pairs without a common leaf as there can be, those of
// the least total score once cured; best holds the pair that begins with each leaf, from 1.
func choose(best []RankedPair) []RankedPair {
	type state struct {
		pairs int
		score float64
		taken bool // the pair that ends with this leaf
	}
	upTo := make([]state, len(best)+1) // of the first i leaves
	for i := 2; i <= len(best); i++ {
		upTo[i] = state{upTo[i-1].pairs, upTo[i-1].score, false}
		if best[i-1].First == 0 {
			continue
		}
		with := state{upTo[i-2].pairs + 1, upTo[i-2].score + best[i-1].Cured, true}
		if with.pairs > upTo[i].pairs || with.pairs == upTo[i].pairs && with.score < upTo[i].score {
			upTo[i] = with
		}
	}
	var chosen []RankedPair
	for i := len(best); i >= 2; {
		if upTo[i].taken {
			chosen = append(chosen, best[i-1])
			i -= 2
		} else {
			i--
		}
	}
	slices.Reverse(chosen)
	return chosen
}
