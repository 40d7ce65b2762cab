package readiness

import (
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// Of the trend of the weights: from how many on there is one, and how many of the last
// it looks at, because drying is not straight over a long time. Own choice.
const (
	trendFrom   = 3
	lastWeights = 5
)

// Seen is what is known of a piece now, whatever its history.
type Seen struct {
	MC       moisture.Estimate
	Gradient *moisture.Gradient // nil without readings at two depths
	Trend    *moisture.Trend    // of the last weights; nil where there are fewer than three
	Weights  int                // there are
	Notes    method.Notes
}

// See returns what is known of a piece from what its readings say together and from
// its weights, in order of time.
//
// Errors: missing for "estimates" when none speaks for the whole section; those of
// moisture.TrendOf, its weights counted in the list given.
// Accuracy: that of the estimate and of moisture.TrendOf.
//
// Source: rows mc.combine and mc.trend.
func See(read moisture.Gathered, weights []moisture.Dated) (Seen, error) {
	if read.Mean == nil {
		return Seen{}, &method.Error{Code: method.Missing, Input: "estimates",
			Detail: "no reading speaks for the whole section; read at a fifth to a quarter of the thickness, weigh, or " +
				"cut an ovendry sample"}
	}
	s := Seen{MC: *read.Mean, Gradient: read.Gradient, Weights: len(weights)}
	s.Notes.Merge(read.Notes)
	if len(weights) < trendFrom {
		return s, nil
	}
	earlier := max(0, len(weights)-lastWeights)
	last := weights[earlier:]
	trend, err := moisture.TrendOf(last, last[len(last)-1].Mass/quantity.Mass(1+s.MC.MC.Value))
	var names [][2]string
	for i := range last {
		names = append(names, [2]string{"weights/" + strconv.Itoa(i) + "/", "weights/" + strconv.Itoa(earlier+i) + "/"})
	}
	if err != nil {
		return Seen{}, method.Renamed(err, names...)
	}
	s.Notes.Merge(trend.Notes.Renamed(names...))
	s.Trend = &trend
	return s, nil
}
