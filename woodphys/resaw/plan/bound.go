package plan

import (
	"errors"
	"math"
)

// unlimited bounds the worth of every billet without limits and cuts each for worth alone, then for fewer cuts, then
// for the shortest length used. It reports whether that plan meets all limits.
func (o *order) unlimited(worth []int64) (bool, error) {
	value := make([]int64, len(o.kinds))
	for p := range worth {
		value[p] = worth[p] * unitOfWorth
	}
	o.stamp()
	choice := make([]*column, len(o.boards))
	plans := map[*board]*way{}
	sum := int64(0)
	var ended error
	for i, b := range o.boards {
		plan, ok := plans[b]
		if !ok {
			err := ended
			if ended == nil {
				_, err = b.price(value, 1)
			}
			if errors.Is(err, errBudget) {
				ended = err
				sum += o.upper(i, worth)
				continue
			}
			if err != nil {
				return false, err
			}
			plan = wayOf(b.trace(value, 1))
			plans[b] = plan
		}
		choice[i] = o.column(i, plan)
		for p, n := range plan.totals(len(o.kinds)) {
			sum += int64(n) * worth[p]
		}
	}
	o.freeBound = min(o.freeBound, sum)
	o.bound = min(o.bound, o.freeBound)
	if ended == nil && o.judge(choice) >= o.value { // of plans worth the same that of fewest cuts
		o.best, o.value = choice, o.judge(choice)
	}
	o.improve(choice, o.cols)
	return o.value == sum, ended
}

// upper bounds the worth of a billet at the worths of the present stamp.
func (o *order) upper(billet int, value []int64) int64 {
	v := o.volumeBound(billet, value)
	if b := o.boards[billet]; b != nil && b.upperStamp == o.rig.stamp {
		v = min(v, max(0, b.upper))
	}
	return v
}

// volumeBound bounds the worth of a billet by that of its volume, as the part that
// is worth most for its volume, rounded up: every set lies in a box of its own that
// is larger than the set by the kerfs behind it, and all these boxes lie in the
// wood made larger by one kerf each way.
func (o *order) volumeBound(billet int, value []int64) int64 {
	w, r := o.woods[billet], o.rig
	room := float64(max(0, w.l-w.trim0-w.trim1)+r.cross) * float64(w.ref+r.rip) * float64(max(0,
		w.deepest())+r.resaw+r.reface)
	most := 0.0
	for p := range o.kinds {
		k := &o.kinds[p]
		wide, high := k.w+r.rip, k.height
		if o.turns[billet]&(1<<p) != 0 { // on its side no rip lies beside it, but may behind the last leaf
			wide, high = k.w, max(1, k.height-max(0, r.betweenLeaves()-r.rip))
		} else if o.suits[billet]&(1<<p) == 0 {
			continue
		}
		if k.thin > 0 && o.turns[billet]&(1<<p) != 0 { // a wedge is as thick as its middle
			high = min(high, k.t+k.thin+r.resaw)
		}
		most = max(most, room/(float64(k.l+r.cross)*float64(wide)*float64(high))*float64(value[p]))
	}
	return int64(math.Ceil(most * (1 + 1e-9)))
}

// floorTo rounds a bound in price steps down to a worth that can be.
func (o *order) floorTo(v int64) int64 {
	w := floorDiv(v, scale)
	return floorDiv(w, o.step) * o.step
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		q--
	}
	return q
}
