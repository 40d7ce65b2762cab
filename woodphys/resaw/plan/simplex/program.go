package simplex

import "math"

// Limit is the right-hand side of a row and what going beyond it costs.
type Limit struct {
	At   float64 // 0 or more
	Cost float64 // of each unit beyond; Never where it holds
}

// Never is the cost of a limit that holds.
var Never = math.Inf(1)

// Row limits one sum over the columns.
type Row struct {
	Most  *Limit // nil: no upper limit
	Least *Limit // nil: no lower limit; one that holds is not taken (Cost below Never)
}

// Column is one variable: its worth, and its coefficients by row. Rows are numbered
// from 0, in rising order, none twice.
type Column struct {
	Worth float64
	Rows  []int32
	By    []float64 // coefficient in each of Rows
}

// Use is how much of a column a solution uses.
type Use struct {
	Column int
	Share  float64
}

// line is one limit of a row: the program proper has a line for each.
type line struct {
	Limit
	row   int
	least bool
}

// soft reports whether a line may be gone beyond.
func (l *line) soft() bool { return !math.IsInf(l.Cost, 1) }

// entry is a coefficient of a variable in a line.
type entry struct {
	line int
	v    float64
}

// Solver holds a program and the state of its last solution. Its variables are
// numbered: columns from 0; then -1-line for the slack of a line (the surplus of a
// lower limit), and -1-lines-line for what lies beyond it.
type Solver struct {
	columns []Column
	lines   []line
	most    []int // line of the upper limit of each row; -1 where it has none
	least   []int
	basis   []int
	inverse [][]float64
	x       []float64 // of the basis
	price   []float64 // of the lines

	// Of the pivot at hand.
	buf       []entry
	inBasis   []bool       // by column
	others    map[int]bool // of the basis, that are no columns
	each      []float64    // price of a unit in each row
	direction []float64
	stalled   int
}

// New returns a solver of a program whose variables are all 0 yet: what the lower
// limits want lies beyond them.
//
// rows: of limits at 0 or more. Accuracy: see the package. Source: Dantzig 1963, as
// the package says.
func New(rows []Row, columns []Column) *Solver {
	s := &Solver{columns: columns}
	for i, r := range rows {
		s.most, s.least = append(s.most, -1), append(s.least, -1)
		if r.Most != nil {
			s.most[i] = len(s.lines)
			s.lines = append(s.lines, line{*r.Most, i, false})
		}
		if r.Least != nil {
			s.least[i] = len(s.lines)
			s.lines = append(s.lines, line{*r.Least, i, true})
		}
	}
	n := len(s.lines)
	s.basis, s.x, s.price, s.inverse = make([]int, n), make([]float64, n), make([]float64, n), make([][]float64, n)
	s.direction, s.each = make([]float64, n), make([]float64, len(rows))
	for i := range s.lines {
		s.inverse[i] = make([]float64, n)
		s.inverse[i][i] = 1
		s.x[i] = s.lines[i].At
		s.basis[i] = -1 - i
		if s.lines[i].least {
			s.basis[i] = -1 - n - i
		}
	}
	return s
}

// Add puts columns behind those there are; none of them is used until the next
// solution.
//
// Accuracy: exact. Source: none needed, it computes nothing.
func (s *Solver) Add(columns ...Column) { s.columns = append(s.columns, columns...) }

// variable returns the worth of a variable and its coefficients. Those of the upper
// limits come before those of the lower.
func (s *Solver) variable(v int) (float64, []entry) {
	es := s.buf[:0]
	if v >= 0 {
		c := &s.columns[v]
		for _, lines := range [2][]int{s.most, s.least} {
			for i, row := range c.Rows {
				if l := lines[row]; l >= 0 {
					es = append(es, entry{l, c.By[i]})
				}
			}
		}
		s.buf = es
		return c.Worth, es
	}
	at, beyond := -1-v, false
	if at >= len(s.lines) {
		at, beyond = at-len(s.lines), true
	}
	l := &s.lines[at]
	if l.least == beyond { // slack of an upper limit; what a lower one misses
		es = append(es, entry{at, 1})
	} else {
		es = append(es, entry{at, -1})
	}
	s.buf = es
	if beyond {
		return -l.Cost, es
	}
	return 0, es
}
