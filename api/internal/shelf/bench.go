package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// Bench is what billets, saws and parts are read with: the tables, and where is noted
// what stood in for what was not given.
type Bench struct {
	Tables *Tables
	Usual  *StandIns
	Notes  *method.Notes
}

// NewBench is a bench on which nothing was noted yet.
func NewBench(t *Tables, report wire.Reporter, notes *method.Notes) *Bench {
	return &Bench{Tables: t, Usual: &StandIns{Report: report}, Notes: notes}
}
