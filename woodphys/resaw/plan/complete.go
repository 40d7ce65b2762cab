package plan

import (
	"errors"
)

// complete lists every pattern that can be in a better plan and searches them.
func (o *order) complete(p *prices) error {
	o.lim.setPrices(p)
	value := o.valuesAt(p)
	worth := make([]int64, len(o.kinds))
	for k := range worth {
		worth[k] = o.kinds[k].worth
	}
	bestOf := map[*board]int64{}
	o.stamp()
	sum := o.constant(p)
	for _, b := range o.boards {
		v, ok := bestOf[b]
		if !ok {
			var err error
			if v, err = b.price(value, 0); err != nil {
				return err
			}
			bestOf[b] = v
		}
		sum += v
	}
	// Where few billets leave a wide gap, rather a better plan is missing than a better
	// bound.
	for _, beam := range []int{10, 60} {
		o.release(memory{boards: o.spent.held.boards})
		slack := sum - (o.value+o.step)*scale
		if len(o.boards) > fewBillets || slack < 0 || (o.bound-o.value)*50 <= o.bound {
			break
		}
		cols, err := o.list(value, worth, slack, beam)
		if err != nil {
			return err
		}
		if len(o.boards) == 1 {
			err = o.branch(cols, 1)
		} else {
			_, err = o.merge(cols, p, o.affordable(len(cols)))
		}
		if err != nil {
			return err
		}
	}
	// A narrow list often holds a plan that shrinks the gap to less than the list
	// is wide: then it was wide enough.
	for wide := max((sum-o.value*scale)/64, scale); ; wide *= 4 {
		o.release(memory{boards: o.spent.held.boards})
		slack := sum - (o.value+o.step)*scale
		if slack < 0 {
			return nil
		}
		cols, err := o.list(value, worth, min(wide, slack), 0)
		if err != nil {
			return err
		}
		exact, err := o.merge(cols, p, o.affordable(len(cols)))
		if err != nil {
			return err
		}
		if wide < slack {
			if err := o.branch(cols, 20); err != nil && !errors.Is(err, errNodes) {
				return err
			}
			continue
		}
		for width := 8000; !exact; width *= 8 {
			err := o.branch(cols, 100)
			if err == nil || !errors.Is(err, errNodes) {
				return err
			}
			if exact, err = o.merge(cols, p, width); err != nil {
				return err
			}
		}
		return nil
	}
}

// affordable is how many counts a merger of so many patterns may hold at a time so
// that it takes a third of the work that is left, or less.
func (o *order) affordable(cols int) int {
	return int(max(30, min(1000, (o.spent.most-o.spent.done)/int64(3*15*(cols+1)))))
}

// list lists the patterns of all billets within slack of the best of each, at most
// beam of them for every node of the graphs if that is not 0.
func (o *order) list(value, worth []int64, slack int64, beam int) ([]*column, error) {
	type list struct {
		l   *lister
		all *listed
	}
	lists := map[*board]list{}
	var cols []*column
	for i, b := range o.boards {
		at, ok := lists[b]
		if !ok {
			if _, err := b.price(value, 0); err != nil {
				return nil, err
			}
			at.l = newLister(b, &o.lim, value, worth, slack)
			at.l.beam = beam
			var err error
			if at.all, err = at.l.all(); err != nil {
				return nil, err
			}
			lists[b] = at
		}
		if err := o.spent.list(len(at.all.end), columnBytes); err != nil {
			return nil, err
		}
		for _, x := range at.all.end {
			cols = append(cols, &column{billet: i, n: x.n, worth: x.worth,
				plan: func() *way { return wayOf(at.l.trace(at.all, x)) }})
		}
	}
	return cols, nil
}
