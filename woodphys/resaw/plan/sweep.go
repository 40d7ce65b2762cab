package plan

import (
	"slices"
)

// pricer returns a best way to cut a billet for given worths of a set, and what
// it is worth.
type pricer func(billet int, value []int64) (plan *way, worth int64, err error)

// exactSweeps sweeps with all kinds.
func (o *order) exactSweeps() error {
	if len(o.boards) == 1 {
		return nil
	}
	return o.sweeps(func(billet int, value []int64) (*way, int64, error) {
		return o.boards[billet].way(value)
	})
}

// sweeps cuts all billets one after the other, forth and back, and makes a first
// plan of the patterns.
func (o *order) sweeps(cut pricer) error {
	return o.bothWays(func(turn []int) error { return o.sweep(turn, cut) })
}

func (o *order) bothWays(do func(turn []int) error) error {
	turn := make([]int, len(o.woods))
	for i := range turn {
		turn[i] = i
	}
	if err := do(turn); err != nil || len(turn) == 1 {
		return err
	}
	slices.Reverse(turn)
	return do(turn)
}

// sweep cuts one billet after the other for what the order list still lacks.
func (o *order) sweep(turn []int, cut pricer) error {
	return o.inTurn(turn, func(billet int, made []int) (*way, error) {
		o.stamp()
		plan, _, err := cut(billet, o.lacking(made))
		return plan, err
	})
}

// inTurn plans one billet after the other, each knowing how many sets of every kind
// those before it made, and offers what comes of it.
func (o *order) inTurn(turn []int, one func(billet int, made []int) (*way, error)) error {
	made := make([]int, len(o.kinds))
	choice := slices.Clone(o.best)
	var err error
	for _, i := range turn {
		var plan *way
		if plan, err = one(i, made); err != nil {
			break
		}
		choice[i] = o.column(i, plan)
		for p, n := range plan.totals(len(o.kinds)) {
			made[p] += n
		}
	}
	o.improve(choice, o.cols)
	return err
}

// lacking returns worths for what the order list still lacks when so many sets are
// made: a kind that has its most is worth nothing, one that misses its least is
// worth a little more than the dearest wood.
func (o *order) lacking(made []int) []int64 {
	dear := 0.0 // worth of the dearest kind for its volume
	for p := range o.kinds {
		dear = max(dear, float64(o.kinds[p].worth)/o.kinds[p].volume())
	}
	value := make([]int64, len(o.kinds))
	for p := range o.kinds {
		k := &o.kinds[p]
		value[p] = k.worth * scale
		switch {
		case o.parts[p].most != nil && made[p] >= *o.parts[p].most:
			value[p] = 0
		case made[p] < o.parts[p].least:
			value[p] = max(value[p], int64(1.3*dear*k.volume()*scale)) + 1
		}
	}
	return value
}

// round makes a plan of a solved program: of every billet the pattern used most,
// then one billet at a time the pattern that helps most, until none does.
func (o *order) round(s *linear) {
	choice := make([]*column, len(o.boards))
	most := make([]float64, len(o.boards))
	for _, u := range s.Used() {
		c := s.cols[u.Column]
		if u.Share > most[c.billet]+1e-9 {
			most[c.billet], choice[c.billet] = u.Share, c
		}
	}
	o.improve(choice, s.cols)
}

// improve swaps one pattern at a time while that helps, and offers the result.
func (o *order) improve(choice []*column, cols []*column) {
	var total [MaxKinds]int
	shift := func(c *column, by int) {
		if c == nil {
			return
		}
		for _, m := range o.program.most {
			total[m.kind] += by * int(c.n[m.kind])
		}
		for _, m := range o.program.least {
			if !o.lim.bounded[m.kind] {
				total[m.kind] += by * int(c.n[m.kind])
			}
		}
	}
	penalty := func() int64 {
		v := int64(0)
		for _, m := range o.program.most {
			v += int64(max(0, total[m.kind]-int(m.limit))) * int64(m.cost)
		}
		for _, m := range o.program.least {
			v += int64(max(0, int(m.limit)-total[m.kind])) * o.fine
		}
		return v
	}
	worth := func(c *column) int64 {
		if c == nil {
			return 0
		}
		return c.worth
	}
	for _, c := range choice {
		shift(c, 1)
	}
	fines := penalty()
	for range 20 {
		better := false
		for _, c := range cols {
			old := choice[c.billet]
			if old == c {
				continue
			}
			shift(old, -1)
			shift(c, 1)
			if f := penalty(); c.worth-f > worth(old)-fines {
				choice[c.billet], fines, better = c, f, true
				continue
			}
			shift(c, -1)
			shift(old, 1)
		}
		o.spent.done += int64(len(cols))
		if !better {
			break
		}
	}
	o.offer(choice)
}
