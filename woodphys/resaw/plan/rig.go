package plan

import (
	"math"
	"slices"

	"latewood/woodphys/resaw/exact"
	"latewood/woodphys/resaw/plan/guillotine"
)

// sharedKey is that of a stack that nothing ties to its place.
type sharedKey struct {
	mask uint32
	gang int32
}

// rig is a saw in nanometres, with the kinds of part as it would saw them.
type rig struct {
	cost
	highest         nm // widest blank it can resaw
	kinds           []want
	unit            int64 // worths are counted in this part of one
	lengths, widths []nm  // distinct, sorted

	deepest nm // largest usable thickness of all the billets
	shared  map[sharedKey]*stackGraph
	gangs   [][]int64 // how many of each kind a leaf holds, but for one of each
	gangOf  map[gangKey]int32
	gangIDs map[string]int32
	room    guillotine.Room // of all tables
	corners []int64         // of the grid in hand
	stamp   int64           // of the worths last priced
	last    []int64
}

func newRig(s *Saw, parts []PartKind) *rig {
	r := &rig{cost: costOf(s, stepOf(parts)), highest: exact.Whole(s.HighestCut), shared: map[sharedKey]*stackGraph{},
		gangOf: map[gangKey]int32{}, gangIDs: map[string]int32{}}
	if r.highest == 0 {
		r.highest = math.MaxInt64
	}
	pools, unit := pooled(parts)
	r.unit = unit
	for i := range parts {
		r.kinds = append(r.kinds, newWant(&parts[i], s, &r.cost, pools[i], unit))
	}
	r.lengths = distinct(r.kinds, func(k want) nm { return k.l })
	r.widths = distinct(r.kinds, func(k want) nm { return k.w })
	return r
}

func distinct(kinds []want, of func(want) nm) []nm {
	var out []nm
	for _, k := range kinds {
		out = append(out, of(k))
	}
	return sorted(out)
}

// at marks the worths that are priced from here on; those priced last are priced already.
func (r *rig) at(value []int64) {
	if r.last == nil || !slices.Equal(r.last, value) {
		r.stamp++
		r.last = slices.Clone(value)
	}
}

// limitedCut reports whether the saw cannot resaw every width.
func (r *rig) limitedCut() bool { return r.highest < math.MaxInt64 }

// suited returns the kinds that may come from the billet, whose grain suits them at all, and
// that the saw can cut, as a mask.
func (r *rig) suited(w *offer) uint32 {
	mask := uint32(0)
	for i := range r.kinds {
		k := &r.kinds[i]
		if w.barred&(1<<i) == 0 && k.w <= r.highest && w.angleMet(k) && w.runoutMet(k) {
			mask |= 1 << i
		}
	}
	return mask
}
