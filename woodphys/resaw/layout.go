package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// Layout is a box-shaped billet crosscut into rows, ripped into columns and
// resawn stack by stack, every blank alike.
type Layout struct {
	Length, Width           quantity.Length // of the billet
	TrimStart, TrimEnd      quantity.Length // off its ends, cuts included
	EdgeStart, EdgeEnd      quantity.Length // off its edges, cuts included
	BlankLength, BlankWidth quantity.Length
	Crosscut, Rip           quantity.Length // kerfs
	Cut                     Cut             // how each blank is resawn
}

// Shares is what becomes of a billet. The five parts add up to Whole exactly.
type Shares struct {
	Whole    exact.Cubic
	Plate    exact.Cubic // sawn leaves
	Kerf     exact.Cubic // turned to dust by crosscut, rip and resaw
	Shavings exact.Cubic // facing, re-facing, and a left over too thin to cut off
	Trim     exact.Cubic // off the ends and edges
	Offcut   exact.Cubic // strips and lengths left
}

// Fractions is what becomes of a billet, in parts of its volume.
type Fractions struct{ Plate, Kerf, Shavings, Trim, Offcut float64 }

// Fractions returns the shares as parts of the whole.
//
// Accuracy: that of floating point, below 1e-15. Source: derived by arithmetic.
func (s Shares) Fractions() Fractions {
	whole := s.Whole.Volume()
	of := func(c exact.Cubic) float64 { return float64(c.Volume() / whole) }
	return Fractions{of(s.Plate), of(s.Kerf), of(s.Shavings), of(s.Trim), of(s.Offcut)}
}

// Grid is what a Layout gives.
type Grid struct {
	Rows, Columns Line
	Stack         Yield // of every blank
	Stacks        int
	Leaves        int // in all
	Shares        Shares
	Notes         method.Notes
}

// Stacks returns the rows, columns and leaves of a billet and what becomes of
// its wood.
//
// l: lengths 0 to 100 m; see Layout and Cut. Errors: as Across and Leaves;
// method.TooMuchWork beyond MaxLeaves leaves in all. Accuracy: exact in whole
// nanometres and cubic nanometres. A crosscut or rip through a remainder
// narrower than its kerf turns all of it to dust.
//
// Source: derived; rows and columns are stacks, because resawing is the last
// operation.
func Stacks(l Layout) (Grid, error) {
	var g Grid
	var err error
	if g.Rows, err = Across(l.Length, l.TrimStart, l.TrimEnd, l.BlankLength, l.Crosscut); err != nil {
		return Grid{}, method.Renamed(err, rowNames...)
	}
	if g.Columns, err = Across(l.Width, l.EdgeStart, l.EdgeEnd, l.BlankWidth, l.Rip); err != nil {
		return Grid{}, method.Renamed(err, columnNames...)
	}
	if g.Stack, err = Leaves(l.Cut); err != nil {
		return Grid{}, err
	}
	g.Stacks = g.Rows.Blanks * g.Columns.Blanks // each at most 1e5
	if err := tooManyLeaves(int64(g.Stacks)); err != nil {
		return Grid{}, err
	}
	g.Leaves = g.Stacks * g.Stack.Leaves // each at most 1e5
	if err := tooManyLeaves(int64(g.Leaves)); err != nil {
		return Grid{}, err
	}
	g.Notes.Merge(g.Rows.Notes.Renamed(rowNames...))
	g.Notes.Merge(g.Columns.Notes.Renamed(columnNames...))
	g.Notes.Merge(g.Stack.Notes)
	g.Notes.Rest(rowVolume)
	g.Shares = l.shares(g)
	return g, nil
}

func (l Layout) shares(g Grid) Shares {
	length, width, t := exact.Whole(l.Length), exact.Whole(l.Width), exact.Whole(l.Cut.Thickness)
	trim := min(exact.Whole(l.TrimStart)+exact.Whole(l.TrimEnd), length)
	edge := min(exact.Whole(l.EdgeStart)+exact.Whole(l.EdgeEnd), width)
	s := Shares{Whole: exact.Box(length, width, t)}
	s.Trim = exact.Box(trim, width, t).Plus(exact.Box(length-trim, edge, t))
	width -= edge

	rows, cols := int64(g.Rows.Blanks), int64(g.Columns.Blanks)
	dust, off := split(rows, exact.Whole(g.Rows.LeftOver), exact.Whole(l.Crosscut))
	s.Kerf = exact.Box(dust, width, t)
	s.Offcut = exact.Box(off, width, t)
	length = rows * exact.Whole(l.BlankLength)

	dust, off = split(cols, exact.Whole(g.Columns.LeftOver), exact.Whole(l.Rip))
	s.Kerf = s.Kerf.Plus(exact.Box(length, dust, t))
	s.Offcut = s.Offcut.Plus(exact.Box(length, off, t))
	width = cols * exact.Whole(l.BlankWidth)

	n, left := int64(g.Stack.Leaves), exact.Whole(g.Stack.LeftOver)
	kerf, shave := int64(g.Stack.Cuts)*exact.Whole(l.Cut.Kerf), exact.Whole(l.Cut.Facing)
	if n > 1 {
		shave += (n - 1) * exact.Whole(l.Cut.Reface)
	}
	switch g.Stack.Remainder {
	case OneMoreCut:
		kerf += exact.Whole(l.Cut.Kerf)
		left -= exact.Whole(l.Cut.Kerf)
	case KeepThick:
		shave += left
		left = 0
	case NothingLeft, RoughLeaf, RoughOffcut, TooThin:
	}
	s.Plate = exact.Box(length, width, n*exact.Whole(l.Cut.Leaf))
	s.Kerf = s.Kerf.Plus(exact.Box(length, width, kerf))
	s.Shavings = exact.Box(length, width, shave)
	s.Offcut = s.Offcut.Plus(exact.Box(length, width, left))
	return s
}

// split divides what lies outside n blanks in a row into dust and offcut.
func split(n int64, left, kerf nm) (dust, off nm) {
	if n == 0 {
		return 0, left
	}
	last := min(left, kerf)
	return (n-1)*kerf + last, left - last
}

// What a layout calls the inputs of the two lines that it consists of.
var (
	rowNames    = [][2]string{{"blank", "blank_length"}, {"kerf", "crosscut"}}
	columnNames = [][2]string{{"length", "width"}, {"blank", "blank_width"}, {"kerf", "rip"}, {"trim_start", "edge_start"},
		{"trim_end", "edge_end"}}
)
