package dry

import (
	"context"
	"errors"
	"slices"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// plain is a billet that is judged by what is known of it now.
type plain struct {
	req      *ReadinessRequest
	question readiness.PlainQuestion
	all      []moisture.Estimate // of each reading, then of the last weight
	remarks  []string            // on the readings
	rh       float64             // of the build room
}

// readPlain reads a billet without a history.
func (req *ReadinessRequest) readPlain(w *shelf.Wood, notes *method.Notes) (*plain, error) {
	p := &plain{req: req, question: readiness.PlainQuestion{Billet: req.billet(w), Limits: ownLimits(req.Limits)}}
	room, at, noTarget := rest(req.BuildRoom, nil, w)
	notes.Merge(at.Notes)
	p.question.Target, p.rh = at.Moisture, room.RelativeHumidity
	var noHistory error
	if len(req.Board) > 0 {
		noHistory = wire.Missing("history", "a sample board is of use only with the history of the billet")
	}
	return p, errors.Join(noTarget, noHistory, p.see(w, notes))
}

// see evaluates readings and weights.
func (p *plain) see(w *shelf.Wood, notes *method.Notes) error {
	weighed, noDates := p.req.weighed(w)
	noWeights := weighed.Check()
	notRead := p.read(w, notes)
	if noWeights == nil {
		last, said, notSaid := weighed.Last()
		if said && notSaid == nil {
			notes.Merge(last.Notes)
			p.all = append(p.all, last)
		}
		notRead = errors.Join(notRead, p.req.ofWeights(notSaid))
	}
	var together moisture.Gathered
	if notRead == nil {
		together, notRead = moisture.Gather(p.all)
		notRead = p.ofReadings(notRead)
	}
	if err := errors.Join(noDates, p.req.ofWeights(noWeights), notRead); err != nil || w == nil {
		return err
	}
	if len(p.all) == 0 {
		return wire.Missing("readings", "nothing is known of the moisture: give readings, or weights with known_mc")
	}
	var err error
	p.question.Seen, err = readiness.See(together, weighed.Weights)
	return p.ofReadings(err)
}

// read evaluates the readings.
func (p *plain) read(w *shelf.Wood, notes *method.Notes) error {
	var wrong []error
	for i := range p.req.Readings {
		estimate, remark, err := p.req.Readings[i].Estimate(w, notes)
		if err != nil {
			wrong = append(wrong, wire.Under("readings/"+strconv.Itoa(i), err))
			continue
		}
		notes.Merge(estimate.Notes)
		p.all, p.remarks = append(p.all, estimate), append(p.remarks, remark)
	}
	return errors.Join(wrong...)
}

// ofReadings points errors of readings and weights at the members they were made from.
func (p *plain) ofReadings(err error) error {
	last := "estimates/" + strconv.Itoa(len(p.req.Readings)) // what the weights say
	names := [][2]string{{last, "weights"}, {last + "/", "weights/"}, {"estimates/", "readings/"},
		{"estimates", "readings"}, {"ovendry_mass", "readings"}}
	for i := range p.req.Weights {
		of := "weights/" + strconv.Itoa(i) + "/"
		names = append(names, [2]string{of + "at_days", of + "date"}, [2]string{of + "mass_resolution", "scale_division"})
	}
	return method.Renamed(err, names...)
}

func (p *plain) answer(_ context.Context, result *ReadinessResult, notes *method.Notes) error {
	notes.Merge(p.question.Seen.Notes)
	a, err := readiness.JudgePlain(&p.question)
	if err != nil {
		return p.req.ofSettling(method.Renamed(err, [2]string{"mc_pct", "readings"}, [2]string{"target_pct", "build_room"}))
	}
	notes.Merge(a.Notes)
	p.describe(&result.Moisture)
	target := p.question.Target
	result.Target = Target{MC: wire.MoistureBandOf(target), RHPct: p.rh * 100,
		GapPoints: (p.question.Seen.MC.MC.Value - target.Value).Percent()}
	for i := range a.Verdicts {
		result.Steps = append(result.Steps, describeVerdict(&a.Verdicts[i]))
	}
	result.NextSteps = p.next(a.Wants)
	p.req.settled(&a.Settled, result, notes)
	return nil
}

// describe shows what is known of the moisture.
func (p *plain) describe(m *MoistureNow) {
	seen := &p.question.Seen
	*m = MoistureNow{MC: wire.MoistureBandOf(seen.MC.MC), SDPct: seen.MC.SD.Percent(), Estimates: []shelf.Estimate{}}
	for i := range p.all {
		remark := ""
		if i < len(p.remarks) {
			remark = p.remarks[i]
		}
		m.Estimates = append(m.Estimates, shelf.DescribeEstimate(p.all[i], remark))
	}
	if seen.Gradient != nil {
		m.Gradient = shelf.DescribeGradient(seen.Gradient)
	}
	if t := seen.Trend; t != nil {
		m.Trend = &WeightTrend{MassPctPerDay: wire.PercentBandOf(t.MassPerDay),
			MCPctPerDay: wire.MoistureBandOf(t.MCPerDay), SpanDays: t.Span.Days()}
	}
}

// next says what would make the answer surer, or what to wait for.
func (p *plain) next(wants []readiness.Want) []string {
	report := wire.ReportIn(p.req.ReportIn)
	said := []string{}
	for _, want := range wants {
		words := map[readiness.WantKind]string{
			readiness.WantSample: "the moisture content is known to about " + quantity.FormatNumber(want.SD.Percent(), 1) +
				" points, which does not settle it: dry a sample from mid-length, " + report.Roughly(want.FromEnd) +
				" or more from an end, in the oven",
			readiness.WantTime:     "wait; give the history of the billet for a date",
			readiness.WantMoisture: "the wood is drier than the build room: let it take up moisture there before the work",
			readiness.WantTwoDepths: "read at two depths, near the face and at half the thickness, to see whether the " +
				"core is wetter",
			readiness.WantSplitSample: "the meter cannot tell shell from core closely enough: split a sample into shell " +
				"and core and dry both in the oven",
			readiness.WantEven: "the core is still wetter than the shell: let it even out where the air is steady",
			readiness.WantWeights: "weigh the billet on " + strconv.Itoa(want.More) +
				" more dated occasions, a week or more apart, to see whether its weight is at rest",
			readiness.WantMoreWeighing: "weigh on until the weight stays the same",
		}[want.Kind]
		if !slices.Contains(said, words) {
			said = append(said, words)
		}
	}
	return said
}
