package dry

import (
	"errors"
	"slices"
	"strconv"
	"time"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/sorption"
)

// plain judges the billet as it is now, by its readings alone. Without a wood it
// only tells what is wrong with them.
func (req *ReadinessRequest) plain(w *shelf.Wood, result *ReadinessResult, notes *method.Notes) (*moisture.Estimate, quantity.Band[quantity.Moisture], error) {
	target, rh, noTarget := req.target(sorption.Middle, w, notes)
	var noHistory error
	if len(req.Board) > 0 {
		noHistory = wire.Missing("history", "a sample board is of use only with the history of the billet")
	}
	seen, notSeen := req.observe(w, notes)
	err := errors.Join(noTarget, noHistory, notSeen)
	if err != nil || w == nil {
		return nil, target, err
	}
	result.Moisture = seen.describe()
	result.Target = Target{MC: wire.MoistureBandOf(target), RHPct: rh * 100, GapPoints: (seen.Combined.MC.Value - target.Value).Percent()}
	result.Steps, err = req.judge(seen, target, notes)
	result.NextSteps = req.advise(seen, result.Steps, target)
	return seen.Combined, target, err
}

// target is the equilibrium of the build room for this wood.
func (req *ReadinessRequest) target(branch sorption.Branch, w *shelf.Wood, notes *method.Notes) (quantity.Band[quantity.Moisture], float64, error) {
	room, err := req.BuildRoom.State("build_room", notes)
	if err != nil {
		return quantity.Band[quantity.Moisture]{}, 0, err
	}
	target, err := roomTarget(req.BuildRoom, nil, branch, w, notes)
	return target, room.RelativeHumidity, err
}

// observed is all that is known of the billet now.
type observed struct {
	shelf.Readings
	trend *moisture.Trend
}

// observe evaluates readings and weights.
func (req *ReadinessRequest) observe(w *shelf.Wood, notes *method.Notes) (observed, error) {
	var seen observed
	weights, noDates := req.dated()
	list, noWeights := req.withWeights(w)
	read, notRead := shelf.ReadAll(list, w, "readings", notes)
	if err := errors.Join(noDates, noWeights, req.pointAtWeights(notRead)); err != nil || w == nil {
		return seen, err
	}
	if len(list) == 0 {
		return seen, wire.Missing("readings", "nothing is known of the moisture: give readings, or weights with known_mc")
	}
	seen.Readings = read
	if seen.Combined == nil {
		return seen, wire.Missing("readings", "no reading speaks for the whole section; read at a fifth to a quarter of the thickness, weigh, or cut an ovendry sample")
	}
	if len(weights) < 3 {
		return seen, nil
	}
	earlier := max(0, len(weights)-lastWeights)
	last := weights[earlier:]
	trend, err := moisture.TrendOf(last, last[len(last)-1].Mass/quantity.Mass(1+seen.Combined.MC.Value))
	if err != nil {
		renames := [][2]string{{"ovendry_mass", "readings"}}
		for i := range last {
			from, to := "weights/"+strconv.Itoa(i)+"/", "weights/"+strconv.Itoa(earlier+i)+"/"
			renames = append(renames, [2]string{from + "mass", to + "mass"}, [2]string{from + "at_days", to + "date"}, [2]string{from + "mass_resolution", "scale_division"})
		}
		return seen, wire.Under("", err, renames...)
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
	var wrong []error
	var first, previous time.Time
	for i := range req.Weights {
		day, err := shelf.ParseDay("weights/"+strconv.Itoa(i)+"/date", req.Weights[i].Date)
		if err != nil {
			return nil, err
		}
		if i == 0 {
			first = day
		} else if !day.After(previous) {
			wrong = append(wrong, &method.Error{Code: method.OutOfRange, Input: "weights/" + strconv.Itoa(i) + "/date", Limit: "after " + previous.Format(time.DateOnly),
				Detail: "weights must be in order of date, one a day"})
			continue
		}
		previous = day
		all = append(all, moisture.Dated{At: quantity.Duration(day.Sub(first).Seconds()), Weighing: shelf.Weighing(req.Weights[i].Mass, req.Scale)})
	}
	return all, errors.Join(wrong...)
}

// withWeights adds to the readings what the last weight says: from a known
// start if there is one, else from the billet's size.
func (req *ReadinessRequest) withWeights(w *shelf.Wood) ([]shelf.Reading, error) {
	list := append([]shelf.Reading{}, req.Readings...)
	if len(req.Weights) == 0 {
		if req.KnownMC != nil {
			return list, wire.Missing("weights", "known_mc speaks of a day in weights, and there are none")
		}
		return list, nil
	}
	last := req.Weights[len(req.Weights)-1]
	box := req.Billet.ThinEnd == nil && req.Billet.ThinEdge == nil
	known := false
	if w != nil {
		known = w.Value.SpecificGravity.Known
	}
	sized := shelf.Reading{SizeAndWeight: &shelf.SizeAndWeight{Length: req.Billet.Length, Width: req.Billet.Width, Thickness: req.Billet.Thickness, Mass: last.Mass}}
	if req.KnownMC != nil {
		if known && box { // refuses a mass that no piece of this size and wood can have
			if _, err := sized.SizeAndWeight.Estimate(w, &method.Notes{}); isContradiction(err) {
				return list, wire.Under("weights/"+strconv.Itoa(len(req.Weights)-1), err, [2]string{"volume", "mass"})
			}
		}
		for _, weight := range req.Weights {
			if weight.Date == req.KnownMC.Date {
				return append(list, shelf.Reading{RunningWeight: &shelf.RunningWeightReading{
					StartMass: weight.Mass, StartPct: req.KnownMC.MC, StartSDPct: req.KnownMC.SD, Mass: last.Mass, Scale: req.Scale}}), nil
			}
		}
		return list, &method.Error{Code: method.Contradictory, Input: "known_mc/date", Detail: "known_mc names a day on which the billet was not weighed"}
	}
	if known && box {
		list = append(list, sized)
	}
	return list, nil
}

func isContradiction(err error) bool {
	code, is := wire.DomainCode(err)
	return is && code == method.Contradictory
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
	return wire.Under("", err, [2]string{added, "weights"},
		[2]string{weight + "/mass", last + "/mass"}, [2]string{weight + "/start_mass", start}, [2]string{weight + "/start_mc_pct", "known_mc/mc_pct"},
		[2]string{weight + "/scale_division", "scale_division"},
		[2]string{size + "/mass", last + "/mass"}, [2]string{size, "billet"}, [2]string{size + "/specific_gravity", "species"})
}

func (seen *observed) describe() MoistureNow {
	m := MoistureNow{MC: wire.MoistureBandOf(seen.Combined.MC), SDPct: seen.Combined.SD.Percent(), Estimates: []shelf.Estimate{}}
	for i := range seen.All {
		m.Estimates = append(m.Estimates, shelf.DescribeEstimate(seen.All[i], seen.Remarks[i]))
	}
	if seen.Gradient != nil {
		m.Gradient = shelf.DescribeGradient(seen.Gradient)
	}
	if t := seen.trend; t != nil {
		m.Trend = &WeightTrend{
			MassPctPerDay: wire.PercentBandOf(t.MassPerDay),
			MCPctPerDay:   wire.MoistureBandOf(t.MCPerDay), SpanDays: t.Span.Days()}
	}
	return m
}

// judge gives the verdict on every step.
func (req *ReadinessRequest) judge(seen observed, target quantity.Band[quantity.Moisture], notes *method.Notes) ([]StepVerdict, error) {
	state := readiness.State{
		MC:     readiness.Uncertain{Value: float64(seen.Combined.MC.Value), SD: float64(seen.Combined.SD), Known: true},
		Target: readiness.Uncertain{Value: float64(target.Value), SD: float64(target.SD()), Known: true},
	}
	if g := seen.Gradient; g != nil {
		state.Gradient = readiness.Uncertain{Value: float64(g.CoreMinusShell.Value), SD: float64(g.SD), Known: true}
	}
	if t := seen.trend; t != nil {
		state.Rate = readiness.Uncertain{Value: t.MassPerDay.Value, SD: t.MassPerDay.SD(), Known: true}
	}
	verdicts := make([]StepVerdict, 0, len(readiness.Steps()))
	for _, step := range readiness.Steps() {
		verdict, n, err := readiness.Judge(step, req.limits(step), state)
		if err != nil {
			return nil, wire.Under("", err, [2]string{"mc_pct", "readings"}, [2]string{"target_pct", "build_room"})
		}
		notes.Merge(n)
		verdicts = append(verdicts, describeVerdict(&verdict))
	}
	return verdicts, nil
}

// advise says what would make the answer surer, or what to wait for.
func (req *ReadinessRequest) advise(seen observed, steps []StepVerdict, target quantity.Band[quantity.Moisture]) []string {
	next := []string{}
	add := func(words string) {
		if !slices.Contains(next, words) {
			next = append(next, words)
		}
	}
	for _, s := range steps {
		for _, c := range s.Criteria {
			switch {
			case c.Verdict == string(readiness.Ready):
			case c.Name == "level" && c.Verdict == string(readiness.CannotSay):
				add("the moisture content is known to about " + quantity.FormatNumber(seen.Combined.SD.Percent(), 1) +
					" points, which does not settle it: dry a sample from mid-length, 300 mm or more from an end, in the oven")
			case c.Name == "level" && seen.Combined.MC.Value > target.Value:
				add("wait; give the history of the billet for a date")
			case c.Name == "level":
				add("the wood is drier than the build room: let it take up moisture there before the work")
			case c.Name == "gradient" && seen.Gradient == nil:
				add("read at two depths, near the face and at half the thickness, to see whether the core is wetter")
			case c.Name == "gradient" && c.Verdict == string(readiness.CannotSay):
				add("the meter cannot tell shell from core closely enough: split a sample into shell and core and dry both in the oven")
			case c.Name == "gradient":
				add("the core is still wetter than the shell: let it even out where the air is steady")
			case c.Name == "rest" && seen.trend == nil:
				add("weigh the billet on " + strconv.Itoa(max(1, 3-len(req.Weights))) + " more dated occasions, a week or more apart, to see whether its weight is at rest")
			case c.Name == "rest":
				add("weigh on until the weight stays the same")
			}
		}
	}
	return next
}
