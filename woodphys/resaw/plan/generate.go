package plan

import (
	"errors"
	"math"
)

// generate solves the linear program over all patterns and returns the prices of
// the best bound.
func (o *order) generate() (*prices, error) {
	lowest := int64(math.MaxInt64)
	var best *prices
	if err := o.exactSweeps(); err != nil {
		return nil, err
	}
	s := newLinear(&o.program, o.cols)
	for range 400 {
		s.take(o.cols)
		if err := s.solve(o.spent); err != nil {
			return best, err
		}
		o.round(s)
		p := o.wholePrices(s)
		sum, added, err := o.priceAll(s, p)
		if sum < lowest {
			lowest, best = sum, p
			o.bound = min(o.bound, o.floorTo(sum))
		}
		if err != nil {
			return best, err
		}
		if o.bound <= o.value || !added {
			break
		}
	}
	// A gap this wide is rather the plan's than the bound's.
	if (o.bound-o.value)*50 > o.bound && len(o.boards) > 1 {
		if err := o.fills(func(billet int, _ []int64) (*board, error) { return o.boards[billet], nil }); err != nil {
			return best, err
		}
	}
	if o.bound > o.value {
		if err := o.branch(o.cols, 40); err != nil && !errors.Is(err, errNodes) {
			return best, err
		}
		if _, err := o.merge(o.cols, best, 300); err != nil {
			return best, err
		}
	}
	return best, nil
}

// priceAll prices all billets, adds the patterns that are missing, and returns the
// bound at the prices. When the work ends it is still a bound.
func (o *order) priceAll(s *linear, p *prices) (sum int64, added bool, err error) {
	value := o.valuesAt(p)
	plans := map[*board]*way{}
	sum = o.constant(p)
	o.stamp()
	for i, b := range o.boards {
		plan, ok := plans[b]
		if !ok && err == nil {
			if plan, _, err = b.way(value); err == nil {
				ok = true
				plans[b] = plan
			} else if !errors.Is(err, errBudget) {
				return math.MaxInt64, false, err
			}
		}
		sum += o.upper(i, value)
		if ok && o.pays(s, i, b.upper) {
			n := len(o.cols)
			o.column(i, plan)
			added = added || len(o.cols) > n
		}
	}
	return sum, added, err
}

// pays reports whether a pattern of a billet, worth so much at the prices of s, is
// worth more than those that the program has.
func (o *order) pays(s *linear, billet int, worth int64) bool {
	price, _ := s.Prices(billet)
	return float64(worth)/scale > price+1e-6*(1+math.Abs(price))
}
