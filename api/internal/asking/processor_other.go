//go:build !unix

package asking

import "time"

var began = time.Now()

// ProcessorTime is the time that has passed, where that of the processor cannot be had.
func ProcessorTime() time.Duration { return time.Since(began) }
