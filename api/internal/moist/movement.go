package moist

import (
	"context"
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
)

// MovementRequest asks how far a dimension moves between two conditions.
type MovementRequest struct {
	Wood        *shelf.WoodAsked  `json:"wood,omitempty" description:"its name, or figures of your own"`
	Dimension   *wire.Length      `json:"dimension" validate:"required,gte=0.0001,lte=100"`
	MeasuredAt  string            `json:"size_at,omitempty" validate:"omitempty,oneof=from to" default:"from" description:"to: dimension is the size wanted at the end, and the answer says what to cut at the start"`
	Direction   string            `json:"direction,omitempty" validate:"omitempty,oneof=tangential radial longitudinal" description:"of the dimension in the wood; or give ring_angle_deg"`
	RingAngle   *float64          `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"between the rings and this dimension, read on the end grain: 0 along the rings, 90 across them"`
	RingAngleSD *float64          `json:"ring_angle_sd_deg,omitempty" validate:"omitempty,gte=0,lte=20" description:"standard deviation of ring_angle_deg" default:"0"`
	From        *shelf.Conditions `json:"from_condition" validate:"required" description:"exactly one of mc_pct, air and green"`
	To          *shelf.Conditions `json:"to_condition" validate:"required" description:"exactly one of mc_pct, air and green"`
	ReportIn    string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (req *MovementRequest) System() string { return req.ReportIn }

// FormUsed is what one published form of the relation gives.
type FormUsed struct {
	Change wire.Band `json:"change" required:"true"`
	Rate   float64   `json:"rate" required:"true" description:"coefficient form: change per point of moisture content, as a fraction; total shrinkage form: green to ovendry, as a fraction"`
}

// MovementResult is how far a dimension moves. Positive is swelling.
type MovementResult struct {
	Wood            shelf.WoodUsed `json:"wood,omitzero" required:"true"`
	From            wire.Band      `json:"from_mc" required:"true" description:"moisture content at the start"`
	To              wire.Band      `json:"to_mc" required:"true" description:"moisture content at the end"`
	Start           wire.Band      `json:"from_size" required:"true" description:"the dimension at the start; with size_at to, cut the high end and 95 of 100 pieces end large enough"`
	Final           wire.Band      `json:"to_size" required:"true" description:"the dimension at the end"`
	Change          wire.Band      `json:"change" required:"true" description:"the band covers the variation between pieces (15 %), both moisture contents and the ring angle"`
	ChangePct       float64        `json:"strain_pct" required:"true"`
	Form            string         `json:"form" required:"true" enum:"coefficient,total_shrinkage" description:"the form the answer rests on"`
	ByCoefficient   *FormUsed      `json:"by_coefficient,omitempty" description:"fitted for 6 to 14 %"`
	ByShrinkage     *FormUsed      `json:"by_total_shrinkage,omitempty"`
	FormsDisagree   bool           `json:"forms_disagree" required:"true" description:"the published figures differ by more than 15 %; the band holds both"`
	FibreSaturation float64        `json:"fibre_saturation_mc_pct" required:"true" description:"where shrinkage starts in this answer"`
}

// UsedWood is the wood of the answer, which is encoded beforehand.
func (r *MovementResult) UsedWood() *shelf.WoodUsed { return &r.Wood }

// ComputeMovement answers how far a dimension moves.
func ComputeMovement(_ context.Context, t *shelf.Tables, req *MovementRequest) (MovementResult, method.Notes, error) {
	var notes method.Notes
	w, noWood := t.WoodOf(req.Wood, &notes)
	direction, noDirection := req.direction()
	rich := w.SettlesLower()
	from, noFrom := req.From.Moisture("from_condition", rich, &notes)
	to, noTo := req.To.Moisture("to_condition", rich, &notes)
	if err := errors.Join(noWood, noDirection, noFrom, noTo); err != nil {
		return MovementResult{}, notes, err
	}
	asked := movement.Dimension{
		Size: req.Dimension.SI, AtEnd: req.MeasuredAt == "to", Direction: direction, From: from, To: to,
		TwoAirs: req.From.InAir() && req.To.InAir(),
	}
	moved, err := movement.Of(asked, w.Value)
	if err != nil {
		names := append(shelf.WoodNames(""), [2]string{"from_mc_pct", "from_condition"}, [2]string{"to_mc_pct", "to_condition"})
		return MovementResult{}, notes, wire.Under("", err, names...)
	}
	notes.Merge(moved.Notes)
	return describeMovement(&asked, &moved, w, wire.ReportIn(req.ReportIn)), notes, nil
}

func (req *MovementRequest) direction() (movement.Direction, error) {
	switch {
	case req.Direction != "" && req.RingAngle != nil:
		return movement.Direction{}, wire.Contradictory("ring_angle_deg", "give direction or ring_angle_deg, not both")
	case req.RingAngleSD != nil && req.RingAngle == nil:
		return movement.Direction{}, wire.Contradictory("ring_angle_sd_deg", "ring_angle_sd_deg goes with ring_angle_deg")
	case req.RingAngle != nil:
		sd := 0.0
		if req.RingAngleSD != nil {
			sd = *req.RingAngleSD
		}
		return movement.WidthAt(quantity.Angle(*req.RingAngle)*quantity.Degree, quantity.Angle(sd)*quantity.Degree), nil
	}
	switch req.Direction {
	case "tangential":
		return movement.Tangential(), nil
	case "radial":
		return movement.Radial(), nil
	case "longitudinal":
		return movement.Longitudinal(), nil
	}
	return movement.Direction{}, wire.Missing("direction",
		"give direction (tangential, radial or longitudinal) or ring_angle_deg")
}

func describeMovement(asked *movement.Dimension, m *movement.Moved, w *shelf.Wood,
	report wire.Reporter) MovementResult {
	r := MovementResult{
		Wood: w.UsedInMovement(),
		From: wire.MoistureBandOf(asked.From), To: wire.MoistureBandOf(asked.To),
		Start: report.LengthBand(m.Start), Final: report.LengthBand(m.Final), Change: report.LengthBand(m.Change),
		ChangePct: m.Strain.Value * 100, Form: string(m.Form), FormsDisagree: m.Disagree, FibreSaturation: m.Onset.Percent(),
	}
	if m.Coefficient.Known {
		r.ByCoefficient = &FormUsed{report.LengthBand(m.Coefficient.Change), m.Coefficient.Rate}
	}
	if m.Shrinkage.Known {
		r.ByShrinkage = &FormUsed{report.LengthBand(m.Shrinkage.Change), m.Shrinkage.Rate}
	}
	return r
}
