package simplex_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/resaw/plan/simplex"
)

func most(at float64) simplex.Row {
	return simplex.Row{Most: &simplex.Limit{At: at, Cost: simplex.Never}}
}

func free(int64) error { return nil }

// A program of a textbook: maximise 3 x + 5 y with x <= 4, 2 y <= 12 and
// 3 x + 2 y <= 18 (Hillier and Lieberman, Introduction to Operations Research, ch. 3,
// from memory).
func ExampleSolver_Solve() {
	s := simplex.New([]simplex.Row{most(4), most(12), most(18)}, []simplex.Column{
		{Worth: 3, Rows: []int32{0, 2}, By: []float64{1, 3}},
		{Worth: 5, Rows: []int32{1, 2}, By: []float64{2, 2}},
	})
	_ = s.Solve(func(int64) error { return nil })
	for _, u := range s.Used() {
		fmt.Printf("%d: %.0f\n", u.Column, u.Share)
	}
	fmt.Printf("worth %.0f\n", s.Objective())
	// Output:
	// 0: 2
	// 1: 6
	// worth 36
}

// random is a program of one column at most of every group, with limits on sums that
// may be gone beyond at a cost.
type random struct {
	rows    []simplex.Row
	columns []simplex.Column
}

func programs(t *rapid.T) random {
	var p random
	groups, sums := rapid.IntRange(1, 4).Draw(t, "groups"), rapid.IntRange(0, 3).Draw(t, "sums")
	for range groups {
		p.rows = append(p.rows, most(1))
	}
	for range sums {
		var r simplex.Row
		low := float64(rapid.IntRange(1, 6).Draw(t, "low"))
		if rapid.Bool().Draw(t, "least") {
			r.Least = &simplex.Limit{At: low, Cost: 500}
		}
		if r.Least == nil || rapid.Bool().Draw(t, "most") {
			r.Most = &simplex.Limit{At: low + float64(rapid.IntRange(0, 6).Draw(t, "span")), Cost: float64(rapid.IntRange(1, 20).Draw(t, "cost"))}
		}
		p.rows = append(p.rows, r)
	}
	for range rapid.IntRange(0, 12).Draw(t, "columns") {
		c := simplex.Column{Worth: float64(rapid.IntRange(0, 90).Draw(t, "worth")), Rows: []int32{int32(rapid.IntRange(0, groups-1).Draw(t, "group"))}, By: []float64{1}}
		for i := range sums {
			if n := rapid.IntRange(0, 4).Draw(t, "by"); n > 0 {
				c.Rows, c.By = append(c.Rows, int32(groups+i)), append(c.By, float64(n))
			}
		}
		p.columns = append(p.columns, c)
	}
	return p
}

// check holds a solution against what makes it the best: it keeps the limits that
// hold, its worth is that of its prices, the prices keep their bounds, and no column
// is worth more than its prices.
func (p *random) check(t *rapid.T, s *simplex.Solver) {
	sum := make([]float64, len(p.rows))
	worth := 0.0
	for _, u := range s.Used() {
		c := p.columns[u.Column]
		worth += c.Worth * u.Share
		for i, r := range c.Rows {
			sum[r] += c.By[i] * u.Share
		}
	}
	for i, r := range p.rows {
		high, low := s.Prices(i)
		assert.GreaterOrEqual(t, high, -1e-6)
		assert.LessOrEqual(t, low, 1e-6)
		if r.Most != nil {
			beyond := math.Max(0, sum[i]-r.Most.At)
			if math.IsInf(r.Most.Cost, 1) {
				assert.LessOrEqual(t, beyond, 1e-6)
			} else {
				worth -= beyond * r.Most.Cost
				assert.LessOrEqual(t, high, r.Most.Cost+1e-6)
			}
		}
		if r.Least != nil {
			worth -= math.Max(0, r.Least.At-sum[i]) * r.Least.Cost
			assert.GreaterOrEqual(t, low, -r.Least.Cost-1e-6)
		}
	}
	for _, c := range p.columns {
		left := c.Worth
		for i, r := range c.Rows {
			high, low := s.Prices(int(r))
			left -= c.By[i] * (high + low)
		}
		assert.LessOrEqual(t, left, 1e-5)
	}
	assert.InDelta(t, worth, s.Objective(), 1e-4)
}

func TestSolutionsAreTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := programs(t)
		s := simplex.New(p.rows, p.columns)
		require.NoError(t, s.Solve(free))
		p.check(t, s)
		// Columns that come later are as good as those that were there.
		if n := len(p.columns); n > 0 {
			late := simplex.New(p.rows, p.columns[:n/2:n/2])
			require.NoError(t, late.Solve(free))
			late.Add(p.columns[n/2:]...)
			require.NoError(t, late.Solve(free))
			p.check(t, late)
			assert.InDelta(t, s.Objective(), late.Objective(), 1e-4)
		}
	})
}

func TestWorkIsTold(t *testing.T) {
	ended := errors.New("enough")
	s := simplex.New([]simplex.Row{most(1), most(1), most(1)}, []simplex.Column{{Worth: 1, Rows: []int32{0}, By: []float64{1}}})
	var told []int64
	require.ErrorIs(t, s.Solve(func(steps int64) error {
		told = append(told, steps)
		if len(told) == 2 {
			return ended
		}
		return nil
	}), ended)
	assert.Equal(t, []int64{2, 2}, told, "a column and an eighth of nine")
	assert.Equal(t, []simplex.Use{{Column: 0, Share: 1}}, s.Used(), "what was found by then stands")
}
