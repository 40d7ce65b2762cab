package plan

import (
	"context"
	"errors"
	"math"
	"reflect"

	"latewood/woodphys/method"
	"latewood/woodphys/resaw/exact"
)

// Make returns the best plan for cutting the billets of a request into sets,
// proven where it says so: fewest sets missing from the least wanted, then most
// worth. Of plans worth as much, where no part has a limit on its count, that of
// fewest cuts of every billet and then of the longest piece left whole. Where one
// has, the sets of each billet are settled first and then cut with the fewest cuts,
// unless a billet has too many sets for that to be searched (polish.go); sets
// beyond the most wanted are sawn only where a zone or a ring angle holds the rest of
// their stack in its place.
//
// q: see Request; lengths 0 to 100 m, at most MaxBillets billets, MaxKinds kinds
// of part, MaxSaws saws, MaxZones zones of a billet. ctx: cancels the work.
//
// Errors: method.OutOfRange, method.Contradictory, method.Missing and
// method.Unknown for inputs, named by their place such as
// "billets/0/zones/2/x1"; method.TooMuchWork when the counts would be too large
// for whole numbers; method.Stopped when ctx is done. When the work budget or the
// memory ends, or ctx because the work took its time (method.IsUsedUp), the best plan
// found by then is returned, with Optimal false and its Bound; a budget too small for
// a first plan leaves billets uncut.
//
// Accuracy: exact in whole nanometres for the model in offer.go. A part needs
// its place clear over the whole of its blank; runout, ring angle and zones are
// as measured.
//
// Source: derived; the proof is in offer.go and order.go.
func Make(ctx context.Context, q Request) (Plan, error) {
	var notes method.Notes
	if err := checkRequest(&q, &notes); err != nil {
		return Plan{}, err
	}
	warnAbout(&q, &notes)
	spent := &work{ctx: ctx, most: q.Work, room: q.Memory}
	if q.Work == 0 {
		spent.most = DefaultWork
	}
	if err := spent.ended(); err != nil && !errors.Is(err, errBudget) {
		return Plan{}, err
	}
	total := spent.most
	var best *sawResult
	var saws []SawPlan
	for i := range q.Saws {
		// Each saw may use its share of what is left.
		spent.most = spent.done + (total-spent.done)/int64(len(q.Saws)-i)
		r, err := planSaw(&q, i, spent)
		if err != nil {
			return Plan{}, err
		}
		r.order, spent.held = nil, memory{} // only its plan is kept
		saws = append(saws, r.summary())
		if best == nil || r.better(best) {
			best = r
		}
	}
	p := best.plan()
	p.Saws, p.Work, p.Notes = saws, spent.done, notes
	p.Optimal = true
	for i := range saws {
		if !saws[i].Optimal || saws[i].Short <= best.short { // a saw proven to miss more sets cannot win
			p.Bound = max(p.Bound, saws[i].Bound)
		}
		p.Optimal = p.Optimal && (saws[i].Optimal || saws[i].Bound <= p.Worth && best.short == 0)
	}
	p.Bound = max(p.Bound, p.Worth)
	return p, nil
}

// sawResult is the best plan on one saw.
type sawResult struct {
	saw   int
	r     *rig
	woods []*offer
	order *order
	plans []BilletPlan
	sets  []int
	short int
	cuts  int
	worth int64
	bound int64
	done  bool
	ended bool // by the budget
}

func (r *sawResult) better(other *sawResult) bool {
	switch {
	case r.short != other.short:
		return r.short < other.short
	case r.worth != other.worth:
		return r.worth > other.worth
	}
	return r.cuts < other.cuts
}

func (r *sawResult) summary() SawPlan {
	s := SawPlan{Worth: r.worth, Bound: r.bound, Short: r.short, Cuts: r.cuts, Sets: r.sets, Optimal: r.done,
		Ended: r.ended}
	for i := range r.plans {
		for j := range r.plans[i].Blanks {
			for _, l := range r.plans[i].Blanks[j].Leaves {
				if l.Role != RoleRejected {
					s.Leaves++
				}
			}
		}
	}
	return s
}

func planSaw(q *Request, saw int, spent *work) (*sawResult, error) {
	r := &sawResult{saw: saw, r: newRig(&q.Saws[saw], q.Parts)}
	ringed := false
	for _, k := range r.r.kinds {
		ringed = ringed || k.ringed
	}
	contradiction := false
	for i := range q.Billets {
		w := newOffer(&q.Billets[i], &r.r.cost, ringed)
		contradiction = contradiction || w.conflictX || w.conflictY
		r.woods = append(r.woods, w)
		r.r.deepest = max(r.r.deepest, w.deepest())
	}
	most := spent.most
	if limited(r.r.kinds) { // the rest is for polishing
		spent.most -= (most - spent.done) / polishShare
	}
	o, err := search(q, r, false, spent)
	if err != nil {
		return nil, err
	}
	spent.most = most
	r.order, r.done = o, o.done
	if err := r.write(spent); err != nil {
		return nil, err
	}
	// A plan that misses no more sets than this one is worth at most bound, which
	// is a bound on worth less fines, and the fines of this one; and at most what
	// all the wood is worth without limits.
	bound, fine, free := o.bound, o.fine, o.freeBound
	if contradiction {
		// The patterns searched may miss some: bound by the billets with the
		// contradiction removed in the maker's favour.
		relaxed, err := search(q, r, true, spent)
		if err != nil {
			return nil, err
		}
		bound, fine, free = relaxed.bound, relaxed.fine, relaxed.freeBound
		r.done = bound <= r.worth-int64(r.short)*fine
	}
	r.bound = r.worth
	if !r.done {
		r.bound = max(r.worth, min(free, bound+int64(r.short)*fine))
	}
	return r, nil
}

// search solves the order list.
func search(q *Request, r *sawResult, relaxed bool, spent *work) (*order, error) {
	o := newOrder(r.r, r.woods, r.r.kinds, spent)
	if err := o.guard(); err != nil {
		return nil, err
	}
	for i := range q.Billets {
		o.alike[i] = i
		for j := range i {
			if same(&q.Billets[i], &q.Billets[j]) {
				o.alike[i] = j
				break
			}
		}
		o.suits[i] = r.r.suited(r.woods[i])
	}
	o.relaxed = relaxed
	if err := o.solve(); errors.Is(err, errBudget) {
		r.ended = true
	} else if err != nil {
		return nil, err
	}
	return o, nil
}

// same reports whether two billets are cut alike.
func same(a, b *Billet) bool {
	x, y := *a, *b
	x.Name, y.Name = "", ""
	return reflect.DeepEqual(x, y)
}

// guard refuses worths that whole numbers could not hold.
func (o *order) guard() error {
	limit := 1.0
	for p := range o.parts {
		limit += float64(o.parts[p].least)
		if o.parts[p].most != nil {
			limit += float64(*o.parts[p].most)
		}
	}
	sets, worth := 0.0, 0.0
	for i := range o.woods {
		most := 0.0
		for _, k := range o.kinds {
			v := o.woods[i].volume() / k.volume()
			most = max(most, v)
			worth = max(worth, v*float64(k.worth)*float64(len(o.woods)))
		}
		sets = max(sets, most)
	}
	if sets > 6e4 || math.Max(1, worth)*float64(scale)*(limit+1) > 4e18 {
		return &method.Error{
			Code: method.TooMuchWork, Input: "worth",
			Detail: "the wood would give more sets, or more worth, than can be counted exactly; use larger parts " +
				"or a coarser unit of worth",
		}
	}
	return nil
}

// volume is not less than that of the wood, in cubic nanometres.
func (w *offer) volume() float64 {
	thick := max(w.t, w.tx) + max(w.t, w.ty, exact.Between(w.t, w.ty, w.ref, w.w0)) - w.t
	return float64(w.l) * float64(w.ref) * float64(thick)
}

// write makes the billet plans.
func (r *sawResult) write(spent *work) error {
	r.sets = make([]int, len(r.r.kinds))
	plans := make([][]sectionPlan, len(r.order.best))
	for i, c := range r.order.best {
		if c != nil {
			plans[i] = c.plan()
		}
	}
	plans, err := r.polish(r.spare(plans, r.r.kinds), spent)
	if err != nil {
		return err
	}
	for i, plan := range plans {
		t := &writer{w: r.woods[i], r: r.r, parts: r.r.kinds, made: r.sets}
		b := t.write(plan)
		r.cuts += b.Cuts
		r.worth += b.Worth
		r.plans = append(r.plans, b)
	}
	for p := range r.r.kinds {
		r.short += max(0, r.r.kinds[p].least-r.sets[p])
	}
	return nil
}

func (r *sawResult) plan() Plan {
	p := Plan{Saw: r.saw, Worth: r.worth, Sets: r.sets, Billets: r.plans, Short: make([]int, len(r.sets))}
	for k := range r.sets {
		p.Short[k] = max(0, r.r.kinds[k].least-r.sets[k])
	}
	return p
}
