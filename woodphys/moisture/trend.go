package moisture

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// mostWeights bounds the work of a trend.
const mostWeights = 10000

var trendRow = method.Method{
	ID: "mc.weight-trend", Chapter: "moisture",
	Summary:  "Rate of weight change from three or more dated weights, with its uncertainty",
	Equation: "least squares slope b = sum((t - t')(W - W'))/sum((t - t')^2); band b +/- t(0.95, n-2) s_b",
	Inputs: []method.Input{
		{Name: "mass", Unit: "g", Fitted: massRange, Limit: massRange},
		{Name: "mass_resolution", Unit: "g", Fitted: resolutionRange, Limit: resolutionRange},
		{Name: "at_days", Unit: "days", Fitted: method.Range{Low: 0, High: 3650}, Limit: method.Range{Low: 0, High: 36500}},
		{Name: "ovendry_mass", Unit: "g", Fitted: massRange, Limit: massRange},
	},
	Accuracy: "Student's t band of the slope, and never narrower than the scale's division allows",
	Source:   "ordinary least squares; textbook statistics",
	Checked:  method.Derived,
}

// Dated is a weight and when it was taken, counted from the first (0).
type Dated struct {
	At quantity.Duration // 0 to 36 500 days
	Weighing
}

// Trend is the rate at which the weight of a piece changes. Negative is drying.
type Trend struct {
	MassPerDay quantity.Band[float64]           // share of the mean mass per day
	MCPerDay   quantity.Band[quantity.Moisture] // per day; only with MCKnown
	MCKnown    bool                             // an ovendry mass was given
	Span       quantity.Duration                // first to last weighing
	Residual   quantity.Mass                    // standard deviation about the line
	Notes      method.Notes
}

// TrendOf returns the rate of change over the weights, in order of time, at
// least three, fitted by a straight line; give the last few, because drying is
// not straight over a long time. ovendry is the piece's ovendry mass, or 0 when
// it is not known and only the rate in mass is wanted.
//
// Errors: missing for fewer than 3 weights; too_much_work above 10 000;
// out_of_range for weights/i/mass, weights/i/mass_resolution, weights/i/at_days
// (also when not later than the one before) and ovendry_mass.
// Accuracy: see the row.
// Source: least squares, derived.
func TrendOf(weights []Dated, ovendry quantity.Mass) (Trend, error) {
	var t Trend
	switch n := len(weights); {
	case n < 3:
		return Trend{}, &method.Error{Code: method.Missing, Input: "weights", Limit: method.AtLeast(3, ""), Detail: fmt.Sprintf("a trend needs at least 3 dated weights; got %d", n)}
	case n > mostWeights:
		return Trend{}, &method.Error{Code: method.TooMuchWork, Input: "weights", Limit: method.AtMost(10000, ""), Detail: "more than 10 000 weights"}
	}
	scale := 0.0 // variance of one reading from the scale, kg2, mean over the weights
	for i := range weights {
		if err := t.admit(weights, i); err != nil {
			return Trend{}, err
		}
		d := float64(weights[i].division())
		scale += d * d / 12 / float64(len(weights))
	}
	if ovendry != 0 {
		if err := t.Notes.Use(&trendRow, "ovendry_mass", ovendry.Grams()); err != nil {
			return Trend{}, err
		}
	}
	mean, slope, residual, spread := line(weights)
	t.Residual = quantity.Mass(math.Sqrt(residual))
	t.Span = weights[len(weights)-1].At - weights[0].At
	half := math.Max(studentT95(len(weights)-2)*math.Sqrt(residual/spread), quantity.Z90*math.Sqrt(scale/spread))
	band := func(per float64) (value, low, high float64) {
		return slope / per, (slope - half) / per, (slope + half) / per
	}
	t.MassPerDay.Value, t.MassPerDay.Low, t.MassPerDay.High = band(mean)
	if ovendry != 0 {
		v, l, h := band(float64(ovendry))
		t.MCPerDay = quantity.Band[quantity.Moisture]{Value: quantity.Moisture(v), Low: quantity.Moisture(l), High: quantity.Moisture(h)}
		t.MCKnown = true
	}
	return t, nil
}

// admit checks weight i.
func (t *Trend) admit(weights []Dated, i int) error {
	first := len(t.Notes.Warnings)
	if _, err := weights[i].relativeSD(&t.Notes, &trendRow, "mass"); err != nil {
		return method.Below(err, fmt.Sprintf("weights/%d", i))
	}
	days := weights[i].At.Days()
	if err := t.Notes.Use(&trendRow, "at_days", days); err != nil {
		return method.Below(err, fmt.Sprintf("weights/%d", i))
	}
	if first < len(t.Notes.Warnings) {
		t.Notes.Place(first, fmt.Sprintf("weights/%d", i))
	}
	if i > 0 && weights[i].At <= weights[i-1].At {
		return &method.Error{
			Code: method.OutOfRange, Input: fmt.Sprintf("weights/%d/at_days", i),
			Limit:  method.MoreThan(weights[i-1].At.Days(), "days"),
			Detail: "weights must be in order of time, each later than the one before",
		}
	}
	return nil
}

// line fits a straight line: mean mass in kg, slope in kg/day, residual
// variance in kg2 with n-2 degrees of freedom, and sum((t-t')^2) in day2.
func line(weights []Dated) (mean, slope, residual, spread float64) {
	n := float64(len(weights))
	middle := 0.0
	for i := range weights {
		middle += weights[i].At.Days() / n
		mean += float64(weights[i].Mass) / n
	}
	cross := 0.0
	for i := range weights {
		dt := weights[i].At.Days() - middle
		cross += dt * (float64(weights[i].Mass) - mean)
		spread += dt * dt
	}
	slope = cross / spread
	for i := range weights {
		d := float64(weights[i].Mass) - mean - slope*(weights[i].At.Days()-middle)
		residual += d * d / (n - 2)
	}
	return mean, slope, residual, spread
}
