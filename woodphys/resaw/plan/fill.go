package plan

import (
	"errors"
	"slices"
)

// Filling: billet after billet is planned as an order list of its own for what the
// whole list still lacks. Where the wood would give more than is wanted this is
// nearer to a plan than patterns cut for worth alone, which make too many of what
// pays best.

// fillWork is what one billet may be planned for, or more where there is more for
// all. It is a first plan: a proof is not waited for.
const fillWork = 400_000

// fill fills the order list in turn. at gives the board of a billet for the worths
// of the kinds still lacking; nil where none of them fits.
func (o *order) fill(turn []int, at func(billet int, value []int64) (*board, error)) error {
	lack := slices.Clone(o.parts)
	share := max(fillWork, (o.spent.most-o.spent.done)/int64(4*len(turn)))
	return o.inTurn(turn, func(billet int, made []int) (*way, error) {
		for p := range lack {
			lack[p].least = max(0, o.parts[p].least-made[p])
			if o.parts[p].most != nil {
				most := max(0, *o.parts[p].most-made[p])
				lack[p].most = &most
			}
		}
		b, err := at(billet, o.lacking(made))
		if err != nil || b == nil {
			return nil, err
		}
		return o.fillOne(billet, b, lack, share)
	})
}

// fillOne plans one billet for what is lacking.
func (o *order) fillOne(billet int, b *board, lack []want, share int64) (*way, error) {
	most, lists := o.spent.most, o.spent.held.lists
	o.spent.most = min(most, o.spent.done+share)
	one := newOrder(o.rig, o.woods[billet:billet+1], lack, o.spent)
	one.plain, one.boards[0], one.suits[0] = true, b, b.mask
	err := one.solve()
	o.spent.most = most
	one.release(memory{boards: o.spent.held.boards, lists: lists})
	if err != nil && (!errors.Is(err, errBudget) || o.spent.done > most) {
		return nil, err
	}
	if one.best[0] == nil {
		return nil, nil
	}
	return one.best[0].plan(), nil
}

// fills fills the order list forth and back.
func (o *order) fills(at func(billet int, value []int64) (*board, error)) error {
	return o.bothWays(func(turn []int) error { return o.fill(turn, at) })
}
