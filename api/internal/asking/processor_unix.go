//go:build unix

package asking

import (
	"syscall"
	"time"
)

// ProcessorTime is what this process has used of the processors so far.
func ProcessorTime() time.Duration {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		panic(err) // there is no such failure for the process itself
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
