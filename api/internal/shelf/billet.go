package shelf

import (
	"errors"

	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// Billet is one rough piece of wood as it was measured. Lay it with face 1 up and look
// along it from the start: x runs along the length from the start, y across from the
// near edge, which is straight, and z into the wood from face 1.
//
// Every route takes the whole of it; what a route cannot do without stands in the tag
// needs of its field.
type Billet struct {
	ID             string       `json:"id,omitempty" validate:"omitempty,id" description:"yours, by which the answer calls the billet. Left out: its position in the list, such as \"1\""`
	Name           string       `json:"name,omitempty" validate:"max=100" description:"for people; given back as it is"`
	Wood           *WoodAsked   `json:"wood,omitempty" description:"its name, such as \"black walnut\", or figures of your own. Left out: not known"`
	Length         *wire.Length `json:"length,omitempty" validate:"omitempty,gte=0.01,lte=20" description:"along the grain, from the start to the end"`
	Width          *wire.Length `json:"width,omitempty" validate:"omitempty,gte=0.005,lte=5" description:"across the face at the start, from the near edge to the far edge"`
	Thickness      *wire.Length `json:"thickness,omitempty" validate:"omitempty,gte=0.0005,lte=2" description:"at the start and the near edge"`
	EndWidth       *wire.Length `json:"end_width,omitempty" validate:"omitempty,gte=0,lte=5" description:"at the end of a billet whose width tapers. Left out: the same as width"`
	EndThickness   *wire.Length `json:"end_thickness,omitempty" validate:"omitempty,gte=0,lte=2" description:"at the end and the near edge, of a billet whose thickness tapers along its length. Left out: the same as thickness"`
	FarThickness   *wire.Length `json:"far_thickness,omitempty" validate:"omitempty,gte=0,lte=2" description:"at the start and the far edge of a wedge. Left out: the same as thickness"`
	Trim           *Trim        `json:"trim,omitempty" description:"what is lost at the ends and along the edges before parts are laid out. Left out: nothing"`
	FacingFace1    *wire.Length `json:"facing_face_1,omitempty" validate:"omitempty,gte=0,lte=0.1" description:"taken off face 1 before the first resaw cut, beyond what flattening costs. Left out: half of the usual facing, 1 mm"`
	FacingFace2    *wire.Length `json:"facing_face_2,omitempty" validate:"omitempty,gte=0,lte=0.1" description:"taken off face 2. Left out: half of the usual facing, 1 mm"`
	Cup            *wire.Length `json:"cup,omitempty" validate:"omitempty,gte=0,lte=0.1" description:"depth of the hollow over the whole width. Left out: none"`
	Bow            *wire.Length `json:"bow,omitempty" validate:"omitempty,gte=0,lte=0.2" description:"depth of the hollow over the whole length. Left out: none"`
	Twist          *wire.Length `json:"twist,omitempty" validate:"omitempty,gte=0,lte=0.2" description:"how far one corner stands off a flat bench with the other three down, over the whole length and width. Left out: none"`
	TwistPacked    bool         `json:"twist_packed,omitempty" default:"false" description:"the twist is shared between two corners by packing, which halves what it costs"`
	Rings          *Rings       `json:"rings,omitempty" description:"how the annual rings lie on the end grain. Left out: not known"`
	Grain          *Grain       `json:"grain,omitempty" description:"how the fibre and the figure run along the billet. Left out: not known"`
	EdgesInTree    *EdgesInTree `json:"edges_in_tree,omitempty" description:"what the two edges faced in the tree; both bark where the pith lies between them, as in a leaf through a whole flitch. Left out: told from the pith, where that is known"`
	Zones          []Zone       `json:"zones,omitempty" validate:"max=60,dive" description:"boxes to keep parts out of; a part may touch one. Left out: clear wood"`
	EndSeal        string       `json:"end_seal,omitempty" validate:"omitempty,oneof=sealed_fresh sealed_late bare" description:"how the ends are kept while the wood dries; with the length, what it loses through them counts in seasoning, readiness and the time to resaw. Left out: not known, and they are not counted"`
	Condition      *Condition   `json:"condition,omitempty" description:"moisture content when it is sawn; it gives the mass and, with final_condition of a part, the shrinkage still to come. Left out: not known"`
	StartCondition *Condition   `json:"start_condition,omitempty" description:"moisture content on the day it was stacked. Left out: the published green moisture content of the wood"`
	StackedOn      string       `json:"stacked_on,omitempty" validate:"omitempty,datetime=2006-01-02" description:"day on which it was put to dry"`
	Note           string       `json:"note,omitempty" validate:"max=2000" description:"a remark of your own; nothing is read from it"`
}

// Trim is what is lost around a billet, the cuts included.
type Trim struct {
	Usual string       `json:"usual,omitempty" validate:"max=40" enum:"growth_stress,hair_checks,inner_checks,sealed_fresh,sealed_late,squares_fast,stickers_at_ends" description:"how the ends were sealed and dried: id of an end trim of GET /v1/sawing-losses?kind=end_trim, whose high value is taken at each end that has no trim of its own"`
	Start *wire.Length `json:"start,omitempty" validate:"omitempty,gte=0,lte=5" description:"at the start, for checks; 10 to 25 mm if the ends were sealed fresh, 50 to 75 mm if they were sealed late or not at all (common practice). Left out: that of usual, else nothing"`
	End   *wire.Length `json:"end,omitempty" validate:"omitempty,gte=0,lte=5" description:"at the end, for checks. Left out: that of usual, else nothing"`
	Near  *wire.Length `json:"near,omitempty" validate:"omitempty,gte=0,lte=2" description:"along the near edge, for wane, sapwood or straightening. Left out: nothing"`
	Far   *wire.Length `json:"far,omitempty" validate:"omitempty,gte=0,lte=2" description:"along the far edge, for wane, sapwood or straightening. Left out: nothing"`
}

// Grain is what was read of the grain along a billet.
type Grain struct {
	Runout    *float64 `json:"runout_one_in,omitempty" validate:"omitempty,gte=1,lte=1000000" description:"the fibre leaves the face by 1 in this much of length. Left out: not known"`
	Dip       *float64 `json:"dip_one_in,omitempty" validate:"omitempty,gte=1,lte=1000000" description:"the surface of a ring dips by 1 in this much of length; it moves the tips of cathedrals. Left out: no dip"`
	FlameLean *float64 `json:"flame_lean_deg,omitempty" validate:"omitempty,gte=0,lte=89" description:"lean of the bands of figure from square to the face, read on an edge. Left out: the angle of the runout"`
}

// EdgesInTree is what the edges of a billet faced in the tree.
type EdgesInTree struct {
	Near string `json:"near,omitempty" validate:"omitempty,oneof=bark pith" description:"what the near edge faced. Left out: told from the pith, where that is known"`
	Far  string `json:"far,omitempty" validate:"omitempty,oneof=bark pith" description:"what the far edge faced. Left out: told from the pith, where that is known"`
}

// Zone is a box of a billet that no part may hold.
type Zone struct {
	Kind  string       `json:"kind" validate:"required,oneof=knot check shake sapwood pith wane bark stain other" description:"what is there; it is only drawn and told"`
	XFrom *wire.Length `json:"x_from" validate:"required,gte=-1,lte=20" description:"from the start; may lie outside the billet"`
	XTo   *wire.Length `json:"x_to" validate:"required,gte=-1,lte=20" description:"from the start, more than x_from"`
	YFrom *wire.Length `json:"y_from" validate:"required,gte=-1,lte=5" description:"from the near edge"`
	YTo   *wire.Length `json:"y_to" validate:"required,gte=-1,lte=5" description:"from the near edge, more than y_from"`
	ZFrom *wire.Length `json:"z_from,omitempty" validate:"omitempty,gte=-1,lte=2" description:"from face 1, with z_to. Left out, both: the zone goes from face to face"`
	ZTo   *wire.Length `json:"z_to,omitempty" validate:"omitempty,gte=-1,lte=2" description:"from face 1, more than z_from and with it"`
}

// BilletRead is a billet in SI, with the usual losses in place of those not given.
type BilletRead struct {
	resaw.Billet
	FacingFace1, FacingFace2 quantity.Length
}

// Read is the billet, found at a place such as billets/0, in SI. Errors point below the
// billet.
func (b *Billet) Read(bench *Bench, at string) (BilletRead, error) {
	out := BilletRead{Billet: resaw.Billet{Length: b.Length.SI, Width: b.Width.SI, Thickness: b.Thickness.SI,
		EndWidth: OptionalLength(b.EndWidth), EndThickness: OptionalLength(b.EndThickness),
		FarThickness: OptionalLength(b.FarThickness)}}
	b.facing(bench, at, &out)
	return out, b.trims(bench, &out)
}

// WoodOf is the wood of the billet, found at a place such as billets/0; nil where none is
// named. Errors point at the request.
func (b *Billet) WoodOf(t *Tables, at string, notes *method.Notes) (*Wood, error) {
	var own method.Notes
	w, err := t.OptionalWood(b.Wood, &own)
	for i := range own.Warnings {
		own.Warnings[i].Input = at + "/" + own.Warnings[i].Input
	}
	notes.Merge(own)
	return w, wire.Under(at, err)
}

// facing of the two outside faces: half of the usual loss for each that has none of its own.
func (b *Billet) facing(bench *Bench, at string, out *BilletRead) {
	loss := bench.Tables.Losses.Facing
	usual, _ := loss.Get()
	out.FacingFace1, out.FacingFace2 = LengthOr(b.FacingFace1, usual/2), LengthOr(b.FacingFace2, usual/2)
	member := "/facing_face_1"
	switch {
	case b.FacingFace1 != nil && b.FacingFace2 != nil:
		return
	case b.FacingFace1 != nil:
		member = "/facing_face_2"
	}
	bench.Usual.Note("facing, both outside faces", loss)
	bench.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at + member,
		Detail: (usual / 2).Format(bench.Usual.Report.LengthUnit) +
			" is taken off each outside face that has no facing of its own (common practice, no source)"})
}

// trims of ends and edges, as given or by how the ends were sealed.
func (b *Billet) trims(bench *Bench, out *BilletRead) error {
	t := b.Trim
	if t == nil {
		return nil
	}
	out.TrimStart, out.TrimEnd = LengthOrNone(t.Start), LengthOrNone(t.End)
	out.TrimNear, out.TrimFar = LengthOrNone(t.Near), LengthOrNone(t.Far)
	switch {
	case t.Usual == "":
		return nil
	case t.Start != nil && t.End != nil:
		return wire.Contradictory("trim/usual", "start and end replace the usual trim of both ends; leave usual or one of them out")
	}
	row, err := bench.Tables.endTrim(t.Usual)
	if err != nil {
		return wire.Under("trim", err)
	}
	each := row.Each.High
	if !each.Known() {
		each = row.Each.Low
	}
	usual, _ := each.Get()
	bench.Usual.Note("end trim, "+NameIn(bench.Usual.Report, row.Name), each)
	out.TrimStart, out.TrimEnd = LengthOr(t.Start, usual), LengthOr(t.End, usual)
	return nil
}

// Shape is the billet between its two faces, with what is not told as at the start and the
// near edge; a length or a width that is not needed has no bearing on its thickness. Errors point
// below billet: the faces of a wedge may not meet within it.
func (b *Billet) Shape() (*drying.Taper, error) {
	width := LengthOr(b.Width, quantity.Metre)
	t := &drying.Taper{Length: LengthOr(b.Length, quantity.Metre), Width: width, Thickness: b.Thickness.SI, EndWidth: LengthOr(b.EndWidth, width),
		EndThickness: LengthOr(b.EndThickness, b.Thickness.SI), FarThickness: LengthOr(b.FarThickness, b.Thickness.SI)}
	if thinnest, _ := t.Extremes(); thinnest < 0 {
		return t, wire.Contradictory("billet/end_thickness", "the two faces meet within the billet: where it is thin both at its "+
			"end and at its far edge nothing is left")
	}
	return t, nil
}

// TrimsEnds reports that something is said of what the ends lose.
func (b *Billet) TrimsEnds() bool {
	return b.Trim != nil && (b.Trim.Usual != "" || b.Trim.Start != nil || b.Trim.End != nil)
}

// Runout of the fibre, 1 in this; nil where it is not known.
func (b *Billet) Runout() *float64 {
	if b.Grain == nil {
		return nil
	}
	return b.Grain.Runout
}

// LeavesWood refuses trims and facings that leave nothing of a billet as thick as that.
func (b *Billet) LeavesWood(read *BilletRead, thickest quantity.Length) error {
	var all []error
	trim := b.Trim
	if trim == nil {
		trim = &Trim{}
	}
	if read.TrimStart+read.TrimEnd >= read.Length {
		start, end := Loss{"trim/start", trim.Start, read.TrimStart}, Loss{"trim/end", trim.End, read.TrimEnd}
		if trim.Start == nil && trim.End == nil {
			start.Member = "trim/usual"
		}
		all = append(all, NothingLeft(start, end, "the end trims leave nothing of the length", b.Length.SI, b.Length.Unit))
	}
	if width := max(read.Width, LengthOrNone(b.EndWidth)); read.TrimNear+read.TrimFar >= width {
		all = append(all, NothingLeft(Loss{"trim/near", trim.Near, read.TrimNear}, Loss{"trim/far", trim.Far, read.TrimFar},
			"the edge trims leave nothing of the width", width, b.Width.Unit))
	}
	if read.FacingFace1+read.FacingFace2 >= thickest {
		one, other := b.facings(read)
		all = append(all, NothingLeft(one, other, "the facings leave nothing of the thickness", thickest, b.Thickness.Unit))
	}
	return errors.Join(all...)
}

// Loss is one of two losses that take from the same size; Given is nil where it is a usual one.
type Loss struct {
	Member string
	Given  *wire.Length
	Size   quantity.Length
}

// NothingLeft is the error of two losses that take a whole size of a billet, at the one by which
// it is mended: the first that was given, unless the other takes all alone.
func NothingLeft(one, other Loss, what string, size quantity.Length, unit string) error {
	if one.Given == nil && other.Given != nil || other.Size >= size && one.Size < size {
		one, other = other, one
	}
	if one.Given != nil {
		unit = one.Given.Unit
	}
	limit := method.LessThan(max(0, size-other.Size).AtMost(unit))
	if other.Size >= size { // no size of the one is enough
		limit = method.LessThan(size.AtMost(unit))
	}
	return &method.Error{Code: method.Contradictory, Input: one.Member, Limit: limit,
		Detail: what + " of " + size.Format(unit) + "; it must be " + limit.String()}
}

// facings are those of both faces.
func (b *Billet) facings(read *BilletRead) (one, other Loss) {
	return Loss{"facing_face_1", b.FacingFace1, read.FacingFace1}, Loss{"facing_face_2", b.FacingFace2, read.FacingFace2}
}

// facingsOver is the error of facings that are more than a billet is thick, nil where they are
// not; it points below the request.
func (b *Billet) facingsOver(read *BilletRead) error {
	thickest := max(b.Thickness.SI, LengthOrNone(b.EndThickness), LengthOrNone(b.FarThickness))
	if read.FacingFace1+read.FacingFace2 <= thickest {
		return nil
	}
	one, other := b.facings(read)
	return wire.Under("billet", NothingLeft(one, other, "the facings leave nothing of the thickness", thickest, b.Thickness.Unit))
}

// ResawCaution is the usual one for tall cuts; the machine's manual decides.
var ResawCaution = method.Warning{Code: method.Caution,
	Detail: "a tall cut can close on the blade and a narrow high piece tips: " +
		"use a high fence and a pusher, stop rather than pull back, and follow the machine's manual"}

// Joins says which members go together.
func (*Trim) Joins() wire.Joined {
	return wire.Joined{NotAll: [][]string{{"usual", "start", "end"}}}
}

// Joins says which members go together.
func (*Zone) Joins() wire.Joined {
	return wire.Joined{Needs: map[string][]string{"z_from": {"z_to"}, "z_to": {"z_from"}}}
}

// Wedge is the member that makes a billet thicker in one place than in another; empty for a
// board.
func (b *Billet) Wedge() string {
	differs := func(there *wire.Length) bool { return there != nil && b.Thickness != nil && there.SI != b.Thickness.SI }
	switch {
	case differs(b.FarThickness):
		return "billet/far_thickness"
	case differs(b.EndThickness):
		return "billet/end_thickness"
	}
	return ""
}
