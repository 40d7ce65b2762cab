package api

import (
	"context"
	"errors"
	"strconv"
	"strings"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// Billet is a rough piece to be sawn. A wedge is thinner along one edge, a
// taper thinner at one end.
type Billet struct {
	Length    *Length `json:"length" validate:"required,gte=0.01,lte=20"`
	Width     *Length `json:"width" validate:"required,gte=0.01,lte=5"`
	Thickness *Length `json:"thickness" validate:"required,gte=0.0005,lte=2" description:"at its thickest"`
	ThinEnd   *Length `json:"thin_end,omitempty" validate:"omitempty,gte=0,lte=2" description:"thickness at the thin end of a billet that tapers along its length"`
	ThinEdge  *Length `json:"thin_edge,omitempty" validate:"omitempty,gte=0,lte=2" description:"thickness along the thin edge of a wedge; parts are laid from the thick edge"`
	EndTrim   *Length `json:"end_trim,omitempty" validate:"omitempty,gte=0,lte=5" description:"lost at each end to checks; 10 to 25 mm sealed fresh, 50 to 75 mm sealed late or not (common practice)"`
	EdgeTrim  *Length `json:"edge_trim,omitempty" validate:"omitempty,gte=0,lte=2" description:"lost along each edge to wane, sapwood or straightening"`
}

// Saw is what one cut takes.
type Saw struct {
	Kerf     *Length `json:"kerf" validate:"required,gte=0,lte=0.02" description:"width of wood turned to dust by the resaw cut; make one cut in scrap and measure it"`
	RipKerf  *Length `json:"rip_kerf,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"default: the resaw kerf"`
	Crosscut *Length `json:"crosscut_kerf,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"default: the resaw kerf"`
	Facing   *Length `json:"facing,omitempty" validate:"omitempty,gte=0,lte=0.2" description:"taken off the two outside faces in all before the first cut; default 2 mm"`
	Reface   *Length `json:"reface,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"taken off the billet after every cut; default none"`
	RoughFar bool    `json:"far_face_rough,omitempty" description:"the far face is not finished, so every leaf needs a cut of its own"`
}

// PlatePart is the part to be had from the leaves.
type PlatePart struct {
	Length     *Length     `json:"length" validate:"required,gte=0.01,lte=20" description:"of one piece, oversize included"`
	Width      *Length     `json:"width" validate:"required,gte=0.005,lte=5" description:"of one piece, oversize included"`
	Sawn       *Length     `json:"sawn_thickness,omitempty" validate:"omitempty,gte=0.0002,lte=1" description:"of the leaf as sawn; or give final_thickness with its allowances"`
	Final      *Length     `json:"final_thickness,omitempty" validate:"omitempty,gte=0.0002,lte=1"`
	Allowances *Allowances `json:"allowances,omitempty" description:"over the final thickness"`
	PerSet     *int        `json:"pieces_per_set,omitempty" validate:"omitempty,gte=1,lte=100" default:"2" description:"consecutive leaves that make one set"`
}

// Allowances are what a sawn leaf has over its final thickness.
type Allowances struct {
	CleanupShow *Length  `json:"cleanup_show,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"off the show face; default 0.8 mm"`
	CleanupBack *Length  `json:"cleanup_back,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"off the back; default as cleanup_show"`
	Wander      *Length  `json:"wander,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"of the blade; default 0.5 mm"`
	Flatness    *Length  `json:"flatness,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"lost to flattening; default 0.5 mm"`
	SawnAtPct   *float64 `json:"sawn_at_pct,omitempty" validate:"omitempty,gte=0,lte=250" description:"moisture content when sawn; with dried_to_pct and a species it adds the shrinkage still to come"`
	DriedToPct  *float64 `json:"dried_to_pct,omitempty" validate:"omitempty,gte=0,lte=30"`
	RingAngle   *float64 `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" default:"90" description:"of the rings to the face: 90 quartersawn, whose thickness moves tangentially"`
}

// SpoiledLeaf names a leaf that cannot be used.
type SpoiledLeaf struct {
	Row    *int `json:"row" validate:"required,gte=1,lte=10000" description:"from the thick end"`
	Column *int `json:"column" validate:"required,gte=1,lte=10000" description:"from the thick edge"`
	Leaf   *int `json:"leaf" validate:"required,gte=1,lte=100000" description:"from face 1"`
}

// YieldRequest asks what a billet yields with a saw.
type YieldRequest struct {
	Species  string        `json:"species,omitempty" validate:"max=100" description:"id or name; for cautions and for the shrinkage still to come"`
	Billet   *Billet       `json:"billet" validate:"required"`
	Saw      *Saw          `json:"saw" validate:"required"`
	Part     *PlatePart    `json:"part" validate:"required"`
	Spoiled  []SpoiledLeaf `json:"spoiled,omitempty" validate:"max=1000,dive"`
	ReportIn string        `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// YieldResult is what the billet yields.
type YieldResult struct {
	Leaf        LeafBuild    `json:"leaf" required:"true" description:"the leaf as sawn"`
	Rows        int          `json:"rows" required:"true" description:"lengths crosscut from the billet"`
	Columns     int          `json:"columns" required:"true" description:"widths ripped from each length"`
	Leaves      int          `json:"leaves" required:"true"`
	Sets        int          `json:"sets" required:"true" description:"sum over the stacks; a set needs neighbouring leaves of one stack"`
	OddLeaves   int          `json:"odd_leaves" required:"true" description:"good leaves in no set"`
	Stacks      []Stack      `json:"stacks" required:"true" nullable:"false"`
	OneMoreLeaf *OneMore     `json:"one_more_leaf,omitempty" description:"what one more leaf would need in the first stack; each cure alone. Left out when the part does not fit in length or width"`
	Volume      BilletVolume `json:"volume" required:"true"`
	Shares      *Shares      `json:"shares,omitempty" description:"what becomes of the wood; for a billet without taper or wedge"`
	StandIns    []Provenance `json:"stand_ins,omitempty" description:"usual losses that stood in for what was not given, with their sources; GET /v1/saws lists them"`
}

// LeafBuild is the thickness of a leaf and what it is made of.
type LeafBuild struct {
	Thickness Quantity   `json:"thickness" required:"true"`
	Parts     []LeafPart `json:"parts,omitempty"`
}

// LeafPart is one line of a build-up.
type LeafPart struct {
	Name      string   `json:"name" required:"true"`
	Thickness Quantity `json:"thickness" required:"true"`
}

// Stack is one blank resawn into leaves.
type Stack struct {
	Row       int       `json:"row" required:"true"`
	Column    int       `json:"column" required:"true"`
	Thickness Quantity  `json:"thickness" required:"true" description:"at the thinnest place of the blank"`
	Leaves    int       `json:"leaves" required:"true"`
	Sets      []LeafRun `json:"sets" required:"true" nullable:"false" description:"leaves of each set, numbered from face 1"`
	Odd       []int     `json:"odd" required:"true" nullable:"false"`
	LeaveOut  []int     `json:"may_leave_out,omitempty" description:"any one of these may be left out without losing a set"`
	LeftOver  Quantity  `json:"left_over" required:"true"`
	Remainder string    `json:"remainder" required:"true" enum:"nothing_left,keep_last_thick,one_more_cut,leaf_with_rough_face,offcut_with_rough_face,too_thin"`
	Offcut    *Quantity `json:"offcut,omitempty" description:"strip that is left as wood"`
}

// LeafRun is a run of leaves, both ends included.
type LeafRun struct {
	First int `json:"first" required:"true"`
	Last  int `json:"last" required:"true"`
}

// OneMore is what one more leaf would need.
type OneMore struct {
	Leaves     int       `json:"leaves" required:"true"`
	ShortBy    Quantity  `json:"short_by" required:"true" description:"thickness that is missing"`
	Billet     Quantity  `json:"billet" required:"true" description:"thickness of a billet that gives them"`
	KerfAtMost *Quantity `json:"kerf_at_most,omitempty"`
	LeafAtMost *Quantity `json:"leaf_at_most,omitempty"`
	ThinnerBy  *Quantity `json:"thinner_by,omitempty"`
}

// BilletVolume is the true volume of the billet.
type BilletVolume struct {
	CubicMetres float64 `json:"cubic_metres" required:"true"`
	BoardFeet   float64 `json:"board_feet" required:"true" description:"true volume; a trade tally counts stock under 1 in as 1 in and rounds"`
}

// Shares is what becomes of the wood, in percent of the billet's volume.
type Shares struct {
	PlatePct    float64 `json:"plate_pct" required:"true"`
	KerfPct     float64 `json:"kerf_pct" required:"true"`
	ShavingsPct float64 `json:"shavings_pct" required:"true"`
	TrimPct     float64 `json:"trim_pct" required:"true"`
	OffcutPct   float64 `json:"offcut_pct" required:"true"`
}

func computeYield(_ context.Context, t *tables, req *YieldRequest) (YieldResult, method.Notes, error) {
	var notes method.Notes
	w, noWood := t.optionalWood(req.Species)
	result, err := req.yield(t, w, &notes)
	if err := besides(noWood, err); err != nil {
		return YieldResult{}, notes, err
	}
	t.cautions(w, &notes)
	notes.Warn(resawCaution)
	return result, notes, nil
}

// resawCaution is the usual one for tall cuts; the machine's manual decides.
var resawCaution = method.Warning{Code: method.Caution, Detail: "a tall cut can close on the blade and a narrow high piece tips: " +
	"use a high fence and a pusher, stop rather than pull back, and follow the machine's manual"}

// yield computes the answer; it is shared with the readiness of a whole billet.
func (req *YieldRequest) yield(t *tables, w *wood, notes *method.Notes) (YieldResult, error) {
	report := reportIn(req.ReportIn)
	usual := &standIns{report: report}
	b := req.Billet
	leaf, build, err := req.Part.leaf(&t.losses, w, usual, notes)
	if err := errors.Join(under("billet", b.tapers()), under("part", err)); err != nil {
		return YieldResult{}, err
	}
	cut := req.cut(leaf, &t.losses, usual, notes)
	layout := resaw.Layout{
		Length: b.Length.SI, Width: b.Width.SI, TrimStart: orZero(b.EndTrim), TrimEnd: orZero(b.EndTrim),
		EdgeStart: orZero(b.EdgeTrim), EdgeEnd: orZero(b.EdgeTrim), BlankLength: req.Part.Length.SI, BlankWidth: req.Part.Width.SI,
		Crosscut: or(req.Saw.Crosscut, req.Saw.Kerf.SI), Rip: or(req.Saw.RipKerf, req.Saw.Kerf.SI), Cut: cut,
	}
	grid, err := resaw.Stacks(layout)
	if err != nil {
		return YieldResult{}, yieldError(err)
	}
	notes.Merge(grid.Notes)
	yields, err := req.yields(layout, grid, notes)
	if err != nil {
		return YieldResult{}, yieldError(err)
	}
	result := YieldResult{Leaf: build, Rows: grid.Rows.Blanks, Columns: grid.Columns.Blanks, Stacks: []Stack{}, StandIns: usual.all}
	if err := result.addStacks(req, yields, report); err != nil {
		return YieldResult{}, err
	}
	if len(yields) > 0 {
		result.OneMoreLeaf = oneMore(yields[0].OneMore, report)
	} else if err := req.remarkNoFit(layout, report, notes); err != nil {
		return YieldResult{}, err
	}
	return result, result.addVolumes(req, grid)
}

// tapers refuses what a billet cannot taper by.
func (b *Billet) tapers() error {
	var all []error
	for _, thin := range []struct {
		name string
		is   *Length
	}{{"thin_end", b.ThinEnd}, {"thin_edge", b.ThinEdge}} {
		if thin.is != nil && thin.is.SI > b.Thickness.SI {
			all = append(all, &method.Error{Code: method.Contradictory, Input: thin.name,
				Limit: "at most " + b.Thickness.SI.AtMost(b.Thickness.Unit), Detail: thin.name + " is thicker than thickness, the thickest place"})
		}
	}
	if b.ThinEnd != nil && b.ThinEdge != nil {
		all = append(all, contradictory("thin_edge", "give thin_end or thin_edge; a billet that tapers both ways is not answered here"))
	}
	return errors.Join(all...)
}

// remarkNoFit says why not one part fits in plan, and whether it would turned.
func (req *YieldRequest) remarkNoFit(layout resaw.Layout, report reporter, notes *method.Notes) error {
	room := layout.Length - layout.TrimStart - layout.TrimEnd
	across := layout.Width - layout.EdgeStart - layout.EdgeEnd
	detail := "not one part fits:"
	if over := layout.BlankLength - room; over > 0 {
		detail += " it is " + over.Format(report.length) + " longer than the billet without its trims;"
	}
	if over := layout.BlankWidth - across; over > 0 {
		detail += " it is " + over.Format(report.length) + " wider than the billet without its trims;"
	}
	layout.BlankLength, layout.BlankWidth = layout.BlankWidth, layout.BlankLength
	turned, err := resaw.Stacks(layout)
	if err != nil {
		return yieldError(err)
	}
	if turned.Stacks > 0 {
		detail += " it would fit turned by a quarter, with the grain across;"
	}
	notes.Warn(method.Warning{Code: method.Assumption, Input: "part", Detail: strings.TrimSuffix(detail, ";")})
	return nil
}

// placed is the yield of one stack with its place in the billet.
type placed struct {
	row, column int
	thickness   quantity.Length
	resaw.Yield
}

// mostStacks bounds the stacks of one answer.
const mostStacks = 1000

// yields returns each stack's own yield: all alike, or by the thickness there.
func (req *YieldRequest) yields(layout resaw.Layout, grid resaw.Grid, notes *method.Notes) ([]placed, error) {
	if grid.Stacks > mostStacks {
		return nil, &method.Error{Code: method.TooMuchWork, Input: "part", Limit: "at most " + strconv.Itoa(mostStacks) + " stacks",
			Detail: "these parts are so small that the billet gives more than " + strconv.Itoa(mostStacks) + " stacks"}
	}
	all := make([]placed, 0, grid.Stacks)
	for row := range grid.Rows.Blanks {
		for column := range grid.Columns.Blanks {
			p := placed{row: row + 1, column: column + 1, thickness: layout.Cut.Thickness, Yield: grid.Stack}
			thickness, err := req.thicknessAt(layout, row, column, notes)
			if err != nil {
				return nil, err
			}
			if thickness < layout.Cut.Thickness {
				cut := layout.Cut
				cut.Thickness = thickness
				// No cut takes more than there is; a place thinner than the kerf
				// gives one leaf or none either way.
				cut.Facing, cut.Kerf, cut.Reface = min(cut.Facing, thickness), min(cut.Kerf, thickness), min(cut.Reface, thickness)
				if p.Yield, err = resaw.Leaves(cut); err != nil {
					return nil, err
				}
				p.thickness = thickness
			}
			all = append(all, p)
		}
	}
	return all, nil
}

// thicknessAt is the thickness at the thinnest place of a blank.
func (req *YieldRequest) thicknessAt(layout resaw.Layout, row, column int, notes *method.Notes) (quantity.Length, error) {
	b := req.Billet
	var at quantity.Length
	var n method.Notes
	var err error
	switch {
	case b.ThinEnd != nil:
		reach := layout.TrimStart + quantity.Length(row+1)*layout.BlankLength + quantity.Length(row)*layout.Crosscut
		at, n, err = resaw.WedgeThickness(b.Thickness.SI, b.ThinEnd.SI, b.Length.SI, reach)
	case b.ThinEdge != nil:
		reach := layout.EdgeStart + quantity.Length(column+1)*layout.BlankWidth + quantity.Length(column)*layout.Rip
		at, n, err = resaw.WedgeThickness(b.Thickness.SI, b.ThinEdge.SI, b.Width.SI, reach)
	default:
		return b.Thickness.SI, nil
	}
	notes.Merge(n)
	thin := "billet/thin_edge"
	if b.ThinEnd != nil {
		thin = "billet/thin_end"
	}
	return at, under("", err, [2]string{"heart_edge", thin}, [2]string{"bark_edge", "billet/thickness"})
}

func (req *YieldRequest) cut(leaf quantity.Length, l *losses, usual *standIns, notes *method.Notes) resaw.Cut {
	facing := usual.or(req.Saw.Facing, "facing", l.facing)
	if req.Saw.Facing == nil {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "saw/facing", Detail: usual.report.spoken(l.facing) + " is taken off the two outside faces together (common practice, no source)"})
	}
	return resaw.Cut{Thickness: req.Billet.Thickness.SI, Facing: facing, Leaf: leaf, Kerf: req.Saw.Kerf.SI, Reface: orZero(req.Saw.Reface), FarFaceFinished: !req.Saw.RoughFar}
}

// leaf is the sawn thickness: given, or built up from the final one.
func (p *PlatePart) leaf(l *losses, w *wood, usual *standIns, notes *method.Notes) (quantity.Length, LeafBuild, error) {
	report := usual.report
	switch {
	case p.Sawn != nil && (p.Final != nil || p.Allowances != nil):
		return 0, LeafBuild{}, contradictory("sawn_thickness", "give sawn_thickness, or final_thickness with its allowances, not both")
	case p.Sawn != nil:
		return p.Sawn.SI, LeafBuild{Thickness: report.Length(p.Sawn.SI)}, nil
	case p.Final == nil:
		return 0, LeafBuild{}, missing("sawn_thickness", "give sawn_thickness, or final_thickness with its allowances")
	}
	a := p.Allowances
	if a == nil {
		a = &Allowances{}
	}
	show := usual.or(a.CleanupShow, "cleanup_show", l.cleanup)
	back := or(a.CleanupBack, show)
	if a.CleanupShow == nil {
		back = usual.or(a.CleanupBack, "cleanup_back", l.cleanup)
	}
	parts := resaw.Allowances{
		Final: p.Final.SI, CleanupShow: show, CleanupBack: back,
		Wander: usual.or(a.Wander, "wander", l.wander), Flatness: usual.or(a.Flatness, "flatness", l.flatness),
	}
	if words := report.usualWords(cleanupLoss(a.CleanupShow, a.CleanupBack, l.cleanup), usualLoss{a.Wander, l.wander, "wander"}, usualLoss{a.Flatness, l.flatness, "flatness"}); words != "" {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "part/allowances", Detail: words})
	}
	dry, _, _, err := resaw.LeafThickness(parts)
	if err != nil {
		return 0, LeafBuild{}, under("allowances", err)
	}
	if parts.Oversize, err = a.oversize(dry, w, notes); err != nil {
		return 0, LeafBuild{}, under("allowances", err)
	}
	sum, lines, n, err := resaw.LeafThickness(parts)
	notes.Merge(n)
	build := LeafBuild{Thickness: report.Length(sum)}
	for _, line := range lines {
		build.Parts = append(build.Parts, LeafPart{line.Name, report.Length(line.Thickness)})
	}
	return sum, build, err
}

// oversize is the shrinkage still to come of a leaf that is to measure dry
// after it has settled.
func (a *Allowances) oversize(dry quantity.Length, w *wood, notes *method.Notes) (quantity.Length, error) {
	if a.SawnAtPct == nil && a.DriedToPct == nil {
		return 0, nil
	}
	const together = "sawn_at_pct and dried_to_pct go together"
	switch {
	case a.SawnAtPct == nil:
		return 0, missing("sawn_at_pct", together)
	case a.DriedToPct == nil:
		return 0, missing("dried_to_pct", together)
	case *a.DriedToPct > *a.SawnAtPct:
		return 0, contradictory("dried_to_pct", "dried_to_pct is wetter than sawn_at_pct; a leaf that will swell needs no allowance for it, leave both out")
	case w == nil:
		return 0, missing("/species", "the shrinkage still to come needs the species")
	}
	angle := 90 * quantity.Degree
	if a.RingAngle != nil {
		angle = quantity.Angle(*a.RingAngle) * quantity.Degree
	}
	from, to := quantity.NormalBand(fromPercent(*a.SawnAtPct), 0), quantity.NormalBand(fromPercent(*a.DriedToPct), 0)
	m, err := movement.Change(quantity.Metre, movement.ThicknessAt(angle, 0), from, to, w.figures)
	if err != nil {
		return 0, under("", err, [2]string{"from_mc_pct", "sawn_at_pct"}, [2]string{"to_mc_pct", "dried_to_pct"}, [2]string{"wood", "/species"})
	}
	notes.Merge(m.Notes)
	return dry/quantity.Length(1+m.Strain.Value) - dry, nil
}

func or(l *Length, fallback quantity.Length) quantity.Length {
	if l == nil {
		return fallback
	}
	return l.SI
}

func orZero(l *Length) quantity.Length { return or(l, 0) }

// yieldError points at the members of this request.
func yieldError(err error) error {
	return under("", err,
		[2]string{"length", "billet/length"}, [2]string{"width", "billet/width"}, [2]string{"thickness", "billet/thickness"},
		[2]string{"trim_start", "billet/end_trim"}, [2]string{"trim_end", "billet/end_trim"}, [2]string{"edge_start", "billet/edge_trim"}, [2]string{"edge_end", "billet/edge_trim"},
		[2]string{"blank_length", "part/length"}, [2]string{"blank_width", "part/width"}, [2]string{"leaf", "part/sawn_thickness"},
		[2]string{"kerf", "saw/kerf"}, [2]string{"crosscut", "saw/crosscut_kerf"}, [2]string{"rip", "saw/rip_kerf"}, [2]string{"facing", "saw/facing"}, [2]string{"reface", "saw/reface"})
}

// addStacks forms the sets of every stack.
func (r *YieldResult) addStacks(req *YieldRequest, yields []placed, report reporter) error {
	perSet := 2
	if req.Part.PerSet != nil {
		perSet = *req.Part.PerSet
	}
	spoiled := map[[2]int][]int{}
	named := map[[2]int][]int{} // place in the request of each
	for i, leaf := range req.Spoiled {
		if *leaf.Row > r.Rows || *leaf.Column > r.Columns {
			return &method.Error{Code: method.OutOfRange, Input: "spoiled/" + strconv.Itoa(i), Limit: strconv.Itoa(r.Rows) + " rows and " + strconv.Itoa(r.Columns) + " columns",
				Detail: "there is no stack in row " + strconv.Itoa(*leaf.Row) + ", column " + strconv.Itoa(*leaf.Column)}
		}
		at := [2]int{*leaf.Row, *leaf.Column}
		spoiled[at], named[at] = append(spoiled[at], *leaf.Leaf), append(named[at], i)
	}
	for _, y := range yields {
		at := [2]int{y.row, y.column}
		sets, err := resaw.Sets(y.Leaves, spoiled[at], perSet)
		if err != nil {
			renames := [][2]string{{"per_set", "part/pieces_per_set"}}
			for i, place := range named[at] {
				renames = append(renames, [2]string{"spoiled/" + strconv.Itoa(i), "/spoiled/" + strconv.Itoa(place)})
			}
			return under("", err, renames...)
		}
		stack := Stack{
			Row: y.row, Column: y.column, Thickness: report.Length(y.thickness), Leaves: y.Leaves, Sets: []LeafRun{}, Odd: append([]int{}, sets.Odd...),
			LeaveOut: sets.LeaveOut, LeftOver: report.Length(y.LeftOver), Remainder: string(y.Remainder),
		}
		if y.Offcut > 0 {
			q := report.Length(y.Offcut)
			stack.Offcut = &q
		}
		for _, run := range sets.Sets {
			stack.Sets = append(stack.Sets, LeafRun{run.First, run.Last})
		}
		r.Leaves += y.Leaves
		r.Sets += len(sets.Sets)
		r.OddLeaves += len(sets.Odd)
		r.Stacks = append(r.Stacks, stack)
	}
	return nil
}

func oneMore(next resaw.Next, report reporter) *OneMore {
	optional := func(l *quantity.Length) *Quantity {
		if l == nil {
			return nil
		}
		q := report.Length(*l)
		return &q
	}
	return &OneMore{next.Leaves, report.Length(next.ShortBy), report.Length(next.Billet), optional(next.KerfAtMost), optional(next.LeafAtMost), optional(next.ThinnerBy)}
}

// addVolumes states the billet's volume, and what becomes of it if it is a box.
func (r *YieldResult) addVolumes(req *YieldRequest, grid resaw.Grid) error {
	b := req.Billet
	whole, err := resaw.BilletVolume(b.Length.SI, b.Width.SI, b.Thickness.SI)
	if err != nil {
		return yieldError(err)
	}
	volume := whole.Volume()
	if thin := b.ThinEnd; thin != nil || b.ThinEdge != nil {
		if thin == nil {
			thin = b.ThinEdge
		}
		volume *= quantity.Volume((b.Thickness.SI + thin.SI) / (2 * b.Thickness.SI)) // a prism between two thicknesses
	} else {
		share := func(c resaw.Cubic) float64 { return 100 * float64(c.Volume()/volume) }
		s := grid.Shares
		r.Shares = &Shares{share(s.Plate), share(s.Kerf), share(s.Shavings), share(s.Trim), share(s.Offcut)}
	}
	r.Volume = BilletVolume{CubicMetres: volume.CubicMetres(), BoardFeet: volume.BoardFeet()}
	return nil
}
