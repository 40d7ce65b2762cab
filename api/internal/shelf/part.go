package shelf

import (
	"errors"
	"strings"

	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/plan"
)

// Part is one kind of part that is wanted: of the table by part_size, of which every
// figure may be replaced, or with sizes of its own.
type Part struct {
	ID                 string       `json:"id,omitempty" validate:"omitempty,id" description:"yours, by which the answer calls the part. Left out: its position in the list, such as \"1\""`
	Name               string       `json:"name,omitempty" validate:"max=100" description:"for people; given back as it is"`
	PartSize           string       `json:"part_size,omitempty" validate:"max=60" description:"id of a part of GET /v1/part-sizes, whose figures stand in for sizes, pieces and match that are not given"`
	Wood               *WoodAsked   `json:"wood,omitempty" description:"the wood it is to be of: it comes only from billets of that wood, or of one of those of any. Left out: any wood"`
	Billets            []string     `json:"billets,omitempty" validate:"omitempty,min=1,max=50,dive,id" description:"ids of the billets that it may come from. Left out: all of them"`
	Length             *wire.Length `json:"length,omitempty" validate:"omitempty,gte=0.01,lte=20" description:"of one piece along the grain, with its oversize. Left out: that of part_size"`
	Width              *wire.Length `json:"width,omitempty" validate:"omitempty,gte=0.003,lte=5" description:"of one piece across the grain, with its oversize. Left out: that of part_size"`
	FinalThickness     *wire.Length `json:"final_thickness,omitempty" validate:"omitempty,gte=0.0002,lte=1" description:"of the finished piece; clean-up and wander of the saw, flattening and the shrinkage still to come are added. Left out: that of part_size, unless sawn_thickness is given"`
	ThinEdge           *wire.Length `json:"thin_edge,omitempty" validate:"omitempty,gte=0.0002,lte=1" description:"thickness of a carved half at its thin edge, where final_thickness or sawn_thickness is that of its thick edge: pairs of them may be split from one wedge, thick edges to the seam. Left out: that of part_size unless a thickness is given, else the piece is parallel"`
	SawnThickness      *wire.Length `json:"sawn_thickness,omitempty" validate:"omitempty,gte=0.0002,lte=1" description:"of the leaf as it leaves the saw, in place of final_thickness; nothing is added to it"`
	Flattening         *wire.Length `json:"flattening,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"thickness that is lost to flattening a leaf, over final_thickness. Left out: 0.5 mm"`
	PiecesPerSet       *int         `json:"pieces_per_set,omitempty" validate:"omitempty,gte=1,lte=100" description:"neighbouring leaves that make one set. Left out: as many as part_size says, else 2, or 1 with match none"`
	Match              string       `json:"match,omitempty" validate:"omitempty,oneof=bookmatch slip_match none" description:"how the pieces of a set belong together. Left out: as part_size says, else bookmatch"`
	MinRingAngle       *float64     `json:"min_ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=89.99" default:"0" description:"least angle of the rings to the face over the whole width; 0 takes any"`
	MaxRunout          *float64     `json:"max_runout_one_in,omitempty" validate:"omitempty,gte=1,lte=1000000" description:"steepest runout: the fibre may leave the face by 1 in this much of length. Left out: any"`
	MinSets            *int         `json:"min_sets,omitempty" validate:"omitempty,gte=0,lte=10000" default:"0" description:"sets that are wanted before all else"`
	MaxSets            *int         `json:"max_sets,omitempty" validate:"omitempty,gte=0,lte=10000" description:"sets beyond these count for nothing. Left out: no limit"`
	SetValue           *int         `json:"set_value,omitempty" validate:"omitempty,gte=1,lte=1000000" description:"what one set is worth, in whole units of anything; needed where several parts are to be weighed against each other. Left out: 1"`
	FinalCondition     *Condition   `json:"final_condition,omitempty" description:"moisture content it will settle at; with the condition of the billet it adds the shrinkage still to come. Left out: no shrinkage is added"`
	ShrinkageRingAngle *float64     `json:"shrinkage_ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"angle of the rings to the face for the shrinkage to final_condition: 90 quartersawn, whose thickness shrinks most, 0 flatsawn, whose width does. Left out: that of the rings of each billet, where they vary or are not known the steepest there may be for the thickness and the flattest, min_ring_angle_deg or more, for the width"`
}

// PartRead is a part in SI, with the figures of the table in place of those not given.
type PartRead struct {
	Label         string         // for people
	Row           *species.Plate // that part_size names; nil for none
	Length, Width quantity.Length
	Final         quantity.Length // of the finished piece, or Sawn of the leaf
	Sawn          quantity.Length
	ThinEdge      quantity.Length // of a half of a wedge, as Final or Sawn; 0: parallel
	Carved        bool            // as thick as the table has it rough
	Flattening    quantity.Length // 0 for a leaf whose sawn thickness is given
	Pieces        int
	Match         string
}

// Read is the part, found at a place such as parts/0, in SI; label is what people call it
// unless it says so itself. Errors point below the part.
func (p *Part) Read(bench *Bench, at, label string) (PartRead, error) {
	out := PartRead{Label: p.Label(label)}
	row, err := p.row(bench)
	if err != nil {
		return out, errors.Join(err, p.sizes(&out))
	}
	if out.Row = row; row != nil {
		if p.Name == "" && p.ID == "" {
			out.Label = row.Instrument + " " + row.Part
		}
		p.fromRow(bench, &out)
	}
	err = p.sizes(&out)
	p.set(&out)
	err = errors.Join(err, p.halves(&out))
	if p.SawnThickness == nil {
		p.flattening(bench, at, &out)
	}
	return out, err
}

// ThicknessNamed is the member that says how thick the part is.
func (p *Part) ThicknessNamed() string {
	switch {
	case p.SawnThickness != nil:
		return "sawn_thickness"
	case p.FinalThickness == nil && p.PartSize != "":
		return "part_size"
	}
	return "final_thickness"
}

// Label is what people call the part: its name, its id, or what stands in.
func (p *Part) Label(standIn string) string {
	switch {
	case p.Name != "":
		return p.Name
	case p.ID != "":
		return p.ID
	}
	return standIn
}

// row is the part of the table that the part names; nil where it names none.
func (p *Part) row(bench *Bench) (*species.Plate, error) {
	row, err := bench.Tables.partSize(p.PartSize)
	if row == nil || err != nil {
		return nil, err
	}
	if p.Length != nil && p.Width != nil && (p.FinalThickness != nil || p.SawnThickness != nil) {
		return nil, wire.Contradictory("part_size",
			"length, width and thickness replace all sizes of part_size; leave part_size or some of them out")
	}
	return row, nil
}

// fromRow fills in what the table holds of a part, found at a place.
func (p *Part) fromRow(bench *Bench, out *PartRead) {
	row, usual := out.Row, bench.Usual
	out.Length, _ = row.Length.Get()
	out.Width, _ = row.Width.Get()
	if p.Length == nil {
		usual.Note(out.Label+", length", row.Length)
	}
	if p.Width == nil {
		usual.Note(out.Label+", width", row.Width)
	}
	if p.FinalThickness != nil || p.SawnThickness != nil {
		return
	}
	final := row.Final
	if strings.Contains(row.Part, "carved") {
		final, out.Carved = row.Rough, true
		if row.Wedge() {
			out.ThinEdge, _ = row.ThinEdge.Get()
		}
	}
	out.Final, _ = final.Get()
	usual.Note(out.Label+", thickness", final)
}

// TellCarved warns, of a part found at a place, that the rough thickness of the table stands
// for what is carved, and what becomes of the thin edge; split where the halves come from wedges.
func (r *PartRead) TellCarved(bench *Bench, at string, split bool) {
	if !r.Carved {
		return
	}
	report := bench.Usual.Report
	detail := "a carved part is planned at the rough thickness of the table, " + Spoken(report, r.Row.Rough)
	switch {
	case split:
		detail += "; halves split from a wedge are that thick at one edge, and at least " +
			r.ThinEdge.Format(report.LengthUnit) + " at the other"
	case r.Row.Wedge():
		detail += ", as a parallel piece; two halves split from one wedge are that thick at one edge only and take less wood"
	}
	bench.Notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/final_thickness", Subject: r.Label,
		Detail: r.Label + ": " + detail})
}

// sizes takes those that are given; that they or a part_size are, stands in the tags of the
// routes.
func (p *Part) sizes(out *PartRead) error {
	for _, one := range []struct {
		given *wire.Length
		to    *quantity.Length
	}{{p.Length, &out.Length}, {p.Width, &out.Width}, {p.FinalThickness, &out.Final}, {p.SawnThickness, &out.Sawn},
		{p.ThinEdge, &out.ThinEdge}} {
		if one.given != nil {
			*one.to = one.given.SI
		}
	}
	if p.FinalThickness != nil && p.SawnThickness != nil {
		return wire.Contradictory("sawn_thickness", "give sawn_thickness or final_thickness, not both")
	}
	return nil
}

// halves refuses a thin edge that is thicker than the thick one, or of anything but a
// bookmatched pair; that of the table is then left out.
func (p *Part) halves(out *PartRead) error {
	thick := max(out.Final, out.Sawn)
	pair := out.Pieces == 2 && out.Match == string(plan.MatchBook)
	switch {
	case p.ThinEdge == nil:
		if !pair || out.ThinEdge > thick {
			out.ThinEdge = 0
		}
	case !pair:
		return wire.Contradictory("thin_edge", "thin_edge is that of a bookmatched pair: pieces_per_set 2, match bookmatch")
	case thick > 0 && out.ThinEdge > thick:
		limit := method.AtMost(thick.AtMost(p.ThinEdge.Unit))
		return &method.Error{Code: method.Contradictory, Input: "thin_edge", Limit: limit,
			Detail: "thin_edge must be " + limit.String() + ", the thick edge"}
	}
	return nil
}

// flattening is what a leaf loses to it, as given or usual.
func (p *Part) flattening(bench *Bench, at string, out *PartRead) {
	loss := bench.Tables.Losses.Flatness
	if p.Flattening != nil {
		out.Flattening = p.Flattening.SI
		return
	}
	out.Flattening, _ = loss.Get()
	bench.Usual.Note("flattening of a leaf", loss)
	if list, _, is := strings.Cut(at, "/"); is {
		at = list // one for all parts of a list
	} else {
		at += "/flattening"
	}
	bench.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at,
		Detail: Spoken(bench.Usual.Report, loss) +
			" is allowed for flattening each leaf of a part that has no flattening of its own; defaults_used has the " +
			"source"})
}

// set settles how many pieces make a set and how they belong together.
func (p *Part) set(out *PartRead) {
	row := out.Row
	out.Match = p.Match
	if out.Match == "" && row != nil {
		out.Match = string(plan.MatchBook)
		if row.Matched == species.Unmatched {
			out.Match = string(plan.MatchNone)
		}
	}
	switch {
	case p.PiecesPerSet != nil:
		out.Pieces = *p.PiecesPerSet
	case row != nil:
		out.Pieces = row.Pieces
	case out.Match == string(plan.MatchNone):
		out.Pieces = 1
	default:
		out.Pieces = 2
	}
	if out.Match == "" {
		out.Match = string(plan.MatchBook)
	}
	if out.Pieces == 1 {
		out.Match = string(plan.MatchNone)
	}
}

// TellSet warns of what was settled of a set of a part, found at a place, without a word
// of the caller.
func (p *Part) TellSet(bench *Bench, at string, out *PartRead) {
	taken, row := "", out.Row
	switch {
	case row != nil && p.Match == "" && row.Matched == species.EitherMatched && out.Pieces > 1:
		taken = "the table takes matched pieces or any; a set is taken as bookmatched"
	case row != nil:
	case p.Match == "" && p.PiecesPerSet == nil:
		taken = "neither match nor pieces_per_set is given: a set is taken as a bookmatched pair, 2 pieces"
	case p.PiecesPerSet == nil:
		taken = "pieces_per_set is not given: a set is taken as " + wire.CountOf(out.Pieces, "piece")
	case p.Match == "" && out.Pieces > 1:
		taken = "match is not given: a set is taken as bookmatched"
	}
	if taken != "" {
		bench.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at, Subject: out.Label, Detail: out.Label + ": " + taken})
	}
}

// ShrinksAt are the ring angles that the part, found at a place, is taken to dry at, from each
// of some billets that it may come from: its own, or what the chapter takes. What is not the one
// angle of a billet is told.
func (p *Part) ShrinksAt(bench *Bench, at, label string, kind *plan.PartKind, billets []plan.Billet) []plan.Angles {
	out := make([]plan.Angles, len(billets))
	var told *plan.Angles
	because := "that the billets may give"
	for i := range billets {
		if p.ShrinkageRingAngle != nil {
			own := quantity.Angle(*p.ShrinkageRingAngle) * quantity.Degree
			out[i] = plan.Angles{Thickness: own, Width: own}
			continue
		}
		angles, known := plan.DriesAt(kind, &billets[i])
		if out[i] = angles; known && angles.One() {
			continue
		}
		if !known {
			because = "where the rings are not known"
		}
		if told != nil {
			angles = angles.With(*told)
		}
		told = &angles
	}
	if told == nil {
		return out
	}
	degrees := func(a quantity.Angle) string { return quantity.FormatNumber(a.Degrees(), 2) }
	bench.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at + "/shrinkage_ring_angle_deg", Subject: label,
		Detail: label + ": the shrinkage still to come is the most " + because + ": of thickness with rings at " +
			degrees(told.Thickness) + " degrees to the face, of width at " + degrees(told.Width) +
			"; shrinkage_ring_angle_deg sets one for both"})
	return out
}

// Joins says which members go together.
func (*Part) Joins() wire.Joined {
	return wire.Joined{NotAll: [][]string{{"final_thickness", "sawn_thickness"}, {"part_size", "length", "width", "final_thickness"}, {"part_size", "length", "width", "sawn_thickness"}}}
}
