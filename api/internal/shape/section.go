package shape

import (
	"context"
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

// SectionShapeRequest asks what becomes of the shape of a cross-section.
type SectionShapeRequest struct {
	Wood      *shelf.WoodAsked `json:"wood,omitempty" description:"its name, or figures of your own"`
	Width     *wire.Length     `json:"width" validate:"required,gte=0.001,lte=3" description:"from the near edge to the far edge, at the start"`
	Thickness *wire.Length     `json:"thickness" validate:"required,gte=0.0002,lte=2" description:"from face 1 to face 2, at the start"`
	Rings     *shelf.Rings     `json:"rings" validate:"required" description:"how the growth rings lie on the end grain"`
	From      *shelf.Condition `json:"from_condition,omitempty" description:"condition of the wood at the start, with to_condition. Give both, or profile"`
	To        *shelf.Condition `json:"to_condition,omitempty" description:"condition of the wood at the end, with from_condition"`
	Profile   []MoistureLevel  `json:"profile,omitempty" validate:"omitempty,min=2,max=50,dive" description:"moisture content from face 1 to face 2, where shell and core differ, such as in a leaf fresh from the saw. The first level is face 1, the last face 2. In place of from_condition and to_condition"`
	Lengthway *Lengthwise      `json:"lengthwise,omitempty" description:"what bends and twists the piece along its length: ask for twist, crook or bow"`
	ReportIn  string           `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// Joins says which members go together.
func (*SectionShapeRequest) Joins() wire.Joined {
	return wire.Joined{OneOf: [][]string{{"from_condition", "to_condition"}, {"profile"}},
		Needs:  map[string][]string{"from_condition": {"to_condition"}, "to_condition": {"from_condition"}},
		NotAll: [][]string{{"from_condition", "profile"}, {"to_condition", "profile"}}}
}

// System is the one that the request asks its answer in.
func (req *SectionShapeRequest) System() string { return req.ReportIn }

// MoistureLevel is the moisture content at one depth.
type MoistureLevel struct {
	Z    *wire.Length `json:"z" validate:"required,gte=0,lte=2" description:"from face 1 into the wood: 0 mm at the first level, the thickness at the last"`
	From *float64     `json:"from_mc_pct" validate:"required,gte=0,lte=250" description:"moisture content at this depth at the start"`
	To   *float64     `json:"to_mc_pct" validate:"required,gte=0,lte=250" description:"moisture content at this depth at the end"`
	SD   *float64     `json:"mc_sd_points,omitempty" validate:"omitempty,gte=0,lte=20" default:"0" description:"standard deviation of from_mc_pct and of to_mc_pct"`
}

// Lengthwise is what bends and twists a piece along its length.
type Lengthwise struct {
	Length   *wire.Length `json:"length" validate:"required,gte=0.01,lte=30" description:"length of the piece"`
	Spiral   *float64     `json:"spiral_deg,omitempty" validate:"omitempty,gte=-45,lte=45" description:"angle of the grain to the axis of the stem. Left out: no twist is told"`
	SpiralSD *float64     `json:"spiral_sd_deg,omitempty" validate:"omitempty,gte=0,lte=10" description:"standard deviation of spiral_deg, with which it goes. Left out: the angle is exact"`
	Edges    *float64     `json:"near_minus_far_strain_pct,omitempty" validate:"omitempty,gte=-5,lte=5" description:"change along the grain of the near edge less that of the far edge, in percent of the length; -1 where juvenile or reaction wood at the near edge shrinks 1 % more. Left out: no crook is told"`
	Faces    *float64     `json:"face_2_minus_face_1_strain_pct,omitempty" validate:"omitempty,gte=-5,lte=5" description:"the same of face 2 less face 1. Left out: no bow is told"`
}

// ComputeSection answers what becomes of the shape of a section.
func ComputeSection(_ context.Context, t *shelf.Tables, req *SectionShapeRequest) (*SectionShapeResult, method.Notes, error) {
	var notes method.Notes
	wood, noWood := t.WoodOf(req.Wood, &notes)
	begin := len(notes.Warnings)
	place, noPlace := req.Rings.Section(req.Width.SI, req.Thickness.SI, &notes)
	notes.Place(begin, "rings")
	board := section.Board{Section: place, Along: req.Lengthway.inSI()}
	noMoisture := req.moisture(&board, wood, &notes)
	if err := errors.Join(noWood, wire.Under("rings", noPlace), noMoisture, req.Lengthway.asked()); err != nil {
		return nil, notes, err
	}
	board.Wood = wood.Value
	warped, err := section.Warp(board)
	if err != nil {
		return nil, notes, req.pointed(err)
	}
	notes.Merge(wire.AtMembers(warped.Notes, req.pointed))
	t.Cautions(wood, &notes)
	notes.Warn(machineCaution)
	var idle shelf.NotUsed
	idle.Look("wood", req.Wood, shelf.WoodInMovement...)
	idle.Look("rings", req.Rings, "pith", "readings", "chord", "angle_deg", "radius", "lean", "pith_side")
	idle.Tell(&notes)
	r := describeSection(&board.Section, &warped, wood, wire.ReportIn(req.ReportIn))
	r.given = req.Width.Given() + " x " + req.Thickness.Given()
	return r, notes, nil
}

// machineCaution is the usual one for boards that do not lie flat.
var machineCaution = method.Warning{Code: method.Caution, Input: "shape",
	Detail: "a board that is cupped or twisted rocks and can bind at a saw, jointer or planer; flatten one face first, " +
		"and follow the manual of the machine"}

// moisture reads both moisture contents, or the profile.
func (req *SectionShapeRequest) moisture(b *section.Board, w *shelf.Wood, notes *method.Notes) error {
	if req.Profile != nil {
		return req.profile(b)
	}
	ends := [2]*shelf.Condition{req.From, req.To}
	var wrong [2]error
	for i, to := range []*quantity.Band[quantity.Moisture]{&b.From, &b.To} {
		name := [...]string{"from_condition", "to_condition"}[i]
		if ends[i] == nil {
			wrong[i] = wire.Missing(name, name+" is needed, or profile")
			continue
		}
		*to, wrong[i] = ends[i].Moisture(name, w, notes)
	}
	if err := errors.Join(wrong[:]...); err != nil {
		return err
	}
	b.TwoAirs = req.From.InAir() && req.To.InAir()
	return nil
}

func (req *SectionShapeRequest) profile(b *section.Board) error {
	if req.From != nil || req.To != nil {
		return wire.Contradictory("profile", "give from_condition and to_condition, or profile, not both")
	}
	for i := range req.Profile {
		l := &req.Profile[i]
		p := section.ProfilePoint{Depth: section.DepthOf(l.Z.SI, req.Thickness.SI), From: wire.FromPercent(*l.From), To: wire.FromPercent(*l.To)}
		if l.SD != nil {
			p.SD = wire.FromPercent(*l.SD)
		}
		b.Profile = append(b.Profile, p)
	}
	return req.ofProfile(section.CheckProfile(b.Profile))
}

// ofProfile points at the levels of the profile.
func (req *SectionShapeRequest) ofProfile(err error) error {
	names := [][2]string{{"levels", "profile"}}
	for i := range req.Profile {
		at := strconv.Itoa(i)
		names = append(names, [2]string{"levels/" + at + "/depth", "profile/" + at + "/z"}, [2]string{"levels/" + at + "/", "profile/" + at + "/"})
	}
	return method.Renamed(err, names...)
}

// asked refuses a length of which nothing is asked.
func (l *Lengthwise) asked() error {
	if l != nil && l.Spiral == nil && l.Edges == nil && l.Faces == nil {
		return wire.Missing("lengthwise", "give spiral_deg for twist, near_minus_far_strain_pct for crook, or face_2_minus_face_1_strain_pct for bow")
	}
	return nil
}

// Joins says which members go together.
func (*Lengthwise) Joins() wire.Joined {
	return wire.Joined{Needs: map[string][]string{"spiral_sd_deg": {"spiral_deg"}},
		NeedsAny: map[string][]string{"length": {"spiral_deg", "near_minus_far_strain_pct", "face_2_minus_face_1_strain_pct"}}}
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
func (req *SectionShapeRequest) pointed(err error) error {
	names := append(shelf.WoodNames(""), [2]string{"from_mc_pct", "from_condition"}, [2]string{"to_mc_pct", "to_condition"},
		[2]string{"lengthwise/edge_difference_pct", "lengthwise/near_minus_far_strain_pct"},
		[2]string{"lengthwise/face_difference_pct", "lengthwise/face_2_minus_face_1_strain_pct"})
	return wire.Under("", req.ofProfile(err), append(names, req.Rings.SectionNames("rings")...)...)
}
