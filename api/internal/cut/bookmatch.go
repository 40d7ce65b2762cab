package cut

import (
	"context"
	"errors"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/match"
)

// BookmatchRequest asks how neighbouring leaves of a stack match across a seam.
// On the end grain x runs from the left edge along the face, z from face 1 into
// the wood.
type BookmatchRequest struct {
	Species   string        `json:"species,omitempty" validate:"max=100" description:"id or name; for cautions"`
	Width     *wire.Length  `json:"width" validate:"required,gte=0.005,lte=5" description:"of the leaves"`
	Leaves    *LeafStack    `json:"leaves,omitempty" description:"a regular stack: how many leaves, how thick, how far apart; or give faces"`
	Faces     []LeafFaces   `json:"faces,omitempty" validate:"max=200,dive" description:"the sawn faces of every leaf in order from face 1, in place of leaves"`
	Spoiled   []int         `json:"spoiled,omitempty" validate:"max=200,dive,gte=1,lte=200" description:"numbers of leaves, from 1 at face 1, that make no pair"`
	Cleanup   *FaceCleanup  `json:"cleanup,omitempty" description:"taken off the leaves by plane or sander"`
	SeamEdge  *wire.Length  `json:"seam_edge,omitempty" validate:"omitempty,gte=0,lte=0.5" description:"jointed off the edge before the seam; default none, 3 mm is usual (common practice)"`
	Rings     *RingsRead    `json:"rings" validate:"required" description:"how the rings lie: pith, readings, or one angle"`
	AngleSD   *float64      `json:"ring_angle_sd_deg,omitempty" validate:"omitempty,gt=0,lte=30" description:"standard deviation of the ring angle as read; gives the ring shift its band. A bevel read on a planed end is good to about 2 degrees (own estimate)"`
	RingWidth *wire.Length  `json:"ring_width,omitempty" validate:"omitempty,gte=0.00001,lte=0.05" description:"of one annual ring"`
	Grain     *GrainRead    `json:"grain,omitempty" description:"dip, runout and flame, for the shifts along the length"`
	Edges     *EdgesRead    `json:"edges,omitempty" description:"what the two edges faced in the tree; both bark where the pith lies between them, as in leaves through a whole flitch; default: told from the pith, where that is known"`
	Openings  []string      `json:"openings,omitempty" validate:"max=3,dive,oneof=bookmatch slip_match wrong_way" description:"ways of opening to compare; default all three. wrong_way is a pair turned so that the outer faces show"`
	Spare     *SpareWood    `json:"spare,omitempty" description:"the most that may be given up for a better match; default 10 mm each (own choice)"`
	Weights   *MatchWeights `json:"weights,omitempty" description:"of the score, in place of the usual ones"`
	ReportIn  string        `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (r *BookmatchRequest) System() string { return r.ReportIn }

// LeafStack is a regular stack of leaves.
type LeafStack struct {
	Count     *int         `json:"count" validate:"required,gte=2,lte=200" description:"2 for one pair"`
	Thickness *wire.Length `json:"thickness" validate:"required,gte=0.0002,lte=0.5" description:"of a leaf as sawn"`
	Kerf      *wire.Length `json:"kerf" validate:"required,gte=0,lte=0.02"`
	Reface    *wire.Length `json:"reface,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"taken off the billet after every cut; default none"`
	First     *wire.Length `json:"first,omitempty" validate:"omitempty,gte=0,lte=2" description:"of the first leaf below face 1, where the rings were read; default 0"`
}

// LeafFaces is where the two sawn faces of a leaf lay in the billet.
type LeafFaces struct {
	Front *wire.Length `json:"front" validate:"required,gte=0,lte=5" description:"below face 1"`
	Back  *wire.Length `json:"back" validate:"required,gt=0,lte=5" description:"below face 1, deeper than front"`
}

// FaceCleanup is what is taken off the two faces of a leaf.
type FaceCleanup struct {
	Show *wire.Length `json:"show,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"off the face that shows; default 0.8 mm. It moves the halves apart, so take what you can from the back"`
	Back *wire.Length `json:"back,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"off the other face, where it costs no match; default none"`
}

// RingsRead is how the rings lie in the billet; exactly one of pith, readings
// and ring_angle_deg.
type RingsRead struct {
	Pith            *PithPoint    `json:"pith,omitempty" description:"measured on the end grain; often outside the billet"`
	Readings        []RingReading `json:"readings,omitempty" validate:"max=2,dive" description:"ring angle at one or two places of face 1; two give the pith"`
	RingAngle       *float64      `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0.01,lte=90" description:"one angle for the whole billet, to the face: 90 quartersawn"`
	PithBeforeFace1 bool          `json:"pith_before_face_1,omitempty" description:"with two readings: the pith lies outside face 1 and not on the side of the wood"`
	Lean            string        `json:"lean,omitempty" validate:"omitempty,oneof=left right" description:"with one angle: which way a ring line goes on the end grain, from face 1 into the wood; without it the half that must give wood is not told"`
}

// PithPoint is where the pith lies on the end grain. Either may be negative.
type PithPoint struct {
	X *wire.Length `json:"x" validate:"required,gte=-50,lte=50" description:"from the left edge along the face"`
	Z *wire.Length `json:"z" validate:"required,gte=-50,lte=50" description:"from face 1 into the wood"`
}

// RingReading is a ring angle read at a place of face 1.
type RingReading struct {
	X     *wire.Length `json:"x" validate:"required,gte=-5,lte=5" description:"from the left edge along the face"`
	Angle *float64     `json:"ring_angle_deg" validate:"required,gte=0.01,lte=90"`
}

// GrainRead is what was read of the grain along the billet.
type GrainRead struct {
	Dip       *float64 `json:"dip_one_in,omitempty" validate:"omitempty,gte=1,lte=1000000" description:"the ring surface dips 1 in this to the face along the length; it moves the tips of cathedrals"`
	Runout    *float64 `json:"runout_one_in,omitempty" validate:"omitempty,gte=1,lte=1000000" description:"the fibre leaves the face 1 in this"`
	FlameLean *float64 `json:"flame_lean_deg,omitempty" validate:"omitempty,gte=0,lte=89" description:"lean of bands of figure from square to the face, read on the billet's edge; default: the runout"`
}

// EdgesRead is what the edges faced in the tree.
type EdgesRead struct {
	Left  string `json:"left,omitempty" validate:"omitempty,oneof=bark heart"`
	Right string `json:"right,omitempty" validate:"omitempty,oneof=bark heart"`
}

// SpareWood is what may be given up.
type SpareWood struct {
	Width  *wire.Length `json:"width,omitempty" validate:"omitempty,gt=0,lte=5" description:"of one half at its seam edge"`
	Length *wire.Length `json:"length,omitempty" validate:"omitempty,gt=0,lte=20" description:"of the pair, for sliding one half along the other"`
}

// MatchWeights turn what is wrong with a match into the score; less is better.
type MatchWeights struct {
	Ring     *float64 `json:"ring,omitempty" validate:"omitempty,gte=0,lte=1000" default:"1" description:"per mm of ring shift at the seam"`
	Residual *float64 `json:"residual,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"per mm that ring lines still miss elsewhere once they meet at the seam"`
	Ray      *float64 `json:"ray,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0" description:"per mm of shift of marks that follow the rays, such as bird's-eye; for wood that has them"`
	Flame    *float64 `json:"flame,omitempty" validate:"omitempty,gte=0,lte=1000" default:"1" description:"per mm of shift of flame along the length"`
	Tip      *float64 `json:"tip,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.05" description:"per mm of shift of cathedral tips along the length"`
	Spacing  *float64 `json:"spacing,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"per mm by which the ring spacing differs at the seam"`
	Runout   *float64 `json:"runout,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"per degree by which the runout of the halves differs"`
	Heart    *float64 `json:"heart,omitempty" validate:"omitempty,gte=0,lte=1000" default:"0.5" description:"for the heart edge at the seam"`
	NoMirror *float64 `json:"no_mirror,omitempty" validate:"omitempty,gte=0,lte=1000" default:"3" description:"for a slip-match, which repeats and does not mirror"`
	Most     *float64 `json:"most,omitempty" validate:"omitempty,gte=0,lte=1000" default:"25" description:"no term counts for more"`
}

func ComputeBookmatch(_ context.Context, t *shelf.Tables, req *BookmatchRequest) (*BookmatchResult, method.Notes, error) {
	var notes method.Notes
	w, noWood := t.OptionalWood(req.Species)
	m := &bookmatch{req: req, report: wire.ReportIn(req.ReportIn), usual: &shelf.StandIns{Report: wire.ReportIn(req.ReportIn)}}
	in, err := m.input(&t.Losses, &notes)
	if err := errors.Join(noWood, err); err != nil {
		return nil, notes, err
	}
	matched, err := match.Halves(in)
	if err != nil {
		return nil, notes, m.pointAt(err)
	}
	for i := range matched.Notes.Warnings {
		m.nameInput(&matched.Notes.Warnings[i])
	}
	notes.Merge(matched.Notes)
	t.Cautions(w, &notes)
	notes.Warn(shelf.ResawCaution)
	return m.describe(&in, &matched), notes, nil
}

// bookmatch is the work on one request.
type bookmatch struct {
	req    *BookmatchRequest
	report wire.Reporter
	usual  *shelf.StandIns
}

// input draws up what the physics asks.
func (m *bookmatch) input(l *shelf.Losses, notes *method.Notes) (match.Input, error) {
	req := m.req
	in := match.Input{Width: req.Width.SI, Spoiled: req.Spoiled, SeamEdge: shelf.LengthOrNone(req.SeamEdge), RingWidth: shelf.LengthOrNone(req.RingWidth)}
	wrong := errors.Join(m.stack(&in), m.rings(&in), m.spoiled(&in), m.seamEdge())
	cleanup := req.Cleanup
	if cleanup == nil {
		cleanup = &FaceCleanup{}
	}
	in.CleanupShow, in.CleanupBack = m.usual.Or(cleanup.Show, "cleanup_show", l.Cleanup), shelf.LengthOrNone(cleanup.Back)
	if cleanup.Show == nil {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "cleanup/show", Detail: shelf.Spoken(m.report, l.Cleanup) + " is taken off each face that shows, as after a good resaw blade; stand_ins has the source"})
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
			notes.Warn(method.Warning{Code: method.Assumption, Input: "edges", Detail: "both edges are said to face the " + e.Left + "; then the pith lies between them or the billet was glued"})
		}
		in.Left, in.Right = match.EdgeKind(e.Left), match.EdgeKind(e.Right)
	}
	for _, o := range req.Openings {
		in.Openings = append(in.Openings, match.Opening(o))
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
		in.Count, in.First, in.Leaf, in.Kerf, in.Reface = *l.Count, shelf.LengthOrNone(l.First), l.Thickness.SI, l.Kerf.SI, shelf.LengthOrNone(l.Reface)
	case len(m.req.Faces) == 0:
		return wire.Missing("leaves", "give leaves, a regular stack, or faces, one by one")
	}
	for i := range m.req.Faces {
		in.Leaves = append(in.Leaves, match.LeafFaces{Front: m.req.Faces[i].Front.SI, Back: m.req.Faces[i].Back.SI})
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
			all = append(all, &method.Error{Code: method.OutOfRange, Input: place("spoiled", i), Limit: limit, Detail: "there is no leaf " + strconv.Itoa(n) + "; they are numbered " + limit})
		}
	}
	return errors.Join(all...)
}

// seamEdge refuses a seam edge that takes half of the width.
func (m *bookmatch) seamEdge() error {
	if e := m.req.SeamEdge; e != nil && 2*e.SI >= m.req.Width.SI {
		limit := "less than " + (m.req.Width.SI / 2).AtMost(e.Unit)
		return &method.Error{Code: method.Contradictory, Input: "seam_edge", Limit: limit, Detail: "the seam edge takes half of the width or more; it must be " + limit}
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
	return &method.Error{Code: method.Contradictory, Input: "cleanup/show", Limit: limit, Detail: "the clean-up of both faces leaves nothing of a leaf of " + thin.Format(m.report.LengthUnit)}
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
		in.Rings.Readings = append(in.Rings.Readings, match.RingReading{X: r.Readings[i].X.SI, Angle: quantity.Angle(*r.Readings[i].Angle) * quantity.Degree})
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
		{&all.Ring, w.Ring}, {&all.Residual, w.Residual}, {&all.Ray, w.Ray}, {&all.Band, w.Flame}, {&all.Tip, w.Tip}, {&all.Spacing, w.Spacing},
		{&all.Runout, w.Runout}, {&all.Heart, w.Heart}, {&all.NoMirror, w.NoMirror}, {&all.Most, w.Most},
	} {
		if one.from != nil {
			*one.to = *one.from
		}
	}
	return &all
}

// member is the caller's name of an input of the physics.
func (m *bookmatch) member(input string) string {
	if rest, of := strings.CutPrefix(input, "leaves/"); of {
		return "faces/" + rest
	}
	r := m.req.Rings
	angle := "rings/ring_angle_deg"
	if len(r.Readings) > 0 {
		angle = "rings/readings"
	}
	for _, name := range [][2]string{
		{"cleanup_show", "cleanup/show"}, {"cleanup_back", "cleanup/back"}, {"pith", "rings"}, {"pith_x", "rings/pith/x"}, {"pith_z", "rings/pith/z"},
		{"ring_angle", angle}, {"ring_angle_1", "rings/readings"}, {"ring_angle_2", "rings/readings"}, {"x", "rings/readings"}, {"x1", "rings/readings"}, {"x2", "rings/readings"},
		{"lean", "rings/lean"}, {"ring_angle_sd", "ring_angle_sd_deg"}, {"dip_one_in", "grain/dip_one_in"}, {"runout_one_in", "grain/runout_one_in"},
		{"band_lean", "grain/flame_lean_deg"}, {"left", "edges"}, {"right", "edges"}, {"spare_width", "spare/width"}, {"spare_length", "spare/length"},
		{"count", "leaves/count"}, {"first", "leaves/first"}, {"leaf", "leaves/thickness"}, {"kerf", "leaves/kerf"}, {"reface", "leaves/reface"}, {"weights/band", "weights/flame"},
	} {
		if input == name[0] {
			input = name[1]
			break
		}
	}
	if len(m.req.Faces) > 0 && (input == "leaves" || strings.HasPrefix(input, "leaves/")) {
		return "faces"
	}
	return input
}

// pointAt makes an error point at the caller's members.
func (m *bookmatch) pointAt(err error) error {
	domain, is := wire.AsDomain(err)
	if !is {
		return err
	}
	moved := *domain
	moved.Input = m.member(domain.Input)
	return &moved
}

func (m *bookmatch) nameInput(w *method.Warning) {
	if w.Input != "" {
		w.Input = m.member(w.Input)
	}
}
