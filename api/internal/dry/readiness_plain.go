package dry

import (
	"context"
	"errors"
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

// plain is a billet that is judged by what is known of it now.
type plain struct {
	req      *ReadinessRequest
	question readiness.PlainQuestion
	all      []moisture.Estimate // of each reading, then of the last weight
	remarks  []string            // on the readings
	places   []string            // of the readings
	target   Target              // but for the gap
	// impossible are weights that the billet cannot have; they do not count.
	impossible []readiness.Impossible
}

// readPlain reads a billet of which it is not told where it lies.
func (req *ReadinessRequest) readPlain(w *shelf.Wood, notes *method.Notes) (*plain, error) {
	req, impossible, noWeight := req.possible(w, notes)
	p := &plain{req: req, impossible: impossible, question: readiness.PlainQuestion{Limits: ownLimits(req.Limits)}}
	var noRings error
	p.question.Billet, noRings = req.billet(w, notes)
	if req.cutBetween() || noWeight != nil { // what its weights say is not known then
		return p, errors.Join(noRings, p.rests(w, notes), req.needStays(), noWeight, p.read(w, notes))
	}
	unseen := p.see(w, notes)
	return p, errors.Join(noRings, p.rests(w, notes), req.needStays(), unseen)
}

// possible is the request without the weights that the billet cannot have.
func (req *ReadinessRequest) possible(w *shelf.Wood, notes *method.Notes) (*ReadinessRequest, []readiness.Impossible, error) {
	shape, noShape := req.Billet.Shape()
	if w == nil || !w.Value.SpecificGravity.Known || noShape != nil || req.cutBetween() {
		return req, nil, nil //nolint:nilerr // which is told elsewhere
	}
	var weights []readiness.Scaled
	for i := range req.Readings {
		if one := req.Readings[i].Weight(); one != nil && (one.Of == theBillet || one.Of == "") {
			weights = append(weights, readiness.Scaled{Index: i, Mass: one.Mass.SI, Unit: one.Mass.Unit})
		}
	}
	out, err := readiness.ImpossibleOf(weights, shape.Volume(), &w.Value, notes)
	if out == nil {
		return req, nil, method.Renamed(err, [2]string{"weights/", "readings/"}, [2]string{"volume", "billet"})
	}
	left := *req
	left.aside = map[int]bool{}
	for i := range out {
		left.aside[out[i].Index] = true
	}
	return &left, out, nil
}

// rests says where the wood comes to rest: wood that is still green on the drying side, as where
// its stays are told; of other wood it is not known what it was before.
func (p *plain) rests(w *shelf.Wood, notes *method.Notes) error {
	var from *seasoning.Start
	if now := p.question.Seen.MC.MC.Value; now >= seasoning.DriedBefore {
		from = &seasoning.Start{MC: now}
	}
	room, at, err := rest(p.req.Target, from, w)
	notes.Merge(at.Notes)
	p.question.Target, p.target = at.Moisture, targetOf(&room, &at)
	return err
}

// cutBetween reports an event between the weights of the billet.
func (req *ReadinessRequest) cutBetween() bool {
	return slices.ContainsFunc(req.weights(theBillet), func(w weight) bool { return w.Event != "" })
}

// needStays refuses what is of use only with stays, all of it in one error: they lack the same
// member.
func (req *ReadinessRequest) needStays() error {
	if req.cutBetween() {
		return wire.Missing("stays", "an event between weights is of use only with the stays of the billet; without "+
			"them give the weights since")
	}
	var of []string
	if len(req.weights(sampleBoard)) > 0 {
		of = append(of, "a sample board")
	}
	if req.AsOf != "" {
		of = append(of, "as_of")
	}
	if req.Horizon != nil {
		of = append(of, "horizon_days")
	}
	if of == nil {
		return nil
	}
	goes := " goes with stays, where the billet has lain and will lie"
	if last := len(of) - 1; last > 0 {
		of, goes = []string{strings.Join(of[:last], ", ") + " and " + of[last]}, strings.Replace(goes, "goes", "go", 1)
	}
	return wire.Missing("stays", of[0]+goes)
}

// see evaluates readings and weights.
func (p *plain) see(w *shelf.Wood, notes *method.Notes) error {
	weighed, noDates := p.req.weighed(w)
	noWeights := weighed.Check()
	notRead := p.read(w, notes)
	if noWeights == nil {
		last, said, notSaid := weighed.Last()
		if said && notSaid == nil {
			last.Notes = wire.FromTop(wire.AtMembers(last.Notes, p.req.ofWeights))
			notes.Merge(last.Notes)
			p.all = append(p.all, last)
		}
		notRead = errors.Join(notRead, p.req.ofWeights(notSaid))
	}
	var together moisture.Gathered
	if notRead == nil {
		together, notRead = moisture.GatherWhole(p.all)
		notRead = p.ofReadings(notRead)
	}
	if err := errors.Join(noDates, p.req.ofWeights(noWeights), notRead); err != nil || w == nil {
		return err
	}
	if len(p.all) == 0 {
		return wire.Missing("readings", "nothing is known of the moisture: give a reading, or weights and what the billet held when one was taken, as stated")
	}
	var err error
	p.question.Seen, err = readiness.See(together, weighed.Weights)
	return p.ofReadings(err)
}

// read evaluates the readings.
func (p *plain) read(w *shelf.Wood, notes *method.Notes) error {
	var wrong []error
	anchored := map[string]bool{}
	for _, a := range p.req.anchors() {
		anchored[a.place] = true
	}
	for i := range p.req.Readings {
		if test := p.req.Readings[i].Prongs(); test != nil {
			wrong = append(wrong, prongs(test, placeOf(i), notes))
			continue
		}
		if p.req.Readings[i].Weight() != nil || anchored[placeOf(i)] {
			continue
		}
		estimate, remark, err := p.req.Readings[i].Estimate(w, p.req.Billet.Thickness)
		if err != nil {
			wrong = append(wrong, wire.Under(placeOf(i), err))
			continue
		}
		estimate.Notes = wire.FromTop(estimate.Notes.Below(placeOf(i)))
		notes.Merge(estimate.Notes)
		p.all, p.remarks, p.places = append(p.all, estimate), append(p.remarks, remark), append(p.places, placeOf(i))
	}
	return errors.Join(wrong...)
}

// ofReadings points errors of readings and weights at the members they were made from.
func (p *plain) ofReadings(err error) error {
	last, weight := "estimates/"+strconv.Itoa(len(p.places)), p.req.lastWeight() // what the weights say
	names := [][2]string{{last, weight}, {last + "/", weight + "/"}, {"estimates", "readings"}, {"ovendry_mass", "readings"}}
	for i, place := range p.places {
		of := "estimates/" + strconv.Itoa(i)
		names = append(names, [2]string{of, place}, [2]string{of + "/", place + "/"})
	}
	for i, w := range p.req.weights(theBillet) {
		of := "weights/" + strconv.Itoa(i)
		names = append(names, [2]string{of + "/at_days", w.place + "/date"}, [2]string{of + "/mass_resolution", "scale_division"},
			[2]string{of, w.place}, [2]string{of + "/", w.place + "/"})
	}
	return method.Renamed(err, names...)
}

func (p *plain) answer(_ context.Context, result *ReadinessResult, notes *method.Notes) error {
	notes.Merge(wire.AtMembers(p.question.Seen.Notes, p.ofReadings))
	a, err := readiness.JudgePlain(&p.question)
	if err != nil {
		return p.judged(err)
	}
	notes.Merge(wire.AtMembers(a.Notes, p.judged))
	p.describe(&result.Moisture)
	result.Target = p.target.from(p.question.Seen.MC.MC.Value)
	for i := range a.Verdicts {
		result.Verdicts = append(result.Verdicts, describeVerdict(&a.Verdicts[i]))
	}
	report := wire.ReportIn(p.req.ReportIn)
	for i := range p.impossible {
		at := p.impossible[i].Index
		weight := p.req.Readings[at].Weight()
		aside := cannotBe(&p.impossible[i], "/"+placeOf(at), weight.Date, weight.Mass.Unit, report)
		notes.Warn(aside.warned())
		result.Rejected = append(result.Rejected, aside)
	}
	result.Advice = wanted(a.Wants, report)
	p.req.settled(&a.Settled, result, notes)
	if wedge := p.req.Billet.Wedge(); wedge != "" {
		notes.Warn(method.Warning{Code: method.Assumption, Input: wedge, Detail: "readings and weights are judged as of the whole wedge, " +
			"by the volume of its shape; its thick side is the last to be dry: read it there, or give the stays of the billet"})
	}
	if weights := p.req.weights(theBillet); result.WeightAt != nil && len(weights) > 0 {
		notes.Warn(method.Warning{Code: method.Assumption, Input: p.req.lastWeight(),
			Detail: "mass_at_target takes the last weight as one of the day of the other readings; weigh the billet again where it is older"})
	}
	return nil
}

// judged points at what the judgement rests on.
func (p *plain) judged(err error) error {
	return p.req.ofSettling(method.Renamed(err, [2]string{"mc_pct", "readings"}, [2]string{"target_pct", "target_condition"}))
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
		m.Trend = &WeightTrend{Mass: wire.PercentADay(t.MassPerDay),
			MC: wire.PointsADay(t.MCPerDay), SpanDays: t.Span.Days()}
	}
}
