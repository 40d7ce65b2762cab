package cut

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// planner carries one request for a plan through.
type planner struct {
	t      *shelf.Tables
	req    *ResawRequest
	report wire.Reporter
	usual  *shelf.StandIns
	notes  *method.Notes
	woods  []*shelf.Wood // of each billet; nil where no species is given
	asked  plan.Request
	plates []string // id of the plate of each part
}

// place names a member of the request.
func place(list string, i int) string { return list + "/" + strconv.Itoa(i) }

// mostLeaves bounds the leaves of one answer.
const mostLeaves = 30_000

func (p *planner) billets() error {
	var all []error
	names := map[string]bool{}
	for i := range p.req.Billets {
		b := &p.req.Billets[i]
		out, w, err := p.billet(b)
		if b.Name != "" && names[b.Name] {
			err = errors.Join(err, wire.Contradictory("name", "another billet has this name"))
		}
		names[b.Name] = true
		if out.Name == "" {
			out.Name = "billet " + strconv.Itoa(i+1)
		}
		all = append(all, wire.Under(place("billets", i), err))
		p.woods = append(p.woods, w)
		p.asked.Billets = append(p.asked.Billets, out)
	}
	return errors.Join(all...)
}

func (p *planner) billet(b *PlanBillet) (plan.Billet, *shelf.Wood, error) {
	name, whose := b.Species, "species"
	if name == "" {
		name, whose = p.req.Species, "/species"
	}
	var w *shelf.Wood
	var all []error
	if name != "" {
		var err error
		w, err = p.t.Find(name)
		all = append(all, wire.Under("", err, [2]string{"", whose}))
	}
	if b.MCSD != nil && b.MC == nil {
		all = append(all, wire.Missing("mc_pct", "mc_sd_pct goes with mc_pct"))
	}
	if b.MC != nil && name == "" {
		all = append(all, wire.Missing("species", "a mass needs the species"))
	}
	out := plan.Billet{
		Name: b.Name, Length: b.Length.SI, Width: b.Width.SI, Thickness: b.Thickness.SI,
		WidthEnd: optional(b.WidthEnd), ThicknessEnd: optional(b.ThickEnd), ThicknessFarEdge: optional(b.ThickFar),
		Cup: shelf.LengthOrNone(b.Cup), Bow: shelf.LengthOrNone(b.Bow), Twist: shelf.LengthOrNone(b.Twist), Packed: b.Packed, RunoutOneIn: b.Runout,
	}
	p.facing(b, &out)
	all = append(all, p.trims(b, &out), fits(b, &out))
	for i := range b.Zones {
		z, err := zoneOf(&b.Zones[i], &out)
		all = append(all, wire.Under(place("zones", i), err))
		out.Zones = append(out.Zones, z)
	}
	if b.Rings != nil {
		all = append(all, wire.Under("rings", p.rings(b.Rings, &out)))
	}
	return out, w, errors.Join(all...)
}

func optional(l *wire.Length) *quantity.Length {
	if l == nil {
		return nil
	}
	return &l.SI
}

// facing of the two outside faces: half of the usual loss each.
func (p *planner) facing(b *PlanBillet, out *plan.Billet) {
	usual, _ := p.t.Losses.Facing.Get()
	out.FacingFace1, out.FacingFar = shelf.LengthOr(b.FacingFace1, usual/2), shelf.LengthOr(b.FacingFar, usual/2)
	if b.FacingFace1 == nil || b.FacingFar == nil {
		p.standIn("facing, both outside faces", p.t.Losses.Facing)
		p.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "facing_face_1", Detail: (usual / 2).Format(p.report.LengthUnit) + " is taken off each outside face that has no facing of its own (common practice, no source)"})
	}
}

// trims of the two ends, as given or by how they were sealed.
func (p *planner) trims(b *PlanBillet, out *plan.Billet) error {
	out.TrimStart, out.TrimEnd = shelf.LengthOrNone(b.TrimStart), shelf.LengthOrNone(b.TrimEnd)
	switch {
	case b.Ends == "" && b.TrimStart == nil && b.TrimEnd == nil:
		p.notes.Warn(method.Warning{Code: method.Assumption, Input: "end_trim_start", Detail: "no end trim is taken where none is given; give end_trim_start and end_trim_end, or ends"})
		return nil
	case b.Ends == "":
		return nil
	case b.TrimStart != nil && b.TrimEnd != nil:
		return wire.Contradictory("ends", "give ends, or end_trim_start and end_trim_end, not all of them")
	}
	row, known := p.t.Species.EndTrim(b.Ends)
	if !known {
		detail := "there is no end trim called " + strconv.Quote(wire.Clipped(b.Ends)) + "; there are"
		for _, e := range p.t.Species.EndTrims() {
			detail += " " + e.ID
		}
		return &method.Error{Code: method.Unknown, Input: "ends", Detail: detail}
	}
	each := row.Each.High
	if !each.Known() {
		each = row.Each.Low
	}
	trim, _ := each.Get()
	p.standIn("end trim, "+row.Name, each)
	out.TrimStart, out.TrimEnd = shelf.LengthOr(b.TrimStart, trim), shelf.LengthOr(b.TrimEnd, trim)
	return nil
}

// fits refuses trims and facings that leave nothing.
func fits(b *PlanBillet, out *plan.Billet) error {
	var all []error
	if out.TrimStart+out.TrimEnd >= out.Length {
		member := "end_trim_start"
		if b.TrimStart == nil {
			member = "ends"
		}
		all = append(all, &method.Error{Code: method.Contradictory, Input: member, Limit: "together less than " + b.Length.SI.AtMost(b.Length.Unit),
			Detail: "the end trims leave nothing of the length of " + b.Length.SI.Format(b.Length.Unit)})
	}
	thick := max(out.Thickness, shelf.LengthOr(b.ThickEnd, 0), shelf.LengthOr(b.ThickFar, 0))
	if out.FacingFace1+out.FacingFar >= thick {
		all = append(all, &method.Error{Code: method.Contradictory, Input: "facing_face_1", Limit: "together less than " + thick.AtMost(b.Thickness.Unit),
			Detail: "the facings leave nothing of the thickness of " + thick.Format(b.Thickness.Unit)})
	}
	return errors.Join(all...)
}

func zoneOf(z *PlanZone, b *plan.Billet) (plan.Zone, error) {
	out := plan.Zone{Kind: z.Kind, X0: z.XFrom.SI, X1: z.XTo.SI, Y0: z.YFrom.SI, Y1: z.YTo.SI, Z0: optional(z.ZFrom), Z1: optional(z.ZTo)}
	var all []error
	outside := func(member string, size quantity.Length, what string) {
		all = append(all, &method.Error{Code: method.OutOfRange, Input: member, Limit: "0 to " + size.AtMost("mm"), Detail: "the zone lies outside the billet, which is " + size.Format("mm") + " " + what})
	}
	width, thick := max(b.Width, orLength(b.WidthEnd)), max(b.Thickness, orLength(b.ThicknessEnd), orLength(b.ThicknessFarEdge))
	if b.ThicknessEnd != nil && b.ThicknessFarEdge != nil {
		thick = max(thick, *b.ThicknessEnd+*b.ThicknessFarEdge-b.Thickness)
	}
	for _, side := range []struct {
		axis     string
		from, to *wire.Length
		size     quantity.Length
		what     string
	}{{"x", z.XFrom, z.XTo, b.Length, "long"}, {"y", z.YFrom, z.YTo, width, "wide"}, {"z", z.ZFrom, z.ZTo, thick, "thick"}} {
		from, to := side.axis+"_from", side.axis+"_to"
		switch {
		case side.from == nil && side.to == nil: // from face to face
		case side.from == nil:
			all = append(all, wire.Missing(from, from+" and "+to+" go together; without both the zone goes from face to face"))
		case side.to == nil:
			all = append(all, wire.Missing(to, from+" and "+to+" go together; without both the zone goes from face to face"))
		case side.to.SI <= side.from.SI:
			limit := "more than " + side.from.SI.AtLeast(side.to.Unit)
			all = append(all, &method.Error{Code: method.Contradictory, Input: to, Limit: limit, Detail: to + " must be " + limit + ", which is " + from})
		case side.to.SI <= 0 || side.from.SI >= side.size:
			outside(from, side.size, side.what)
		}
	}
	return out, errors.Join(all...)
}

func orLength(l *quantity.Length) quantity.Length {
	if l == nil {
		return 0
	}
	return *l
}

// rings settles where the pith lies, or takes one ring angle.
func (p *planner) rings(r *PlanRings, out *plan.Billet) error {
	given := 0
	for _, has := range []bool{r.Pith != nil, len(r.Readings) > 0, r.RingAngle != nil} {
		if has {
			given++
		}
	}
	switch {
	case given == 0:
		return wire.Missing("", "give pith, readings or ring_angle_deg")
	case given > 1:
		return wire.Contradictory("", "give one of pith, readings and ring_angle_deg")
	case r.PithBeforeFace1 && len(r.Readings) == 0:
		return wire.Contradictory("pith_before_face_1", "pith_before_face_1 goes with readings")
	}
	switch {
	case r.Pith != nil:
		out.Pith = &resaw.Point{X: r.Pith.Y.SI, Z: r.Pith.Z.SI}
		return nil
	case r.RingAngle != nil:
		angle := quantity.Angle(*r.RingAngle) * quantity.Degree
		out.RingAngle = &angle
		return nil
	case len(r.Readings) == 1:
		return wire.Missing("readings/1", "two readings give the pith; for one angle use ring_angle_deg")
	}
	one, two := r.Readings[0], r.Readings[1]
	first, second := quantity.Angle(*one.Angle)*quantity.Degree, quantity.Angle(*two.Angle)*quantity.Degree
	fix, err := resaw.PithFromAngles(one.Y.SI, first, two.Y.SI, second)
	if err != nil {
		return wire.Under("", err, [2]string{"x1", "readings/0/y"}, [2]string{"x2", "readings/1/y"},
			[2]string{"ring_angle_1", "readings/0/ring_angle_deg"}, [2]string{"ring_angle_2", "readings/1/ring_angle_deg"})
	}
	p.notes.Merge(fix.Notes)
	if fix.OnQuarter {
		angle := min(first, second)
		out.RingAngle = &angle
		return nil
	}
	if r.PithBeforeFace1 {
		fix.Depth = -fix.Depth
	}
	out.Pith = &resaw.Point{X: fix.X, Z: fix.Depth}
	return nil
}

func (p *planner) saws() error {
	var all []error
	names := map[string]bool{}
	for i := range p.req.Saws {
		out, err := p.saw(&p.req.Saws[i], place("saws", i))
		if out.Name == "" {
			out.Name = "saw " + strconv.Itoa(i+1)
		}
		if names[out.Name] {
			err = errors.Join(err, wire.Contradictory("name", "another saw has this name"))
		}
		names[out.Name] = true
		if err == nil {
			p.tellSaw(&p.req.Saws[i], place("saws", i))
		}
		all = append(all, wire.Under(place("saws", i), err))
		p.asked.Saws = append(p.asked.Saws, out)
	}
	return errors.Join(all...)
}

func (p *planner) saw(s *PlanSaw, at string) (plan.Saw, error) {
	out := plan.Saw{Name: s.Name, Reface: shelf.LengthOrNone(s.Reface), FarFaceFinished: !s.RoughFar, HighestCut: shelf.LengthOrNone(s.HighestCut)}
	row, err := p.kerfs(s, &out)
	if err != nil {
		return out, err
	}
	p.habits(s, row, &out, at)
	thickest := quantity.Length(0)
	for i := range p.asked.Billets {
		b := &p.asked.Billets[i]
		thickest = max(thickest, b.Thickness, orLength(b.ThicknessEnd), orLength(b.ThicknessFarEdge))
	}
	if out.Resaw > thickest {
		return out, &method.Error{Code: method.Contradictory, Input: "kerf", Limit: "at most " + thickest.AtMost(p.report.LengthUnit), Detail: "the kerf is wider than every billet is thick"}
	}
	return out, nil
}

// kerfs takes the kerfs, as given or of the table, whose row is returned if the saw
// names one.
func (p *planner) kerfs(s *PlanSaw, out *plan.Saw) (*species.SawKind, error) {
	var row *species.SawKind
	switch {
	case s.ID == "" && s.Kerf == nil:
		return nil, wire.Missing("kerf", "give kerf, or the saw by its id")
	case s.ID != "":
		var known bool
		if row, known = p.t.Species.Saw(s.ID); !known {
			detail := "there is no saw called " + strconv.Quote(wire.Clipped(s.ID)) + "; there are"
			for _, k := range p.t.Species.Saws() {
				detail += " " + k.ID
			}
			return nil, &method.Error{Code: method.Unknown, Input: "saw", Detail: detail}
		}
		if out.Name == "" {
			out.Name = row.Name
		}
	}
	if s.Kerf != nil {
		out.Resaw = s.Kerf.SI
	} else {
		usual, known := row.Kerf.Usual.Get()
		if !known {
			usual, _ = row.Kerf.High.Get()
		}
		out.Resaw = usual
		p.standIn("kerf, "+row.Name, row.Kerf.Usual)
	}
	out.Rip, out.Crosscut = shelf.LengthOr(s.RipKerf, out.Resaw), shelf.LengthOr(s.Crosscut, out.Resaw)
	return row, nil
}

// habits are the clean-up and the wander, as given or usual. What has no kerf by the
// table is split, and leaves rougher faces. at is the place of the saw.
func (p *planner) habits(s *PlanSaw, row *species.SawKind, out *plan.Saw, at string) {
	l := &p.t.Losses
	usual, name := l.Cleanup, "clean-up of a face"
	if splits(row) {
		usual, name = l.Split, "clean-up of a split face"
	}
	cleanup, _ := usual.Get()
	wander, _ := l.Wander.Get()
	if out.CleanupShow = shelf.LengthOr(s.CleanupShow, cleanup); s.CleanupShow == nil {
		p.standIn(name, usual)
	}
	out.CleanupBack = shelf.LengthOr(s.CleanupBack, out.CleanupShow)
	if out.Wander = shelf.LengthOr(s.Wander, wander); s.Wander == nil {
		p.standIn("wander", l.Wander)
	}
	if words := shelf.UsualWords(p.report, shelf.CleanupLoss(s.CleanupShow, s.CleanupBack, usual), shelf.UsualLoss{Given: s.Wander, Usual: l.Wander, What: "wander"}); words != "" {
		p.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at, Detail: words})
	}
}

// tellSaw warns of what was settled of a saw, found at a place, without a word of the caller.
func (p *planner) tellSaw(s *PlanSaw, at string) {
	row, _ := p.t.Species.Saw(s.ID)
	switch {
	case splits(row):
		detail := "splitting takes no kerf, but leaves rough faces"
		if s.CleanupShow == nil {
			detail += ": each face that has no clean-up of its own loses " + shelf.Spoken(p.report, p.t.Losses.Split)
		}
		if s.RipKerf == nil || s.Crosscut == nil {
			detail += "; rips and crosscuts without a kerf of their own are counted as taking nothing, give rip_kerf and crosscut_kerf of the saw that makes them"
		}
		p.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at, Detail: detail})
	case s.HighestCut == nil:
		p.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/highest_cut", Detail: "no highest_cut is given, so this saw is taken to resaw a blank of any width; give the height that it clears"})
	}
}

// splits says whether a kind of saw of the table is none, but splits.
func splits(row *species.SawKind) bool {
	if row == nil {
		return false
	}
	kerf, known := row.Kerf.Usual.Get()
	return known && kerf == 0
}
