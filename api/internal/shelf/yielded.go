package shelf

import (
	"math"

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
	StandIns    []Provenance `json:"defaults_used,omitempty" description:"usual losses that stood in for what was not given, with their sources; GET /v1/sawing-losses lists them"`
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

// yieldResult shows a yield in the units of a report.
func yieldResult(y *resaw.BilletYield, report wire.Reporter) YieldResult {
	r := YieldResult{Rows: y.Rows, Columns: y.Columns, Leaves: y.Leaves, Sets: y.Sets, OddLeaves: y.OddLeaves,
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

func stackOf(y *resaw.StackYield, report wire.Reporter) Stack {
	stack := Stack{
		Row: y.Row, Column: y.Column, Thickness: report.Length(y.Thickness), Leaves: y.Yield.Leaves,
		Sets: []LeafRun{}, Odd: append([]int{}, y.Sets.Odd...),
		LeaveOut: y.Sets.LeaveOut, LeftOver: report.Length(y.Yield.LeftOver), Remainder: string(y.Yield.Remainder),
	}
	if y.Yield.Offcut > 0 {
		q := report.Length(y.Yield.Offcut)
		stack.Offcut = &q
	}
	for _, run := range y.Sets.Sets {
		stack.Sets = append(stack.Sets, LeafRun{run.First, run.Last})
	}
	return stack
}

func oneMore(next *resaw.Next, report wire.Reporter) *OneMore {
	optional := func(l *quantity.Length) *wire.Quantity {
		if l == nil {
			return nil
		}
		q := report.Length(*l)
		return &q
	}
	return &OneMore{next.Leaves, report.Length(next.ShortBy), report.Length(next.Billet), optional(next.KerfAtMost),
		optional(next.LeafAtMost), optional(next.ThinnerBy)}
}
