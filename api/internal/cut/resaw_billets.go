package cut

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/resaw/plan"
)

// billetsRead are the billets of a request with the wood of each, nil where no species
// is given, and the ids by which the answer calls them.
type billetsRead struct {
	all   []plan.Billet
	woods []*shelf.Wood
	ids   []string
}

// billets reads what was measured of the billets.
func (r *reading) billets(req *ResawPlanRequest) (billetsRead, error) {
	var out billetsRead
	var all []error
	var ids ids
	for i := range req.Billets {
		b := &req.Billets[i]
		w, noWood := b.WoodOf(r.t, place("billets", i), r.notes)
		one, err := r.billet(b, i)
		id, taken := ids.of(b.ID, i, "billet")
		all = append(all, noWood, wire.Under(place("billets", i), errors.Join(err, taken)))
		out.all, out.woods, out.ids = append(out.all, one), append(out.woods, w), append(out.ids, id)
	}
	return out, errors.Join(all...)
}

// billet reads the i-th billet.
func (r *reading) billet(b *shelf.Billet, i int) (plan.Billet, error) {
	at := place("billets", i)
	read, noTrim := b.Read(r.bench, at)
	out := plan.Billet{
		Name: called(b.Name, b.ID, "billet "+strconv.Itoa(i+1)), Length: read.Length, Width: read.Width,
		Thickness: read.Thickness, WidthEnd: read.EndWidth, ThicknessEnd: read.EndThickness,
		ThicknessFarEdge: read.FarThickness, FacingFace1: read.FacingFace1, FacingFar: read.FacingFace2, UsualFacing: b.FacingFace1 == nil,
		TrimStart: read.TrimStart, TrimEnd: read.TrimEnd,
		Cup: shelf.LengthOrNone(b.Cup), Bow: shelf.LengthOrNone(b.Bow), Twist: shelf.LengthOrNone(b.Twist),
		Packed: b.TwistPacked, RunoutOneIn: b.Runout(),
	}
	if !b.TrimsEnds() {
		r.notes.Warn(method.Warning{Code: method.Assumption, Input: at + "/trim", Subject: out.Name,
			Detail: "no end trim is taken where none is given; give trim its start and end, or usual"})
	}
	all := []error{noTrim}
	if noTrim == nil {
		all = append(all, b.LeavesWood(&read, thickest(&out)))
	}
	for i := range b.Zones {
		z, err := zoneOf(&b.Zones[i], &out, r.report)
		all = append(all, wire.Under(place("zones", i), err))
		out.Zones = append(out.Zones, z)
	}
	out.Zones = append(out.Zones, edgesOff(&read, &out)...)
	if b.Rings != nil {
		var err error
		var found method.Notes
		out.Pith, out.RingAngle, err = b.Rings.Found(out.Width, &found)
		r.notes.MergeFor(at+"/rings", out.Name, found)
		all = append(all, wire.Under("rings", err))
	}
	return out, errors.Join(all...)
}

// edgesOff are the trims of the edges, as zones that no part may hold.
func edgesOff(read *shelf.BilletRead, b *plan.Billet) []plan.Zone {
	var out []plan.Zone
	narrow, wide := b.Width, widest(b)
	if b.WidthEnd != nil {
		narrow = min(narrow, *b.WidthEnd)
	}
	if near := read.TrimNear; near > 0 {
		out = append(out, plan.Zone{Kind: "wane", X1: b.Length, Y1: near})
	}
	if far := read.TrimFar; far > 0 {
		out = append(out, plan.Zone{Kind: "wane", X1: b.Length, Y0: narrow - far, Y1: wide})
	}
	return out
}
