package dry

import (
	"math"
	"slices"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
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

// whatToDo is the advice on surface checks of wood outdoors.
var whatToDo = map[drying.Severity][]string{
	drying.RiskLow:      {"nothing special; keep sun and rain off"},
	drying.RiskModerate: {"shade the stack and keep it out of the wind in the first weeks"},
	drying.RiskHigh:     {"slow it down: cover the stack, shade it, use thinner stickers, or stack in a cooler month"},
}

// whatToDoIndoors is the same of wood in a room or a kiln, which no shade slows.
var whatToDoIndoors = map[drying.Severity][]string{
	drying.RiskLow:      {"nothing special; keep it away from heaters"},
	drying.RiskModerate: {"keep it away from heaters and out of moving air in the first weeks"},
	drying.RiskHigh: {"the air there is too dry for wood so wet: keep it where the air is cool, damp and still, such as a shed, until it " +
		"is down to 20 %, or in a kiln begin much damper"},
}

// checks shows a risk of surface checks; nil where it is not known.
func (s *storage) checks(risk *drying.CheckRisk) *SurfaceChecks {
	if risk == nil {
		return nil
	}
	advice := whatToDo
	if !s.placeOn(risk.When).outdoors() {
		advice = whatToDoIndoors
	}
	return &SurfaceChecks{
		Fastest: risk.Fastest.Percent(), Date: s.date(risk.When), Safe: risk.Safe.Percent(),
		Ratio: risk.Ratio, Fast: risk.Fast, Risk: string(risk.Severity), Advice: advice[risk.Severity],
	}
}

// placeOn is where the wood lies at a time.
func (s *storage) placeOn(at quantity.Duration) *place {
	end := quantity.Duration(0)
	for i := range s.phases {
		if end += s.phases[i].Length; at < end {
			return &s.places[i]
		}
	}
	return &s.places[len(s.places)-1]
}

// defects shows harm to be looked out for.
func (s *storage) defects(list []seasoning.Defect) []DryingDefect {
	out := make([]DryingDefect, 0, len(list))
	for i := range list {
		d := &list[i]
		out = append(out, DryingDefect{Kind: string(d.Kind), Date: s.date(d.From), Days: d.Span.Days(), Detail: d.Detail, Advice: d.Advice})
	}
	return out
}

// checksAdvice is what to do about surface checks; empty where there is nothing to do.
func checksAdvice(checks *SurfaceChecks) []string {
	if checks == nil || checks.Risk == string(drying.RiskLow) {
		return nil
	}
	return []string{"surface checks: " + strings.Join(checks.Advice, "; ")}
}

// harmAhead is the advice on harm that is ahead of wood which still is wet.
func harmAhead(checks *SurfaceChecks, defects []seasoning.Defect) []string {
	said := append([]string{}, checksAdvice(checks)...)
	for i := range defects {
		said = append(said, harm(&defects[i]))
	}
	return said
}

// harm is one harm, and what to do about it.
func harm(d *seasoning.Defect) string {
	return string(d.Kind) + ": " + d.Detail + "; " + strings.Join(d.Advice, "; ")
}

// inDanger says in a summary that wood is spoiled as it goes on drying; empty where it is not.
func inDanger(checks *SurfaceChecks, defects []seasoning.Defect) string {
	text := ""
	if checks != nil && checks.Risk == string(drying.RiskHigh) {
		text = "; risk of surface checks: high"
	}
	for _, one := range grave(defects) {
		text += "; " + one
	}
	return text
}

// grave says how the wood may be spoiled as a whole: by rot, and inside, where no face shows it;
// none where not. Mould that can be brushed off and a stain are no more than a season brings, and
// the advice tells them.
func grave(defects []seasoning.Defect) []string {
	said := inside(defects)
	if slices.ContainsFunc(defects, func(d seasoning.Defect) bool { return d.Kind == seasoning.Decay }) {
		said = append([]string{"kept so damp it may rot: let air reach every face"}, said...)
	}
	return said
}

// inside says that the wood may be spoiled inside, where no face shows it; none where not.
func inside(defects []seasoning.Defect) []string {
	var hot, fast, said []string
	for i := range defects {
		switch d := &defects[i]; {
		case d.Kind != seasoning.Honeycomb && d.Kind != seasoning.Collapse:
		case d.Fast:
			fast = append(fast, string(d.Kind))
		default:
			hot = append(hot, string(d.Kind))
		}
	}
	if hot != nil {
		said = append(said, "so hot while it is wet it may "+strings.Join(hot, " and ")+": begin cooler")
	}
	if fast != nil {
		said = append(said, "in air so dry while it is wet it may "+strings.Join(fast, " and ")+": begin in damper air")
	}
	return said
}

// throughEnds is in which share of the time a billet dries that is so short that it dries through its ends
// as well, were they open; false for others.
func throughEnds(b *shelf.Billet) (share float64, short bool) {
	if b.Length == nil || b.Length.SI <= 0 || b.Thickness == nil || b.Thickness.SI <= 0 {
		return 0, false
	}
	return drying.ThroughEnds(b.Thickness.SI, b.Length.SI)
}

// short tells of a piece that is so short that it dries through its ends what was reckoned of them.
func short(b *shelf.Billet, notes *method.Notes) {
	share, is := throughEnds(b)
	if !is {
		return
	}
	slender := "a piece only " + quantity.FormatNumber(float64(b.Length.SI/b.Thickness.SI), 1) + " times as long as thick dries through its end grain too"
	w := method.Warning{Code: method.Assumption, Method: "drying.end-grain", Input: "billet/end_seal"}
	switch drying.EndSeal(b.EndSeal) {
	case drying.BareEnds:
		w.Detail = slender + ": its ends count as bare. The mean is that of the whole, as a scale has it; shell and core are those of the middle of " +
			"its length. Checks from the ends are not reckoned; seal ends of wet wood"
	case drying.SealedFresh, drying.SealedLate:
		w.Detail = slender + ": its ends count as sealed, with a coat that lets a little through. The mean is that of the whole, as a scale has it; " +
			"shell and core are those of the middle of its length"
	default:
		w.Detail = slender + ", which is not counted, because it is not told how its ends are kept: with open ends it is dry sooner than told, in as " +
			"little as " + quantity.FormatNumber(math.Max(math.Round(10*share)*10, 10), 0) + " % of the time, and checks there first. Say end_seal, " +
			"bare or sealed, and it is counted"
	}
	notes.Warn(w)
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
