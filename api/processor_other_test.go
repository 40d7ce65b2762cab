//go:build !unix

package api

import "time"

var began = time.Now()

// processorTime is the time that has passed, where that of the processor cannot be had.
func processorTime() time.Duration { return time.Since(began) }
