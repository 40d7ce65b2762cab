package drying

import (
	"fmt"

	"latewood/woodphys/method"
)

// Work counts the time steps of runs, accepted and rejected, and bounds their
// sum. Solvers that share one share its budget. The zero value counts and sets no
// bound, and so does nil, which does not count. Not for two goroutines at a time.
type Work struct {
	Most  int // time steps of all runs together; 0: no bound
	steps int
}

// Steps returns the time steps taken so far; 0 of nil.
//
// Source: none needed.
func (w *Work) Steps() int {
	if w == nil {
		return 0
	}
	return w.steps
}

// step takes one step out of the budget.
func (w *Work) step() error {
	if w == nil {
		return nil
	}
	if w.Most > 0 && w.steps >= w.Most {
		return tooMuch("the simulations together need", w.Most)
	}
	w.steps++
	return nil
}

// tooMuch is the refusal of runs that take more steps than they may.
func tooMuch(what string, most int) error {
	return &method.Error{Code: method.TooMuchWork, Input: "max_steps", Limit: method.AtMost(float64(most), "time steps"),
		Detail: fmt.Sprintf("%s more than %d time steps; ask for a shorter time, fewer parts or fewer readings of the air", what, most)}
}
