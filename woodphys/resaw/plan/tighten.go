package plan

import (
	"cmp"
	"errors"
	"slices"
)

// Bounds of many billets. In the rounds of prices a bound is a by-product, of tables and stacks
// as coarse as is good enough for a plan. At the prices of the best of these bounds it is found
// anew, as fine as the work that is left allows:
//
//  1. over finer tables and stacks, still blind to where zones and tapers lie;
//  2. over relaxed grids (refine.go), which see them, of those billets first that promise most.
//
// A plan goes before its bound: where the rounds use all the work up, the bound stays theirs.

// finer are how many times as fine as usual tables may be, the finest first. Own choices.
var finer = []float64{4, 3, 2, 1.5}

// deepenMany prices and cuts many billets in rounds, and bounds them with the work that is left.
func (o *order) deepenMany() error {
	p, err := o.deepenPriced()
	if err != nil || o.value >= o.bound || p == nil {
		return err
	}
	return o.tighten(p)
}

// tighten bounds the billets at some prices.
func (o *order) tighten(p *prices) error {
	value := o.valuesAt(p)
	upper, err := o.finerTables(value)
	if upper == nil || err != nil {
		return err
	}
	o.boundBy(upper, p)
	if o.value >= o.bound {
		return nil
	}
	return o.finerGrids(value, upper, p)
}

// boundBy takes over what each billet may be worth at some prices.
func (o *order) boundBy(upper map[*cutter]int64, p *prices) {
	sum := o.constant(p)
	for _, c := range o.cutters {
		sum += upper[c]
	}
	o.bound = min(o.bound, o.floorTo(sum))
}

// finerTables bounds every billet over the finest tables that the work allows; nil where it
// allows none.
func (o *order) finerTables(value []int64) (map[*cutter]int64, error) {
	at := slices.IndexFunc(finer, func(by float64) bool {
		steps, most := o.tablesTake(by)
		return steps < o.spent.most-o.spent.done && o.spent.hasRoom(most)
	})
	if at < 0 {
		return nil, nil
	}
	rows := o.rig.newLattice(fineCells)
	upper := map[*cutter]int64{}
	for i, c := range o.cutters {
		if _, known := upper[c]; known {
			continue
		}
		v, err := c.finely(value, finer[at], rows)
		if err != nil {
			return nil, err
		}
		upper[c] = min(v, o.volumeBound(i, value))
	}
	return upper, nil
}

// tablesTake returns the steps that tables so many times as fine as usual take, and the bytes of
// the largest.
func (o *order) tablesTake(by float64) (steps, most int64) {
	for i, c := range o.cutters {
		if o.alike[i] == i && !c.idle() {
			l, w := c.least()
			t := c.newTable(l, w, by)
			steps, most = steps+t.Steps()+perTable, max(most, t.Bytes())
		}
	}
	return steps, most
}

// perTable is the work on a table but for solving it, in steps.
const perTable = 15_000

// finely bounds the billet over a table so many times as fine as usual.
func (c *cutter) finely(value []int64, by float64, rows *lattice) (int64, error) {
	if c.idle() {
		return 0, nil
	}
	table, usual := c.table, c.lattice
	if usual != nil {
		c.lattice = rows
	}
	l, w := c.least()
	c.table = c.newTable(l, w, by)
	err := c.price(value, false)
	c.table, c.lattice = table, usual
	return c.upper, err
}

// finerGrids bounds the billets over relaxed grids, those first that may be worth most more than
// the best pattern known.
func (o *order) finerGrids(value []int64, upper map[*cutter]int64, p *prices) error {
	over := map[*cutter]int64{}
	var turn []*cutter
	for i, c := range o.cutters {
		if o.alike[i] == i {
			turn, over[c] = append(turn, c), upper[c]
		}
	}
	for _, col := range o.cols {
		c := o.cutters[col.billet]
		over[c] = min(over[c], upper[c]-o.priced(col, p))
	}
	slices.SortStableFunc(turn, func(a, b *cutter) int { return cmp.Compare(over[b], over[a]) })
	most := o.spent.most
	defer func() { o.spent.most = most }()
	for i, c := range turn {
		if over[c] <= 0 {
			continue
		}
		o.spent.most = o.spent.done + (most-o.spent.done)/int64(len(turn)-i)
		plan, bound, err := c.bounded(value)
		if err != nil && !errors.Is(err, errBudget) {
			return err
		}
		upper[c] = min(upper[c], bound)
		for j := range o.cutters {
			if plan != nil && o.cutters[j] == c {
				o.column(j, plan)
			}
		}
	}
	o.boundBy(upper, p)
	o.spent.most = most
	_, err := o.merge(o.cols, p, 300)
	return err
}
