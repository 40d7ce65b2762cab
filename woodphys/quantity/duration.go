package quantity

// Duration is a span of time in seconds. Wood dries over years, so a plain
// number of seconds serves better than the nanoseconds of package time.
type Duration float64

// Units of duration.
const (
	Second Duration = 1
	Minute          = 60 * Second
	Hour            = 3600 * Second
	Day             = 86400 * Second
	Week            = 7 * Day
)

// Seconds returns d in seconds.
func (d Duration) Seconds() float64 { return float64(d) }

// Days returns d in days of 86 400 s.
func (d Duration) Days() float64 { return float64(d / Day) }
