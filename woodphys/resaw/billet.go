package resaw

import (
	"fmt"
	"strconv"
	"strings"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// Billet is a rough piece to be sawn. A wedge is thinner along one edge, a taper
// thinner at one end; of the two it has one at most.
type Billet struct {
	Length, Width, Thickness quantity.Length  // at its thickest, 0 to 100 m
	ThinEnd, ThinEdge        *quantity.Length // thickness there, up to Thickness; nil: as thick as the rest
	EndTrim, EdgeTrim        quantity.Length  // lost at each end and along each edge
}

// Saw is what the cuts of a billet take.
type Saw struct {
	Kerf, Rip, Crosscut quantity.Length // 0 to 100 m
	Facing              quantity.Length // off the two outside faces in all, before the first cut
	Reface              quantity.Length // off the billet after every cut
	RoughFar            bool            // the far face is not finished, so that every leaf needs a cut of its own
}

// Piece is the part to be had from the leaves.
type Piece struct {
	Length, Width quantity.Length // of one piece, 1 micrometre to 100 m
	Leaf          quantity.Length // sawn thickness, at least 1 micrometre
	PerSet        int             // consecutive leaves that make one set
}

// Spoiled names a leaf that cannot be used: its row from the thick end, its column
// from the thick edge, its number from face 1, each from 1.
type Spoiled struct{ Row, Column, Leaf int }

// BilletYield is what a billet yields.
type BilletYield struct {
	Rows, Columns           int // lengths crosscut, widths ripped
	Leaves, Sets, OddLeaves int // in all stacks; odd ones are good and in no set
	Stacks                  []StackYield
	OneMore                 *Next   // what one more leaf of the first stack needs; nil without a stack
	Misfit                  *Misfit // why there is no stack; nil with one
	Volume                  quantity.Volume
	Shares                  *Fractions // nil for a billet with a taper or a wedge
	Notes                   method.Notes
}

// StackYield is one blank resawn into leaves.
type StackYield struct {
	Row, Column int             // from 1
	Thickness   quantity.Length // at the thinnest place of the blank
	Yield       Yield
	Sets        StackSets
}

// Misfit is why not one part fits in plan.
type Misfit struct {
	TooLong, TooWide quantity.Length // by so much; 0 or less where it is not
	FitsTurned       bool            // by a quarter, with the grain across
}

// warning says why not one part fits in plan, and whether it would turned.
func (m *Misfit) warning() method.Warning {
	said, short := "not one part fits:", []method.Amount{}
	add := func(by quantity.Length, how string) {
		if by > 0 {
			said += " it is %s " + how + " than the billet without its trims;"
			short = append(short, method.Amount{Value: by.Millimetres(), Unit: "mm"})
		}
	}
	add(m.TooLong, "longer")
	add(m.TooWide, "wider")
	if m.FitsTurned {
		said += " it would fit turned by a quarter, with the grain across;"
	}
	said = strings.TrimSuffix(said, ";")
	words := make([]any, 0, len(short))
	for _, a := range short {
		words = append(words, (quantity.Length(a.Value) * quantity.Millimetre).Format("mm"))
	}
	return method.Warning{Code: method.Assumption, Input: "part", Detail: fmt.Sprintf(said, words...)}.Saying(said, short...)
}

// MaxStacks bounds the stacks of one billet that are told one by one.
const MaxStacks = 1000

// YieldOf returns what a billet yields: stacks, leaves, sets and what becomes of the
// wood.
//
// b, s, p: see their types; spoiled: leaves that make no set, in any order. A stack
// of a taper or a wedge is as thick as its thinnest place.
//
// Errors: as Stacks, Leaves and Sets; method.OutOfRange for spoiled/0 and so on, a
// leaf of a stack that is not there; those of WedgeThickness, named thin_end,
// thin_edge and thickness; method.TooMuchWork (part) beyond MaxStacks stacks. Accuracy:
// exact in whole nanometres; the volume of a taper or a wedge is that of a prism.
//
// Source: derived by arithmetic; see Stacks, Leaves, Sets and WedgeThickness.
func YieldOf(b Billet, s Saw, p Piece, spoiled []Spoiled) (BilletYield, error) {
	l := layoutOf(b, s, p)
	grid, err := Stacks(l)
	if err != nil {
		return BilletYield{}, err
	}
	y := BilletYield{Rows: grid.Rows.Blanks, Columns: grid.Columns.Blanks, Notes: grid.Notes}
	if grid.Stacks > MaxStacks {
		most := strconv.Itoa(MaxStacks) + " stacks"
		return BilletYield{}, &method.Error{Code: method.TooMuchWork, Input: "part", Limit: "at most " + most,
			Detail: "these parts are so small that the billet gives more than " + most}
	}
	for row := range y.Rows {
		for column := range y.Columns {
			if err := y.addStack(b, l, grid, row, column); err != nil {
				return BilletYield{}, err
			}
		}
	}
	if err := y.formSets(spoiled, p.PerSet); err != nil {
		return BilletYield{}, err
	}
	if len(y.Stacks) > 0 {
		y.OneMore = &y.Stacks[0].Yield.OneMore
	} else if y.Misfit, err = l.misfit(); err != nil {
		return BilletYield{}, err
	}
	if err := y.measure(b, grid); err != nil {
		return BilletYield{}, err
	}
	if y.Misfit != nil {
		y.Notes.Warn(y.Misfit.warning())
	}
	return y, nil
}

func layoutOf(b Billet, s Saw, p Piece) Layout {
	return Layout{
		Length: b.Length, Width: b.Width, TrimStart: b.EndTrim, TrimEnd: b.EndTrim, EdgeStart: b.EdgeTrim,
		EdgeEnd:     b.EdgeTrim,
		BlankLength: p.Length, BlankWidth: p.Width, Crosscut: s.Crosscut, Rip: s.Rip,
		Cut: Cut{Thickness: b.Thickness, Facing: s.Facing, Leaf: p.Leaf, Kerf: s.Kerf, Reface: s.Reface,
			FarFaceFinished: !s.RoughFar},
	}
}

// addStack adds the yield of one stack: as all the others, or by its own thickness.
func (y *BilletYield) addStack(b Billet, l Layout, grid Grid, row, column int) error {
	stack := StackYield{Row: row + 1, Column: column + 1, Thickness: l.Cut.Thickness, Yield: grid.Stack}
	thickness, notes, err := b.thicknessAt(l, row, column)
	if err != nil {
		return err
	}
	y.Notes.Merge(notes)
	if thickness < l.Cut.Thickness {
		cut := l.Cut
		cut.Thickness = thickness
		// No cut takes more than there is; a place thinner than the kerf
		// gives one leaf or none either way.
		cut.Facing, cut.Kerf, cut.Reface = min(cut.Facing, thickness), min(cut.Kerf, thickness),
			min(cut.Reface, thickness)
		if stack.Yield, err = Leaves(cut); err != nil {
			return err
		}
		stack.Thickness = thickness
	}
	y.Stacks = append(y.Stacks, stack)
	return nil
}

// thicknessAt is the thickness at the thinnest place of a blank.
func (b *Billet) thicknessAt(l Layout, row, column int) (quantity.Length, method.Notes, error) {
	switch {
	case b.ThinEnd != nil:
		reach := l.TrimStart + quantity.Length(row+1)*l.BlankLength + quantity.Length(row)*l.Crosscut
		at, notes, err := WedgeThickness(b.Thickness, *b.ThinEnd, b.Length, reach)
		return at, notes, ofBillet(err, "thin_end")
	case b.ThinEdge != nil:
		reach := l.EdgeStart + quantity.Length(column+1)*l.BlankWidth + quantity.Length(column)*l.Rip
		at, notes, err := WedgeThickness(b.Thickness, *b.ThinEdge, b.Width, reach)
		return at, notes, ofBillet(err, "thin_edge")
	}
	return b.Thickness, method.Notes{}, nil
}

// ofBillet gives an error of a wedge the billet's names of its inputs.
func ofBillet(err error, thin string) error {
	e, ok := err.(*method.Error) //nolint:errorlint // made bare by this package
	if !ok {
		return err
	}
	out := *e
	switch e.Input {
	case "heart_edge":
		out.Input = thin
	case "bark_edge":
		out.Input = "thickness"
	}
	return &out
}

// formSets forms the sets of every stack.
func (y *BilletYield) formSets(spoiled []Spoiled, perSet int) error {
	numbers := map[[2]int][]int{} // of the spoiled leaves of each stack
	places := map[[2]int][]int{}  // of each in the list
	for i, leaf := range spoiled {
		if leaf.Row > y.Rows || leaf.Column > y.Columns {
			return exact.OutOfRange("spoiled/"+strconv.Itoa(i),
				"there is no stack in row "+strconv.Itoa(leaf.Row)+", column "+strconv.Itoa(leaf.Column),
				strconv.Itoa(y.Rows)+" rows and "+strconv.Itoa(y.Columns)+" columns")
		}
		at := [2]int{leaf.Row, leaf.Column}
		numbers[at], places[at] = append(numbers[at], leaf.Leaf), append(places[at], i)
	}
	for i := range y.Stacks {
		s := &y.Stacks[i]
		at := [2]int{s.Row, s.Column}
		var err error
		if s.Sets, err = Sets(s.Yield.Leaves, numbers[at], perSet); err != nil {
			return inList(err, places[at])
		}
		y.Leaves += s.Yield.Leaves
		y.Sets += len(s.Sets.Sets)
		y.OddLeaves += len(s.Sets.Odd)
	}
	return nil
}

// inList names a spoiled leaf of one stack by its place in the list of all.
func inList(err error, places []int) error {
	e, ok := err.(*method.Error) //nolint:errorlint // made bare by this package
	if !ok {
		return err
	}
	out := *e
	for i, place := range places {
		if e.Input == "spoiled/"+strconv.Itoa(i) {
			out.Input = "spoiled/" + strconv.Itoa(place)
		}
	}
	return &out
}

// misfit tells why not one part fits in plan.
func (l Layout) misfit() (*Misfit, error) {
	m := &Misfit{TooLong: l.BlankLength - (l.Length - l.TrimStart - l.TrimEnd),
		TooWide: l.BlankWidth - (l.Width - l.EdgeStart - l.EdgeEnd)}
	l.BlankLength, l.BlankWidth = l.BlankWidth, l.BlankLength
	turned, err := Stacks(l)
	m.FitsTurned = turned.Stacks > 0
	return m, err
}

// measure states the volume of the billet, and what becomes of it if it is a box.
func (y *BilletYield) measure(b Billet, grid Grid) error {
	whole, err := BilletVolume(b.Length, b.Width, b.Thickness)
	if err != nil {
		return err
	}
	y.Volume = whole.Volume()
	thin := b.ThinEnd
	if thin == nil {
		thin = b.ThinEdge
	}
	if thin != nil {
		y.Volume *= quantity.Volume((b.Thickness + *thin) / (2 * b.Thickness)) // a prism between two thicknesses
		return nil
	}
	f := grid.Shares.Fractions()
	y.Shares = &f
	return nil
}
