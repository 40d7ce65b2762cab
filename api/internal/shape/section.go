package shape

import (
	"context"
	"errors"
	"math"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
	"latewood/woodphys/sorption"
)

// SectionRequest asks what becomes of the shape of a cross-section.
type SectionRequest struct {
	Species   string            `json:"species,omitempty" validate:"max=100" description:"id or name; or give your own figures as wood"`
	Wood      *shelf.OwnWood    `json:"wood,omitempty"`
	Width     *wire.Length      `json:"width" validate:"required,gte=0.001,lte=3" description:"as seen on the end grain, at the start"`
	Thickness *wire.Length      `json:"thickness" validate:"required,gte=0.0002,lte=2" description:"as seen on the end grain, at the start"`
	Pith      *PithAt           `json:"pith,omitempty" description:"where the pith is; or give rings"`
	Rings     *RingsAt          `json:"rings,omitempty" description:"rings in the middle of the section, where the pith cannot be found; it then lies below and to the left"`
	From      *shelf.Conditions `json:"from,omitempty" description:"exactly one of mc_pct, air and green"`
	To        *shelf.Conditions `json:"to,omitempty" description:"exactly one of mc_pct, air and green"`
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
	SD    *float64 `json:"sd_pct,omitempty" validate:"omitempty,gte=0,lte=20" default:"0" description:"standard deviation of each of both"`
}

// Lengthwise is what bends and twists a piece along its length.
type Lengthwise struct {
	Length   *wire.Length `json:"length" validate:"required,gte=0.01,lte=30"`
	Spiral   *float64     `json:"spiral_deg,omitempty" validate:"omitempty,gte=-45,lte=45" description:"of the grain to the axis of the stem"`
	SpiralSD *float64     `json:"spiral_sd_deg,omitempty" validate:"omitempty,gte=0,lte=10" default:"0"`
	Edges    *float64     `json:"edge_difference_pct,omitempty" validate:"omitempty,gte=-5,lte=5" description:"change along the grain of the left edge less that of the right, in percent of the length; -1 where juvenile or reaction wood on the left shrinks 1 % more"`
	Faces    *float64     `json:"face_difference_pct,omitempty" validate:"omitempty,gte=-5,lte=5" description:"the same of the lower face less the upper"`
}

// sectionWork is the work on one request.
type sectionWork struct {
	req      *SectionRequest
	wood     *shelf.Wood
	section  section.Section
	from, to quantity.Band[quantity.Moisture] // as told
	a, b     quantity.Band[quantity.Moisture] // as computed with: errors of one piece go together
	levels   []section.Level
	notes    method.Notes
	report   wire.Reporter
	changed  section.Result
	bent     *section.Bent
}

func ComputeSection(_ context.Context, t *shelf.Tables, req *SectionRequest) (*SectionResult, method.Notes, error) {
	w := &sectionWork{req: req, report: wire.ReportIn(req.ReportIn)}
	var noWood, noPlace error
	w.wood, noWood = t.WoodOf(req.Species, req.Wood, &w.notes)
	w.section, noPlace = req.place()
	if err := errors.Join(noWood, noPlace, w.moisture()); err != nil {
		return nil, w.notes, err
	}
	var err error
	if w.changed, err = section.Change(w.section, w.a, w.b, w.wood.Value); err != nil {
		return nil, w.notes, w.pointed(err)
	}
	w.notes.Merge(w.changed.Notes)
	w.wood.RemarkOnset(&w.notes)
	if err := w.gradient(); err != nil {
		return nil, w.notes, err
	}
	result, err := w.describe()
	if err != nil {
		return nil, w.notes, err
	}
	t.Cautions(w.wood, &w.notes)
	w.notes.Warn(method.Warning{Code: method.Caution, Input: "shape",
		Detail: "a board that is cupped or twisted rocks and can bind at a saw, jointer or planer; flatten one face first, and follow the manual of the machine"})
	return result, w.notes, nil
}

// place is the section with its pith.
func (req *SectionRequest) place() (section.Section, error) {
	s := section.Section{Width: req.Width.SI, Thickness: req.Thickness.SI}
	switch {
	case req.Pith != nil && req.Rings != nil:
		return s, wire.Contradictory("rings", "give pith or rings, not both")
	case req.Rings != nil:
		s, err := section.FromRings(s.Width, s.Thickness, quantity.Angle(*req.Rings.Angle)*quantity.Degree, req.Rings.Radius.SI)
		return s, wire.Under("rings", err)
	case req.Pith == nil:
		return s, wire.Missing("pith", "say where the pith is (pith: its depth below the lower face), or what the rings are in the middle (rings)")
	}
	s.PithY = -s.Thickness/2 - req.Pith.Depth.SI
	if req.Pith.Offset != nil {
		s.PithX = req.Pith.Offset.SI
	}
	return s, nil
}

// moisture finds both moisture contents, uniform or as the mean of levels.
func (w *sectionWork) moisture() error {
	rich := w.wood != nil && w.wood.Value.LowerEMC
	if w.req.Levels != nil {
		return w.fromLevels()
	}
	var noFrom, noTo error
	if w.req.From == nil {
		noFrom = wire.Missing("from", "from is needed, or levels")
	} else {
		w.from, noFrom = w.req.From.Moisture("from", rich, &w.notes)
	}
	if w.req.To == nil {
		noTo = wire.Missing("to", "to is needed, or levels")
	} else {
		w.to, noTo = w.req.To.Moisture("to", rich, &w.notes)
	}
	if err := errors.Join(noFrom, noTo); err != nil {
		return err
	}
	w.a, w.b = w.from, w.to
	if w.req.From.Air != nil && w.req.To.Air != nil { // the errors of one piece in two airs go together
		w.a, w.b = sorption.SamePiece(w.from, w.to)
	}
	return nil
}

// fromLevels takes the mean of the levels, each joined to the next by a straight
// line. Above fibre saturation nothing moves, so no level counts for more.
func (w *sectionWork) fromLevels() error {
	if w.req.From != nil || w.req.To != nil {
		return wire.Contradictory("levels", "give from and to, or levels, not both")
	}
	onset := quantity.Moisture(shelf.UsualOnset) * quantity.PercentMC
	if w.wood != nil {
		switch f := &w.wood.Value; {
		case f.CoefficientFibreSaturation > 0:
			onset = f.CoefficientFibreSaturation
		case f.FibreSaturation > 0:
			onset = f.FibreSaturation
		}
	}
	last := len(w.req.Levels) - 1
	var from, to, variance quantity.Moisture
	for i := range w.req.Levels {
		l := &w.req.Levels[i]
		member := "levels/" + strconv.Itoa(i) + "/depth"
		switch {
		case i == 0 && *l.Depth != 0:
			return wire.Contradictory(member, "the first level is the upper face: depth 0")
		case i > 0 && *l.Depth <= *w.req.Levels[i-1].Depth:
			return wire.Contradictory(member, "the levels go down from the upper face to the lower: each depth is more than the one before")
		case i == last && *l.Depth != 1:
			return wire.Contradictory(member, "the last level is the lower face: depth 1")
		}
		sd := 0.0
		if l.SD != nil {
			sd = *l.SD
		}
		level := section.Level{Depth: *l.Depth, From: quantity.NormalBand(wire.FromPercent(*l.From), wire.FromPercent(sd)), To: quantity.NormalBand(wire.FromPercent(*l.To), wire.FromPercent(sd))}
		w.levels = append(w.levels, level)
		share := 0.0
		if i > 0 {
			share += (*l.Depth - *w.req.Levels[i-1].Depth) / 2
		}
		if i < last && w.req.Levels[i+1].Depth != nil {
			share += (*w.req.Levels[i+1].Depth - *l.Depth) / 2
		}
		s := quantity.Moisture(share)
		from += s * min(level.From.Value, onset)
		to += s * min(level.To.Value, onset)
		variance += s * s * wire.FromPercent(sd) * wire.FromPercent(sd)
	}
	sd := quantity.Moisture(math.Sqrt(float64(variance)))
	w.from, w.to = quantity.NormalBand(from, sd), quantity.NormalBand(to, sd)
	w.a, w.b = w.from, w.to
	return nil
}

// gradient is the bend that the levels add.
func (w *sectionWork) gradient() error {
	if w.levels == nil {
		return nil
	}
	if w.changed.Heart != nil {
		return &method.Error{Code: method.Unsupported, Input: "levels", Detail: "a section that holds the pith has no one ring angle to bend about; leave levels out and give from and to"}
	}
	ring, err := section.RingAt(w.section, section.Point{})
	if err != nil {
		return w.pointed(err)
	}
	bent, err := section.Gradient(w.section.Thickness, w.section.Width, ring.Angle, w.levels, w.wood.Value)
	if err != nil {
		return w.pointed(err)
	}
	w.notes.Merge(ring.Notes)
	w.notes.Merge(bent.Notes)
	w.notes.Warn(method.Warning{Code: method.Assumption, Method: "section.gradient", Input: "levels",
		Detail: "the bend by shell and core takes the ring angle in the middle for the whole width, and wood that neither creeps nor sets; the cup is that of the mean moisture content and both are added"})
	w.bent = &bent
	w.remarkCurl("section.gradient", "levels", bent.Cup.Value, w.section.Width)
	return nil
}

// mostCurl is the sagitta, as a share of the length it stands over, beyond which
// kappa l^2/8 is more than 4 % off the arc of a circle.
const mostCurl = 0.1

// remarkCurl warns of a sagitta too large for the sum it comes from.
func (w *sectionWork) remarkCurl(row, input string, sagitta, over quantity.Length) {
	if math.Abs(float64(sagitta)) > mostCurl*float64(over) {
		w.notes.Warn(method.Warning{Code: method.OutsideFitted, Method: row, Input: input,
			Detail: "it curls by more than a tenth of that side; so large a bend is less than told, and wood bent so far sets"})
	}
}

// pointed points at the members of this request.
func (w *sectionWork) pointed(err error) error {
	pith := "pith"
	if w.req.Rings != nil {
		pith = "rings/ring_radius"
	}
	err = wire.Under("", err, [2]string{"pith_x", pith}, [2]string{"pith_y", pith}, [2]string{"pith_distance", pith}, [2]string{"pith", pith}, [2]string{"x", pith})
	if w.req.Wood == nil {
		err = wire.Under("", err, [2]string{"wood", "species"})
	}
	return shelf.MovementError(err)
}
