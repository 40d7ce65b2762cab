package resaw

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// Billet is a rough piece to be sawn. X runs along its length from the start, Y across
// its width from the near edge, which is straight. A wedge is thinner along one edge, a
// taper at one end.
type Billet struct {
	Length, Width, Thickness   quantity.Length  // at the start and the near edge, 0 to 100 m
	EndWidth                   *quantity.Length // at the end; nil: as at the start
	EndThickness, FarThickness *quantity.Length // at the end, at the far edge; nil: as thick as there
	TrimStart, TrimEnd         quantity.Length  // lost at the ends, the cuts included
	TrimNear, TrimFar          quantity.Length  // lost along the edges, the cuts included
}

// Thickest returns the thickness at the thickest corner.
//
// Accuracy: exact. Source: derived by arithmetic.
func (b Billet) Thickest() quantity.Length {
	turned := b.ThickFirst()
	return turned.Thickness
}

// ThickFirst returns the billet turned end for end and edge for edge, as far as it takes
// for its thickest corner to lie at the start and the near edge, from where parts are laid.
//
// Accuracy: exact; the faces are planes. Source: derived by arithmetic.
func (b Billet) ThickFirst() Billet {
	if b.edgeForEdge() { // the far edge need not be straight
		b = b.narrowed()
	}
	if b.endForEnd() {
		start, end := b.Thickness, *b.EndThickness
		if b.FarThickness != nil {
			far := *b.FarThickness + end - start
			b.FarThickness = &far
		}
		b.Thickness, b.EndThickness = end, &start
		b.TrimStart, b.TrimEnd = b.TrimEnd, b.TrimStart
		if b.EndWidth != nil {
			width := b.Width
			b.Width, b.EndWidth = *b.EndWidth, &width
		}
	}
	if b.edgeForEdge() {
		near, far := b.Thickness, *b.FarThickness
		if b.EndThickness != nil {
			end := *b.EndThickness + far - near
			b.EndThickness = &end
		}
		b.Thickness, b.FarThickness = far, &near
		b.TrimNear, b.TrimFar = b.TrimFar, b.TrimNear
	}
	return b
}

func (b *Billet) endForEnd() bool   { return b.EndThickness != nil && *b.EndThickness > b.Thickness }
func (b *Billet) edgeForEdge() bool { return b.FarThickness != nil && *b.FarThickness > b.Thickness }

// narrowed is what is left of a billet whose outline tapers once it is as wide as at its
// narrower end.
func (b Billet) narrowed() Billet {
	if b.EndWidth == nil {
		return b
	}
	if narrow := min(b.Width, *b.EndWidth); narrow < b.Width {
		if b.FarThickness != nil {
			far := b.Thickness + (*b.FarThickness-b.Thickness)*narrow/b.Width
			b.FarThickness = &far
		}
		b.Width = narrow
	}
	b.EndWidth = nil
	return b
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

// Spoiled names a leaf that cannot be used: its row from the start, its column from the
// near edge, its number from face 1, each from 1.
type Spoiled struct{ Row, Column, Leaf int }

// BilletYield is what a billet yields.
type BilletYield struct {
	Rows, Columns           int // lengths crosscut, widths ripped
	Leaves, Sets, OddLeaves int // in all stacks; odd ones are good and in no set
	Stacks                  []StackYield
	OneMore                 *Next   // what one more leaf of the thickest stack needs; nil without a stack
	Misfit                  *Misfit // why there is no stack; nil with one
	Volume                  quantity.Volume
	Shares                  *Fractions // nil for a billet that tapers in width or thickness
	Notes                   method.Notes
}

// StackYield is one blank resawn into leaves.
type StackYield struct {
	Row, Column int             // from the start and the near edge, from 1
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
// b, s, p: see their types; spoiled: leaves that make no set, in any order. Parts are
// laid from the thick end and the thick edge, within the narrower of the two ends. A
// stack of a taper or a wedge is as thick as its thinnest place.
//
// Errors: as Stacks, Leaves and Sets; method.OutOfRange for spoiled/0 and so on, a
// leaf of a stack that is not there, and for a thickness or width that is not 0 to 100 m;
// method.TooMuchWork (part) beyond MaxStacks stacks. Accuracy: exact in whole nanometres;
// the volume is that between two planes.
//
// Source: derived by arithmetic; see Stacks, Leaves, Sets and WedgeThickness.
func YieldOf(b Billet, s Saw, p Piece, spoiled []Spoiled) (BilletYield, error) {
	if err := b.check(); err != nil {
		return BilletYield{}, err
	}
	narrow := b.narrowed()
	turned := narrow.ThickFirst()
	l := layoutOf(turned, s, p)
	grid, err := Stacks(l)
	if err != nil {
		return BilletYield{}, err
	}
	y := BilletYield{Rows: grid.Rows.Blanks, Columns: grid.Columns.Blanks, Notes: grid.Notes}
	if grid.Stacks > MaxStacks {
		return BilletYield{}, &method.Error{Code: method.TooMuchWork, Input: "part", Limit: method.AtMost(MaxStacks, "stacks"),
			Detail: "these parts are so small that the billet gives more than " + strconv.Itoa(MaxStacks) + " stacks"}
	}
	for row := range y.Rows {
		for column := range y.Columns {
			if err := y.addStack(turned, l, grid, row, column); err != nil {
				return BilletYield{}, err
			}
		}
	}
	if len(y.Stacks) > 0 {
		more := y.Stacks[0].Yield.OneMore
		y.OneMore = &more
	} else if y.Misfit, err = l.misfit(); err != nil {
		return BilletYield{}, err
	}
	y.number(narrow.endForEnd(), narrow.edgeForEdge())
	if err := y.formSets(spoiled, p.PerSet); err != nil {
		return BilletYield{}, err
	}
	if err := y.measure(b, turned, grid); err != nil {
		return BilletYield{}, err
	}
	if y.Misfit != nil {
		y.Notes.Warn(y.Misfit.warning())
	}
	if b.EndWidth != nil && *b.EndWidth != b.Width {
		y.Notes.Warn(method.Warning{Code: method.Assumption, Input: "end_width",
			Detail: "parts are laid within the width of the narrower end; what is beyond it is not counted on"})
	}
	return y, nil
}

// check holds the sizes that only some billets have against their limits.
func (b *Billet) check() error {
	for _, one := range []struct {
		name string
		is   *quantity.Length
		row  *method.Method
		as   string
	}{
		{"end_width", b.EndWidth, rowVolume, "width"}, {"end_thickness", b.EndThickness, rowVolume, "thickness"},
		{"far_thickness", b.FarThickness, rowVolume, "thickness"},
	} {
		if one.is == nil {
			continue
		}
		if _, err := one.row.Check(one.as, exact.Millimetres(*one.is)); err != nil {
			return exact.Rename(err, map[string]string{one.as: one.name})
		}
	}
	return nil
}

func layoutOf(b Billet, s Saw, p Piece) Layout {
	return Layout{
		Length: b.Length, Width: b.Width, TrimStart: b.TrimStart, TrimEnd: b.TrimEnd, EdgeStart: b.TrimNear,
		EdgeEnd:     b.TrimFar,
		BlankLength: p.Length, BlankWidth: p.Width, Crosscut: s.Crosscut, Rip: s.Rip,
		Cut: Cut{Thickness: b.Thickness, Facing: s.Facing, Leaf: p.Leaf, Kerf: s.Kerf, Reface: s.Reface,
			FarFaceFinished: !s.RoughFar},
	}
}

// number counts the stacks of a billet that was turned from its own start and near edge.
func (y *BilletYield) number(endForEnd, edgeForEdge bool) {
	for i := range y.Stacks {
		s := &y.Stacks[i]
		if endForEnd {
			s.Row = y.Rows + 1 - s.Row
		}
		if edgeForEdge {
			s.Column = y.Columns + 1 - s.Column
		}
	}
	slices.SortFunc(y.Stacks, func(a, b StackYield) int {
		return cmp.Or(cmp.Compare(a.Row, b.Row), cmp.Compare(a.Column, b.Column))
	})
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

// thicknessAt is the thickness at the thinnest place of a blank; 0 where the planes of the
// faces meet before it.
func (b *Billet) thicknessAt(l Layout, row, column int) (quantity.Length, method.Notes, error) {
	along, across := b.Thickness, b.Thickness
	var all method.Notes
	for _, one := range []struct {
		to          *quantity.Length
		thin        *quantity.Length
		over, reach quantity.Length
		names       [][2]string
	}{
		{&along, b.EndThickness, b.Length, l.TrimStart + quantity.Length(row+1)*l.BlankLength + quantity.Length(row)*l.Crosscut,
			[][2]string{{"bark_edge", "thickness"}, {"heart_edge", "end_thickness"}, {"across", "length"}, {"blank", "blank_length"}}},
		{&across, b.FarThickness, b.Width, l.EdgeStart + quantity.Length(column+1)*l.BlankWidth + quantity.Length(column)*l.Rip,
			[][2]string{{"bark_edge", "thickness"}, {"heart_edge", "far_thickness"}, {"across", "width"}, {"blank", "blank_width"}}},
	} {
		if one.thin == nil {
			continue
		}
		at, notes, err := WedgeThickness(b.Thickness, max(0, *one.thin), one.over, one.reach)
		if err != nil {
			return 0, all, method.Renamed(err, one.names...)
		}
		all.Merge(notes.Renamed(one.names...))
		*one.to = at
	}
	switch {
	case b.EndThickness == nil:
		return across, all, nil
	case b.FarThickness == nil:
		return along, all, nil
	}
	return exact.Length(max(0, exact.Whole(along)+exact.Whole(across)-exact.Whole(b.Thickness))), all, nil
}

// stacksOf is the limit that the place of a leaf misses, of its row where that is wrong.
func stacksOf(leaf Spoiled, y *BilletYield) *method.Limit {
	if leaf.Row > y.Rows {
		return method.Between(1, float64(y.Rows), "rows")
	}
	return method.Between(1, float64(y.Columns), "columns")
}

// formSets forms the sets of every stack.
func (y *BilletYield) formSets(spoiled []Spoiled, perSet int) error {
	numbers := map[[2]int][]int{} // of the spoiled leaves of each stack
	places := map[[2]int][]int{}  // of each in the list
	for i, leaf := range spoiled {
		if leaf.Row > y.Rows || leaf.Column > y.Columns {
			return exact.OutOfRange("spoiled/"+strconv.Itoa(i),
				"there is no stack in row "+strconv.Itoa(leaf.Row)+", column "+strconv.Itoa(leaf.Column),
				stacksOf(leaf, y))
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

// measure states the volume of the billet, and what becomes of it if it is a box. turned
// is the billet as parts are laid in it.
func (y *BilletYield) measure(b, turned Billet, grid Grid) error {
	whole, err := BilletVolume(turned.Length, turned.Width, turned.Thickness)
	if err != nil {
		return err
	}
	y.Volume = whole.Volume()
	switch {
	case b.EndWidth != nil && *b.EndWidth != b.Width:
		y.Volume = b.tapered()
		return nil
	case turned.EndThickness != nil || turned.FarThickness != nil:
		end, far := turned.thinner()
		y.Volume *= quantity.Volume((end + far) / (2 * turned.Thickness)) // the mean of its corners
		return nil
	}
	f := grid.Shares.Fractions()
	y.Shares = &f
	return nil
}

// thinner are the thicknesses at the end and at the far edge.
func (b *Billet) thinner() (end, far quantity.Length) {
	end, far = b.Thickness, b.Thickness
	if b.EndThickness != nil {
		end = *b.EndThickness
	}
	if b.FarThickness != nil {
		far = *b.FarThickness
	}
	return end, far
}

// tapered is the volume between the faces of a billet whose outline tapers. Its section is
// a parabola over the length, for which the rule of three sections is exact.
func (b *Billet) tapered() quantity.Volume {
	end, far := b.thinner()
	section := func(share quantity.Length) float64 { // at a share of the length
		width := b.Width + (*b.EndWidth-b.Width)*share
		near := b.Thickness + (end-b.Thickness)*share
		return float64(width * (near + (far-b.Thickness)*width/(2*b.Width)))
	}
	return quantity.Volume(float64(b.Length) / 6 * (section(0) + 4*section(0.5) + section(1)))
}
