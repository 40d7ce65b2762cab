package match

import "slices"

// rank orders the pairs and chooses pairs without a common leaf.
func (m *matcher) rank() {
	best := make([]RankedPair, len(m.leaves)) // by number of the first leaf
	m.out.Ranked = make([]RankedPair, 0, len(m.out.Pairs)*3)
	for i := range m.out.Pairs {
		p := &m.out.Pairs[i]
		for j := range p.Layouts {
			l := &p.Layouts[j]
			seam := &l.Seams[l.Better]
			r := RankedPair{p.First, l.Opening, seam.Edge, seam.Score}
			m.out.Ranked = append(m.out.Ranked, r)
			if best[p.First].First == 0 || r.Score < best[p.First].Score {
				best[p.First] = r
			}
		}
	}
	m.out.Ranked = inOrder(m.out.Ranked)
	m.out.Chosen = choose(best)
}

// inOrder returns the pairs by score. Numbers are sorted in their stead, because
// pairs are heavy to move.
func inOrder(pairs []RankedPair) []RankedPair {
	order := make([]int, len(pairs))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case pairs[a].Score < pairs[b].Score:
			return -1
		case pairs[a].Score > pairs[b].Score:
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
// the least total score; best holds the pair that begins with each leaf, from 1.
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
		with := state{upTo[i-2].pairs + 1, upTo[i-2].score + best[i-1].Score, true}
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
