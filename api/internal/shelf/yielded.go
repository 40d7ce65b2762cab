package shelf

import (
	"errors"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

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

// Stack is one blank resawn into leaves.
type Stack struct {
	Row       int            `json:"row" required:"true"`
	Column    int            `json:"column" required:"true"`
	Thickness wire.Quantity  `json:"thickness" required:"true" description:"at the thinnest place of the blank"`
	Leaves    int            `json:"leaves" required:"true"`
	Sets      []LeafRun      `json:"sets" required:"true" nullable:"false" description:"leaves of each set, numbered from face 1"`
	Odd       []int          `json:"odd" required:"true" nullable:"false"`
	LeaveOut  []int          `json:"may_leave_out,omitempty" description:"any one of these may be left out without losing a set"`
	LeftOver  wire.Quantity  `json:"left_over" required:"true"`
	Remainder string         `json:"remainder" required:"true" enum:"nothing_left,keep_last_thick,one_more_cut,leaf_with_rough_face,offcut_with_rough_face,too_thin"`
	Offcut    *wire.Quantity `json:"offcut,omitempty" description:"strip that is left as wood"`
}

// LeafRun is a run of leaves, both ends included.
type LeafRun struct {
	First int `json:"first" required:"true"`
	Last  int `json:"last" required:"true"`
}

// OneMore is what one more leaf would need.
type OneMore struct {
	Leaves     int            `json:"leaves" required:"true"`
	ShortBy    wire.Quantity  `json:"short_by" required:"true" description:"thickness that is missing"`
	Billet     wire.Quantity  `json:"billet" required:"true" description:"thickness of a billet that gives them"`
	KerfAtMost *wire.Quantity `json:"kerf_at_most,omitempty"`
	LeafAtMost *wire.Quantity `json:"leaf_at_most,omitempty"`
	ThinnerBy  *wire.Quantity `json:"thinner_by,omitempty"`
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

// Cutting is a billet with the saw and the part to be had from it.
type Cutting struct {
	Billet  *Billet
	Saw     *Saw
	Part    *PlatePart
	Spoiled []SpoiledLeaf
	Report  wire.Reporter
}

// Yield computes the answer; it is shared with the readiness of a whole billet.
func (c *Cutting) Yield(t *Tables, w *Wood, notes *method.Notes) (YieldResult, error) {
	report := c.Report
	usual := &StandIns{Report: report}
	b := c.Billet
	leaf, build, err := c.Part.Leaf(&t.Losses, w, usual, notes)
	if err := errors.Join(wire.Under("billet", b.Tapers()), wire.Under("part", err)); err != nil {
		return YieldResult{}, err
	}
	cut := c.cut(leaf, &t.Losses, usual, notes)
	layout := resaw.Layout{
		Length: b.Length.SI, Width: b.Width.SI, TrimStart: LengthOrNone(b.EndTrim), TrimEnd: LengthOrNone(b.EndTrim),
		EdgeStart: LengthOrNone(b.EdgeTrim), EdgeEnd: LengthOrNone(b.EdgeTrim), BlankLength: c.Part.Length.SI, BlankWidth: c.Part.Width.SI,
		Crosscut: LengthOr(c.Saw.Crosscut, c.Saw.Kerf.SI), Rip: LengthOr(c.Saw.RipKerf, c.Saw.Kerf.SI), Cut: cut,
	}
	grid, err := resaw.Stacks(layout)
	if err != nil {
		return YieldResult{}, yieldError(err)
	}
	notes.Merge(grid.Notes)
	yields, err := c.yields(layout, grid, notes)
	if err != nil {
		return YieldResult{}, yieldError(err)
	}
	result := YieldResult{Leaf: build, Rows: grid.Rows.Blanks, Columns: grid.Columns.Blanks, Stacks: []Stack{}, StandIns: usual.All}
	if err := result.addStacks(c, yields, report); err != nil {
		return YieldResult{}, err
	}
	if len(yields) > 0 {
		result.OneMoreLeaf = oneMore(yields[0].OneMore, report)
	} else if err := c.remarkNoFit(layout, report, notes); err != nil {
		return YieldResult{}, err
	}
	return result, result.addVolumes(c, grid)
}

// remarkNoFit says why not one part fits in plan, and whether it would turned.
func (c *Cutting) remarkNoFit(layout resaw.Layout, report wire.Reporter, notes *method.Notes) error {
	room := layout.Length - layout.TrimStart - layout.TrimEnd
	across := layout.Width - layout.EdgeStart - layout.EdgeEnd
	detail := "not one part fits:"
	if over := layout.BlankLength - room; over > 0 {
		detail += " it is " + over.Format(report.LengthUnit) + " longer than the billet without its trims;"
	}
	if over := layout.BlankWidth - across; over > 0 {
		detail += " it is " + over.Format(report.LengthUnit) + " wider than the billet without its trims;"
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
func (c *Cutting) yields(layout resaw.Layout, grid resaw.Grid, notes *method.Notes) ([]placed, error) {
	if grid.Stacks > mostStacks {
		return nil, &method.Error{Code: method.TooMuchWork, Input: "part", Limit: "at most " + strconv.Itoa(mostStacks) + " stacks",
			Detail: "these parts are so small that the billet gives more than " + strconv.Itoa(mostStacks) + " stacks"}
	}
	all := make([]placed, 0, grid.Stacks)
	for row := range grid.Rows.Blanks {
		for column := range grid.Columns.Blanks {
			p := placed{row: row + 1, column: column + 1, thickness: layout.Cut.Thickness, Yield: grid.Stack}
			thickness, err := c.thicknessAt(layout, row, column, notes)
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
func (c *Cutting) thicknessAt(layout resaw.Layout, row, column int, notes *method.Notes) (quantity.Length, error) {
	b := c.Billet
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
	return at, wire.Under("", err, [2]string{"heart_edge", thin}, [2]string{"bark_edge", "billet/thickness"})
}

func (c *Cutting) cut(leaf quantity.Length, l *Losses, usual *StandIns, notes *method.Notes) resaw.Cut {
	facing := usual.Or(c.Saw.Facing, "facing", l.Facing)
	if c.Saw.Facing == nil {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "saw/facing", Detail: Spoken(usual.Report, l.Facing) + " is taken off the two outside faces together (common practice, no source)"})
	}
	return resaw.Cut{Thickness: c.Billet.Thickness.SI, Facing: facing, Leaf: leaf, Kerf: c.Saw.Kerf.SI, Reface: LengthOrNone(c.Saw.Reface), FarFaceFinished: !c.Saw.RoughFar}
}

// yieldError points at the members of this request.
func yieldError(err error) error {
	return wire.Under("", err,
		[2]string{"length", "billet/length"}, [2]string{"width", "billet/width"}, [2]string{"thickness", "billet/thickness"},
		[2]string{"trim_start", "billet/end_trim"}, [2]string{"trim_end", "billet/end_trim"}, [2]string{"edge_start", "billet/edge_trim"}, [2]string{"edge_end", "billet/edge_trim"},
		[2]string{"blank_length", "part/length"}, [2]string{"blank_width", "part/width"}, [2]string{"leaf", "part/sawn_thickness"},
		[2]string{"kerf", "saw/kerf"}, [2]string{"crosscut", "saw/crosscut_kerf"}, [2]string{"rip", "saw/rip_kerf"}, [2]string{"facing", "saw/facing"}, [2]string{"reface", "saw/reface"})
}

// addStacks forms the sets of every stack.
func (r *YieldResult) addStacks(c *Cutting, yields []placed, report wire.Reporter) error {
	perSet := 2
	if c.Part.PerSet != nil {
		perSet = *c.Part.PerSet
	}
	spoiled := map[[2]int][]int{}
	named := map[[2]int][]int{} // place in the request of each
	for i, leaf := range c.Spoiled {
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
			return wire.Under("", err, renames...)
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

func oneMore(next resaw.Next, report wire.Reporter) *OneMore {
	optional := func(l *quantity.Length) *wire.Quantity {
		if l == nil {
			return nil
		}
		q := report.Length(*l)
		return &q
	}
	return &OneMore{next.Leaves, report.Length(next.ShortBy), report.Length(next.Billet), optional(next.KerfAtMost), optional(next.LeafAtMost), optional(next.ThinnerBy)}
}

// addVolumes states the billet's volume, and what becomes of it if it is a box.
func (r *YieldResult) addVolumes(c *Cutting, grid resaw.Grid) error {
	b := c.Billet
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
		share := func(c exact.Cubic) float64 { return 100 * float64(c.Volume()/volume) }
		s := grid.Shares
		r.Shares = &Shares{share(s.Plate), share(s.Kerf), share(s.Shavings), share(s.Trim), share(s.Offcut)}
	}
	r.Volume = BilletVolume{CubicMetres: volume.CubicMetres(), BoardFeet: volume.BoardFeet()}
	return nil
}
