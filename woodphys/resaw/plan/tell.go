package plan

import (
	"context"
	"errors"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
	"latewood/woodphys/wood"
)

// Question is a request for a plan with what else is to be told of it.
type Question struct {
	Request
	Weights []*Weight  // of every billet what its mass follows from; nil where that is not known
	Small   []Size     // small parts that odd and spoiled leaves are looked at for
	Varies  *Variation // nil: no chance is told
	Exact   *Request   // the same without steps, of a request in steps; else nil
}

// Weight is what the mass of a billet follows from.
type Weight struct {
	Wood wood.Wood         // with its specific gravity
	MC   quantity.Moisture // at the saw, 0 to 2.5
	SD   quantity.Moisture // its standard deviation
}

// Size is that of a finished part.
type Size struct{ Length, Width, Final quantity.Length }

// Told is a plan with all that is told of it.
type Told struct {
	Plan
	Missing int              // sets from the least wanted, of all kinds
	Ended   bool             // the budget was used up before the proof was done
	Builds  []resaw.SawnLeaf // of the leaves of every part, on the saw used
	Cut     []BilletTold     // every billet
	Volume  quantity.Volume  // of all billets
	Mass    *quantity.Band[quantity.Mass]
	Uncut   Uncut            // why a billet stays whole that does
	Lacks   []Lack           // parts that are missing, with the reason
	Chance  *Chance          // nil where it was not asked for, or is too much work
	Opened  []resaw.Opened   // what the match of the halves is to be asked
	Pairs   []PairOf         // by the tags of the pairs there
	Kerf    *quantity.Length // widest at which every leaf is still had; nil where none hangs on it
	Unread  bool             // no rings were read where some pairs are to match
	Exact   *Plan            // without steps, where little work was enough for the plan in steps
}

// BilletTold is what is told of one billet beside its plan.
type BilletTold struct {
	Pieces   map[int]Piece
	Settings []Setting
	Offcuts  []Offcut
	Blanks   []BlankTold
	Volume   quantity.Volume
	Shares   resaw.Fractions
	Mass     *moisture.Weight // nil where species or moisture is not known
}

// BlankTold is what is told of one blank beside its plan.
type BlankTold struct {
	OneMore *MoreLeaves // one more leaf of the last leaf's kind; nil for a blank of slabs
	NextSet *MoreLeaves // a whole set of it; nil where a set is one leaf
	GoodFor [][]int     // of every leaf the small parts it is large and thick enough for; nil for one of a set
}

// Tell returns the best plan for a request and what is told of it: how its leaves are
// built up, what becomes of every piece, what further leaves would need, volumes and
// masses, which parts are missing and why, how sure the sets are, and what the match of
// the halves is to be asked.
//
// q: see its type. Errors: as Make; method.TooMuchWork (parts/0 and so on) for parts so
// small that the wood could give more than 30 000 leaves, of all such parts joined;
// those of ChanceOf as chance/kerf_sd and so on, those of moisture.WeightOf as
// billets/0/mc_pct and so on. Accuracy: as Make and the functions named.
//
// Source: as Make and the functions named.
func Tell(ctx context.Context, q Question) (Told, error) {
	if err := q.room(); err != nil {
		return Told{}, err
	}
	p, err := Make(ctx, q.Request)
	if err != nil {
		return Told{}, err
	}
	t := Told{Plan: p, Uncut: uncut(&q.Request, &p)}
	for _, n := range p.Short {
		t.Missing += n
	}
	for i := range p.Saws {
		t.Ended = t.Ended || !p.Optimal && p.Saws[i].Ended
	}
	if err := errors.Join(t.build(&q), t.cut(&q)); err != nil {
		return Told{}, err
	}
	t.Opened, t.Pairs, t.Unread = opened(&q.Request, &p)
	t.Kerf = WidestKerf(&q.Request, &p)
	if err := t.sure(&q); err != nil {
		return Told{}, err
	}
	if t.Lacks, err = why(ctx, &q.Request, &p); err != nil {
		return Told{}, err
	}
	return t, t.without(ctx, &q)
}

// Splits reports whether all that the plan gives of a part, from 0, are halves split from
// wedges; false for a part of which it gives none.
//
// Accuracy: exact. Source: derived from the pieces of the plan.
func (t *Told) Splits(part int) bool {
	splits := false
	for i := range t.Billets {
		for j := range t.Billets[i].Blanks {
			b := &t.Billets[i].Blanks[j]
			for n := range b.Leaves {
				if b.Leaves[n].Part != part {
					continue
				}
				if splits = true; !b.Split {
					return false
				}
			}
		}
	}
	return splits
}

// without plans without steps what was planned in them, where work for as much again is left.
func (t *Told) without(ctx context.Context, q *Question) error {
	if q.Exact == nil || t.Work > q.Work/4 {
		return nil
	}
	exactly := *q.Exact
	exactly.Work, exactly.Memory = q.Work-t.Work, q.Memory
	p, err := Make(ctx, exactly)
	if err != nil {
		return err
	}
	t.Exact = &p
	t.Work += p.Work
	return nil
}

// build builds up the leaves of every part.
func (t *Told) build(q *Question) error {
	for i := range q.Parts {
		leaf, err := resaw.LeafToSaw(q.Parts[i].On(&q.Saws[t.Saw]), nil)
		if err != nil {
			return method.Below(err, "parts/"+strconv.Itoa(i))
		}
		t.Builds = append(t.Builds, leaf)
	}
	return nil
}

// cut tells of every billet.
func (t *Told) cut(q *Question) error {
	var masses []quantity.Band[quantity.Mass]
	for i := range t.Billets {
		b := &t.Billets[i]
		one := BilletTold{Pieces: b.Pieces(), Settings: b.Settings(), Offcuts: Offcuts(&q.Request, &t.Plan, i, q.Small),
			Volume: b.Shares.Whole.Volume(), Shares: b.Shares.Fractions()}
		for j := range b.Blanks {
			blank, err := blankTold(q, &t.Plan, &b.Blanks[j])
			if err != nil {
				return method.Below(err, "billets/"+strconv.Itoa(i))
			}
			one.Blanks = append(one.Blanks, blank)
		}
		if w := q.weightOf(i); w != nil {
			m, err := moisture.WeightOf(one.Volume, w.Wood, w.MC, w.SD)
			if err != nil {
				return method.Below(err, "billets/"+strconv.Itoa(i))
			}
			one.Mass = &m
			masses = append(masses, m.Mass)
		}
		t.Volume += one.Volume
		t.Cut = append(t.Cut, one)
	}
	if len(masses) == len(t.Billets) {
		sum := moisture.Together(masses...)
		t.Mass = &sum
	}
	return nil
}

func (q *Question) weightOf(billet int) *Weight {
	if billet < len(q.Weights) {
		return q.Weights[billet]
	}
	return nil
}

func blankTold(q *Question, p *Plan, b *Blank) (BlankTold, error) {
	var out BlankTold
	last, saw := -1, &q.Saws[p.Saw]
	for i := range b.Leaves {
		l := &b.Leaves[i]
		if l.Part >= 0 {
			last = l.Part
		}
		out.GoodFor = append(out.GoodFor, q.goodFor(b, l, saw))
	}
	if last < 0 || b.Turned || b.Split {
		return out, nil
	}
	part := &q.Parts[last]
	sawn := part.On(saw).Sum()
	more := func(n int) (*MoreLeaves, error) {
		m, err := b.More(n, sawn, saw)
		return &m, err
	}
	var err error
	if out.OneMore, err = more(1); err == nil && part.Pieces > 1 {
		out.NextSet, err = more(part.Pieces)
	}
	return out, err
}

// goodFor returns the small parts that a leaf of no set is large and thick enough for.
// A spoiled one may hold its fault anywhere, so that they must be cut clear of it.
func (q *Question) goodFor(b *Blank, l *Leaf, s *Saw) []int {
	if l.Role == RoleSet {
		return nil
	}
	thick := l.To - l.From - s.CleanupShow - s.CleanupBack
	var out []int
	for i, small := range q.Small {
		if small.Length <= b.Length && small.Width <= b.Width && small.Final <= thick {
			out = append(out, i)
		}
	}
	return out
}

// sure tells how sure the sets are.
func (t *Told) sure(q *Question) error {
	if q.Varies == nil {
		return nil
	}
	c, err := ChanceOf(&q.Request, &t.Plan, *q.Varies)
	if err == nil {
		t.Chance = &c
		return nil
	}
	var e *method.Error
	if !errors.As(err, &e) {
		return err
	}
	if e.Code == method.TooMuchWork { // the plan stands without it
		return nil
	}
	return method.Below(err, "chance")
}

// mostLeaves bounds the leaves of one plan that are told one by one.
const mostLeaves = 30_000

// room refuses parts so small that the wood would give more leaves than can be told: by
// volume, each leaf with its cut.
func (q *Request) room() error {
	volume := 0.0
	for i := range q.Billets {
		b := &q.Billets[i]
		volume += float64(b.Length) * float64(exact.Max(b.Width,
			b.WidthEnd)) * float64(exact.Max(exact.Max(b.Thickness, b.ThicknessEnd), b.ThicknessFarEdge))
	}
	var all []error
	for i := range q.Parts {
		part := &q.Parts[i]
		thin := quantity.Length(1e9)
		for j := range q.Saws {
			s := &q.Saws[j]
			thin = min(thin, part.On(s).Sum()+s.Resaw+s.Reface)
		}
		if volume/(float64(part.Length)*float64(part.Width)*float64(thin)) > mostLeaves {
			all = append(all, &method.Error{Code: method.TooMuchWork, Input: "parts/" + strconv.Itoa(i),
				Limit: method.AtMost(mostLeaves, "leaves"),
				Detail: part.Name + " is so small that the wood could give more than " + strconv.Itoa(mostLeaves) +
					" leaves; ask for fewer billets or larger parts"})
		}
	}
	return errors.Join(all...)
}
