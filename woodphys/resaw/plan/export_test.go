package plan

import "context"

// Staged is the plan of the staged search alone on the first saw: its worth, the sets
// missing, and whether it is proven over the cuts that it knows.
func Staged(q Request) (worth int64, short int, done bool) {
	spent := &work{ctx: context.Background(), most: DefaultWork}
	r := &sawResult{r: newRig(&q.Saws[0], q.Parts)}
	o, err := r.newOrder(&q, spent)
	if err != nil || o.solve() != nil {
		return 0, 0, false
	}
	r.order = o
	if r.write(spent) != nil {
		return 0, 0, false
	}
	return r.worth, r.short, o.done
}
