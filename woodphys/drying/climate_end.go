package drying

import "latewood/woodphys/quantity"

// End returns the time since the start of the run after which nothing is known
// of the air: the last row of a log, +Inf for all others.
//
// Accuracy: exact.
//
// Source: the last row of the log.
func (cl *Climate) End() quantity.Duration { return quantity.Duration(cl.end) }
