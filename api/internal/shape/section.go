package shape

import (
	"context"
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

// SectionRequest asks what becomes of the shape of a cross-section.
type SectionRequest struct {
	Wood      *shelf.WoodAsked  `json:"wood,omitempty" description:"its name, or figures of your own"`
	Width     *wire.Length      `json:"width" validate:"required,gte=0.001,lte=3" description:"as seen on the end grain, at the start"`
	Thickness *wire.Length      `json:"thickness" validate:"required,gte=0.0002,lte=2" description:"as seen on the end grain, at the start"`
	Pith      *PithAt           `json:"pith,omitempty" description:"where the pith is; or give rings"`
	Rings     *RingsAt          `json:"rings,omitempty" description:"rings in the middle of the section, where the pith cannot be found; it then lies below and to the left"`
	From      *shelf.Conditions `json:"from_condition,omitempty" description:"exactly one of mc_pct, air and green"`
	To        *shelf.Conditions `json:"to_condition,omitempty" description:"exactly one of mc_pct, air and green"`
	Levels    []MoistureLevel   `json:"levels,omitempty" validate:"omitempty,min=2,max=50,dive" description:"in place of from and to: shell and core differ, such as a leaf fresh from the saw; from depth 0, the upper face, to depth 1, the lower"`
	Lengthway *Lengthwise       `json:"lengthwise,omitempty" description:"for twist, crook and bow"`
	ReportIn  string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (req *SectionRequest) System() string { return req.ReportIn }

// PithAt is where the pith is, seen on the end grain.
type PithAt struct {
	Depth  *wire.Length `json:"depth" validate:"required,gte=-100,lte=100" description:"below the lower face; negative: above that face, as in a boxed heart or with the bark side down"`
	Offset *wire.Length `json:"offset,omitempty" validate:"omitempty,gte=-100,lte=100" default:"0 mm" description:"to the right of mid-width; 0 is a board sawn flat through the pith"`
}

// RingsAt are the rings in the middle of a section.
type RingsAt struct {
	Angle  *float64     `json:"ring_angle_deg" validate:"required,gte=0,lte=90" description:"between the rings and the width: 0 flatsawn, 90 quartersawn"`
	Radius *wire.Length `json:"ring_radius" validate:"required,gte=0.001,lte=1000" description:"of the ring through the middle; a large one for straight rings"`
}

// MoistureLevel is the moisture content at one depth.
type MoistureLevel struct {
	Depth *float64 `json:"depth" validate:"required,gte=0,lte=1" description:"share of the thickness, 0 at the upper face"`
	From  *float64 `json:"from_mc_pct" validate:"required,gte=0,lte=250"`
	To    *float64 `json:"to_mc_pct" validate:"required,gte=0,lte=250"`
	SD    *float64 `json:"mc_sd_points,omitempty" validate:"omitempty,gte=0,lte=20" default:"0" description:"standard deviation of each of both"`
}

// Lengthwise is what bends and twists a piece along its length.
type Lengthwise struct {
	Length   *wire.Length `json:"length" validate:"required,gte=0.01,lte=30"`
	Spiral   *float64     `json:"spiral_deg,omitempty" validate:"omitempty,gte=-45,lte=45" description:"of the grain to the axis of the stem"`
	SpiralSD *float64     `json:"spiral_sd_deg,omitempty" validate:"omitempty,gte=0,lte=10" default:"0"`
	Edges    *float64     `json:"near_minus_far_strain_pct,omitempty" validate:"omitempty,gte=-5,lte=5" description:"change along the grain of the left edge less that of the right, in percent of the length; -1 where juvenile or reaction wood on the left shrinks 1 % more"`
	Faces    *float64     `json:"face_2_minus_face_1_strain_pct,omitempty" validate:"omitempty,gte=-5,lte=5" description:"the same of the lower face less the upper"`
}

// ComputeSection answers what becomes of the shape of a section.
func ComputeSection(_ context.Context, t *shelf.Tables, req *SectionRequest) (*SectionResult, method.Notes, error) {
	var notes method.Notes
	wood, noWood := t.WoodOf(req.Wood, &notes)
	place, noPlace := req.place()
	board := section.Board{Section: place, Along: req.Lengthway.inSI()}
	noMoisture := req.moisture(&board, wood.SettlesLower(), &notes)
	if err := errors.Join(noWood, noPlace, noMoisture); err != nil {
		return nil, notes, err
	}
	board.Wood = wood.Value
	warped, err := section.Warp(board)
	if err != nil {
		return nil, notes, req.pointed(err)
	}
	notes.Merge(warped.Notes)
	t.Cautions(wood, &notes)
	notes.Warn(machineCaution)
	return describeSection(&board.Section, &warped, wood, wire.ReportIn(req.ReportIn)), notes, nil
}

// machineCaution is the usual one for boards that do not lie flat.
var machineCaution = method.Warning{Code: method.Caution, Input: "shape",
	Detail: "a board that is cupped or twisted rocks and can bind at a saw, jointer or planer; flatten one face first, " +
		"and follow the manual of the machine"}

// place is the section with its pith.
func (req *SectionRequest) place() (section.Section, error) {
	width, thickness := req.Width.SI, req.Thickness.SI
	switch {
	case req.Pith != nil && req.Rings != nil:
		return section.Section{}, wire.Contradictory("rings", "give pith or rings, not both")
	case req.Rings != nil:
		s, err := section.FromRings(width, thickness, quantity.Angle(*req.Rings.Angle)*quantity.Degree, req.Rings.Radius.SI)
		return s, wire.Under("rings", err)
	case req.Pith == nil:
		return section.Section{}, wire.Missing("pith",
			"say where the pith is (pith: its depth below the lower face), or what the rings are in the middle (rings)")
	}
	offset := quantity.Length(0)
	if req.Pith.Offset != nil {
		offset = req.Pith.Offset.SI
	}
	return section.FromPith(width, thickness, req.Pith.Depth.SI, offset), nil
}

// moisture reads both moisture contents, or the levels.
func (req *SectionRequest) moisture(b *section.Board, rich bool, notes *method.Notes) error {
	if req.Levels != nil {
		return req.levels(b)
	}
	ends := [2]*shelf.Conditions{req.From, req.To}
	var wrong [2]error
	for i, to := range []*quantity.Band[quantity.Moisture]{&b.From, &b.To} {
		name := [...]string{"from_condition", "to_condition"}[i]
		if ends[i] == nil {
			wrong[i] = wire.Missing(name, name+" is needed, or levels")
			continue
		}
		*to, wrong[i] = ends[i].Moisture(name, rich, notes)
	}
	if err := errors.Join(wrong[:]...); err != nil {
		return err
	}
	b.TwoAirs = req.From.InAir() && req.To.InAir()
	return nil
}

func (req *SectionRequest) levels(b *section.Board) error {
	if req.From != nil || req.To != nil {
		return wire.Contradictory("levels", "give from and to, or levels, not both")
	}
	for i := range req.Levels {
		l := &req.Levels[i]
		p := section.ProfilePoint{Depth: *l.Depth, From: wire.FromPercent(*l.From), To: wire.FromPercent(*l.To)}
		if l.SD != nil {
			p.SD = wire.FromPercent(*l.SD)
		}
		b.Profile = append(b.Profile, p)
	}
	return section.CheckProfile(b.Profile)
}

// inSI is what bends the piece along its length; nil where nothing is asked.
func (l *Lengthwise) inSI() *section.Along {
	if l == nil {
		return nil
	}
	angle := func(deg *float64) *quantity.Angle {
		if deg == nil {
			return nil
		}
		a := quantity.Angle(*deg) * quantity.Degree
		return &a
	}
	strain := func(pct *float64) *float64 {
		if pct == nil {
			return nil
		}
		d := *pct / 100
		return &d
	}
	return &section.Along{Length: l.Length.SI, Spiral: angle(l.Spiral), SpiralSD: angle(l.SpiralSD),
		Edges: strain(l.Edges), Faces: strain(l.Faces)}
}

// pointed points at the members of this request.
func (req *SectionRequest) pointed(err error) error {
	pith := "pith"
	if req.Rings != nil {
		pith = "rings/ring_radius"
	}
	names := append(shelf.WoodNames(""), [2]string{"from_mc_pct", "from_condition"}, [2]string{"to_mc_pct", "to_condition"})
	for _, name := range []string{"pith_x", "pith_y", "pith_distance", "pith", "x"} {
		names = append(names, [2]string{name, pith})
	}
	return wire.Under("", err, names...)
}
