package api

import (
	"strconv"
	"time"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/sorption"
)

// ReadinessRequest describes a billet, what was read and weighed on it, and the
// room it will be built in.
type ReadinessRequest struct {
	Species   string        `json:"species,omitempty" validate:"max=100" description:"id or name; or give your own figures as wood"`
	Wood      *OwnWood      `json:"wood,omitempty"`
	Billet    *Billet       `json:"billet" validate:"required"`
	RingAngle *float64      `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"of the rings to the wide face: 90 quartersawn, 0 flatsawn; without it both are shown"`
	BuildRoom *Air          `json:"build_room" validate:"required" description:"air of the room the wood will be worked in; its equilibrium is the target"`
	Readings  []Reading     `json:"readings,omitempty" validate:"max=50,dive" description:"as of now"`
	Weights   []DatedWeight `json:"weights,omitempty" validate:"max=500,dive" description:"of the whole billet, in order of date"`
	Scale     *Mass         `json:"scale_division,omitempty" validate:"omitempty,gt=0,lte=10" description:"smallest step the scale shows"`
	KnownMC   *KnownMC      `json:"known_mc,omitempty" description:"the moisture content on one of the days it was weighed"`
	Limits    []StepLimits  `json:"limits,omitempty" validate:"max=3,dive" description:"in place of the usual ones"`
	Saw       *Saw          `json:"saw,omitempty" description:"with part: what the billet yields"`
	Part      *PlatePart    `json:"part,omitempty"`
	Spoiled   []SpoiledLeaf `json:"spoiled,omitempty" validate:"max=1000,dive"`
	ReportIn  string        `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// DatedWeight is the billet weighed on a day.
type DatedWeight struct {
	Date string `json:"date" validate:"required,datetime=2006-01-02"`
	Mass *Mass  `json:"mass" validate:"required,gt=0,lte=5000"`
}

// KnownMC is a moisture content known on a day of the weights.
type KnownMC struct {
	Date string   `json:"date" validate:"required,datetime=2006-01-02" description:"one of the dates in weights"`
	MC   *float64 `json:"mc_pct" validate:"required,gte=0,lte=250"`
	SD   *float64 `json:"sd_pct,omitempty" validate:"omitempty,gte=0.01,lte=50" default:"3"`
}

// StepLimits replaces the usual limits of one step.
type StepLimits struct {
	Step     string   `json:"step" validate:"required,oneof=resaw thickness glue"`
	Above    *float64 `json:"above_pct,omitempty" validate:"omitempty,gt=0,lte=50" description:"points above the target"`
	Below    *float64 `json:"below_pct,omitempty" validate:"omitempty,gt=0,lte=50" description:"points below the target"`
	Gradient *float64 `json:"gradient_pct,omitempty" validate:"omitempty,gte=0,lte=50" description:"points between core and shell; 0: not asked"`
	Rate     *float64 `json:"rate_pct_per_day,omitempty" validate:"omitempty,gte=0,lte=10" description:"change of weight, percent of the mass per day; 0: not asked"`
}

// ReadinessResult says what the billet is ready for.
type ReadinessResult struct {
	Wood      WoodUsed       `json:"wood" required:"true"`
	Summary   string         `json:"summary" required:"true" description:"the answer in a sentence"`
	Steps     []StepVerdict  `json:"steps" required:"true" nullable:"false" description:"in the order of the work"`
	Moisture  MoistureNow    `json:"moisture" required:"true"`
	Target    Target         `json:"target" required:"true"`
	Movement  []PartMovement `json:"movement" required:"true" nullable:"false" description:"of the billet itself, from now until it has settled in the build room"`
	WeightAt  *TargetMass    `json:"weight_at_target,omitempty" description:"what the billet will weigh when it has settled"`
	Yield     *ResawResult   `json:"yield,omitempty" description:"with saw and part"`
	NextSteps []string       `json:"next" required:"true" nullable:"false" description:"what would make the answer surer"`
}

// StepVerdict is the judgement on one step of the work.
type StepVerdict struct {
	Step        string            `json:"step" required:"true" enum:"resaw,thickness,glue"`
	Verdict     string            `json:"verdict" required:"true" enum:"ready,not_ready,cannot_say"`
	Probability float64           `json:"probability" required:"true" description:"that every criterion with a reading is met"`
	Reason      string            `json:"reason" required:"true"`
	Criteria    []CriterionResult `json:"criteria" required:"true" nullable:"false"`
}

// CriterionResult is one thing a step asks.
type CriterionResult struct {
	Name        string   `json:"name" required:"true" enum:"level,gradient,rest"`
	Verdict     string   `json:"verdict" required:"true" enum:"ready,not_ready,cannot_say"`
	Probability *float64 `json:"probability,omitempty" description:"left out when there is no reading"`
	Detail      string   `json:"detail" required:"true"`
}

// MoistureNow is the moisture content now and where it was learnt.
type MoistureNow struct {
	MC        PercentBand  `json:"mc" required:"true"`
	SDPct     float64      `json:"sd_pct" required:"true"`
	Estimates []Estimate   `json:"estimates" required:"true" nullable:"false"`
	Gradient  *Gradient    `json:"gradient,omitempty"`
	Trend     *WeightTrend `json:"trend,omitempty" description:"over the last five weights"`
}

// WeightTrend is the change of weight.
type WeightTrend struct {
	MassPctPerDay PercentBand `json:"mass_pct_per_day" required:"true" description:"negative is drying"`
	MCPctPerDay   PercentBand `json:"mc_pct_per_day" required:"true"`
	SpanDays      float64     `json:"span_days" required:"true"`
}

// Target is where the wood will settle in the build room.
type Target struct {
	MC        PercentBand `json:"mc" required:"true"`
	RHPct     float64     `json:"rh_pct" required:"true"`
	GapPoints float64     `json:"gap_points" required:"true" description:"moisture content now less the target"`
}

// PartMovement is how a dimension of the billet moves on its way to the target.
type PartMovement struct {
	Dimension string       `json:"dimension" required:"true" enum:"width,thickness"`
	Rings     string       `json:"rings" required:"true" enum:"as_given,if_quartersawn,if_flatsawn"`
	Now       Quantity     `json:"now" required:"true"`
	Change    QuantityBand `json:"change" required:"true"`
}

// TargetMass is a mass with its band.
type TargetMass struct {
	Mass    QuantityBand `json:"mass" required:"true"`
	Ovendry Quantity     `json:"ovendry" required:"true"`
}

func computeReadiness(t *tables, req *ReadinessRequest) (ReadinessResult, method.Notes, error) {
	var notes method.Notes
	report := reportIn(req.ReportIn)
	w, err := t.woodOf(req.Species, req.Wood)
	if err != nil {
		return ReadinessResult{}, notes, err
	}
	if err := req.stepsOnce(); err != nil {
		return ReadinessResult{}, notes, err
	}
	target, rh, err := req.target(w, &notes)
	if err != nil {
		return ReadinessResult{}, notes, err
	}
	seen, err := req.observe(w, &notes)
	if err != nil {
		return ReadinessResult{}, notes, err
	}
	result := ReadinessResult{Wood: w.used("radial", "tangential", "coefficient_radial", "coefficient_tangential", "specific_gravity_green")}
	now := seen.combined
	result.Moisture = seen.describe()
	result.Target = Target{MC: moistureBand(target), RHPct: rh * 100, GapPoints: (now.MC.Value - target.Value).Percent()}
	if result.Steps, err = req.judge(seen, target, &notes); err != nil {
		return ReadinessResult{}, notes, err
	}
	if result.Movement, err = req.billetMovement(w, now.MC, target, report, &notes); err != nil {
		return ReadinessResult{}, notes, err
	}
	if result.WeightAt, err = req.weightAt(now, target, report, &notes); err != nil {
		return ReadinessResult{}, notes, err
	}
	if result.Yield, err = req.yield(w, &notes); err != nil {
		return ReadinessResult{}, notes, err
	}
	result.Summary = summarise(&result)
	result.NextSteps = req.advise(seen)
	w.cautions(&notes)
	return result, notes, nil
}

// target is the equilibrium of the build room for this wood.
func (req *ReadinessRequest) target(w *wood, notes *method.Notes) (quantity.Band[quantity.Moisture], float64, error) {
	room, err := req.BuildRoom.state("build_room")
	if err != nil {
		return quantity.Band[quantity.Moisture]{}, 0, err
	}
	notes.Merge(room.Notes)
	emc, err := sorption.EquilibriumBand(room.DryBulb, room.RelativeHumidity, sorption.Middle, w.LowerEMC)
	if err != nil {
		return quantity.Band[quantity.Moisture]{}, 0, under("build_room", err, [2]string{"temperature", "dry_bulb"})
	}
	notes.Merge(emc.Notes)
	return emc.Moisture, room.RelativeHumidity, nil
}

// observed is all that is known of the billet now.
type observed struct {
	readings
	trend *moisture.Trend
}

// observe evaluates readings and weights.
func (req *ReadinessRequest) observe(w *wood, notes *method.Notes) (observed, error) {
	var seen observed
	weights, err := req.dated()
	if err != nil {
		return seen, err
	}
	list, err := req.withWeights(w)
	if err != nil {
		return seen, err
	}
	if len(list) == 0 {
		return seen, missing("readings", "nothing is known of the moisture: give readings, or weights with known_mc")
	}
	if seen.readings, err = readAll(list, w, "readings", notes); err != nil {
		return seen, req.pointAtWeights(err)
	}
	if seen.combined == nil {
		return seen, missing("readings", "no reading speaks for the whole section; read at a fifth to a quarter of the thickness, weigh, or cut an ovendry sample")
	}
	if len(weights) < 3 {
		return seen, nil
	}
	earlier := max(0, len(weights)-lastWeights)
	last := weights[earlier:]
	trend, err := moisture.TrendOf(last, last[len(last)-1].Mass/quantity.Mass(1+seen.combined.MC.Value))
	if err != nil {
		renames := [][2]string{{"ovendry_mass", "readings"}}
		for i := range last {
			from, to := "weights/"+strconv.Itoa(i)+"/", "weights/"+strconv.Itoa(earlier+i)+"/"
			renames = append(renames, [2]string{from + "mass", to + "mass"}, [2]string{from + "at_days", to + "date"}, [2]string{from + "mass_resolution", "scale_division"})
		}
		return seen, under("", err, renames...)
	}
	notes.Merge(trend.Notes)
	seen.trend = &trend
	return seen, nil
}

// lastWeights is how many weights the trend looks at: drying is not straight
// over a long time. Own choice.
const lastWeights = 5

// dated puts the weights on a scale of days from the first.
func (req *ReadinessRequest) dated() ([]moisture.Dated, error) {
	var all []moisture.Dated
	var first, previous time.Time
	for i := range req.Weights {
		day, err := time.Parse(time.DateOnly, req.Weights[i].Date)
		if err != nil {
			return nil, &method.Error{Code: method.OutOfRange, Input: "weights/" + strconv.Itoa(i) + "/date", Detail: "date must be a date such as 2026-03-01"}
		}
		if i == 0 {
			first = day
		} else if !day.After(previous) {
			return nil, &method.Error{Code: method.OutOfRange, Input: "weights/" + strconv.Itoa(i) + "/date", Limit: "after " + previous.Format(time.DateOnly),
				Detail: "weights must be in order of date, one a day"}
		}
		previous = day
		all = append(all, moisture.Dated{At: quantity.Duration(day.Sub(first).Seconds()), Weighing: weighing(req.Weights[i].Mass, req.Scale)})
	}
	return all, nil
}

// withWeights adds to the readings what the last weight says: from a known
// start if there is one, else from the billet's size.
func (req *ReadinessRequest) withWeights(w *wood) ([]Reading, error) {
	list := append([]Reading{}, req.Readings...)
	if len(req.Weights) == 0 {
		if req.KnownMC != nil {
			return nil, missing("weights", "known_mc speaks of a day in weights, and there are none")
		}
		return list, nil
	}
	last := req.Weights[len(req.Weights)-1]
	if req.KnownMC != nil {
		for _, weight := range req.Weights {
			if weight.Date == req.KnownMC.Date {
				return append(list, Reading{RunningWeight: &RunningWeightReading{
					StartMass: weight.Mass, StartPct: req.KnownMC.MC, StartSDPct: req.KnownMC.SD, Mass: last.Mass, Scale: req.Scale}}), nil
			}
		}
		return nil, &method.Error{Code: method.Contradictory, Input: "known_mc/date", Detail: "known_mc names a day on which the billet was not weighed"}
	}
	box := req.Billet.ThinEnd == nil && req.Billet.ThinEdge == nil
	if _, known := w.gravity.Get(); known && box {
		list = append(list, Reading{SizeAndWeight: &SizeAndWeight{Length: req.Billet.Length, Width: req.Billet.Width, Thickness: req.Billet.Thickness, Mass: last.Mass}})
	}
	return list, nil
}

// pointAtWeights turns errors of the reading that withWeights added, which the
// caller never sent, into errors of the members it was made from.
func (req *ReadinessRequest) pointAtWeights(err error) error {
	if len(req.Weights) == 0 {
		return err
	}
	added := "readings/" + strconv.Itoa(len(req.Readings))
	last, start := "weights/"+strconv.Itoa(len(req.Weights)-1), "weights"
	for i := range req.Weights {
		if req.KnownMC != nil && req.Weights[i].Date == req.KnownMC.Date {
			start = "weights/" + strconv.Itoa(i) + "/mass"
		}
	}
	weight, size := added+"/running_weight", added+"/size_and_weight"
	return under("", err, [2]string{added, "weights"},
		[2]string{weight + "/mass", last + "/mass"}, [2]string{weight + "/start_mass", start}, [2]string{weight + "/start_mc_pct", "known_mc/mc_pct"},
		[2]string{weight + "/scale_division", "scale_division"},
		[2]string{size + "/mass", last + "/mass"}, [2]string{size, "billet"}, [2]string{size + "/specific_gravity", "species"})
}

func (seen *observed) describe() MoistureNow {
	m := MoistureNow{MC: moistureBand(seen.combined.MC), SDPct: seen.combined.SD.Percent(), Estimates: []Estimate{}}
	for i := range seen.all {
		m.Estimates = append(m.Estimates, describeEstimate(seen.all[i], seen.remarks[i]))
	}
	if seen.gradient != nil {
		m.Gradient = describeGradient(seen.gradient)
	}
	if t := seen.trend; t != nil {
		m.Trend = &WeightTrend{
			MassPctPerDay: PercentBand{t.MassPerDay.Value * 100, t.MassPerDay.Low * 100, t.MassPerDay.High * 100},
			MCPctPerDay:   moistureBand(t.MCPerDay), SpanDays: t.Span.Days()}
	}
	return m
}

// judge gives the verdict on every step.
func (req *ReadinessRequest) judge(seen observed, target quantity.Band[quantity.Moisture], notes *method.Notes) ([]StepVerdict, error) {
	state := readiness.State{
		MC:     readiness.Uncertain{Value: float64(seen.combined.MC.Value), SD: float64(seen.combined.SD), Known: true},
		Target: readiness.Uncertain{Value: float64(target.Value), SD: float64(target.SD()), Known: true},
	}
	if g := seen.gradient; g != nil {
		state.Gradient = readiness.Uncertain{Value: float64(g.CoreMinusShell.Value), SD: float64(g.SD), Known: true}
	}
	if t := seen.trend; t != nil {
		state.Rate = readiness.Uncertain{Value: t.MassPerDay.Value, SD: t.MassPerDay.SD(), Known: true}
	}
	verdicts := make([]StepVerdict, 0, len(readiness.Steps()))
	for _, step := range readiness.Steps() {
		verdict, n, err := readiness.Judge(step, req.limits(step), state)
		if err != nil {
			return nil, under("", err, [2]string{"mc_pct", "readings"}, [2]string{"target_pct", "build_room"})
		}
		notes.Merge(n)
		verdicts = append(verdicts, describeVerdict(&verdict))
	}
	return verdicts, nil
}

// stepsOnce refuses two sets of limits for one step: which is meant is not known.
func (req *ReadinessRequest) stepsOnce() error {
	seen := map[string]bool{}
	for i := range req.Limits {
		if seen[req.Limits[i].Step] {
			return contradictory("limits/"+strconv.Itoa(i)+"/step", "the limits of "+req.Limits[i].Step+" are given twice")
		}
		seen[req.Limits[i].Step] = true
	}
	return nil
}

// limits are the usual ones with the caller's in their place.
func (req *ReadinessRequest) limits(step readiness.Step) readiness.Limits {
	limits := readiness.DefaultLimits(step)
	for _, own := range req.Limits {
		if own.Step != string(step) {
			continue
		}
		for _, set := range []struct {
			to   *quantity.Moisture
			from *float64
		}{{&limits.Above, own.Above}, {&limits.Below, own.Below}, {&limits.Gradient, own.Gradient}} {
			if set.from != nil {
				*set.to = fromPercent(*set.from)
			}
		}
		if own.Rate != nil {
			limits.Rate = *own.Rate / 100
		}
	}
	return limits
}

func describeVerdict(v *readiness.Verdict) StepVerdict {
	out := StepVerdict{Step: string(v.Step), Verdict: string(v.Outcome), Probability: v.Probability, Reason: v.Detail, Criteria: []CriterionResult{}}
	for _, c := range v.Criteria {
		one := CriterionResult{Name: c.Name, Verdict: string(c.Outcome), Detail: c.Detail}
		if c.Known {
			one.Probability = &c.Probability
		}
		out.Criteria = append(out.Criteria, one)
	}
	return out
}

// billetMovement is how width and thickness move on the way to the target. A
// direction whose figures the tables lack is left out with a warning.
func (req *ReadinessRequest) billetMovement(w *wood, now, target quantity.Band[quantity.Moisture], report reporter, notes *method.Notes) ([]PartMovement, error) {
	angles := []struct {
		degrees float64
		rings   string
	}{{90, "if_quartersawn"}, {0, "if_flatsawn"}}
	if req.RingAngle != nil {
		angles = angles[:1]
		angles[0].degrees, angles[0].rings = *req.RingAngle, "as_given"
	}
	all := []PartMovement{}
	for _, a := range angles {
		angle := quantity.Angle(a.degrees) * quantity.Degree
		for _, d := range []struct {
			name      string
			size      quantity.Length
			direction movement.Direction
		}{
			{"width", req.Billet.Width.SI, movement.WidthAt(angle, 0)},
			{"thickness", req.Billet.Thickness.SI, movement.ThicknessAt(angle, 0)},
		} {
			m, err := movement.Change(d.size, d.direction, now, target, w.figures)
			if code, is := domainCode(err); is && code == method.Unsupported {
				notes.Warn(method.Warning{Code: method.Unsupported, Input: "species", Detail: "the tables lack the shrinkage of " + w.common + " that the movement of the billet needs"})
				continue
			}
			if err != nil {
				return nil, movementError(err)
			}
			notes.Merge(m.Notes)
			all = append(all, PartMovement{Dimension: d.name, Rings: a.rings, Now: report.Length(d.size), Change: report.LengthBand(m.Change)})
		}
	}
	return all, nil
}

// weightAt is what the billet will weigh when it has settled, if it was weighed.
func (req *ReadinessRequest) weightAt(now *moisture.Estimate, target quantity.Band[quantity.Moisture], report reporter, notes *method.Notes) (*TargetMass, error) {
	if len(req.Weights) == 0 {
		return nil, nil //nolint:nilnil // not weighed, no weight
	}
	last := req.Weights[len(req.Weights)-1]
	at, err := moisture.WeightAt(moisture.Known{Weighing: weighing(last.Mass, req.Scale), MC: quantity.NormalBand(now.MC.Value, now.SD)}, target.Value)
	if err != nil {
		return nil, under("weights/"+strconv.Itoa(len(req.Weights)-1), err,
			[2]string{"mass_resolution", "/scale_division"}, [2]string{"mc_pct", "/readings"}, [2]string{"target_mc_pct", "/build_room"})
	}
	notes.Merge(at.Notes)
	low, high := report.Mass(at.Mass.Low), report.Mass(at.Mass.High)
	mid := report.Mass(at.Mass.Value)
	return &TargetMass{Mass: QuantityBand{mid.Value, low.Value, high.Value, mid.Unit}, Ovendry: report.Mass(at.Ovendry)}, nil
}

// yield answers the question of the saw along with that of the moisture.
func (req *ReadinessRequest) yield(w *wood, notes *method.Notes) (*ResawResult, error) {
	if req.Saw == nil && req.Part == nil {
		return nil, nil //nolint:nilnil // not asked
	}
	if req.Saw == nil {
		return nil, missing("saw", "saw and part go together")
	}
	if req.Part == nil {
		return nil, missing("part", "saw and part go together")
	}
	cut := &ResawRequest{Species: req.Species, Billet: req.Billet, Saw: req.Saw, Part: req.Part, Spoiled: req.Spoiled, ReportIn: req.ReportIn}
	result, err := cut.yield(w, notes)
	notes.Warn(resawCaution)
	return &result, err
}

func summarise(r *ReadinessResult) string {
	text := quantity.FormatNumber(r.Moisture.MC.ValuePct, 1) + " % now, target " + quantity.FormatNumber(r.Target.MC.ValuePct, 1) + " %"
	words := map[string]string{"ready": "ready", "not_ready": "not ready", "cannot_say": "cannot say"}
	for _, s := range r.Steps {
		text += "; " + s.Step + ": " + words[s.Verdict]
	}
	return text
}

// advise says what would make the answer surer.
func (req *ReadinessRequest) advise(seen observed) []string {
	next := []string{}
	if seen.combined.SD > 1.5*quantity.PercentMC {
		next = append(next, "the moisture content is known to about "+quantity.FormatNumber(seen.combined.SD.Percent(), 1)+
			" points only: an ovendry sample from mid-length, 300 mm or more from an end, settles it")
	}
	if seen.gradient == nil {
		next = append(next, "read at two depths, near the face and at half the thickness, to see whether the core is wetter")
	}
	if seen.trend == nil {
		next = append(next, "weigh the billet on "+strconv.Itoa(max(1, 3-len(req.Weights)))+" more dated occasions, a week or more apart, to see whether its weight is at rest")
	}
	return next
}
