package plan

import (
	"math"
	"slices"
	"sort"
)

// stackGraph is the graph of one kind of blank through its thickness: nodes are
// depths below the planed face 1 at which a leaf can start, items are kinds of
// part, gaps are spoiled slabs.
type stackGraph struct {
	dag
	times []int64 // how many of each kind a leaf holds; nil: one
	// end[i] is the depth at which the leaves before node i end, its kerf and
	// re-facing taken off.
	best   []int64 // of any path
	sawn   []int64 // of paths whose last arc is a set
	prefix []int64 // largest of sawn up to here
	stamp  int64   // of the worths last priced
}

// ring says where in the depth a ringed kind may lie: both faces of its finished plate
// within reach of the pith's depth.
type ring struct{ low, high nm }

// newStackGraph builds the graph down to depth top for the kinds of mask.
func newStackGraph(r *rig, mask uint32, spoiled []interval, rings []ring, top nm, w *work) (*stackGraph, error) {
	anchors := []nm{0}
	var kinds []int
	var steps []nm
	for p := range r.kinds {
		if mask&(1<<p) == 0 {
			continue
		}
		kinds, steps = append(kinds, p), append(steps, r.kinds[p].height)
		if rings != nil && r.kinds[p].ringed {
			if z := rings[p].low - r.kinds[p].skin; z > 0 && z <= top {
				anchors = append(anchors, z)
			}
		}
	}
	// Any leaf of a set may be the one that comes to rest against a zone.
	for _, v := range spoiled {
		for _, p := range kinds {
			k := &r.kinds[p]
			for i := range k.pieces {
				z := v.to - nm(i)*(k.t+r.resaw+r.reface)
				if z <= 0 {
					break
				}
				if z <= top {
					anchors = append(anchors, z)
				}
			}
		}
	}
	anchors = sorted(anchors)
	at, next, err := closure(anchors, steps, top+r.resaw+r.reface, w)
	if err != nil {
		return nil, err
	}
	lists := w.held.lists
	if err := w.list(len(at)*len(kinds)/2, arcBytes); err != nil { // while it is made
		return nil, err
	}
	g := &stackGraph{dag: dag{at: at, arcs: make([]arc, 0, len(at)*len(kinds)/2+8)}}
	reached := make([]bool, len(at))
	reached[0] = true
	for i, q := range at {
		if !reached[i] {
			continue
		}
		if err := w.spend(int64(len(kinds) + len(anchors))); err != nil {
			return nil, err
		}
		for j, p := range kinds {
			to := next[i*len(kinds)+j]
			if to < 0 || !r.kinds[p].fits(q, r, spoiled, rings, p) {
				continue
			}
			reached[to] = true
			g.arcs = append(g.arcs, arc{from: int32(i), to: to, item: int32(p), cost: int32(r.kinds[p].pieces), pos: q})
		}
		for _, a := range anchors {
			if a > q {
				to, _ := slices.BinarySearch(at, a)
				reached[to] = true
				g.arcs = append(g.arcs, arc{from: int32(i), to: int32(to), item: -1, cost: 1, pos: q})
			}
		}
	}
	g.arcs, g.at = slices.Clone(g.arcs), slices.Clone(g.at) // and not with the room to grow
	w.held.lists = lists
	if err := w.build(len(g.arcs), arcBytes); err != nil {
		return nil, err
	}
	n := len(at)
	g.best, g.sawn, g.prefix = make([]int64, n), make([]int64, n), make([]int64, n)
	return g, nil
}

// count is how many sets are placed.
func (q *placed) count() int { return max(1, q.times) }

// fits reports whether a set starting at depth q is clear of spoiled depths and
// has the ring angle wanted in every leaf.
func (k want) fits(q nm, r *rig, spoiled []interval, rings []ring, p int) bool {
	step := k.t + r.resaw + r.reface
	for i := range k.pieces {
		from := q + nm(i)*step
		for _, v := range spoiled {
			if v.from < from+k.t && from < v.to {
				return false
			}
		}
	}
	if rings == nil || !k.ringed {
		return true
	}
	last := q + nm(k.pieces-1)*step
	return q+k.skin >= rings[p].low && last+k.t-k.skin <= rings[p].high
}

// price values every depth. value is that of a set of each kind, cut that of one
// cut saved.
func (g *stackGraph) price(value []int64, cut, stamp int64) {
	if g.stamp == stamp {
		return
	}
	g.stamp = stamp
	value = ganged(value, g.times)
	g.longest(g.best, value, cut)
	for i := range g.sawn {
		g.sawn[i] = nothing
	}
	for i := range g.arcs {
		a := &g.arcs[i]
		if a.item < 0 || g.best[a.from] == nothing {
			continue
		}
		if v := g.best[a.from] + value[a.item] - int64(a.cost)*cut; v > g.sawn[a.to] {
			g.sawn[a.to] = v
		}
	}
	top := int64(nothing)
	for i, v := range g.sawn {
		top = max(top, v)
		g.prefix[i] = top
	}
}

// ends is how far the paths of a stack of given usable thickness may go: nodes
// before kept may end with one more cut, nodes from kept to before last keep the
// last leaf thick and save its cut.
type ends struct{ kept, last int }

// endsAt returns the ends for a usable thickness u. A node is k + j below the
// leaf before it. With the far face finished the leaf must end within u, and a
// left over of at most a kerf is not cut off; with a rough far face its cut must
// be within u too.
func (g *stackGraph) endsAt(r *rig, u nm) ends {
	after := func(depth nm) int { return sort.Search(len(g.at), func(i int) bool { return g.at[i] > depth }) }
	if !r.far {
		n := after(u + r.reface)
		return ends{n, n}
	}
	n := after(u + r.resaw + r.reface)
	// left = u - (q - k - j) <= k  <=>  q >= u + j
	return ends{min(n, after(u+r.reface-1)), n}
}

// worth returns the value of the best stack within e; nothing if there is none.
func (g *stackGraph) worth(e ends, cut int64) int64 {
	v := int64(nothing)
	if e.kept > 0 {
		v = g.prefix[e.kept-1]
	}
	for i := e.kept; i < e.last; i++ {
		if g.sawn[i] != nothing {
			v = max(v, g.sawn[i]+cut)
		}
	}
	return v
}

// placed is a set or, with part -1, a gap in a stack; or so many sets side by side, whose
// leaves are parted once they are sawn.
type placed struct {
	part  int
	at    nm
	times int
}

// trace returns the sets of a best stack within e.
func (g *stackGraph) trace(e ends, value []int64, cut int64) []placed {
	want := g.worth(e, cut)
	if want == nothing {
		return nil
	}
	value = ganged(value, g.times)
	end := -1
	for i := range e.last {
		v := g.sawn[i]
		if i >= e.kept && v != nothing {
			v += cut
		}
		if v == want {
			end = i
			break
		}
	}
	// The last arc is a set, by the meaning of sawn.
	for i := len(g.arcs) - 1; i >= 0; i-- {
		a := g.arcs[i]
		if int(a.to) == end && a.item >= 0 && g.best[a.from] != nothing &&
			g.best[a.from]+value[a.item]-int64(a.cost)*cut == g.sawn[end] {
			return append(g.placedOf(g.back(g.best, value, cut, a.from)), g.placed(a))
		}
	}
	return nil
}

func (g *stackGraph) placedOf(path []arc) []placed {
	var out []placed
	for _, a := range path {
		out = append(out, g.placed(a))
	}
	return out
}

// placed is what an arc stands for.
func (g *stackGraph) placed(a arc) placed {
	out := placed{part: int(a.item), at: a.pos, times: 1}
	if a.item >= 0 && g.times != nil {
		out.times = int(g.times[a.item])
	}
	return out
}

// reach returns where in the depth, below a planed face 1 at depth face, each
// ringed kind may lie in a strip that is off the pith by dist.
func (w *offer) reach(r *rig, dist, face nm) []ring {
	out := make([]ring, len(r.kinds))
	for p := range r.kinds {
		if r.kinds[p].ringed {
			out[p] = w.reachOf(&r.kinds[p], dist, face)
		}
	}
	return out
}

// reachOf is reach of one kind: |z - zp| <= dist cot(theta).
func (w *offer) reachOf(k *want, dist, face nm) ring {
	span := math.Min(float64(dist)*k.cot, 1e15)
	half := nm(math.Floor(span + 1e-3))
	return ring{w.zp - face - half + w.step, w.zp - face + half}
}

func sorted(list []nm) []nm {
	slices.Sort(list)
	return slices.Compact(list)
}
