package simplex

import (
	"cmp"
	"slices"
)

// Bounds and tolerances of the method.
const (
	mostPivots = 20000
	longStall  = 200  // pivots without a gain, after which variables enter by number
	leastGain  = 1e-7 // of worth, for a variable to enter
	leastPivot = 1e-9
	leastStep  = 1e-12
	leastShare = 1e-7 // of a column that counts as used
)

// Solve runs the method to the end. spend is told the steps of every pivot before it
// is made, as many as there are columns and an eighth of the square of the limits; an
// error of it ends the solution.
//
// Errors: those of spend. Accuracy: see the package; after 20 000 pivots the solution
// stands as it is. Source: Dantzig 1963 and Bland 1977, as the package says.
func (s *Solver) Solve(spend func(steps int64) error) error {
	s.inBasis, s.others, s.stalled = make([]bool, len(s.columns)), map[int]bool{}, 0
	for _, v := range s.basis {
		s.mark(v, true)
	}
	for range mostPivots {
		s.setPrices()
		if err := spend(int64(len(s.columns) + len(s.lines)*len(s.lines)/8)); err != nil {
			return err
		}
		enter, found := s.entering()
		if !found {
			return nil
		}
		s.setDirection(enter)
		leave, step := s.leaving()
		if leave < 0 {
			return nil // unbounded cannot be where every column has an upper limit that holds
		}
		if step < leastStep {
			s.stalled++
		} else {
			s.stalled = 0
		}
		s.mark(s.basis[leave], false)
		s.mark(enter, true)
		s.pivot(enter, leave, step)
	}
	return nil
}

// mark notes whether a variable is in the basis.
func (s *Solver) mark(v int, in bool) {
	switch {
	case v >= 0:
		s.inBasis[v] = in
	case in:
		s.others[v] = true
	default:
		delete(s.others, v)
	}
}

// entering returns the variable of the largest reduced worth, or after a long stall
// the first in number that gains.
func (s *Solver) entering() (enter int, found bool) {
	first := s.stalled > longStall
	gain := leastGain
	for r := range s.each {
		s.each[r] = 0
		if l := s.most[r]; l >= 0 {
			s.each[r] += s.price[l]
		}
		if l := s.least[r]; l >= 0 {
			s.each[r] += s.price[l]
		}
	}
	for v := range s.columns {
		if s.inBasis[v] {
			continue
		}
		c := &s.columns[v]
		worth := c.Worth
		for i, row := range c.Rows {
			worth -= s.each[row] * c.By[i]
		}
		if worth > gain {
			if enter, found = v, true; first {
				return enter, true
			}
			gain = worth
		}
	}
	try := func(v int) bool {
		if s.others[v] {
			return false
		}
		c, es := s.variable(v)
		for _, e := range es {
			c -= s.price[e.line] * e.v
		}
		if c > gain {
			enter, found = v, true
			gain = c
			return first
		}
		return false
	}
	for i := range s.lines {
		if try(-1-i) || s.lines[i].soft() && try(-1-len(s.lines)-i) {
			break
		}
	}
	return enter, found
}

// setDirection sets how the basis gives way to a variable.
func (s *Solver) setDirection(enter int) {
	_, es := s.variable(enter)
	for i := range s.direction {
		s.direction[i] = 0
		for _, e := range es {
			s.direction[i] += s.inverse[i][e.line] * e.v
		}
	}
}

// leaving returns which place of the basis is used up first, and how far that is; -1
// where none is.
func (s *Solver) leaving() (leave int, step float64) {
	leave = -1
	first := s.stalled > longStall
	for i, d := range s.direction {
		if d <= leastPivot {
			continue
		}
		t := max(0, s.x[i]) / d
		if leave < 0 || t < step-leastStep || t < step+leastStep && (first && s.basis[i] > s.basis[leave] || !first &&
			d > s.direction[leave]) {
			leave, step = i, t
		}
	}
	return leave, step
}

func (s *Solver) setPrices() {
	for r := range s.price {
		s.price[r] = 0
	}
	for i, v := range s.basis {
		c, _ := s.variable(v)
		if c == 0 {
			continue
		}
		for r, b := range s.inverse[i] {
			s.price[r] += c * b
		}
	}
}

func (s *Solver) pivot(enter, leave int, step float64) {
	row := s.inverse[leave]
	d := s.direction[leave]
	for r := range row {
		row[r] /= d
	}
	for i := range s.inverse {
		if i == leave {
			continue
		}
		s.x[i] -= step * s.direction[i]
		f := s.direction[i]
		if f == 0 {
			continue
		}
		at := s.inverse[i]
		for r, b := range row {
			at[r] -= f * b
		}
	}
	s.x[leave] = step
	s.basis[leave] = enter
}

// Prices returns the shadow prices of the two limits of a row, 0 for one that it does
// not have: that of the upper one 0 or more, that of the lower one 0 or less.
//
// Accuracy: see the package. Source: Dantzig 1963, as the package says.
func (s *Solver) Prices(row int) (most, least float64) {
	if l := s.most[row]; l >= 0 {
		most = s.price[l]
	}
	if l := s.least[row]; l >= 0 {
		least = s.price[l]
	}
	return most, least
}

// Used returns the columns used, in the order of their numbers.
//
// Accuracy: shares below 1e-7 count as none. Source: Dantzig 1963, as the package
// says.
func (s *Solver) Used() []Use {
	var out []Use
	for i, v := range s.basis {
		if v >= 0 && s.x[i] > leastShare {
			out = append(out, Use{v, s.x[i]})
		}
	}
	slices.SortFunc(out, func(a, b Use) int { return cmp.Compare(a.Column, b.Column) })
	return out
}
