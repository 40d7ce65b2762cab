package dry

import (
	"errors"
	"strconv"
	"time"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// billet is the billet in SI; without a wood, w nil, it has none.
func (req *ReadinessRequest) billet(w *shelf.Wood, notes *method.Notes) (readiness.Billet, error) {
	shape, noShape := req.Billet.Shape()
	_, thickest := shape.Extremes()
	b := readiness.Billet{Width: req.Billet.Width.SI, Thickness: req.Billet.Thickness.SI, Thickest: thickest,
		Length: req.Billet.Length.SI}
	if w != nil {
		b.Wood = w.Value
	}
	var noRings error
	b.RingAngle, noRings = ringAngle(req.Billet, notes)
	if weights := req.weights(theBillet); len(weights) > 0 {
		last := shelf.Weighing(weights[len(weights)-1].Mass, req.Scale)
		b.Weighing = &last
	}
	return b, errors.Join(noShape, noRings)
}

// What is weighed.
const (
	theBillet   = "billet"
	sampleBoard = "sample_board"
)

// A weight, or a moisture content that is stated of a day, with the place it
// stands at in the request.
type (
	weight struct {
		*shelf.WeightReading
		place string
	}
	anchor struct {
		*shelf.StatedReading
		place string
	}
)

func placeOf(i int) string { return "readings/" + strconv.Itoa(i) }

// weights are those of a body, in the order of the request.
func (req *ReadinessRequest) weights(of string) []weight {
	var all []weight
	for i := range req.Readings {
		if w := req.Readings[i].Weight(); w != nil && !req.aside[i] && (w.Of == of || w.Of == "" && of == theBillet) {
			all = append(all, weight{w, placeOf(i)})
		}
	}
	return all
}

// events counts what was done to a body between its weighings.
func (req *ReadinessRequest) events(of string) int {
	n := 0
	for _, w := range req.weights(of) {
		if w.Event != "" {
			n++
		}
	}
	return n
}

// bodiesOf says which body each weight of a body is of, which is now the one with a number:
// what it was before wood was cut off stands after those of now.
func (req *ReadinessRequest) bodiesOf(of string, now int) []int {
	weights, left := req.weights(of), req.events(of)
	next := 1
	if len(req.weights(sampleBoard)) > 0 {
		next = 2
	}
	if of == sampleBoard {
		next += req.events(theBillet)
	}
	list := make([]int, len(weights))
	for i, w := range weights {
		if w.Event != "" {
			left--
			next++
		}
		list[i] = next
		if left == 0 {
			list[i] = now
		}
	}
	return list
}

// earlierBodies are billet and sample board as they were before wood was cut off.
func (req *ReadinessRequest) earlierBodies() []readiness.Body {
	var list []readiness.Body
	for range req.events(theBillet) {
		list = append(list, readiness.Body{Name: "the billet before"})
	}
	for range req.events(sampleBoard) {
		board := readiness.SampleBoard()
		board.Name += " before"
		list = append(list, board)
	}
	return list
}

// anchors are the stated moisture contents that have a date where there are weights: each
// says what the billet held on a day on which it was weighed.
func (req *ReadinessRequest) anchors() []anchor {
	var all []anchor
	if len(req.weights(theBillet)) == 0 {
		return nil
	}
	for i := range req.Readings {
		if s, is := req.Readings[i].Form.(*shelf.StatedReading); is && s.Date != "" {
			all = append(all, anchor{s, placeOf(i)})
		}
	}
	return all
}

// weighed are the weights of the billet, on a scale of days from the first. Dates that
// are out of order are refused; the weights are there all the same.
func (req *ReadinessRequest) weighed(w *shelf.Wood) (readiness.Weighed, error) {
	var out readiness.Weighed
	var wrong []error
	var first, previous time.Time
	weights, anchors := req.weights(theBillet), req.anchors()
	for i, one := range weights {
		member := one.place + "/date"
		day, err := shelf.ParseDay(member, one.Date)
		if i == 0 {
			first = day
		} else if err == nil && !day.After(previous) {
			err = outOfOrder(member, previous.Format(time.DateOnly))
		}
		if err == nil {
			previous = day
		}
		wrong = append(wrong, err)
		out.Weights = append(out.Weights, moisture.Dated{At: quantity.Duration(day.Sub(first).Seconds()),
			Weighing: shelf.Weighing(one.Mass, req.Scale)})
	}
	if len(anchors) > 1 {
		wrong = append(wrong, wire.Contradictory(anchors[1].place+"/date",
			"the moisture content is stated of two days; leave one out, or give the stays of the billet, by which both count"))
	}
	if len(anchors) > 0 {
		out.Known = &readiness.KnownDay{Weight: -1, MC: shelf.KnownMoisture(*anchors[0].MC, anchors[0].SD)}
		for i := range weights {
			if weights[i].Date == anchors[0].Date {
				out.Known.Weight = i
				break
			}
		}
	}
	shape, noShape := req.Billet.Shape()
	if n := len(out.Weights); n > 0 && w != nil && w.Value.SpecificGravity.Known && noShape == nil {
		gravity, _ := w.BasicGravity(&out.BodyNotes)
		out.Body = &moisture.Body{Mass: out.Weights[n-1].Mass, Volume: shape.Volume(), SpecificGravity: gravity,
			VolumetricShrinkage: w.VolumetricShrinkage(&out.BodyNotes), FibreSaturation: w.FibreSaturation()}
	}
	return out, errors.Join(wrong...)
}

// outOfOrder is the error of a weight that is not later than the one before.
func outOfOrder(member, previous string) error {
	return &method.Error{Code: method.OutOfRange, Input: member, Limit: method.AfterDay(previous),
		Detail: "weights must be in order of date, one a day"}
}

// lastWeight is the place of the last weight of the billet.
func (req *ReadinessRequest) lastWeight() string {
	if weights := req.weights(theBillet); len(weights) > 0 {
		return weights[len(weights)-1].place
	}
	return "readings"
}

// ofWeights points errors of what the weights say at the members they were made from.
func (req *ReadinessRequest) ofWeights(err error) error {
	last, start, known := req.lastWeight(), "readings", "readings"
	if anchors := req.anchors(); len(anchors) > 0 {
		known = anchors[0].place
		for _, w := range req.weights(theBillet) {
			if w.Date == anchors[0].Date {
				start = w.place + "/mass"
			}
		}
	}
	names := [][2]string{}
	for i, w := range req.weights(theBillet) {
		names = append(names, [2]string{"weights/" + strconv.Itoa(i) + "/", w.place + "/"})
	}
	return method.Renamed(err, append(names, [][2]string{
		{"mass", last + "/mass"}, {"mass_resolution", "scale_division"},
		{"start_mass", start}, {"start_mass_resolution", "scale_division"},
		{"start_mc_pct", known + "/mc_pct"}, {"known/date", known + "/date"},
		{"volume", "billet"}, {"specific_gravity", "wood/specific_gravity"},
		{"volumetric_shrinkage_pct", "/wood"}, {"fibre_saturation_pct", "/wood"},
	}...)...)
}

// ofSettling points errors of what becomes of the billet at its members.
func (req *ReadinessRequest) ofSettling(err error) error {
	last := req.lastWeight()
	return shelf.MovementError(method.Renamed(err, [][2]string{
		{"weight/mass", last + "/mass"}, {"weight/mass_resolution", "scale_division"},
		{"weight/mc_pct", "readings"}, {"weight/target_mc_pct", "target_condition"}, {"weight/", ""},
		{"from_mc_pct", "readings"}, {"to_mc_pct", "target_condition"},
	}...))
}

// settled shows what becomes of the billet. A direction whose figures the tables lack is
// left out with a warning.
func (req *ReadinessRequest) settled(s *readiness.Settled, result *ReadinessResult, notes *method.Notes) {
	report := wire.ReportIn(req.ReportIn)
	result.Movement = []PartMovement{}
	for i := range s.Moves {
		m := &s.Moves[i]
		if m.Lacking {
			notes.Warn(method.Warning{Code: method.NotComputed, Input: "wood",
				Detail: "the tables lack the shrinkage of " + result.Wood.Common + " that the movement of the billet needs"})
			continue
		}
		notes.Merge(wire.AtMembers(m.Notes, req.ofSettling))
		result.Movement = append(result.Movement, PartMovement{Dimension: m.Dimension, Rings: string(m.Rings),
			Now: report.Cut(m.Size), Change: report.LengthBand(m.Change)})
	}
	if s.Weight == nil {
		return
	}
	notes.Merge(wire.AtMembers(s.Weight.Notes.Below("weight"), req.ofSettling))
	result.WeightAt = &TargetMass{Mass: report.MassBand(s.Weight.Mass), Ovendry: report.Mass(s.Weight.Ovendry)}
}
