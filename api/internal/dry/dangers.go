package dry

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
)

// SurfaceChecks is how the fastest drying stands to what the wood takes.
type SurfaceChecks struct {
	FastestPctPerDay float64 `json:"fastest_pct_per_day" required:"true"`
	Date             string  `json:"date" required:"true" description:"when that is"`
	SafePctPerDay    float64 `json:"safe_pct_per_day" required:"true" description:"published for 25 mm stock, scaled to the thickness"`
	Ratio            float64 `json:"ratio" required:"true"`
	Risk             string  `json:"risk" required:"true" enum:"low,moderate,high"`
	WhatToDo         string  `json:"what_to_do" required:"true"`
}

// EndAdvice is what the ends usually lose, and how far they run ahead.
type EndAdvice struct {
	TrimLow   wire.Quantity  `json:"trim_low" required:"true" description:"length each end usually loses to checks"`
	TrimHigh  wire.Quantity  `json:"trim_high" required:"true"`
	Remark    string         `json:"remark" required:"true"`
	Ahead     *wire.Quantity `json:"ahead,omitempty" description:"with length: over this length from each end the wood is at least a point drier than the middle"`
	AheadDays *float64       `json:"ahead_after_days,omitempty" description:"for how long after stacking that is said"`
}

// whatToDo is the advice on surface checks.
var whatToDo = map[drying.Severity]string{
	drying.RiskLow:      "nothing special; keep sun and rain off",
	drying.RiskModerate: "shade the stack and keep it out of the wind in the first weeks",
	drying.RiskHigh:     "slow it down: cover the stack, shade it, use thinner stickers, or stack in a cooler month",
}

// checks shows a risk of surface checks; nil where it is not known.
func (s *storage) checks(risk *drying.CheckRisk) *SurfaceChecks {
	if risk == nil {
		return nil
	}
	return &SurfaceChecks{
		FastestPctPerDay: risk.Fastest.Percent(), Date: s.date(risk.When), SafePctPerDay: risk.Safe.Percent(),
		Ratio: risk.Ratio, Risk: string(risk.Severity), WhatToDo: whatToDo[risk.Severity],
	}
}

// endsLose shows what ends that were kept so usually lose.
func endsLose(seal string, reach *drying.CheckReach, report wire.Reporter) *EndAdvice {
	e := &EndAdvice{TrimLow: report.Length(reach.Low), TrimHigh: report.Length(reach.High)}
	switch drying.EndSeal(seal) {
	case drying.SealedFresh:
		e.Remark = "sealed while fresh: end checking about 99 % avoided (read); the trim to plan is common practice"
	case drying.SealedLate:
		e.Remark = "to the first sticker, plan " + report.RoughSpan(reach.Low, reach.Plan) + " (common practice); " +
			report.Roughly(reach.Squares) +
			" squares sealed late and dried too fast, up to " + report.Roughly(reach.High) + " (read)"
	case drying.BareEnds:
		e.Remark = "air-dried, to the first sticker (read for the place, the figure is common practice); oak and " +
			"walnut " + report.Roughly(reach.Inside) +
			" and more where a check runs inside (read)"
	}
	return e
}
