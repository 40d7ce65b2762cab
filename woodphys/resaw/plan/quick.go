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
	most := o.spent.most
	o.spent.most = o.spent.done + (most-o.spent.done)*2/5
	err := o.quickRounds()
	o.spent.most = most
	if errors.Is(err, errBudget) {
		err = nil
	}
	return err
}

func (o *order) quickRounds() error {
	boards := map[quickKey]*board{}
	cut := func(billet int, value []int64) ([]sectionPlan, int64, error) {
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
func (o *order) quickCut(boards map[quickKey]*board, billet int, value []int64) ([]sectionPlan, int64, error) {
	b, err := o.quickBoard(boards, billet, value, quickKinds)
	if err != nil || b == nil {
		return nil, 0, err
	}
	return b.way(value)
}

// quickBoard returns the board of a billet for so many kinds that pay best; nil
// where none fits.
func (o *order) quickBoard(boards map[quickKey]*board, billet int, value []int64, kinds int) (*board, error) {
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
