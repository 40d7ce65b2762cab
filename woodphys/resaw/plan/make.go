package plan

import (
	"context"
	"errors"
	"math"
	"reflect"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/resaw/exact"
)

// Make returns the best plan for cutting the billets of a request into sets,
// proven where it says so: fewest sets missing from the least wanted, then most
// worth. Of plans of the staged search worth as much, where no part has a limit on its
// count, that of fewest cuts of every billet and then of the longest piece left whole. Where one
// has, the sets of each billet are settled first and then cut with the fewest cuts,
// unless a billet has too many sets for that to be searched (polish.go); cuts that part leaves
// after resawing are not sought to be few; sets
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
	p.Saws, p.Work, p.Used, p.Notes = saws, spent.done, spent.used(total), notes
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
	// lacking are the pieces or sets missing as the search counts them.
	lacking int64
	free    int64 // a bound on the worth of plans that miss more
	cuts    int
	worth   int64
	bound   int64
	done    bool
	ended   bool // by the budget
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

// poolShare is the part of the work for sets whose pieces come from anywhere, where there
// are such; the rest is for the same sets of neighbours.
const poolShare = 0.7

// planSaw plans on one saw. Pieces that come from anywhere are counted one by one, and the
// best count of pieces may make fewer whole sets than sets of neighbours do: both are
// looked for, unless billets are so many that it makes no odds.
func planSaw(q *Request, saw int, spent *work) (*sawResult, error) {
	_, unit := pooled(q.Parts)
	most := spent.most
	if unit > 1 && len(q.Billets) <= fewBillets {
		spent.most = spent.done + int64(poolShare*float64(most-spent.done))
	}
	r, err := planSets(q, saw, spent)
	spent.most = most
	if err != nil || unit == 1 || r.done || len(q.Billets) > fewBillets {
		return r, err
	}
	r.order, spent.held = nil, memory{}
	neighbours := *q
	neighbours.Parts = slices.Clone(q.Parts)
	for i := range neighbours.Parts {
		if p := &neighbours.Parts[i]; p.Match == MatchNone && p.Pieces > 1 {
			p.Match = MatchSlip
		}
	}
	other, err := planSets(&neighbours, saw, spent)
	if err != nil || !other.better(r) {
		return r, err
	}
	if other.bound = max(other.worth, r.bound); other.short != r.short {
		other.bound = max(other.worth, r.free)
	}
	other.done = other.bound == other.worth && other.short == 0
	other.ended = other.ended || r.ended
	return other, nil
}

// planSets plans on one saw.
func planSets(q *Request, saw int, spent *work) (*sawResult, error) {
	r := &sawResult{saw: saw, r: newRig(&q.Saws[saw], q.Parts)}
	most := spent.most
	if limited(r.r.kinds) { // the rest is for polishing
		spent.most -= (most - spent.done) / polishShare
	}
	o, err := r.newOrder(q, spent)
	if err != nil {
		return nil, err
	}
	if err := r.search(o); err != nil {
		return nil, err
	}
	spent.most = most
	r.order = o
	if err := r.write(spent); err != nil {
		return nil, err
	}
	r.tell(o)
	return r, nil
}

// newOrder makes the order list of all billets.
func (r *sawResult) newOrder(q *Request, spent *work) (*order, error) {
	ringed := slices.ContainsFunc(r.r.kinds, func(k want) bool { return k.ringed })
	for i := range q.Billets {
		w := newOffer(&q.Billets[i], &r.r.cost, ringed)
		w.conflictY = w.conflictY || w.pith && r.r.splitsByRings()
		for p := range q.Parts {
			if !q.Parts[p].MayComeFrom(i) {
				w.barred |= 1 << p
			}
		}
		r.woods = append(r.woods, w)
		r.r.deepest = max(r.r.deepest, w.deepest())
	}
	o := newOrder(r.r, r.woods, r.r.kinds, spent)
	for i := range q.Billets {
		o.alike[i] = i
		for j := range i {
			if same(&q.Billets[i], &q.Billets[j]) && r.woods[i].barred == r.woods[j].barred {
				o.alike[i] = j
				break
			}
		}
		o.suits[i] = r.r.suited(r.woods[i])
		for _, t := range emptyBoard(r.woods[i], r.r, 0, spent).turnables() {
			o.turns[i] |= 1 << t.part
		}
	}
	return o, o.guard()
}

// search makes a first plan and searches by stages and then over all cuts.
func (r *sawResult) search(o *order) error {
	first, err := o.firstly()
	if err == nil {
		err = o.staged()
	}
	if err == nil {
		o.takeOver(first)
		err = o.deepen()
	}
	if errors.Is(err, errBudget) {
		r.ended, err = true, nil
	}
	return err
}

// stagedShare is the part of the work that the staged search may take.
const stagedShare = 4

// staged makes a first plan by the staged search where that is fast.
func (o *order) staged() error {
	if o.many() || o.dear() || o.short() {
		o.prepare()
		return nil
	}
	most := o.spent.most
	o.spent.most = o.spent.done + (most-o.spent.done)/stagedShare
	err := o.solve()
	o.spent.most = most
	o.release(memory{})
	clear(o.boards)
	if errors.Is(err, errBudget) {
		return nil
	}
	return err
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
	kinds := r.r.kinds
	plans := make([]*way, len(r.order.best))
	for i, c := range r.order.best {
		if c != nil {
			plans[i] = c.plan()
		}
	}
	held := r.held(plans)
	plans, err := r.polish(r.spare(plans, held), spent)
	if err != nil {
		return err
	}
	made := make([]int, len(kinds))
	for i, plan := range plans {
		t := &writer{w: r.woods[i], r: r.r, parts: held, made: made}
		b := t.write(plan)
		r.cuts += b.Cuts
		r.worth += b.Worth
		r.plans = append(r.plans, b)
	}
	r.sets = make([]int, len(kinds))
	for p := range kinds {
		r.sets[p] = made[p] / kinds[p].pool
		r.lacking += int64(max(0, kinds[p].least-made[p]))
		r.short += max(0, kinds[p].least/kinds[p].pool-r.sets[p])
	}
	return nil
}

// held are the parts with what the plans hold of them: of those whose sets are pooled no
// more pieces count than make whole sets.
func (r *sawResult) held(plans []*way) []want {
	parts := slices.Clone(r.r.kinds)
	total := make([]int, len(parts))
	for _, plan := range plans {
		for p, n := range plan.totals(len(parts)) {
			total[p] += n
		}
	}
	for p := range parts {
		k := &parts[p]
		if k.pool == 1 {
			continue
		}
		most := total[p] / k.pool * k.pool
		if k.most != nil {
			most = min(most, *k.most)
		}
		k.most = &most
	}
	return parts
}

// tell takes over what the search knows of the plan as written. A plan that misses no more
// than this one is worth at most its bound, which is one on worth less fines, and the
// fines of this one; and at most what all the wood is worth without limits.
func (r *sawResult) tell(o *order) {
	bound := min(o.freeBound, o.bound+r.lacking*o.fine)
	r.free = floorDiv(o.freeBound, r.r.unit)
	r.bound = max(r.worth, floorDiv(bound, r.r.unit))
	r.done = o.done && r.bound == r.worth
	if o.done && r.r.unit == 1 {
		r.done, r.bound = true, r.worth
	}
	r.ended = !r.done // more work would do more
}

func (r *sawResult) plan() Plan {
	p := Plan{Saw: r.saw, Worth: r.worth, Sets: r.sets, Billets: r.plans, Short: make([]int, len(r.sets))}
	for k := range r.sets {
		p.Short[k] = max(0, r.r.kinds[k].least/r.r.kinds[k].pool-r.sets[k])
	}
	return p
}
