//go:build !linux

package serve

import "time"

// Where the processor time of a thread is not known, the time that passes stands for it.
func threadTime() time.Duration { return time.Since(started) / detectorSlows }

func otherThreadTime() func() time.Duration { return threadTime }

var started = time.Now()
