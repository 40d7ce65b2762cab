package serve

import (
	"time"

	"golang.org/x/sys/unix"
)

// threadTime is the processor time of the calling thread so far.
func threadTime() time.Duration { return clockTime(unix.CLOCK_THREAD_CPUTIME_ID) }

// clockOfOther is the kind of clock that tells the processor time of the thread whose
// number stands, inverted, in the bits above (clock_gettime(2); the kernel's
// posix-timers.h calls it CPUCLOCK_PERTHREAD_MASK | CPUCLOCK_SCHED).
const clockOfOther = 6

// otherThreadTime is a function that tells, from any thread, the processor time of the
// one that calls now.
func otherThreadTime() func() time.Duration {
	clock := int32(^unix.Gettid()<<3) | clockOfOther
	return func() time.Duration { return clockTime(clock) }
}

func clockTime(clock int32) time.Duration {
	var at unix.Timespec
	if err := unix.ClockGettime(clock, &at); err != nil {
		return time.Since(started) / detectorSlows
	}
	return time.Duration(at.Nano()) / detectorSlows
}

var started = time.Now()
