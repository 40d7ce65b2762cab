package dry

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
)

// SurfaceChecks is how the fastest drying stands to what the wood takes.
type SurfaceChecks struct {
	Fastest float64  `json:"fastest_mc_points_per_day" required:"true" description:"the most that the wood loses in three days, a day, in the middle forecast"`
	Date    string   `json:"date" required:"true" format:"date" description:"when that begins"`
	Safe    float64  `json:"safe_mc_points_per_day" required:"true" description:"published for 25 mm stock, scaled to the thickness"`
	Ratio   float64  `json:"ratio" required:"true" description:"of fastest to safe"`
	Fast    float64  `json:"fast_ratio" required:"true" description:"the same of a piece that dries at the fast end of its band; above 1 the risk is moderate at least"`
	Risk    string   `json:"risk" required:"true" enum:"low,moderate,high" description:"of surface checks"`
	Advice  []string `json:"advice" required:"true" nullable:"false" description:"what to do about it"`
}

// EndAdvice is what the ends usually lose, and how far they run ahead.
type EndAdvice struct {
	Trim      wire.Range     `json:"trim" required:"true" description:"length that each end usually loses to checks"`
	Note      string         `json:"note" required:"true" description:"what the trim rests on"`
	Ahead     *wire.Quantity `json:"dry_length,omitempty" description:"with the length of the billet: over this length from each end the wood is at least a point drier than the middle"`
	AheadDays *float64       `json:"dry_until_days,omitempty" description:"days after stacking of which that is said"`
}

// whatToDo is the advice on surface checks.
var whatToDo = map[drying.Severity][]string{
	drying.RiskLow:      {"nothing special; keep sun and rain off"},
	drying.RiskModerate: {"shade the stack and keep it out of the wind in the first weeks"},
	drying.RiskHigh:     {"slow it down: cover the stack, shade it, use thinner stickers, or stack in a cooler month"},
}

// checks shows a risk of surface checks; nil where it is not known.
func (s *storage) checks(risk *drying.CheckRisk) *SurfaceChecks {
	if risk == nil {
		return nil
	}
	return &SurfaceChecks{
		Fastest: risk.Fastest.Percent(), Date: s.date(risk.When), Safe: risk.Safe.Percent(),
		Ratio: risk.Ratio, Fast: risk.Fast, Risk: string(risk.Severity), Advice: whatToDo[risk.Severity],
	}
}

// endsLose shows what ends that were kept so usually lose.
func endsLose(seal string, reach *drying.CheckReach, report wire.Reporter) *EndAdvice {
	e := &EndAdvice{Trim: report.LengthRange(reach.Low, reach.High)}
	switch drying.EndSeal(seal) {
	case drying.SealedFresh:
		e.Note = "sealed while fresh: end checking about 99 % avoided (read); the trim to plan is common practice"
	case drying.SealedLate:
		e.Note = "to the first sticker, plan " + report.RoughSpan(reach.Low, reach.Plan) + " (common practice); " +
			report.Roughly(reach.Squares) +
			" squares sealed late and dried too fast, up to " + report.Roughly(reach.High) + " (read)"
	case drying.BareEnds:
		e.Note = "air-dried, to the first sticker (read for the place, the figure is common practice); oak and " +
			"walnut " + report.Roughly(reach.Inside) +
			" and more where a check runs inside (read)"
	}
	return e
}
