package year

import (
	"context"
	"errors"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// FiguresRequest asks for the movement figures of a whole assembly.
type FiguresRequest struct {
	Room     *Room             `json:"room,omitempty" description:"the driest and the wettest state of each part are those of its year in this room; or give driest and wettest"`
	Driest   *shelf.Conditions `json:"driest,omitempty" description:"with wettest, in place of room: all parts come to rest here"`
	Wettest  *shelf.Conditions `json:"wettest,omitempty"`
	MadeAt   *shelf.Conditions `json:"made_at" validate:"required" description:"moisture content at the build, of all parts without their own; exactly one of mc_pct, air and green"`
	Parts    []ServicePart     `json:"parts" validate:"required,min=1,max=60,dive"`
	Pairs    []MeetingPair     `json:"pairs,omitempty" validate:"max=100,dive" description:"parts that meet with a clearance between them"`
	ReportIn string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (req *FiguresRequest) System() string { return req.ReportIn }

// MeetingPair is two parts that meet: pocket and tenon, board and inlay, body
// and cap, lid and rim.
type MeetingPair struct {
	Name   string       `json:"name" validate:"required,max=60"`
	Outer  *MeetingSide `json:"outer" validate:"required" description:"the part that gives room: the pocket, the rebate; where it grows the gap opens"`
	Inner  *MeetingSide `json:"inner" validate:"required" description:"the part that takes it up: the tenon, the inlay, the panel"`
	Least  *wire.Length `json:"least,omitempty" validate:"omitempty,gte=-0.01,lte=0.1" description:"least clearance at any time; 0 never binds, below 0 allows a press fit; default 0"`
	Most   *wire.Length `json:"most" validate:"required,gte=0,lte=0.1" description:"widest gap that still serves"`
	Season string       `json:"season,omitempty" validate:"omitempty,oneof=together apart" default:"together" description:"apart: one part may still be wet when the other is dry, as a thin inlay in a thick board"`
}

// MeetingSide is a dimension of a part.
type MeetingSide struct {
	Part      string       `json:"part" validate:"required,max=60" description:"name of a part"`
	Dimension string       `json:"dimension" validate:"required,oneof=thickness width length" description:"of the part, which lies across the joint"`
	Over      *wire.Length `json:"over,omitempty" validate:"omitempty,gte=0.0001,lte=12" description:"how much of that dimension takes part, such as the width of a pocket; default: all"`
}

// FiguresResult is the movement figures of all parts and pairs.
type FiguresResult struct {
	Summary string        `json:"summary" required:"true"`
	Room    *RoomUsed     `json:"room,omitempty"`
	Parts   []PartFigures `json:"parts" required:"true" nullable:"false"`
	Pairs   []PairFigures `json:"pairs" required:"true" nullable:"false"`
}

// PartFigures are the figures of a part.
type PartFigures struct {
	Name     string           `json:"name" required:"true"`
	Wood     shelf.WoodUsed   `json:"wood" required:"true"`
	MadeAt   wire.PercentBand `json:"made_at" required:"true"`
	Driest   FigureState      `json:"driest" required:"true"`
	Wettest  FigureState      `json:"wettest" required:"true"`
	PerPoint PerPoint         `json:"per_point" required:"true" description:"change per point of moisture content about the build, in percent of the dimension"`
	Sizes    []SizeFigures    `json:"sizes" required:"true" nullable:"false" description:"thickness, and width and length where given"`
	figures  map[string]size  // by dimension
}

// FigureState is the moisture content of a part at an extreme.
type FigureState struct {
	Date string           `json:"date,omitempty" description:"with room: month and day; of a record the whole date"`
	MC   wire.PercentBand `json:"mc" required:"true"`
}

// PerPoint is the movement of a wood in its own directions.
type PerPoint struct {
	Longitudinal wire.PercentBand `json:"longitudinal" required:"true"`
	Radial       wire.PercentBand `json:"radial" required:"true"`
	Tangential   wire.PercentBand `json:"tangential" required:"true"`
}

// SizeFigures are the figures of one dimension of a part.
type SizeFigures struct {
	Dimension string            `json:"dimension" required:"true" enum:"thickness,width,length"`
	PerPoint  wire.QuantityBand `json:"per_point" required:"true" description:"change of this dimension per point of moisture content about the build"`
	Build     wire.Quantity     `json:"build" required:"true"`
	Driest    wire.QuantityBand `json:"driest" required:"true"`
	Wettest   wire.QuantityBand `json:"wettest" required:"true"`
	ToDriest  wire.QuantityBand `json:"to_driest" required:"true" description:"driest minus build"`
	ToWettest wire.QuantityBand `json:"to_wettest" required:"true" description:"wettest minus build"`
	Swing     wire.QuantityBand `json:"swing" required:"true" description:"wettest minus driest"`
}

// size is what a pair needs of a dimension: strains from the build.
type size struct {
	build    quantity.Length
	dry, wet quantity.Band[float64]
}

// PairFigures are the figures of a pair.
type PairFigures struct {
	Name       string            `json:"name" required:"true"`
	Possible   bool              `json:"possible" required:"true" description:"a clearance at build exists that stays between least and most in 95 of 100 pairs at each end"`
	Least      wire.Quantity     `json:"least_at_build" required:"true" description:"with possible false larger than greatest_at_build"`
	Greatest   wire.Quantity     `json:"greatest_at_build" required:"true"`
	Middle     wire.Quantity     `json:"middle_at_build" required:"true" description:"the safest"`
	Short      wire.Quantity     `json:"short_by" required:"true" description:"by how much most is too small; 0 when possible"`
	ToDriest   wire.QuantityBand `json:"to_driest" required:"true" description:"free difference: how the clearance changes from the build to the driest state; below 0 it closes"`
	ToWettest  wire.QuantityBand `json:"to_wettest" required:"true"`
	WhatItSays string            `json:"what_it_says" required:"true"`
}

// Light reports that no year is simulated.
func (req *FiguresRequest) Light() bool { return req.Room == nil }

func ComputeFigures(ctx context.Context, t *shelf.Tables, req *FiguresRequest) (*FiguresResult, method.Notes, error) {
	var notes method.Notes
	room, noRoom := extremesOf(t, req, &notes)
	a := assemble(ctx, t, req.MadeAt, &notes)
	parts, err := a.all(req.Parts)
	var notSimulable error
	if req.Room != nil {
		notSimulable = a.simulable(parts)
	}
	if err := errors.Join(noRoom, err, notSimulable, req.pairErrors()); err != nil {
		return nil, notes, err
	}
	report := wire.ReportIn(req.ReportIn)
	result := &FiguresResult{Parts: make([]PartFigures, 0, len(parts)), Pairs: make([]PairFigures, 0, len(req.Pairs))}
	if room != nil {
		used := room.describe(report)
		result.Room = &used
	}
	for i, p := range parts {
		one := PartFigures{Name: p.req.Name, MadeAt: wire.MoistureBandOf(p.made), figures: map[string]size{},
			Wood: p.wood.Used("specific_gravity_green", "radial", "tangential", "coefficient_radial", "coefficient_tangential", "coefficient_fibre_saturation", "fibre_saturation")}
		if err := a.figures(ctx, req, room, p, &one, report); err != nil {
			return nil, notes, wire.Under("parts/"+strconv.Itoa(i), partError(p, err))
		}
		result.Parts = append(result.Parts, one)
	}
	for i := range req.Pairs {
		pair, err := req.Pairs[i].figures(result.Parts, report, &notes)
		if err != nil {
			return nil, notes, wire.Under("pairs/"+strconv.Itoa(i), err)
		}
		result.Pairs = append(result.Pairs, pair)
	}
	result.conclude()
	return result, notes, nil
}

// extremes reads where the driest and the wettest state come from; nil without
// a room.
func extremesOf(t *shelf.Tables, req *FiguresRequest, notes *method.Notes) (*lived, error) {
	switch {
	case req.Room != nil && (req.Driest != nil || req.Wettest != nil):
		return nil, wire.Contradictory("room", "give room, or driest and wettest, not both")
	case req.Room != nil:
		return roomFor(t, req.Room, notes)
	case req.Driest == nil && req.Wettest == nil:
		return nil, wire.Missing("room", "give room, or driest and wettest")
	case req.Driest == nil:
		return nil, wire.Missing("driest", "driest goes with wettest")
	case req.Wettest == nil:
		return nil, wire.Missing("wettest", "wettest goes with driest")
	}
	_, dry := req.Driest.Moisture("driest", false, &method.Notes{})
	_, wet := req.Wettest.Moisture("wettest", false, &method.Notes{})
	return nil, errors.Join(dry, wet)
}

// figures fills in the figures of a part.
func (a *assembly) figures(ctx context.Context, req *FiguresRequest, room *lived, p *part, out *PartFigures, report wire.Reporter) error {
	dry, wet, err := a.extremesOf(ctx, req, room, p, out)
	if err != nil {
		return err
	}
	if out.PerPoint, err = a.perPoint(p); err != nil {
		return err
	}
	fromAir := p.fromAir && (room != nil || req.Driest.Air != nil && req.Wettest.Air != nil)
	for _, d := range p.dimensions() {
		s, err := inservice.SizesOf(d.size, d.direction, p.made, dry, wet, fromAir, p.wood.Value)
		if err != nil {
			return renameInput(err, "dimension", d.name)
		}
		a.notes.Merge(s.Notes)
		rate, err := onePoint(d.size, d.direction, p)
		if err != nil {
			return renameInput(err, "dimension", d.name)
		}
		out.Sizes = append(out.Sizes, SizeFigures{Dimension: d.name, PerPoint: report.LengthBand(rate.Change), Build: report.Length(d.size),
			Driest: report.LengthBand(s.Dry.Final), Wettest: report.LengthBand(s.Wet.Final),
			ToDriest: report.LengthBand(s.Dry.Change), ToWettest: report.LengthBand(s.Wet.Change), Swing: report.LengthBand(s.Swing)})
		out.figures[d.name] = size{d.size, s.Dry.Strain, s.Wet.Strain}
	}
	movement.NoteOnset(&p.wood.Value, a.notes)
	return nil
}

// extremesOf are the driest and the wettest moisture content of a part.
func (a *assembly) extremesOf(ctx context.Context, req *FiguresRequest, room *lived, p *part, out *PartFigures) (dry, wet quantity.Band[quantity.Moisture], err error) {
	if room == nil {
		if dry, err = req.Driest.Moisture("driest", p.wood.Value.LowerEMC, a.notes); err == nil {
			wet, err = req.Wettest.Moisture("wettest", p.wood.Value.LowerEMC, a.notes)
		}
		err = ofRequest(err)
		if err == nil && dry.Value > wet.Value {
			err = wire.Contradictory("/wettest", "wettest is drier than driest; are they exchanged?")
		}
		out.Driest, out.Wettest = FigureState{MC: wire.MoistureBandOf(dry)}, FigureState{MC: wire.MoistureBandOf(wet)}
		return dry, wet, err
	}
	ready, _, err := a.through(p)
	if err != nil {
		return dry, wet, err
	}
	year, err := a.season.YearOf(ctx, room.Room, &ready)
	if err != nil {
		return dry, wet, err
	}
	a.notes.Merge(year.Notes)
	out.Driest, out.Wettest = FigureState{room.date(year.Dry.At), wire.MoistureBandOf(year.Dry.Mean)}, FigureState{room.date(year.Wet.At), wire.MoistureBandOf(year.Wet.Mean)}
	return year.Dry.Mean, year.Wet.Mean, nil
}

// onePoint is the movement of a dimension over one point of moisture content about
// the build, below fibre saturation.
func onePoint(dimension quantity.Length, direction movement.Direction, p *part) (movement.Movement, error) {
	const half = quantity.PercentMC / 2
	middle := min(max(p.made.Value, half), sorption.NominalFibreSaturation/2)
	return movement.Change(dimension, direction, quantity.NormalBand(middle-half, 0), quantity.NormalBand(middle+half, 0), p.wood.Value)
}

// perPoint is the movement of the wood in its own directions.
func (a *assembly) perPoint(p *part) (PerPoint, error) {
	var out PerPoint
	for _, one := range []struct {
		direction movement.Direction
		to        *wire.PercentBand
	}{{movement.Longitudinal(), &out.Longitudinal}, {movement.Radial(), &out.Radial}, {movement.Tangential(), &out.Tangential}} {
		m, err := onePoint(quantity.Metre, one.direction, p)
		if err != nil {
			return out, err
		}
		a.notes.Merge(m.Notes)
		*one.to = wire.PercentBandOf(m.Strain)
	}
	return out, nil
}

// pairErrors tells which pairs name no part or no dimension.
func (req *FiguresRequest) pairErrors() error {
	var problems []error
	known := map[string]*ServicePart{}
	names := make([]string, 0, len(req.Parts))
	for i := range req.Parts {
		known[req.Parts[i].Name] = &req.Parts[i]
		names = append(names, req.Parts[i].Name)
	}
	for i := range req.Pairs {
		pair := "pairs/" + strconv.Itoa(i)
		problems = append(problems, wire.Under(pair+"/outer", req.Pairs[i].Outer.of(known, names)), wire.Under(pair+"/inner", req.Pairs[i].Inner.of(known, names)))
	}
	return errors.Join(problems...)
}

func (m *MeetingSide) of(known map[string]*ServicePart, names []string) error {
	p := known[m.Part]
	if p == nil {
		detail := "there is no part called " + wire.Quoted(m.Part)
		if near := wire.Nearest(m.Part, names); near != "" {
			detail += "; did you mean " + strconv.Quote(near) + "?"
		}
		return &method.Error{Code: method.Unknown, Input: "part", Detail: detail}
	}
	if given := map[string]*wire.Length{"thickness": p.Thickness, "width": p.Width, "length": p.Length}[m.Dimension]; given == nil {
		return wire.Missing("dimension", "the part "+wire.Quoted(m.Part)+" has no "+m.Dimension)
	}
	return nil
}

// moves are the changes of a side from the build.
func (m *MeetingSide) moves(parts []PartFigures) laminate.Part {
	for i := range parts {
		if parts[i].Name != m.Part {
			continue
		}
		s := parts[i].figures[m.Dimension]
		over := s.build
		if m.Over != nil {
			over = m.Over.SI
		}
		times := func(b quantity.Band[float64]) quantity.Band[quantity.Length] {
			return quantity.Band[quantity.Length]{Value: quantity.Length(b.Value) * over, Low: quantity.Length(b.Low) * over, High: quantity.Length(b.High) * over}
		}
		return laminate.Part{ToDriest: times(s.dry), ToWettest: times(s.wet)}
	}
	return laminate.Part{} // pairErrors has named it
}

func (m *MeetingPair) figures(parts []PartFigures, report wire.Reporter, notes *method.Notes) (PairFigures, error) {
	play := laminate.Play{Most: m.Most.SI}
	if m.Least != nil {
		play.Least = m.Least.SI
	}
	c, err := laminate.AtBuild(m.Outer.moves(parts), m.Inner.moves(parts), play, laminate.Season(m.Season == "apart"))
	if err != nil {
		return PairFigures{}, wire.Under("", err, [2]string{"play_least", "least"}, [2]string{"play_most", "most"})
	}
	notes.Merge(c.Notes)
	out := PairFigures{Name: m.Name, Possible: c.Possible, Least: report.Length(c.Least), Greatest: report.Length(c.Greatest), Middle: report.Length(c.Middle),
		Short: report.Length(c.Short), ToDriest: report.LengthBand(c.Dry), ToWettest: report.LengthBand(c.Wet)}
	switch {
	case !c.Possible:
		out.WhatItSays = "no clearance keeps both limits: allow a wider gap, or let the joint slide"
	case c.Least <= play.Least && c.Greatest >= play.Most:
		out.WhatItSays = "the parts move alike; fit it as you like between the limits"
	case c.Dry.Value > c.Wet.Value:
		out.WhatItSays = "widest in the dry season: fit it snug, at the middle or below"
	default:
		out.WhatItSays = "tightest in the dry season: leave room, at the middle or above"
	}
	return out, nil
}

// conclude writes the summary: the widest swing in percent, and the pairs that
// cannot hold.
func (r *FiguresResult) conclude() {
	name, dimension, most := "", "", -1.0
	for i := range r.Parts {
		for _, s := range r.Parts[i].Sizes {
			if share := 100 * s.Swing.Value / s.Build.Value; share > most {
				name, dimension, most = r.Parts[i].Name, s.Dimension, share
			}
		}
	}
	r.Summary = "the " + dimension + " of " + name + " moves most: " + quantity.FormatNumber(most, 1) + " % between driest and wettest"
	var bad []string
	for i := range r.Pairs {
		if !r.Pairs[i].Possible {
			bad = append(bad, r.Pairs[i].Name)
		}
	}
	switch {
	case len(bad) > 0:
		r.Summary += "; cannot keep its limits: " + strings.Join(bad, ", ")
	case len(r.Pairs) > 0:
		r.Summary += "; all " + strconv.Itoa(len(r.Pairs)) + " pairs can keep their limits"
	}
}
