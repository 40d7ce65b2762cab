package plan

import (
	"cmp"
	"slices"
)

// program is the linear program over patterns: maximise the sum of worth x
// over columns, less worth lost on sets beyond the most wanted, less a penalty
// for every set missing from the least wanted; one column at most of each billet.
//
//	row b:       sum of x over the columns of billet b       <= 1
//	row of most: sum of n x - excess                          <= most
//	row of least: sum of n x + missing                        >= least
//
// It is solved by the primal simplex method with an explicit inverse. Its
// answers are used only as guides: every bound is computed again in whole numbers
// from its prices (order.bound).
type program struct {
	rows    int
	billets int
	kinds   []int // those with limits
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
	plan   func() []sectionPlan
}

// entry is a coefficient of a column.
type entry struct {
	row int
	v   float64
}

func (p *program) entries(c *column, buf []entry) []entry {
	buf = append(buf[:0], entry{c.billet, 1})
	for _, m := range p.most {
		if n := c.n[m.kind]; n != 0 {
			buf = append(buf, entry{m.row, float64(n)})
		}
	}
	for _, m := range p.least {
		if n := c.n[m.kind]; n != 0 {
			buf = append(buf, entry{m.row, float64(n)})
		}
	}
	return buf
}

// simplex holds the state of one solution. Variables are numbered: columns from
// 0; then -1-row for the slack of a row (the surplus of a least row), and
// -1-rows-row for the excess or missing of a row.
type simplex struct {
	p     *program
	cols  []*column
	basis []int
	inv   [][]float64
	x     []float64
	price []float64 // of the rows
}

func newSimplex(p *program, cols []*column) *simplex {
	s := &simplex{p: p, cols: cols, basis: make([]int, p.rows), x: make([]float64, p.rows), price: make([]float64, p.rows)}
	s.inv = make([][]float64, p.rows)
	for i := range s.inv {
		s.inv[i] = make([]float64, p.rows)
		s.inv[i][i] = 1
		s.basis[i] = -1 - i
		if i < p.billets {
			s.x[i] = 1
		}
	}
	for _, m := range p.most {
		s.x[m.row] = m.limit
	}
	for _, m := range p.least {
		s.x[m.row] = m.limit
		s.basis[m.row] = -1 - p.rows - m.row
	}
	return s
}

// cost returns the worth of a variable and fills its coefficients.
func (s *simplex) variable(v int, buf []entry) (float64, []entry) {
	if v >= 0 {
		c := s.cols[v]
		return float64(c.worth), s.p.entries(c, buf)
	}
	row := -1 - v
	if row < s.p.rows {
		for _, m := range s.p.least {
			if m.row == row {
				return 0, append(buf[:0], entry{row, -1})
			}
		}
		return 0, append(buf[:0], entry{row, 1})
	}
	row -= s.p.rows
	for _, m := range s.p.most {
		if m.row == row {
			return -m.cost, append(buf[:0], entry{row, -1})
		}
	}
	for _, m := range s.p.least {
		if m.row == row {
			return -m.cost, append(buf[:0], entry{row, 1})
		}
	}
	return 0, buf[:0]
}

// solve runs the simplex method to the end.
func (s *simplex) solve(w *work) error {
	const tiny = 1e-7
	rows := s.p.rows
	buf := make([]entry, 0, 2*MaxKinds+1)
	direction := make([]float64, rows)
	inBasis := map[int]bool{} // of the variables that are no columns
	used := make([]bool, len(s.cols))
	mark := func(v int, in bool) {
		switch {
		case v >= 0:
			used[v] = in
		case in:
			inBasis[v] = true
		default:
			delete(inBasis, v)
		}
	}
	for _, v := range s.basis {
		mark(v, true)
	}
	stalled := 0
	for range 20000 {
		s.prices(buf)
		if err := w.spend(int64(len(s.cols) + rows*rows/8)); err != nil {
			return err
		}
		// Largest reduced worth, or the first in number after a long stall.
		enter, gain := 0, tiny
		found := false
		try := func(v int) bool {
			if inBasis[v] {
				return false
			}
			c, es := s.variable(v, buf)
			for _, e := range es {
				c -= s.price[e.row] * e.v
			}
			if c > gain {
				enter, found = v, true
				if stalled > 200 {
					return true
				}
				gain = c
			}
			return false
		}
		done := false
		var each [MaxKinds]float64 // price of a set of each kind
		for _, m := range s.p.most {
			each[m.kind] += s.price[m.row]
		}
		for _, m := range s.p.least {
			each[m.kind] += s.price[m.row]
		}
		for v, c := range s.cols {
			if used[v] {
				continue
			}
			worth := float64(c.worth) - s.price[c.billet]
			for _, k := range s.p.kinds {
				worth -= each[k] * float64(c.n[k])
			}
			if worth > gain {
				enter, found = v, true
				if done = stalled > 200; done {
					break
				}
				gain = worth
			}
		}
		for row := 0; row < rows && !done; row++ {
			if done = try(-1 - row); !done && row >= s.p.billets {
				done = try(-1 - rows - row)
			}
		}
		if !found {
			return nil
		}
		_, es := s.variable(enter, buf)
		for i := range direction {
			direction[i] = 0
			for _, e := range es {
				direction[i] += s.inv[i][e.row] * e.v
			}
		}
		leave, step := -1, 0.0
		for i, d := range direction {
			if d <= 1e-9 {
				continue
			}
			t := max(0, s.x[i]) / d
			if leave < 0 || t < step-1e-12 || t < step+1e-12 && (stalled > 200 && s.basis[i] > s.basis[leave] || stalled <= 200 && d > direction[leave]) {
				leave, step = i, t
			}
		}
		if leave < 0 {
			return nil // unbounded cannot be: every column has a billet row
		}
		if step < 1e-12 {
			stalled++
		} else {
			stalled = 0
		}
		mark(s.basis[leave], false)
		mark(enter, true)
		s.pivot(enter, leave, step, direction)
	}
	return nil
}

// objective returns the worth of a solved program.
func (s *simplex) objective() float64 {
	v := 0.0
	for b := range s.p.billets {
		v += s.price[b]
	}
	for _, m := range s.p.most {
		v += s.price[m.row] * m.limit
	}
	for _, m := range s.p.least {
		v += s.price[m.row] * m.limit
	}
	return v
}

func (s *simplex) prices(buf []entry) {
	for r := range s.price {
		s.price[r] = 0
	}
	for i, v := range s.basis {
		c, _ := s.variable(v, buf)
		if c == 0 {
			continue
		}
		for r, b := range s.inv[i] {
			s.price[r] += c * b
		}
	}
}

func (s *simplex) pivot(enter, leave int, step float64, direction []float64) {
	row := s.inv[leave]
	d := direction[leave]
	for r := range row {
		row[r] /= d
	}
	for i := range s.inv {
		if i == leave {
			continue
		}
		s.x[i] -= step * direction[i]
		f := direction[i]
		if f == 0 {
			continue
		}
		at := s.inv[i]
		for r, b := range row {
			at[r] -= f * b
		}
	}
	s.x[leave] = step
	s.basis[leave] = enter
}

// use is how much of a column a solution uses.
type use struct {
	col   int
	share float64
}

// used returns the columns used, in the order of their numbers.
func (s *simplex) used() []use {
	var out []use
	for i, v := range s.basis {
		if v >= 0 && s.x[i] > 1e-7 {
			out = append(out, use{v, s.x[i]})
		}
	}
	slices.SortFunc(out, func(a, b use) int { return cmp.Compare(a.col, b.col) })
	return out
}
