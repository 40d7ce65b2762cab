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
	bench  *shelf.Bench
}

// input draws up what the physics asks.
func (m *bookmatch) input() (match.Input, error) {
	req, b := m.req, m.req.Billet
	in := match.Input{Width: b.Width.SI, Spoiled: req.Rejected, SeamEdge: shelf.LengthOrNone(req.SeamEdge), Arch: shelf.LengthOrNone(req.Arch),
		RingWidth: shelf.LengthOrNone(b.Rings.RingWidth)}
	wrong := errors.Join(m.stack(&in), m.saw(&in), m.rings(&in), m.rejected(&in), m.seamEdge(), wire.Under("billet", b.CheckZones()))
	wrong = errors.Join(wrong, m.cleanup(&in), m.within(&in), m.arch(&in))
	if sd := b.Rings.AngleSD; sd != nil {
		in.AngleSD = quantity.Angle(*sd) * quantity.Degree
	}
	if g := b.Grain; g != nil {
		in.Dip, in.Runout = number(g.Dip), number(g.Runout)
		if g.FlameLean != nil {
			lean := quantity.Angle(*g.FlameLean) * quantity.Degree
			in.BandLean = &lean
		}
	}
	if e := b.EdgesInTree; e != nil {
		if e.Near != "" && e.Near == e.Far && b.Rings.Pith == nil {
			m.bench.Notes.Warn(method.Warning{Code: method.Assumption, Input: "billet/edges_in_tree",
				Detail: "both edges are said to face the " + e.Near +
					"; then the pith lies between them or the billet was glued"})
		}
		in.Near, in.Far = match.EdgeKind(e.Near), match.EdgeKind(e.Far)
	}
	for _, o := range req.Openings {
		in.Openings = append(in.Openings, resaw.Opening(o))
	}
	m.spare(&in)
	in.Weights = req.Weights.chosen()
	return in, wrong
}

func number(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}

// spare takes what may be given up for a better match.
func (m *bookmatch) spare(in *match.Input) {
	s := m.req.Spare
	if s == nil {
		s = &SpareWood{}
	}
	in.SpareWidth, in.SpareLength = shelf.LengthOrNone(s.Width), shelf.LengthOrNone(s.Length)
	var what string
	switch {
	case s.Width == nil && s.Length == nil:
		what = "of width and as much of length"
	case s.Width == nil:
		what = "of width"
	case s.Length == nil:
		what = "of length"
	default:
		return
	}
	m.bench.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "spare", Detail: match.UsualSpare.Format(m.report.LengthUnit) +
		" " + what + " may be given up for a better match, unless spare says otherwise (own choice)"})
}

// stack takes the leaves, by count or face by face.
func (m *bookmatch) stack(in *match.Input) error {
	switch s := m.req.Stack; {
	case s != nil && len(m.req.Leaves) > 0:
		return wire.Contradictory("leaves", "give stack, a regular one, or leaves, one by one, not both")
	case s != nil:
		in.Count, in.First, in.Leaf = *s.Leaves, shelf.LengthOrNone(s.ZFrom), s.Sawn.SI
	case len(m.req.Leaves) == 0:
		return wire.Missing("stack", "give stack, a regular one, or leaves, one by one")
	}
	for i := range m.req.Leaves {
		l := &m.req.Leaves[i]
		in.Leaves = append(in.Leaves, resaw.LeafFaces{Front: l.ZFrom.SI, Back: l.ZTo.SI})
	}
	return nil
}

// saw takes what the cuts and the clean-up take. The clean-up of the back, which costs no
// match, is none unless it is given.
func (m *bookmatch) saw(in *match.Input) error {
	s, losses := m.req.Saw, &m.bench.Tables.Losses
	var kerfs shelf.SawRead
	var err error
	switch {
	case s == nil && m.req.Stack != nil:
		return wire.Missing("saw", "a stack needs the saw with its kerf")
	case s == nil:
		s = &shelf.Saw{}
	case m.req.Stack != nil || s.Kerf != nil || s.UsualKerf != "":
		kerfs, err = s.Kerfs(m.bench)
	}
	if m.req.Stack != nil {
		in.Kerf, in.Reface = kerfs.Kerf, shelf.LengthOrNone(s.Reface)
	}
	usual := losses.Cleanup
	if kerfs.Splits() {
		usual = losses.Split
	}
	in.CleanupShow, in.CleanupBack = m.bench.Usual.Or(s.CleanupShow, "clean-up of a face", usual),
		shelf.LengthOrNone(s.CleanupBack)
	if s.CleanupShow == nil {
		m.bench.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "saw/cleanup_show",
			Detail: shelf.Spoken(m.report, usual) +
				" is taken off each face that shows, as after a good resaw blade; defaults_used has the source"})
	}
	return wire.Under("saw", err)
}

// rejected holds the numbers of rejected leaves against the leaves there are.
func (m *bookmatch) rejected(in *match.Input) error {
	leaves := max(in.Count, len(in.Leaves))
	var all []error
	for i, n := range in.Spoiled {
		if leaves > 0 && n > leaves {
			limit := method.Between(1, float64(leaves), "")
			all = append(all, &method.Error{Code: method.OutOfRange, Input: place("rejected_leaves", i), Limit: limit,
				Detail: "there is no leaf " + strconv.Itoa(n) + "; they are numbered " + limit.String()})
		}
	}
	return errors.Join(all...)
}

// seamEdge refuses a seam edge that takes half of the width.
func (m *bookmatch) seamEdge() error {
	if e := m.req.SeamEdge; e != nil && 2*e.SI >= m.req.Billet.Width.SI {
		limit := method.LessThan((m.req.Billet.Width.SI / 2).AtMost(e.Unit))
		return &method.Error{Code: method.Contradictory, Input: "seam_edge", Limit: limit,
			Detail: "the seam edge takes half of the width or more; it must be " + limit.String()}
	}
	return nil
}

// within refuses leaves that lie beyond the billet, where its thickness is told.
func (m *bookmatch) within(in *match.Input) error {
	b := m.req.Billet
	if b.Thickness == nil {
		return nil
	}
	thick := max(b.Thickness.SI, shelf.LengthOrNone(b.FarThickness), shelf.LengthOrNone(b.EndThickness))
	limit := method.AtMost(thick.AtMost(m.report.LengthUnit))
	said := "the billet is " + thick.Format(m.report.LengthUnit) + " thick"
	beyond := func(l quantity.Length) bool { return l > thick+wire.ANanometre }
	var all []error
	for i, l := range in.Leaves {
		if beyond(l.Back) {
			all = append(all, &method.Error{Code: method.Contradictory, Input: place("leaves", i) + "/z_to", Limit: limit,
				Detail: "the leaf lies beyond the billet: " + said + "; z_to must be " + limit.String()})
		}
	}
	n := quantity.Length(in.Count)
	if takes := in.First + n*in.Leaf + (n-1)*(in.Kerf+in.Reface); in.Count > 0 && beyond(takes) {
		all = append(all, &method.Error{Code: method.Contradictory, Input: "stack/leaves", Limit: limit,
			Detail: "the leaves with their kerfs reach " + takes.Format(m.report.LengthUnit) + " deep, beyond the billet: " + said +
				"; together they must reach " + limit.String()})
	}
	return errors.Join(all...)
}

// arch refuses an arch that leaves nothing of a leaf at its outer edge, or is higher than a half
// is wide.
func (m *bookmatch) arch(in *match.Input) error {
	thin := in.Leaf
	for i, l := range in.Leaves {
		if thick := l.Back - l.Front; i == 0 || thick < thin {
			thin = thick
		}
	}
	left := thin - in.CleanupShow - in.CleanupBack
	if in.Arch == 0 || left <= 0 || in.Arch < left && in.Arch <= in.Width-2*in.SeamEdge {
		return nil
	}
	most, why := left, "the arch leaves nothing of a leaf at its outer edge"
	if wide := in.Width - 2*in.SeamEdge; wide < left {
		most, why = wide, "the arch is higher than a half is wide"
	}
	limit := method.LessThan(most.AtMost(m.report.LengthUnit))
	return &method.Error{Code: method.Contradictory, Input: "arch_height", Limit: limit, Detail: why + "; it must be " + limit.String()}
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
	saw := m.req.Saw
	if saw == nil {
		saw = &shelf.Saw{}
	}
	return shelf.NothingLeft(shelf.Loss{Member: "saw/cleanup_show", Given: saw.CleanupShow, Size: in.CleanupShow},
		shelf.Loss{Member: "saw/cleanup_back", Given: saw.CleanupBack, Size: in.CleanupBack},
		"the clean-up of both faces leaves nothing of a leaf", thin, m.report.LengthUnit)
}

// rings takes the pith, the readings or the one angle.
func (m *bookmatch) rings(in *match.Input) error {
	r := m.req.Billet.Rings
	if err := r.Check(); err != nil {
		return wire.Under("billet/rings", err)
	}
	r.TellDefaults(m.bench.Notes)
	in.Rings.Pith = r.PithIn(m.req.Billet.Width.SI)
	if r.Chord != nil {
		pith, err := r.PithOfChord(m.req.Billet.Width.SI)
		if err != nil {
			return wire.Under("billet/rings", err)
		}
		in.Rings.Pith = pith
	}
	if r.Angle != nil {
		in.Rings.Readings = []match.RingReading{{Angle: *r.OneAngle()}}
	}
	for i := range r.Readings {
		one := &r.Readings[i]
		in.Rings.Readings = append(in.Rings.Readings, match.RingReading{X: one.Y.SI, Z: shelf.LengthOrNone(one.Z),
			Angle: quantity.Angle(*one.Angle) * quantity.Degree})
	}
	in.Rings.PithBeforeFace1, in.Rings.Lean = r.PithSide == "face_1", leans[r.Lean]
	return nil
}

// leans are the leans of ring lines in the words of the physics.
var leans = map[string]match.LineLean{"near": match.LeansNear, "far": match.LeansFar}

// chosen are the usual weights with the caller's in their place; nil when none
// is given.
func (w *ScoreWeights) chosen() *match.Weights {
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
		{&all.Runout, w.Runout}, {&all.PithEdge, w.PithEdge}, {&all.NoMirror, w.NoMirror}, {&all.Most, w.MaxTerm},
	} {
		if one.from != nil {
			*one.to = *one.from
		}
	}
	return &all
}
