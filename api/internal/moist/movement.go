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

// MovementRequest asks how far a size moves between two conditions.
type MovementRequest struct {
	Wood        *shelf.WoodAsked `json:"wood,omitempty" description:"its name, or figures of your own"`
	Size        *wire.Length     `json:"size" validate:"required,gte=0.0001,lte=100" description:"the length that moves, such as the width of a panel, at the condition that size_at names"`
	SizeAt      string           `json:"size_at,omitempty" validate:"omitempty,oneof=from to" default:"from" description:"which condition size was measured at. With to, size is the size wanted at the end, and the answer says what to cut at the start"`
	Direction   string           `json:"direction,omitempty" validate:"omitempty,oneof=tangential radial longitudinal" description:"how size lies in the wood: tangential, along the rings; radial, across them; longitudinal, along the grain. Give this or size_ring_angle_deg"`
	RingAngle   *float64         `json:"size_ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"angle between the rings and size, read on the end grain: 0 along the rings, 90 across them. Give this or direction"`
	RingAngleSD *float64         `json:"size_ring_angle_sd_deg,omitempty" validate:"omitempty,gte=0,lte=20" description:"standard deviation of size_ring_angle_deg, with which it goes. Left out: the angle is exact"`
	From        *shelf.Condition `json:"from_condition" validate:"required" description:"condition of the wood at the start"`
	To          *shelf.Condition `json:"to_condition" validate:"required" description:"condition of the wood at the end"`
	ReportIn    string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// Joins says which members go together.
func (*MovementRequest) Joins() wire.Joined {
	return wire.Joined{OneOf: [][]string{{"direction"}, {"size_ring_angle_deg"}},
		Needs: map[string][]string{"size_ring_angle_sd_deg": {"size_ring_angle_deg"}}}
}

// System is the one that the request asks its answer in.
func (req *MovementRequest) System() string { return req.ReportIn }

// ShrinkageForm is what one published form of the relation gives.
type ShrinkageForm struct {
	Form    string        `json:"form" required:"true" enum:"coefficient,total_shrinkage,differential_shrinkage,volumetric_swelling" description:"the published form: the dimensional change coefficient, fitted for 6 to 14 %MC; the total shrinkage from green to ovendry; the differential shrinkage, measured in the range of use, as DIN 68100 prints it; or the swelling of trees by volume for a point of moisture, split between the directions as their shrinkage"`
	Change  wire.Band     `json:"change" required:"true" description:"how far the size moves by this form; positive is swelling"`
	Figure  wire.Quantity `json:"figure" required:"true" description:"what the form rests on, in percent of the size: the change per point of moisture content (%/point) of coefficient and differential_shrinkage, or the shrinkage from green to ovendry (%) of total_shrinkage and volumetric_swelling"`
	Carried bool          `json:"outside_range,omitempty" description:"a moisture content lies outside the range of this form (6 to 14 % for coefficient; from 0 to seven tenths of fibre saturation for differential_shrinkage and volumetric_swelling): its rate is carried on from there to the total shrinkage, as in the answer. Left out within its range"`
}

// MovementResult is how far a size moves. Positive is swelling.
type MovementResult struct {
	Wood            shelf.WoodUsed  `json:"wood,omitzero" required:"true" description:"the wood, with the figures the answer rests on"`
	Summary         string          `json:"summary" required:"true" description:"the answer in a sentence"`
	From            wire.Band       `json:"from_mc" required:"true" description:"moisture content at the start"`
	To              wire.Band       `json:"to_mc" required:"true" description:"moisture content at the end"`
	FromSize        wire.Band       `json:"from_size" required:"true" description:"the size at the start. With size_at to, cut the high end of the band and 95 of 100 pieces end large enough"`
	ToSize          wire.Band       `json:"to_size" required:"true" description:"the size at the end"`
	Change          wire.Band       `json:"change" required:"true" description:"to_size less from_size; positive is swelling. The band covers the variation between pieces, the error of the forms, both moisture contents and the ring angle"`
	Strain          float64         `json:"strain_pct" required:"true" description:"the change in percent of the size at the start"`
	Form            string          `json:"form" required:"true" enum:"coefficient,total_shrinkage,differential_shrinkage,volumetric_swelling,combined" description:"the form that the answer rests on; combined: several, each weighted by its error, or a different one across the rings and along them"`
	Forms           []ShrinkageForm `json:"forms" required:"true" nullable:"false" description:"what each published form gives for which the wood has figures"`
	FormsDisagree   bool            `json:"forms_disagree" required:"true" description:"the published figures of a direction differ by more than 15 %: forms tells what each gives, form which is taken, and a warning (disagreement) names the two that lie furthest apart, with what they give and what is taken between them; the band of change holds both"`
	FibreSaturation float64         `json:"fibre_saturation_mc_pct" required:"true" description:"moisture content below which the wood shrinks in this answer"`
}

// UsedWood is the wood of the answer, which is encoded beforehand.
func (r *MovementResult) UsedWood() *shelf.WoodUsed { return &r.Wood }

// ComputeMovement answers how far a size moves.
func ComputeMovement(_ context.Context, t *shelf.Tables, req *MovementRequest) (MovementResult, method.Notes, error) {
	var notes method.Notes
	w, noWood := t.WoodOf(req.Wood, &notes)
	direction, noDirection := req.direction()
	from, noFrom := req.From.Moisture("from_condition", w, &notes)
	to, noTo := req.To.Moisture("to_condition", w, &notes)
	if err := errors.Join(noWood, noDirection, noFrom, noTo); err != nil {
		return MovementResult{}, notes, err
	}
	asked := movement.Dimension{
		Size: req.Size.SI, AtEnd: req.SizeAt == "to", Direction: direction, From: from, To: to,
		TwoAirs: req.From.InAir() && req.To.InAir(),
	}
	moved, err := movement.Of(asked, w.Value)
	if err != nil {
		return MovementResult{}, notes, pointMovement(err)
	}
	notes.Merge(wire.AtMembers(moved.Notes, pointMovement))
	var idle shelf.NotUsed
	idle.Look("wood", req.Wood, shelf.WoodInMovement...)
	idle.Tell(&notes)
	return describeMovement(&asked, &moved, w, wire.ReportIn(req.ReportIn)), notes, nil
}

// pointMovement points at the members of a request about a movement.
func pointMovement(err error) error {
	names := append(shelf.WoodNames(""), [2]string{"from_mc_pct", "from_condition"}, [2]string{"to_mc_pct", "to_condition"},
		[2]string{"dimension", "size"}, [2]string{"ring_angle_deg", "size_ring_angle_deg"}, [2]string{"ring_angle_sd_deg", "size_ring_angle_sd_deg"})
	return wire.Under("", err, names...)
}

func (req *MovementRequest) direction() (movement.Direction, error) {
	switch {
	case req.Direction != "" && req.RingAngle != nil:
		return movement.Direction{}, wire.Contradictory("size_ring_angle_deg", "give direction or size_ring_angle_deg, not both")
	case req.RingAngleSD != nil && req.RingAngle == nil:
		return movement.Direction{}, wire.Contradictory("size_ring_angle_sd_deg", "size_ring_angle_sd_deg goes with size_ring_angle_deg")
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
		"give direction (tangential, radial or longitudinal) or size_ring_angle_deg")
}

func describeMovement(asked *movement.Dimension, m *movement.Moved, w *shelf.Wood,
	report wire.Reporter) MovementResult {
	r := MovementResult{
		Wood: w.UsedInMovement(),
		From: wire.MoistureBandOf(asked.From), To: wire.MoistureBandOf(asked.To),
		FromSize: report.LengthBand(m.Start), ToSize: report.LengthBand(m.Final), Change: report.LengthBand(m.Change),
		Strain: m.Strain.Value * 100, Form: string(m.Form), Forms: []ShrinkageForm{}, FormsDisagree: m.Disagree,
		FibreSaturation: m.Onset.Percent(),
	}
	for _, f := range [...]*movement.FormResult{&m.Coefficient, &m.Shrinkage, &m.Differential, &m.Volume} {
		if f.Known {
			r.Forms = append(r.Forms, ShrinkageForm{string(f.Form), report.LengthBand(f.Change), formFigure(f), f.Carried})
		}
	}
	r.Summary = r.said()
	return r
}

// said is the answer in words.
func (r *MovementResult) said() string {
	moves, by := "changes", r.Change
	switch {
	case by.High < 0:
		moves, by = "shrinks", wire.Band{Value: -by.Value, Low: -by.High, High: -by.Low, Unit: by.Unit}
	case by.Low > 0:
		moves = "swells"
	}
	return "from " + r.From.Text() + " to " + r.To.Text() + " % it " + moves + " by " + by.Said() + ": " +
		r.FromSize.Text() + " " + r.FromSize.Unit + " become " + r.ToSize.Text() + " " + r.ToSize.Unit
}

// formFigure is what a form rests on, in percent of the size: for a point of moisture, or
// from green to ovendry.
func formFigure(f *movement.FormResult) wire.Quantity {
	unit := wire.UnitPercent
	if f.Form == movement.ByCoefficient || f.Form == movement.ByDifferential {
		unit = wire.UnitPercentAPoint
	}
	return wire.Quantity{Value: f.Rate * 100, Unit: unit}
}
