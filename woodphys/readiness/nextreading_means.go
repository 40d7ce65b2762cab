package readiness

import (
	"fmt"
	"math"
)

// enoughToMean is how many cases, by their effective number, have to stand behind what a reading
// would mean: one or two at the rim of all are of one kind of wood or another by chance. Own choice:
// from there on what is told agrees with what comes out when the reading is taken.
const enoughToMean = 12

// atEnd writes the weights after a reading at an end of its band. Where too few cases lie there,
// those near it count too.
func (k *knowledge) atEnd(look *prospect, end float64, anew []float64) {
	least, wider := min(enoughToMean, effective(k.weight)/2), *look
	for k.given(&wider, end, anew); effective(anew) < least && wider.sd < mostWidened*look.sd; k.given(&wider, end, anew) {
		wider.sd *= 1.25
	}
}

// mostWidened bounds the search; by then all cases count about alike.
const mostWidened = 1e3

// effective is the effective number of members with weights that need not have the sum 1.
func effective(weight []float64) float64 {
	sum, squares := 0.0, 0.0
	for _, w := range weight {
		sum += w
		squares += w * w
	}
	if !(squares > 0) {
		return 0
	}
	return sum * sum / squares
}

// meaning is the outlook under some weights.
func (k *knowledge) meaning(weight []float64) Meaning {
	k.chances.shares(weight)
	return Meaning{Ready: k.look(weight).probability, Median: k.chances.first(0.5)}
}

// explain puts a meaning into words, against what is expected without the reading.
func (k *knowledge) explain(m *Meaning, where string) {
	usual := k.meaning(k.weight).Median
	days := func(d Date) float64 { return math.Round((d.At - k.from).Days()) }
	change := days(m.Median) - days(usual)
	ready := fmt.Sprintf("probably ready in about %.0f days", days(m.Median))
	switch now := days(m.Median) == 0; {
	case now && m.Ready < readyFrom:
		ready = fmt.Sprintf("perhaps ready now, as %.0f %% of the cases are", 100*m.Ready)
	case now:
		ready = "probably ready now"
	case days(m.Median) == 1:
		ready = "probably ready in about a day"
	}
	switch {
	case !m.Median.Within && !usual.Within:
		m.Detail = where + ": as before, more likely not ready within the forecast than ready"
	case !m.Median.Within:
		m.Detail = where + ": more likely not ready within the forecast than ready; read again before you trust it"
	case !usual.Within:
		m.Detail = where + ": " + ready + " after all"
	case math.Abs(change) <= max(1, 0.1*k.now.spread):
		m.Detail = where + ": the date would hardly change; " + ready
	case change > 0:
		m.Detail = fmt.Sprintf("%s: %s, %.0f days later than now expected", where, ready, change)
	default:
		m.Detail = fmt.Sprintf("%s: %s, %.0f days sooner than now expected", where, ready, -change)
	}
}
