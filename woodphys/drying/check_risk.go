package drying

import (
	"fmt"
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// safeExponent of thickness: 8/4 stock stands 0.4 of the daily loss of 4/4
// (Wengert, read), which is an exponent of 1.32; 1.3 is used.
const safeExponent = 1.3

// safeThickness is the thickness the published safe losses are for.
const safeThickness = 25 * quantity.Millimetre

var rowRisk = method.Method{
	ID: "drying.check-risk", Chapter: "drying",
	Summary:  "Risk of surface checks from the fastest daily loss",
	Equation: "r = largest loss of three days, a day/(safe loss (25 mm/thickness)^1.3)",
	Inputs: []method.Input{
		{Name: "thickness", Unit: "mm", Fitted: method.Range{Low: 19, High: 60}, Limit: method.Range{Low: 0.5, High: 600}},
		{Name: "safe_daily_loss_pct", Unit: "%", Fitted: method.Range{Low: 2, High: 14}, Limit: method.Range{Low: 0.1, High: 50}},
	},
	Accuracy: "an index, not a probability; days of the seasons, so hours of sun and wind are not in it. Three days, because the loss of the first day is the free water of the very face, which checks nothing (own choice)",
	Source:   "Wengert, articles for the lumber trade (read, oak and the ratio for 8/4); FPL-GTR-118 for other woods; the index is this project's proposal", Checked: method.Memory,
}

// SafeDailyLoss returns the largest loss in a day that stock of a thickness
// (0.5 to 600 mm) stands when 25 mm stock stands safe (0.1 to 50 %MC a day).
//
// Errors: *method.Error with input "thickness" or "safe_daily_loss_pct".
// Accuracy: the thickness rule rests on 4/4 against 8/4 alone.
//
// Source: Wengert (read) for 0.4 at 8/4.
func SafeDailyLoss(safe quantity.Moisture, thickness quantity.Length) (quantity.Moisture, error) {
	if _, err := rowRisk.Check("thickness", thickness.Millimetres()); err != nil {
		return 0, err
	}
	if _, err := rowRisk.Check("safe_daily_loss_pct", safe.Percent()); err != nil {
		return 0, err
	}
	return safe * quantity.Moisture(math.Pow(float64(safeThickness/thickness), safeExponent)), nil
}

// Severity is a class of the risk of surface checks.
type Severity string

// Severities. The limits are common practice, no source.
const (
	RiskLow      Severity = "low"      // below 0.7 of the safe loss
	RiskModerate Severity = "moderate" // up to the safe loss
	RiskHigh     Severity = "high"     // above it
)

func severityOf(ratio float64) Severity {
	switch {
	case ratio > 1:
		return RiskHigh
	case ratio > 0.7:
		return RiskModerate
	}
	return RiskLow
}

// Beside returns the risk with that of the same piece at the fast end of its band: where a
// piece may well be safe and a fast one is not, the risk is moderate.
//
// Accuracy: as SurfaceCheckRisk. Source: own choice.
func (r CheckRisk) Beside(fast CheckRisk) CheckRisk {
	r.Fast = fast.Ratio
	if r.Severity == RiskLow && fast.Severity == RiskHigh {
		r.Severity = RiskModerate
	}
	return r
}

// CheckRisk is the fastest drying of a course against what the wood stands.
type CheckRisk struct {
	Fastest  quantity.Moisture // largest loss of the mean over three days, a day
	When     quantity.Duration // start of those days
	Safe     quantity.Moisture // for this wood and thickness
	Ratio    float64
	Fast     float64 // ratio of a piece at the fast end of its band; 0: not looked at
	Severity Severity
	Notes    method.Notes
}

// riskDays is over how long the loss is looked at.
const riskDays = 3 * quantity.Day

// SurfaceCheckRisk returns the fastest loss of a course over three days, a day, whose times must
// lie at most a day apart, against the safe loss of 25 mm stock of the wood (0.1
// to 50 %MC a day), scaled to the thickness. Wood that starts below 25 %MC has
// passed the time when checks start, and sun and wind may come to it (MindSun); both are for
// the caller to say.
//
// Errors: *method.Error with input "thickness", "safe_daily_loss_pct" or "times".
// Accuracy: an index; see the row.
//
// Source: rows drying.check-risk and drying.slab.
func SurfaceCheckRisk(c Course, thickness quantity.Length, safe quantity.Moisture) (CheckRisk, error) {
	r := CheckRisk{}
	if err := r.Notes.Use(&rowRisk, "thickness", thickness.Millimetres()); err != nil {
		return CheckRisk{}, err
	}
	if err := r.Notes.Use(&rowRisk, "safe_daily_loss_pct", safe.Percent()); err != nil {
		return CheckRisk{}, err
	}
	scaled, err := SafeDailyLoss(safe, thickness)
	if err != nil {
		return CheckRisk{}, err
	}
	if len(c.Times) < 2 || len(c.Mean) != len(c.Times) {
		return CheckRisk{}, &method.Error{Code: method.Missing, Input: "times", Limit: method.AtLeast(2, ""), Detail: "the risk of checks needs a course with a value for each day"}
	}
	r.Safe = scaled
	from := 0
	for i := 1; i < len(c.Times); i++ {
		if gap := c.Times[i] - c.Times[i-1]; gap > quantity.Day*(1+1e-9) {
			return CheckRisk{}, &method.Error{Code: method.OutOfRange, Input: "times", Limit: method.AtMost(1, "d"), Detail: fmt.Sprintf("times must lie at most a day apart; two lie %.3g d apart", gap.Days())}
		}
		for c.Times[i]-c.Times[from+1] >= riskDays*(1-1e-9) {
			from++
		}
		span := max(c.Times[i]-c.Times[from], min(riskDays, c.Times[len(c.Times)-1]-c.Times[0]))
		loss := (c.Mean[from] - c.Mean[i]) * quantity.Moisture(quantity.Day/span)
		if loss > r.Fastest {
			r.Fastest, r.When = loss, c.Times[from]
		}
	}
	r.Ratio = float64(r.Fastest / r.Safe)
	r.Severity = severityOf(r.Ratio)
	return r, nil
}

// MindSun warns of what a course of days leaves out, of wood whose faces sun and wind come to.
//
// Accuracy: a caution. Source: common practice, no source.
func (r *CheckRisk) MindSun() {
	r.Notes.Warn(method.Warning{Code: method.Assumption, Method: rowRisk.ID,
		Detail: "sun and wind on a single afternoon can crack a face that dries safely by the day; shade the stack and slow the air in the first weeks"})
}
