package plan

// solve finds the best plan. It returns errBudget when the work is used up; the
// best plan and the bound found by then stand.
func (o *order) solve() error {
	worth := o.prepare()
	return o.prove(worth)
}

// prove searches until the best plan is found and proven.
func (o *order) prove(worth []int64) error {
	if err := o.takeApart(); err != nil {
		return err
	}
	free, err := o.unlimited(worth)
	if err != nil {
		return err
	}
	if free {
		o.done = true
		return nil
	}
	prices, err := o.generate()
	if err != nil || o.bound <= o.value {
		o.done = err == nil
		return err
	}
	if err := o.complete(prices); err != nil {
		return err
	}
	o.done, o.bound = true, o.value
	return nil
}

// takeApart makes the boards.
func (o *order) takeApart() error {
	for i, first := range o.alike {
		if o.boards[i] != nil {
			continue
		}
		if first < i {
			o.boards[i] = o.boards[first]
			continue
		}
		w := *o.woods[i]
		b, err := newBoard(&w, o.rig, o.suits[i], o.spent)
		if err != nil {
			return err
		}
		o.boards[i] = b
	}
	return nil
}

// prepare bounds the worth by volume, makes the rows of the limits, and returns the
// worths of the parts.
func (o *order) prepare() []int64 {
	worth := make([]int64, len(o.kinds))
	for p := range o.kinds {
		worth[p] = o.kinds[p].worth
	}
	for i := range o.boards {
		o.freeBound += o.volumeBound(i, worth)
	}
	o.bound = o.freeBound
	o.setRows()
	o.value = o.judge(o.best)
	return worth
}
