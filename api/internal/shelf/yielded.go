package shelf

import (
	"math"
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// Bytes of a yield, at most: those that any has, those of a stack and those of a leaf.
// Measured and rounded up.
const (
	yieldBytes = 8 << 10
	stackBytes = 500
	pieceBytes = 32
)

// Least sizes of a part of the table, for one of which only the row is known yet.
const (
	leastLength = 50 * quantity.Millimetre
	leastWidth  = 5 * quantity.Millimetre
	leastLeaf   = 0.5 * quantity.Millimetre
)

// YieldBytes is how many bytes the answer about a yield holds at most. More stacks or
// leaves than can be had by the sizes alone there are not.
func YieldBytes(billet *Billet, part *Part) int {
	thin := LengthOr(part.SawnThickness, LengthOr(part.FinalThickness, leastLeaf))
	thick := quantity.Length(0)
	for _, t := range []*wire.Length{billet.Thickness, billet.EndThickness, billet.FarThickness} {
		thick = max(thick, LengthOrNone(t))
	}
	if billet.EndThickness != nil && billet.FarThickness != nil {
		thick *= 2
	}
	wide := max(billet.Width.SI, LengthOrNone(billet.EndWidth))
	stacks := min(resaw.MaxStacks, math.Floor(float64(billet.Length.SI/LengthOr(part.Length, leastLength)))*
		math.Floor(float64(wide/LengthOr(part.Width, leastWidth))))
	leaves := min(resaw.MaxLeaves, stacks*math.Floor(float64(thick/thin)))
	return yieldBytes + int(stacks)*stackBytes + int(leaves)*pieceBytes
}

// LeafYieldResult is what the billet yields. Parts are laid from the thick end and the
// thick edge; rows and columns are counted from the start and the near edge.
type LeafYieldResult struct {
	Summary     string       `json:"summary" required:"true" description:"the answer in a sentence"`
	Leaf        LeafBuild    `json:"sawn_leaf" required:"true" description:"the leaf as it leaves the saw"`
	Rows        int          `json:"rows" required:"true" description:"lengths crosscut from the billet"`
	Columns     int          `json:"columns" required:"true" description:"widths ripped from each length"`
	Leaves      int          `json:"leaves" required:"true" description:"in all stacks"`
	Sets        int          `json:"sets" required:"true" description:"in all stacks; a set needs neighbouring leaves of one stack"`
	Unpaired    int          `json:"unpaired_leaves" required:"true" description:"good leaves that are in no set"`
	Stacks      []Stack      `json:"stacks" required:"true" nullable:"false" description:"every blank that is resawn; empty where the part does not fit"`
	OneMoreLeaf *OneMore     `json:"one_more_leaf,omitempty" description:"what one more leaf would need in the thickest stack; each cure alone. Left out where the part does not fit"`
	Volume      BilletVolume `json:"volume" required:"true" description:"of the billet, trims and all"`
	Shares      *Shares      `json:"shares,omitempty" description:"what becomes of the wood. Left out for a billet that tapers or is a wedge"`
	StandIns    []Provenance `json:"defaults_used,omitempty" description:"figures of the tables that stood in for what was not given, with their sources; GET /v1/sawing-losses lists them"`
}

// Stack is one blank resawn into leaves.
type Stack struct {
	Row       int            `json:"row" required:"true" description:"counted from the start, from 1"`
	Column    int            `json:"column" required:"true" description:"counted from the near edge, from 1"`
	Thickness wire.Quantity  `json:"thickness" required:"true" description:"at the thinnest place of the blank"`
	Leaves    int            `json:"leaves" required:"true" description:"numbered from face 1, from 1"`
	Sets      []LeafRun      `json:"sets" required:"true" nullable:"false" description:"leaves of each set"`
	Unpaired  []int          `json:"unpaired" required:"true" nullable:"false" description:"good leaves that are in no set"`
	LeaveOut  []int          `json:"may_leave_out,omitempty" description:"any one of these leaves may be left out without losing a set"`
	Remaining wire.Quantity  `json:"remaining_thickness" required:"true" description:"thickness that is neither leaf, kerf nor re-facing"`
	Remainder string         `json:"remainder" required:"true" enum:"nothing_left,keep_last_thick,one_more_cut,leaf_with_rough_face,offcut_with_rough_face,too_thin" description:"what can be done with it"`
	Offcut    *wire.Quantity `json:"offcut,omitempty" description:"thickness of the strip that is left as wood. Left out: none"`
}

// LeafRun is a run of leaves, both ends included.
type LeafRun struct {
	First int `json:"first" required:"true" description:"number of the first leaf"`
	Last  int `json:"last" required:"true" description:"number of the last leaf"`
}

// OneMore is what one more leaf would need.
type OneMore struct {
	Leaves    int            `json:"leaves" required:"true" description:"as many as there would be with it"`
	ShortBy   wire.Quantity  `json:"short_by" required:"true" description:"thickness that is missing"`
	Billet    wire.Quantity  `json:"billet_thickness" required:"true" description:"of a billet that gives them"`
	MaxKerf   *wire.Quantity `json:"max_kerf,omitempty" description:"widest kerf of the resaw cut that gives them, rounded down, with rips and crosscuts as they are counted. Left out where no kerf would"`
	MaxLeaf   *wire.Quantity `json:"max_leaf_thickness,omitempty" description:"thickest leaf of which they can be had, rounded down. Left out where none can"`
	ThinnerBy *wire.Quantity `json:"thinner_by,omitempty" description:"by how much thinner than now that leaf is"`
}

// BilletVolume is the true volume of the billet.
type BilletVolume struct {
	CubicMetres float64 `json:"cubic_metres" required:"true" resolution:"0.000001" description:"true volume"`
	BoardFeet   float64 `json:"board_feet" required:"true" resolution:"0.001" description:"true volume; a trade tally counts stock under 1 in as 1 in and rounds"`
}

// Shares is what becomes of the wood, in percent of the billet's volume.
type Shares struct {
	Leaf     float64 `json:"leaf_share_pct" required:"true" description:"sawn leaves, in percent of the volume of the billet, as all of these"`
	Kerf     float64 `json:"kerf_share_pct" required:"true" description:"turned to dust"`
	Shavings float64 `json:"shavings_share_pct" required:"true" description:"facing, re-facing, and what is too thin to cut off"`
	Trim     float64 `json:"trim_share_pct" required:"true" description:"off the ends and edges"`
	Offcut   float64 `json:"offcut_share_pct" required:"true" description:"strips and lengths that are left"`
}

// yieldResult shows a yield in the units of a report.
func yieldResult(y *resaw.BilletYield, report wire.Reporter) LeafYieldResult {
	r := LeafYieldResult{Rows: y.Rows, Columns: y.Columns, Leaves: y.Leaves, Sets: y.Sets, Unpaired: y.OddLeaves,
		Stacks: make([]Stack, 0, len(y.Stacks)),
		Volume: BilletVolume{CubicMetres: y.Volume.CubicMetres(), BoardFeet: y.Volume.BoardFeet()}}
	for i := range y.Stacks {
		r.Stacks = append(r.Stacks, stackOf(&y.Stacks[i], report))
	}
	if y.OneMore != nil {
		r.OneMoreLeaf = oneMore(y.OneMore, report)
	}
	if f := y.Shares; f != nil {
		r.Shares = &Shares{100 * f.Plate, 100 * f.Kerf, 100 * f.Shavings, 100 * f.Trim, 100 * f.Offcut}
	}
	return r
}

// said is the yield in words.
func (r *LeafYieldResult) said() string {
	if r.Leaves == 0 {
		return "not one leaf of " + r.Leaf.Thickness.Said()
	}
	told := wire.CountOf(r.Sets, "set") + " from " + leavesOf(r.Leaves) + " of " + r.Leaf.Thickness.Said()
	if r.Unpaired > 0 {
		told += "; " + leavesOf(r.Unpaired) + " in no set"
	}
	return told
}

// leavesOf counts leaves in words.
func leavesOf(n int) string {
	if n == 1 {
		return "1 leaf"
	}
	return strconv.Itoa(n) + " leaves"
}

func stackOf(y *resaw.StackYield, report wire.Reporter) Stack {
	stack := Stack{
		Row: y.Row, Column: y.Column, Thickness: report.Cut(y.Thickness), Leaves: y.Yield.Leaves,
		Sets: []LeafRun{}, Unpaired: append([]int{}, y.Sets.Odd...),
		LeaveOut: y.Sets.LeaveOut, Remaining: report.Cut(y.Yield.LeftOver), Remainder: string(y.Yield.Remainder),
	}
	if y.Yield.Offcut > 0 {
		q := report.Cut(y.Yield.Offcut)
		stack.Offcut = &q
	}
	for _, run := range y.Sets.Sets {
		stack.Sets = append(stack.Sets, LeafRun{run.First, run.Last})
	}
	return stack
}

func oneMore(next *resaw.Next, report wire.Reporter) *OneMore {
	optional := func(l *quantity.Length, told func(quantity.Length) wire.Quantity) *wire.Quantity {
		if l == nil {
			return nil
		}
		q := told(*l)
		return &q
	}
	return &OneMore{next.Leaves, report.Cut(next.ShortBy), report.Cut(next.Billet), optional(next.KerfAtMost, report.Most),
		optional(next.LeafAtMost, report.Most), optional(next.ThinnerBy, report.Least)}
}
