package readiness

import (
	"math"
)

// Undated is why there is no day to plan by; empty where there is one.
type Undated string

// Reasons for no day.
const (
	UndatedNever   Undated = "never"      // hardly any case is ready on any day where it lies
	UndatedPassing Undated = "in_passing" // some or most are for a time, as in a dry season, and no longer after it
	UndatedUnsure  Undated = "not_known"  // the level is known so badly that it may lie on either side of a limit
	UndatedLater   Undated = "later"      // more and more are, and not half of them by the horizon
)

const (
	// none is the share of cases below which none are spoken of, and few that below which a step
	// is hardly ready on any day. Own choice.
	none, few = 0.05, 0.2
	// mostly is the share of the most cases ready below which there are few of them, before they
	// come to be and after they no longer are. Own choice.
	mostly = 0.5
)

// Undated returns why there is no day.
//
// Accuracy: that of ReadyDate. Source: own choice.
func (d *ReadyDate) Undated() Undated {
	switch {
	case d.Median.Within:
		return ""
	case d.Perhaps:
		return UndatedUnsure
	}
	return undated(d.Never, &d.Likeliest)
}

// Undated returns why there is no day.
//
// Accuracy: that of Reaches. Source: own choice.
func (r *Reached) Undated() Undated {
	if !math.IsInf(float64(r.Middle), 1) {
		return ""
	}
	return undated(r.Never, &r.Likeliest)
}

func undated(never float64, l *Likeliest) Undated {
	switch {
	case l.Share < none:
		return UndatedNever
	case l.After < mostly*l.Share:
		return UndatedPassing
	case l.Open && l.Before < mostly*l.Share:
		return UndatedLater
	case l.Share < few, never >= mostlyNever:
		return UndatedNever
	}
	return UndatedUnsure
}
