package shelf

import (
	"errors"
	"slices"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
	"latewood/woodphys/resaw/plan"
)

// RejectedLeaf names a leaf that cannot be used.
type RejectedLeaf struct {
	Row    *int `json:"row" validate:"required,gte=1,lte=10000" description:"of its stack, counted from the start, from 1"`
	Column *int `json:"column" validate:"required,gte=1,lte=10000" description:"of its stack, counted from the near edge, from 1"`
	Leaf   *int `json:"leaf" validate:"required,gte=1,lte=100000" description:"its number in the stack, counted from face 1, from 1"`
}

// Cutting is a billet with the saw and the part to be had from it.
type Cutting struct {
	Billet   *Billet
	Saw      *Saw
	Part     *Part
	Rejected []RejectedLeaf
	Report   wire.Reporter
}

// CuttingRead is a cutting in SI.
type CuttingRead struct {
	Billet BilletRead
	Saw    SawRead
	Part   PartRead
	Reface quantity.Length
	Rough2 bool // face 2
	Bench  *Bench
}

// Read is the cutting in SI, with all that is wrong with it.
func (c *Cutting) Read(bench *Bench) (CuttingRead, error) {
	part, noPart := c.Part.Read(bench, "part", "part")
	saw, noSaw := c.Saw.Kerfs(bench)
	if c.Part.SawnThickness == nil && noSaw == nil {
		c.Saw.Habits(bench, "saw", &saw)
	}
	billet, noBillet := c.Billet.Read(bench, "billet")
	if noPart == nil {
		part.TellCarved(bench, "part", false)
		c.Part.TellSet(bench, "part", &part)
	}
	c.Saw.TellSplit(bench, "saw", &saw)
	if noSaw == nil {
		c.Saw.TellOtherCuts(bench, "saw", &saw, true, true)
	}
	c.tellHeight(&part, bench.Notes)
	return CuttingRead{Billet: billet, Saw: saw, Part: part, Reface: LengthOrNone(c.Saw.Reface), Rough2: c.Saw.Face2Rough,
		Bench: bench}, errors.Join(wire.Under("billet", noBillet), wire.Under("saw", noSaw), wire.Under("part", noPart))
}

// tellHeight warns of a part that is wider than what the saw clears.
func (c *Cutting) tellHeight(part *PartRead, notes *method.Notes) {
	if high := c.Saw.MaxCutHeight; high != nil && part.Width > high.SI {
		notes.Warn(method.Warning{Code: method.Assumption, Input: "saw/max_cut_height", Detail: "the part is " +
			part.Width.Format(high.Unit) + " wide, more than the " + high.SI.Format(high.Unit) +
			" that this saw resaws; the leaves are counted all the same"})
	}
}

// Takes is what the cuts take.
func (r *CuttingRead) Takes() resaw.Saw {
	return resaw.Saw{Kerf: r.Saw.Kerf, Rip: r.Saw.Rip, Crosscut: r.Saw.Crosscut,
		Facing: r.Billet.FacingFace1 + r.Billet.FacingFace2, Reface: r.Reface, RoughFar: r.Rough2}
}

// Yield computes the answer; it is shared with the readiness of a whole billet.
func (c *Cutting) Yield(t *Tables, w *Wood, notes *method.Notes) (LeafYieldResult, error) {
	bench := NewBench(t, c.Report, notes)
	read, err := c.Read(bench)
	drying, noDrying := c.drying(bench, &read, w)
	if err := errors.Join(err, wire.Under("part", noDrying)); err != nil {
		return LeafYieldResult{}, err
	}
	leaf, err := read.Part.Leaf(&read.Saw, drying)
	if err != nil {
		return LeafYieldResult{}, pointLeaf(err)
	}
	notes.Merge(wire.AtMembers(leaf.Notes, pointLeaf))
	piece := resaw.Piece{Length: read.Part.Length, Width: read.Part.Width, Leaf: leaf.Thickness, PerSet: read.Part.Pieces}
	y, err := resaw.YieldOf(read.Billet.Billet, read.Takes(), piece, rejectedOf(c.Rejected))
	point := func(err error) error {
		return method.Renamed(err, append([][2]string{{"leaf", "part/" + c.Part.ThicknessNamed()}}, YieldMembers...)...)
	}
	if err != nil {
		if over := c.Billet.facingsOver(&read.Billet); over != nil {
			return LeafYieldResult{}, over
		}
		return LeafYieldResult{}, c.Report.LimitsOf(point(err))
	}
	notes.Merge(wire.AtMembers(y.Notes, point))
	result := yieldResult(&y, c.Report)
	result.Leaf, result.StandIns = LeafBuildOf(&leaf, c.Report.Length), bench.Usual.All
	result.Summary = result.said()
	return result, nil
}

// pointLeaf points at what a leaf is built up from.
func pointLeaf(err error) error { return wire.Under("part", err, LeafNames("billet")...) }

// drying is what the leaf still goes through; nil where nothing is said of it.
func (c *Cutting) drying(bench *Bench, read *CuttingRead, w *Wood) (*resaw.Drying, error) {
	if read.Part.Sawn > 0 {
		return nil, nil //nolint:nilnil // nothing is added to it
	}
	drying, err := c.Part.Shrinks(c.Billet, "billet", w, bench.Notes)
	if drying == nil || err != nil {
		return nil, err
	}
	if drying.To > drying.From {
		return nil, Swells(drying.From)
	}
	var found method.Notes
	rings, err := RingsOf(c.Billet, &found)
	if err != nil {
		return nil, wire.Under("/billet", err)
	}
	bench.Notes.MergeFor("billet", "", found)
	kind := plan.PartKind{Width: read.Part.Width}
	if least := c.Part.MinRingAngle; least != nil {
		kind.LeastRingAngle = quantity.Angle(*least) * quantity.Degree
	}
	drying.RingAngle = c.Part.ShrinksAt(bench, "part", read.Part.Label, &kind, []plan.Billet{rings})[0].Thickness
	return drying, nil
}

// Unused notes what of billet, saw and part has no bearing on the yield; of the billet
// those of more are used besides.
func (c *Cutting) Unused(n *NotUsed, more ...string) {
	billet := append([]string{"wood", "length", "width", "thickness", "end_width", "end_thickness", "far_thickness",
		"trim", "facing_face_1", "facing_face_2"}, more...)
	saw := []string{"kerf", "usual_kerf", "rip_kerf", "crosscut_kerf", "reface", "face_2_rough", "max_cut_height"}
	part := []string{"part_size", "length", "width", "final_thickness", "sawn_thickness", "pieces_per_set", "match"}
	if c.Part.SawnThickness == nil {
		saw = append(saw, "wander", "cleanup_show", "cleanup_back")
		part = append(part, "flattening")
		if c.Part.FinalCondition != nil {
			billet = append(billet, "condition")
			part = append(part, "final_condition", "shrinkage_ring_angle_deg")
			if c.Part.ShrinkageRingAngle == nil {
				billet = append(billet, "rings/angle_deg", "rings/readings", "rings/pith", "rings/chord",
					"rings/pith_side")
				part = append(part, "min_ring_angle_deg")
			}
		}
	}
	n.Look("billet", c.Billet, billet...)
	n.Look("saw", c.Saw, saw...)
	n.Look("part", c.Part, part...)
}

func rejectedOf(leaves []RejectedLeaf) []resaw.Spoiled {
	all := make([]resaw.Spoiled, 0, len(leaves))
	for _, l := range leaves {
		all = append(all, resaw.Spoiled{Row: *l.Row, Column: *l.Column, Leaf: *l.Leaf})
	}
	return all
}

// YieldMembers are the members of a request that the yield of a billet calls otherwise.
var YieldMembers = [][2]string{
	{"length", "billet/length"}, {"width", "billet/width"}, {"thickness", "billet/thickness"},
	{"end_width", "billet/end_width"}, {"end_thickness", "billet/end_thickness"},
	{"far_thickness", "billet/far_thickness"},
	{"trim_start", "billet/trim/start"}, {"trim_end", "billet/trim/end"}, {"edge_start", "billet/trim/near"},
	{"edge_end", "billet/trim/far"},
	{"blank_length", "part/length"}, {"blank_width", "part/width"}, {"leaf", "part/sawn_thickness"},
	{"per_set", "part/pieces_per_set"},
	{"kerf", "saw/kerf"}, {"crosscut", "saw/crosscut_kerf"}, {"rip", "saw/rip_kerf"},
	{"facing", "billet/facing_face_1"},
	{"reface", "saw/reface"}, {"spoiled", "rejected_leaves"}, {"spoiled/", "rejected_leaves/"},
}

// YieldMembersBelow are the YieldMembers where a chapter names them below a place.
func YieldMembersBelow(place string) [][2]string {
	below := slices.Clone(YieldMembers)
	for i := range below {
		below[i][0] = place + below[i][0]
	}
	return below
}

// Fits refuses a part that is larger than the billet between its trims.
func (r *CuttingRead) Fits(c *Cutting) error {
	var all []error
	b := &r.Billet
	thick := b.Thickest()
	for _, one := range []struct {
		name  string
		given *wire.Length
		is    quantity.Length
		most  quantity.Length
		more  string
	}{
		{"length", c.Part.Length, r.Part.Length, b.Length - (b.TrimStart + b.TrimEnd), "longer than the billet between its trims"},
		{"width", c.Part.Width, r.Part.Width, max(b.Width, LengthOrNone(c.Billet.EndWidth)) - (b.TrimNear + b.TrimFar),
			"wider than the billet between its trims"},
		{"final_thickness", c.Part.FinalThickness, r.Part.Final, thick, "thicker than the billet"},
		{"sawn_thickness", c.Part.SawnThickness, r.Part.Sawn, thick, "thicker than the billet"},
	} {
		if one.most <= 0 || one.is <= one.most+exact.Tiny { // trims that leave nothing are refused as such
			continue
		}
		member, unit := "part_size", r.Bench.Usual.Report.LengthUnit
		if one.given != nil {
			member, unit = one.name, one.given.Unit
		}
		is, most, of := one.is.Over(one.most, unit)
		all = append(all, &method.Error{Code: method.Contradictory, Input: member, Limit: method.AtMost(most, of),
			Detail: "the part is " + one.more + " (" + is + " against " + quantity.FormatNumber(most, 9) + " " + of + ")"})
	}
	return wire.Under("part", errors.Join(all...))
}
