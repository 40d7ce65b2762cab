package plan

import (
	"cmp"
	"errors"
	"slices"
)

// A first plan where kinds of part are many. The graphs of a billet grow with the
// number of sizes much faster than the plan gets better by them, so that each
// billet is first cut for the few kinds that pay best for their wood at the prices
// of the moment, other billets for others. Every such cut is a pattern of the
// whole, and only a bound needs all kinds at once.
const quickKinds = 5 // a billet is cut for

// quickKey names the small board of a billet and some kinds.
type quickKey struct {
	billet int // the first of those that are alike
	mask   uint32
}

// quick makes a first plan within a share of the work.
func (o *order) quick() error {
	most, held := o.spent.most, o.spent.held
	o.spent.most = o.spent.done + (most-o.spent.done)*2/5
	err := o.quickRounds()
	o.spent.most = most
	o.release(held)
	if errors.Is(err, errBudget) {
		err = nil
	}
	return err
}

func (o *order) quickRounds() error {
	boards := map[quickKey]*board{}
	cut := func(billet int, value []int64) (*way, int64, error) {
		return o.quickCut(boards, billet, value)
	}
	if err := o.sweeps(cut); err != nil {
		return err
	}
	fills := func(kinds int) error {
		return o.fills(func(billet int, value []int64) (*board, error) {
			return o.quickBoard(boards, billet, value,
				kinds)
		})
	}
	few := len(o.boards) <= fewBillets
	if few { // the limits bind within a billet, which patterns cut for worth do not see
		if err := fills(quickKinds); err != nil {
			return err
		}
	}
	s := newLinear(&o.program, o.cols)
	for range 12 {
		s.take(o.cols)
		if err := s.solve(o.spent); err != nil {
			return err
		}
		o.round(s)
		o.guide = o.wholePrices(s)
		value := o.valuesAt(o.guide)
		n := len(o.cols)
		o.stamp()
		for i := range o.boards {
			plan, worth, err := cut(i, value)
			if err != nil {
				return err
			}
			if o.pays(s, i, worth) {
				o.column(i, plan)
			}
		}
		if len(o.cols) == n {
			break
		}
	}
	// A plan far below the program has patterns that make too much of one kind.
	for kinds := quickKinds; float64(o.value) < 0.98*s.Objective(); kinds *= 2 {
		if !few || kinds > quickKinds {
			if err := fills(kinds); err != nil {
				return err
			}
		}
		if kinds >= len(o.kinds) || !few {
			break
		}
	}
	_, err := o.merge(o.cols, o.guide, 300)
	return err
}

// quickCut cuts a billet for the kinds that pay best.
func (o *order) quickCut(boards map[quickKey]*board, billet int, value []int64) (*way, int64, error) {
	b, err := o.quickBoard(boards, billet, value, quickKinds)
	if err != nil || b == nil {
		return nil, 0, err
	}
	return b.way(value)
}

// quickBoard returns the board of a billet for so many kinds that pay best, or for
// fewer where there is no memory for that; nil where none fits.
func (o *order) quickBoard(boards map[quickKey]*board, billet int, value []int64, kinds int) (*board, error) {
	for ; ; kinds /= 2 {
		held := o.spent.held
		b, err := o.smallBoard(boards, billet, value, kinds)
		if kinds == 1 || !errors.Is(err, errBudget) || o.spent.over() {
			return b, err
		}
		o.spent.held = held
	}
}

// vain reports whether nothing was found yet, where a plan is wanted.
func (o *order) vain() bool {
	return !o.relaxed && !o.plain && !slices.ContainsFunc(o.best, func(c *column) bool { return c != nil })
}

// manyZones are so many on one billet that a search may end without a plan.
const manyZones = 10

// dear reports whether a billet has many zones.
func (o *order) dear() bool {
	return slices.ContainsFunc(o.woods, func(w *offer) bool { return len(w.zones) >= manyZones })
}

// rescue makes some plan where the wood is so dear to search that steps or memory may go
// without one: each billet is cut for one kind, then for more, as long as a share of a
// quarter of the steps that are left allows it.
func (o *order) rescue() error {
	most := o.spent.most
	left := (most - o.spent.done) / 4
	defer func() { o.spent.most = most }()
	for kinds := 1; kinds < 2*len(o.kinds); kinds *= 2 {
		left /= 2
		share := left / int64(2*len(o.boards))
		err := o.sweeps(func(billet int, value []int64) (*way, int64, error) {
			o.spent.most = min(most, o.spent.done+share)
			return o.rescueOne(billet, value, kinds)
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// rescueOne cuts a billet for a few kinds; nothing where that takes too much.
func (o *order) rescueOne(billet int, value []int64, kinds int) (*way, int64, error) {
	held := o.spent.held
	defer func() { o.spent.held = held }()
	b, err := o.smallBoard(map[quickKey]*board{}, billet, value, kinds)
	var plan *way
	var worth int64
	if err == nil && b != nil {
		plan, worth, err = b.way(value)
	}
	if errors.Is(err, errBudget) {
		return nil, 0, nil
	}
	return plan, worth, err
}

// smallBoard returns the board of a billet for so many kinds that pay best; nil where
// none fits.
func (o *order) smallBoard(boards map[quickKey]*board, billet int, value []int64, kinds int) (*board, error) {
	key := quickKey{o.alike[billet], o.payBest(billet, value, kinds)}
	if key.mask == 0 {
		return nil, nil //nolint:nilnil // nothing can be cut
	}
	b, ok := boards[key]
	if !ok {
		w := *o.woods[billet]
		var err error
		if b, err = newBoard(&w, o.rig, key.mask, o.spent); err != nil {
			return nil, err
		}
		boards[key] = b
	}
	return b, nil
}

// payBest returns the so many kinds that fit into a billet and are worth most for
// the wood they take.
func (o *order) payBest(billet int, value []int64, kinds int) uint32 {
	w := o.woods[billet]
	room := w.l - w.trim0 - w.trim1
	density := make([]float64, len(o.kinds))
	var fit []int
	for p := range o.kinds {
		k := &o.kinds[p]
		if o.suits[billet]&(1<<p) == 0 || value[p] <= 0 || k.l > room || k.w > w.ref || k.t > w.deepest() {
			continue
		}
		density[p] = float64(value[p]) / (float64(k.l) * float64(k.w) * float64(k.height))
		fit = append(fit, p)
	}
	slices.SortStableFunc(fit, func(a, b int) int { return cmp.Compare(density[b], density[a]) })
	mask := uint32(0)
	for _, p := range fit[:min(len(fit), kinds)] {
		mask |= 1 << p
	}
	return mask
}
