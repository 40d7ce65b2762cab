package dry

import (
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
)

// billetMovement is how width and thickness move on the way to the target. A
// direction whose figures the tables lack is left out with a warning.
func (req *ReadinessRequest) billetMovement(w *shelf.Wood, now, target quantity.Band[quantity.Moisture], report wire.Reporter, notes *method.Notes) ([]PartMovement, error) {
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
			m, err := movement.Change(d.size, d.direction, now, target, w.Value)
			if code, is := wire.DomainCode(err); is && code == method.Unsupported {
				notes.Warn(method.Warning{Code: method.Unsupported, Input: "species", Detail: "the tables lack the shrinkage of " + w.Common + " that the movement of the billet needs"})
				continue
			}
			if err != nil {
				return nil, shelf.MovementError(err)
			}
			notes.Merge(m.Notes)
			all = append(all, PartMovement{Dimension: d.name, Rings: a.rings, Now: report.Length(d.size), Change: report.LengthBand(m.Change)})
		}
	}
	return all, nil
}

// weightAt is what the billet will weigh when it has settled, if it was weighed.
func (req *ReadinessRequest) weightAt(now *moisture.Estimate, target quantity.Band[quantity.Moisture], report wire.Reporter, notes *method.Notes) (*TargetMass, error) {
	if len(req.Weights) == 0 {
		return nil, nil //nolint:nilnil // not weighed, no weight
	}
	last := req.Weights[len(req.Weights)-1]
	at, err := moisture.WeightAt(moisture.Known{Weighing: shelf.Weighing(last.Mass, req.Scale), MC: quantity.NormalBand(now.MC.Value, now.SD)}, target.Value)
	if err != nil {
		return nil, wire.Under("weights/"+strconv.Itoa(len(req.Weights)-1), err,
			[2]string{"mass_resolution", "/scale_division"}, [2]string{"mc_pct", "/readings"}, [2]string{"target_mc_pct", "/build_room"})
	}
	notes.Merge(at.Notes)
	low, high := report.Mass(at.Mass.Low), report.Mass(at.Mass.High)
	mid := report.Mass(at.Mass.Value)
	return &TargetMass{Mass: wire.QuantityBand{Value: mid.Value, Low: low.Value, High: high.Value, Unit: mid.Unit}, Ovendry: report.Mass(at.Ovendry)}, nil
}

// yield answers the question of the saw along with that of the moisture.
func (req *ReadinessRequest) yield(t *shelf.Tables, w *shelf.Wood, notes *method.Notes) (*shelf.YieldResult, error) {
	if req.Saw == nil && req.Part == nil {
		return nil, nil //nolint:nilnil // not asked
	}
	if req.Saw == nil {
		return nil, wire.Missing("saw", "saw and part go together")
	}
	if req.Part == nil {
		return nil, wire.Missing("part", "saw and part go together")
	}
	cut := &shelf.Cutting{Billet: req.Billet, Saw: req.Saw, Part: req.Part, Spoiled: req.Spoiled, Report: wire.ReportIn(req.ReportIn)}
	result, err := cut.Yield(t, w, notes)
	notes.Warn(shelf.ResawCaution)
	return &result, err
}

func summarise(r *ReadinessResult) string {
	text := quantity.FormatNumber(r.Moisture.MC.ValuePct, 1) + " % now"
	if l := r.Learned; l != nil && l.ReadingsUsed == 0 {
		text = "forecast " + quantity.FormatNumber(r.Moisture.MC.ValuePct, 1) + " % (" + quantity.FormatNumber(r.Moisture.MC.LowPct, 1) + " to " +
			quantity.FormatNumber(r.Moisture.MC.HighPct, 1) + "), no reading"
	}
	text += ", target " + quantity.FormatNumber(r.Target.MC.ValuePct, 1) + " %"
	words := map[string]string{"ready": "ready", "not_ready": "not ready", "cannot_say": "cannot say"}
	for _, s := range r.Steps {
		text += "; " + s.Step + ": " + words[s.Verdict]
	}
	return text
}
