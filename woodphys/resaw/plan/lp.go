package plan

import (
	"latewood/woodphys/resaw/plan/simplex"
)

// program is the linear program over patterns: maximise the sum of worth x
// over columns, less worth lost on sets beyond the most wanted, less a penalty
// for every set missing from the least wanted; one column at most of each billet.
//
//	row of a billet: sum of x over its columns  <= 1
//	row of a kind:   sum of n x - excess        <= most
//	                 sum of n x + missing       >= least
//
// Its answers are used only as guides: every bound is computed again in whole numbers
// from its prices (order.constant, order.priced).
type program struct {
	billets int
	kinds   []int // those with limits, in the order of their rows behind those of the billets
	most    []cap1
	least   []cap1
}

// cap1 is a limit on one kind, in row of the program.
type cap1 struct {
	kind, row int
	limit     float64
	cost      float64
}

// column is a pattern: one way to cut one billet.
type column struct {
	billet int
	n      counts
	worth  int64
	plan   func() *way
	sparse *simplex.Column // as the program takes it, once it has
}

// newProgram makes the rows of the linear program. Missing a wanted set costs a fine.
func newProgram(billets int, kinds []int, parts []want, fine int64) program {
	p := program{billets: billets, kinds: kinds}
	for i, k := range kinds {
		part := &parts[k]
		if part.most != nil {
			p.most = append(p.most, cap1{k, billets + i, float64(*part.most), float64(part.worth)})
		}
		if part.least > 0 {
			p.least = append(p.least, cap1{k, billets + i, float64(part.least), float64(fine)})
		}
	}
	return p
}

// rows are those of the program as the solver takes them.
func (p *program) rows() []simplex.Row {
	rows := make([]simplex.Row, p.billets+len(p.kinds))
	for i := range p.billets {
		rows[i].Most = &simplex.Limit{At: 1, Cost: simplex.Never}
	}
	for i := range p.most {
		m := &p.most[i]
		rows[m.row].Most = &simplex.Limit{At: m.limit, Cost: m.cost}
	}
	for i := range p.least {
		m := &p.least[i]
		rows[m.row].Least = &simplex.Limit{At: m.limit, Cost: m.cost}
	}
	return rows
}

// sparse is a pattern as the solver takes it.
func (p *program) sparse(c *column) simplex.Column {
	if c.sparse == nil {
		s := simplex.Column{Worth: float64(c.worth), Rows: []int32{int32(c.billet)}, By: []float64{1}}
		for i, k := range p.kinds {
			if n := c.n[k]; n != 0 {
				s.Rows, s.By = append(s.Rows, int32(p.billets+i)), append(s.By, float64(n))
			}
		}
		c.sparse = &s
	}
	return *c.sparse
}

// linear is the program with the patterns it is solved over.
type linear struct {
	*simplex.Solver
	p    *program
	cols []*column
}

func newLinear(p *program, cols []*column) *linear {
	l := &linear{Solver: simplex.New(p.rows(), nil), p: p}
	l.take(cols)
	return l
}

// take adds the patterns beyond those it has; cols begins with these.
func (l *linear) take(cols []*column) {
	more := make([]simplex.Column, 0, len(cols)-len(l.cols))
	for _, c := range cols[len(l.cols):] {
		more = append(more, l.p.sparse(c))
	}
	l.Add(more...)
	l.cols = cols
}

// solve runs the simplex method to the end.
func (l *linear) solve(w *work) error { return l.Solve(w.spend) }
