package plan

import (
	"errors"
	"math"
)

// arc of a directed acyclic graph. Its item is worth value[item]; item -1 is a
// gap. cost is in cuts. pos is where the item starts.
type arc struct {
	from, to, item, cost int32
	pos                  nm
}

// dag is a graph whose nodes are in topological order and whose arcs are sorted
// by from. A path starts at node 0 and ends at any node with term >= 0, at that
// cost in cuts.
type dag struct {
	at   []nm
	arcs []arc
	term []int32
}

// nothing marks an unreachable node. Values stay far from it.
const nothing = math.MinInt64 / 4

// longest fills best with the value of the best path from node 0 to every node.
func (d *dag) longest(best, value []int64, cut int64) {
	for i := range best {
		best[i] = nothing
	}
	if len(best) == 0 {
		return
	}
	best[0] = 0
	for i := range d.arcs {
		a := &d.arcs[i]
		v := best[a.from]
		if v == nothing {
			continue
		}
		v -= int64(a.cost) * cut
		if a.item >= 0 {
			w := value[a.item]
			if w == nothing {
				continue
			}
			v += w
		}
		if v > best[a.to] {
			best[a.to] = v
		}
	}
}

// ended returns the best value over the ends of paths and the first node that
// has it.
func (d *dag) ended(best []int64, cut int64) (int64, int32) {
	top, at := int64(nothing), int32(-1)
	for i, t := range d.term {
		if t < 0 || best[i] == nothing {
			continue
		}
		if v := best[i] - int64(t)*cut; v > top {
			top, at = v, int32(i)
		}
	}
	return top, at
}

// back returns the arcs of a best path to node end, in order.
func (d *dag) back(best, value []int64, cut int64, end int32) []arc {
	var path []arc
	for i := len(d.arcs) - 1; i >= 0 && end != 0; i-- {
		a := d.arcs[i]
		if a.to != end || best[a.from] == nothing || a.item >= 0 && value[a.item] == nothing {
			continue
		}
		v := best[a.from] - int64(a.cost)*cut
		if a.item >= 0 {
			v += value[a.item]
		}
		if v == best[end] {
			path = append(path, a)
			end = a.from
		}
	}
	for i, j := 0, len(path)-1; i < j; i, j = i+1, j-1 {
		path[i], path[j] = path[j], path[i]
	}
	return path
}

// toEnd returns the value of the best path from every node to an end. ends is the
// value of ending at each node, nothing where a path cannot.
func (d *dag) toEnd(value, ends []int64, cut int64) []int64 {
	rest := append([]int64(nil), ends...)
	for i := len(d.arcs) - 1; i >= 0; i-- {
		a := &d.arcs[i]
		v := rest[a.to]
		if v == nothing {
			continue
		}
		v -= int64(a.cost) * cut
		if a.item >= 0 {
			if value[a.item] == nothing {
				continue
			}
			v += value[a.item]
		}
		if v > rest[a.from] {
			rest[a.from] = v
		}
	}
	return rest
}

// closure returns the sorted positions reached from the anchors by adding steps,
// none above top, and for every position and step the index of the position
// reached (-1 above top). anchors is sorted, without repeats; steps are positive.
//
// Each step has a pointer to the position it is to be added to next, so that the
// positions come out in order without a search.
func closure(anchors, steps []nm, top nm, w *work) (at []nm, next []int32, err error) {
	lists := w.held.lists
	defer func() { w.held.lists = lists }() // what is next is needed for a moment only
	pointer := make([]int, len(steps))
	none := make([]int32, len(steps))
	for i := range none {
		none[i] = -1
	}
	anchor := 0
	for {
		low := nm(math.MaxInt64)
		if anchor < len(anchors) {
			low = anchors[anchor]
		}
		for s, p := range pointer {
			if p < len(at) {
				low = min(low, at[p]+steps[s])
			}
		}
		if low > top {
			break
		}
		if err := w.spend(int64(len(steps)) + 1); err != nil {
			return nil, nil, err
		}
		if err := errors.Join(w.build(1, nodeBytes), w.list(len(steps), nextBytes)); err != nil {
			return nil, nil, err
		}
		index := int32(len(at))
		at = append(at, low)
		next = append(next, none...)
		if anchor < len(anchors) && anchors[anchor] == low {
			anchor++
		}
		for s, p := range pointer {
			if p < len(at)-1 && at[p]+steps[s] == low {
				next[p*len(steps)+s] = index
				pointer[s]++
			}
		}
	}
	return at, next, nil
}

func endValues(d *dag, cut int64) []int64 {
	out := make([]int64, len(d.at))
	for i, t := range d.term {
		if out[i] = -int64(t) * cut; t < 0 {
			out[i] = nothing
		}
	}
	return out
}
