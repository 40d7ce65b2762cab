package cut

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
)

// bookmatch is the work on one request.
type bookmatch struct {
	req    *BookmatchRequest
	report wire.Reporter
	usual  *shelf.StandIns
}

// input draws up what the physics asks.
func (m *bookmatch) input(l *shelf.Losses, notes *method.Notes) (match.Input, error) {
	req := m.req
	in := match.Input{Width: req.Width.SI, Spoiled: req.Spoiled, SeamEdge: shelf.LengthOrNone(req.SeamEdge),
		RingWidth: shelf.LengthOrNone(req.RingWidth)}
	wrong := errors.Join(m.stack(&in), m.rings(&in), m.spoiled(&in), m.seamEdge())
	cleanup := req.Cleanup
	if cleanup == nil {
		cleanup = &FaceCleanup{}
	}
	in.CleanupShow, in.CleanupBack = m.usual.Or(cleanup.Show, "cleanup_show", l.Cleanup),
		shelf.LengthOrNone(cleanup.Back)
	if cleanup.Show == nil {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "cleanup/show",
			Detail: shelf.Spoken(m.report, l.Cleanup) +
				" is taken off each face that shows, as after a good resaw blade; defaults_used has the source"})
	}
	wrong = errors.Join(wrong, m.cleanup(&in))
	if req.AngleSD != nil {
		in.AngleSD = quantity.Angle(*req.AngleSD) * quantity.Degree
	}
	if g := req.Grain; g != nil {
		in.Dip, in.Runout = number(g.Dip), number(g.Runout)
		if g.FlameLean != nil {
			lean := quantity.Angle(*g.FlameLean) * quantity.Degree
			in.BandLean = &lean
		}
	}
	if e := req.Edges; e != nil {
		if e.Left != "" && e.Left == e.Right && req.Rings.Pith == nil {
			notes.Warn(method.Warning{Code: method.Assumption, Input: "edges",
				Detail: "both edges are said to face the " + e.Left +
					"; then the pith lies between them or the billet was glued"})
		}
		in.Left, in.Right = match.EdgeKind(e.Left), match.EdgeKind(e.Right)
	}
	for _, o := range req.Openings {
		in.Openings = append(in.Openings, resaw.Opening(o))
	}
	if s := req.Spare; s != nil {
		in.SpareWidth, in.SpareLength = shelf.LengthOrNone(s.Width), shelf.LengthOrNone(s.Length)
	}
	in.Weights = req.Weights.chosen()
	return in, wrong
}

func number(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}

// stack takes the leaves, by count or face by face.
func (m *bookmatch) stack(in *match.Input) error {
	switch l := m.req.Leaves; {
	case l != nil && len(m.req.Faces) > 0:
		return wire.Contradictory("faces", "give leaves, a regular stack, or faces, one by one, not both")
	case l != nil:
		in.Count, in.First, in.Leaf, in.Kerf, in.Reface = *l.Count, shelf.LengthOrNone(l.First), l.Thickness.SI,
			l.Kerf.SI, shelf.LengthOrNone(l.Reface)
	case len(m.req.Faces) == 0:
		return wire.Missing("leaves", "give leaves, a regular stack, or faces, one by one")
	}
	for i := range m.req.Faces {
		in.Leaves = append(in.Leaves, resaw.LeafFaces{Front: m.req.Faces[i].Front.SI, Back: m.req.Faces[i].Back.SI})
	}
	return nil
}

// spoiled holds the numbers of spoiled leaves against the leaves there are.
func (m *bookmatch) spoiled(in *match.Input) error {
	leaves := max(in.Count, len(in.Leaves))
	var all []error
	for i, n := range in.Spoiled {
		if leaves > 0 && n > leaves {
			limit := "1 to " + strconv.Itoa(leaves)
			all = append(all, &method.Error{Code: method.OutOfRange, Input: place("spoiled", i), Limit: limit,
				Detail: "there is no leaf " + strconv.Itoa(n) + "; they are numbered " + limit})
		}
	}
	return errors.Join(all...)
}

// seamEdge refuses a seam edge that takes half of the width.
func (m *bookmatch) seamEdge() error {
	if e := m.req.SeamEdge; e != nil && 2*e.SI >= m.req.Width.SI {
		limit := "less than " + (m.req.Width.SI / 2).AtMost(e.Unit)
		return &method.Error{Code: method.Contradictory, Input: "seam_edge", Limit: limit,
			Detail: "the seam edge takes half of the width or more; it must be " + limit}
	}
	return nil
}

// cleanup refuses a clean-up that leaves nothing of a leaf.
func (m *bookmatch) cleanup(in *match.Input) error {
	thin := in.Leaf
	for i, l := range in.Leaves {
		if thick := l.Back - l.Front; i == 0 || thick < thin {
			thin = thick
		}
	}
	if thin <= 0 || in.CleanupShow+in.CleanupBack < thin {
		return nil
	}
	limit := "together less than " + thin.AtMost(m.report.LengthUnit)
	return &method.Error{Code: method.Contradictory, Input: "cleanup/show", Limit: limit,
		Detail: "the clean-up of both faces leaves nothing of a leaf of " + thin.Format(m.report.LengthUnit)}
}

// rings takes the pith, the readings or the one angle.
func (m *bookmatch) rings(in *match.Input) error {
	r := m.req.Rings
	given := 0
	for _, is := range []bool{r.Pith != nil, len(r.Readings) > 0, r.RingAngle != nil} {
		if is {
			given++
		}
	}
	switch {
	case given == 0:
		return wire.Missing("rings", "give pith, readings or ring_angle_deg")
	case given > 1:
		return wire.Contradictory("rings", "give only one of pith, readings and ring_angle_deg")
	case r.PithBeforeFace1 && len(r.Readings) != 2:
		return wire.Contradictory("rings/pith_before_face_1", "pith_before_face_1 goes with two readings")
	case r.Lean != "" && r.RingAngle == nil && len(r.Readings) != 1:
		return wire.Contradictory("rings/lean", "lean goes with one ring angle; a pith tells it")
	case r.Pith != nil:
		in.Rings.Pith = &resaw.Point{X: r.Pith.X.SI, Z: r.Pith.Z.SI}
	case r.RingAngle != nil:
		in.Rings.Readings = []match.RingReading{{Angle: quantity.Angle(*r.RingAngle) * quantity.Degree}}
	}
	for i := range r.Readings {
		in.Rings.Readings = append(in.Rings.Readings,
			match.RingReading{X: r.Readings[i].X.SI, Angle: quantity.Angle(*r.Readings[i].Angle) * quantity.Degree})
	}
	in.Rings.PithBeforeFace1, in.Rings.Lean = r.PithBeforeFace1, match.LineLean(r.Lean)
	return nil
}

// chosen are the usual weights with the caller's in their place; nil when none
// is given.
func (w *MatchWeights) chosen() *match.Weights {
	if w == nil {
		return nil
	}
	all := match.UsualWeights()
	for _, one := range []struct {
		to   *float64
		from *float64
	}{
		{&all.Ring, w.Ring}, {&all.Residual, w.Residual}, {&all.Ray, w.Ray}, {&all.Band, w.Flame}, {&all.Tip, w.Tip},
		{&all.Spacing, w.Spacing},
		{&all.Runout, w.Runout}, {&all.Heart, w.Heart}, {&all.NoMirror, w.NoMirror}, {&all.Most, w.Most},
	} {
		if one.from != nil {
			*one.to = *one.from
		}
	}
	return &all
}
