package shelf

import (
	"errors"
	"slices"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

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
	usual := &StandIns{Report: c.Report}
	leaf, build, err := c.Part.Leaf(&t.Losses, w, usual, notes)
	if err := errors.Join(wire.Under("billet", c.Billet.Tapers()), wire.Under("part", err)); err != nil {
		return YieldResult{}, err
	}
	saw := c.Saw.Takes(&t.Losses, usual, notes)
	piece := resaw.Piece{Length: c.Part.Length.SI, Width: c.Part.Width.SI, Leaf: leaf, PerSet: c.Part.LeavesPerSet()}
	y, err := resaw.YieldOf(c.Billet.Measured(), saw, piece, spoiledOf(c.Spoiled))
	if err != nil {
		return YieldResult{}, wire.Under("", err, YieldMembers...)
	}
	notes.Merge(y.Notes)
	result := yieldResult(&y, c.Report)
	result.Leaf, result.StandIns = build, usual.All
	return result, nil
}

func spoiledOf(leaves []SpoiledLeaf) []resaw.Spoiled {
	all := make([]resaw.Spoiled, 0, len(leaves))
	for _, l := range leaves {
		all = append(all, resaw.Spoiled{Row: *l.Row, Column: *l.Column, Leaf: *l.Leaf})
	}
	return all
}

// YieldMembers are the members of a request that the yield of a billet calls otherwise.
var YieldMembers = [][2]string{
	{"length", "billet/length"}, {"width", "billet/width"}, {"thickness", "billet/thickness"},
	{"thin_end", "billet/thin_end"}, {"thin_edge", "billet/thin_edge"},
	{"trim_start", "billet/end_trim"}, {"trim_end", "billet/end_trim"}, {"edge_start", "billet/edge_trim"},
	{"edge_end", "billet/edge_trim"},
	{"blank_length", "part/length"}, {"blank_width", "part/width"}, {"leaf", "part/sawn_thickness"},
	{"per_set", "part/pieces_per_set"},
	{"kerf", "saw/kerf"}, {"crosscut", "saw/crosscut_kerf"}, {"rip", "saw/rip_kerf"}, {"facing", "saw/facing"},
	{"reface", "saw/reface"},
}

// YieldMembersBelow are the YieldMembers where a chapter names them below a place.
func YieldMembersBelow(place string) [][2]string {
	below := slices.Clone(YieldMembers)
	for i := range below {
		below[i][0] = place + below[i][0]
	}
	return below
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
