package resaw

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"latewood/woodphys/method"
)

// MakePlanInTime is MakePlan for a budget that may be too small for a proof: it
// keeps a part of the work back, and where the plan is not proven by then it
// spends that on plans with fewer kinds of part, which take far less work, and
// returns the best plan found. Bound and Optimal speak of all kinds, as MakePlan.
//
// q, ctx and errors: see MakePlan.
//
// Accuracy: as MakePlan; the same request has the same answer everywhere.
//
// Source: own; which kinds are tried first is a rule of thumb: those wanted at
// least, then those worth most for the wood they take.
func MakePlanInTime(ctx context.Context, q Request) (Plan, error) {
	total := q.Work
	if total == 0 {
		total = DefaultWork
	}
	const kept = 3 // a third of the work
	q.Work = max(1, total-total/kept)
	p, err := MakePlan(ctx, q)
	if err != nil || p.Optimal || !p.ended() {
		return p, err
	}
	order := promising(&q)
	for _, n := range []int{2, 4, 7, 12} {
		if n >= len(order) {
			break
		}
		fewer := q
		fewer.Parts = nil
		kinds := slices.Clone(order[:n])
		slices.Sort(kinds)
		for _, k := range kinds {
			fewer.Parts = append(fewer.Parts, q.Parts[k])
		}
		if fewer.Work = (total - p.Work) / 2; fewer.Work < 1 {
			break
		}
		s, err := MakePlan(ctx, fewer)
		if err != nil {
			var domain *method.Error
			if errors.As(err, &domain) && domain.Code == method.Stopped {
				return Plan{}, err
			}
			break // too many sets to count: fewer kinds do not mend that
		}
		p.take(&s, kinds, &q)
	}
	return p, nil
}

// ended reports whether the work ended before the plan was proven.
func (p *Plan) ended() bool {
	for i := range p.Saws {
		if p.Saws[i].Ended && !p.Saws[i].Optimal {
			return true
		}
	}
	return false
}

// promising are the kinds in the order in which they are tried.
func promising(q *Request) []int {
	order := make([]int, len(q.Parts))
	density := make([]float64, len(q.Parts))
	r := newRig(&q.Saws[0], q.Parts)
	for i, k := range r.kinds {
		order[i] = i
		density[i] = float64(k.worth) / (float64(k.l) * float64(k.w) * float64(k.height))
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if wanted, other := q.Parts[a].Least > 0, q.Parts[b].Least > 0; wanted != other {
			if wanted {
				return -1
			}
			return 1
		}
		return cmp.Compare(density[b], density[a])
	})
	return order
}

// take puts a plan of some of the kinds in the place of p if it is better.
func (p *Plan) take(s *Plan, kinds []int, q *Request) {
	p.Work += s.Work
	missing := make([]int, len(s.Saws))
	for i := range s.Saws {
		missing[i] = s.Saws[i].Short
		for k := range q.Parts {
			if !slices.Contains(kinds, k) {
				missing[i] += q.Parts[k].Least
			}
		}
		old := &p.Saws[i]
		if missing[i] > old.Short || missing[i] == old.Short && s.Saws[i].Worth <= old.Worth {
			continue
		}
		sets := make([]int, len(q.Parts))
		for at, k := range kinds {
			sets[k] = s.Saws[i].Sets[at]
		}
		*old = SawPlan{Worth: s.Saws[i].Worth, Bound: max(old.Bound, s.Saws[i].Worth), Short: missing[i], Cuts: s.Saws[i].Cuts, Leaves: s.Saws[i].Leaves, Sets: sets, Ended: old.Ended}
	}
	short := 0
	for _, n := range p.Short {
		short += n
	}
	if missing[s.Saw] > short || missing[s.Saw] == short && s.Worth <= p.Worth {
		return
	}
	p.Saw, p.Worth, p.Billets, p.Bound = s.Saw, s.Worth, s.Billets, max(p.Bound, s.Worth)
	for k := range q.Parts {
		p.Sets[k] = 0
	}
	for at, k := range kinds {
		p.Sets[k] = s.Sets[at]
	}
	for k := range q.Parts {
		p.Short[k] = max(0, q.Parts[k].Least-p.Sets[k])
	}
	for i := range p.Billets {
		for j := range p.Billets[i].Blanks {
			leaves := p.Billets[i].Blanks[j].Leaves
			for n := range leaves {
				if leaves[n].Part >= 0 {
					leaves[n].Part = kinds[leaves[n].Part]
				}
			}
		}
	}
}
