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
func (req *ReadinessRequest) billet(w *shelf.Wood) readiness.Billet {
	b := readiness.Billet{Width: req.Billet.Width.SI, Thickness: req.Billet.Thickness.SI}
	if w != nil {
		b.Wood = w.Value
	}
	if req.RingAngle != nil {
		angle := quantity.Angle(*req.RingAngle) * quantity.Degree
		b.RingAngle = &angle
	}
	if n := len(req.Weights); n > 0 {
		last := shelf.Weighing(req.Weights[n-1].Mass, req.Scale)
		b.Weighing = &last
	}
	return b
}

// isBox reports whether length, width and thickness are all that there is to the size.
func (req *ReadinessRequest) isBox() bool {
	return req.Billet.Box()
}

func (req *ReadinessRequest) volume() quantity.Volume {
	return quantity.Volume(req.Billet.Length.SI * req.Billet.Width.SI * req.Billet.Thickness.SI)
}

// weighed are the weights of the billet, on a scale of days from the first. Dates that
// are out of order are refused; the weights are there all the same.
func (req *ReadinessRequest) weighed(w *shelf.Wood) (readiness.Weighed, error) {
	var out readiness.Weighed
	var wrong []error
	var first, previous time.Time
	for i := range req.Weights {
		member := "weights/" + strconv.Itoa(i) + "/date"
		day, err := shelf.ParseDay(member, req.Weights[i].Date)
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
			Weighing: shelf.Weighing(req.Weights[i].Mass, req.Scale)})
	}
	if k := req.KnownMC; k != nil {
		out.Known = &readiness.KnownDay{Weight: -1, MC: shelf.KnownMoisture(*k.MC, k.SD)}
		for i := len(req.Weights) - 1; i >= 0; i-- {
			if req.Weights[i].Date == k.Date {
				out.Known.Weight = i
			}
		}
	}
	if n := len(out.Weights); n > 0 && w != nil && w.Value.SpecificGravity.Known && req.isBox() {
		gravity, _ := w.BasicGravity(&out.BodyNotes)
		out.Body = &moisture.Body{Mass: out.Weights[n-1].Mass, Volume: req.volume(), SpecificGravity: gravity,
			VolumetricShrinkage: w.VolumetricShrinkage(&out.BodyNotes), FibreSaturation: w.FibreSaturation()}
	}
	return out, errors.Join(wrong...)
}

// outOfOrder is the error of a weight that is not later than the one before.
func outOfOrder(member, previous string) error {
	return &method.Error{Code: method.OutOfRange, Input: member, Limit: "after " + previous,
		Detail: "weights must be in order of date, one a day"}
}

// ofWeights points errors of what the weights say at the members they were made from.
func (req *ReadinessRequest) ofWeights(err error) error {
	last, start := "weights/"+strconv.Itoa(len(req.Weights)-1), "weights"
	for i := range req.Weights {
		if req.KnownMC != nil && req.Weights[i].Date == req.KnownMC.Date {
			start = "weights/" + strconv.Itoa(i) + "/mass"
		}
	}
	return method.Renamed(err, [][2]string{
		{"mass", last + "/mass"}, {"mass_resolution", "scale_division"},
		{"start_mass", start}, {"start_mass_resolution", "scale_division"},
		{"start_mc_pct", "known_mc/mc_pct"}, {"known/date", "known_mc/date"},
		{"volume", "billet"}, {"specific_gravity", "wood/specific_gravity"},
		{"volumetric_shrinkage_pct", "/species"}, {"fibre_saturation_pct", "/species"},
	}...)
}

// ofSettling points errors of what becomes of the billet at its members.
func (req *ReadinessRequest) ofSettling(err error) error {
	last := "weights/" + strconv.Itoa(len(req.Weights)-1)
	return shelf.MovementError(method.Renamed(err, [][2]string{
		{"weight/mass", last + "/mass"}, {"weight/mass_resolution", "scale_division"},
		{"weight/mc_pct", "readings"}, {"weight/target_mc_pct", "build_room"},
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
		notes.Merge(m.Notes)
		result.Movement = append(result.Movement, PartMovement{Dimension: m.Dimension, Rings: string(m.Rings),
			Now: report.Length(m.Size), Change: report.LengthBand(m.Change)})
	}
	if s.Weight == nil {
		return
	}
	notes.Merge(s.Weight.Notes)
	result.WeightAt = &TargetMass{Mass: report.MassBand(s.Weight.Mass), Ovendry: report.Mass(s.Weight.Ovendry)}
}
