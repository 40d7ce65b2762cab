package resaw

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// Cut says how one stack is resawn.
type Cut struct {
	Thickness quantity.Length // of the billet before facing, up to 100 m
	Facing    quantity.Length // total taken off the two outside faces first, 0 to Thickness
	Leaf      quantity.Length // sawn leaf, at least 1 micrometre
	Kerf      quantity.Length // of one cut, 0 (splitting) to Thickness
	Reface    quantity.Length // taken off the billet after every cut but the last, 0 to Thickness
	// FarFaceFinished says that the facing finishes the far face too, so that
	// the last leaf needs no cut of its own.
	FarFaceFinished bool
}

// nm is a length in whole nanometres.
type nm = exact.NM

// stack is a Cut in nanometres.
type stack struct {
	usable, leaf, kerf, reface nm
	far                        bool
}

// count returns the number of leaves.
//
//	far face finished: n t + (n-1)(k+j) <= U   ->  n = floor((U+k+j)/(t+k+j))
//	far face rough:    n (t+k) + (n-1) j <= U  ->  n = floor((U+j)/(t+k+j))
//
// U < t (or U < t+k) gives 0 of itself.
func (s stack) count() int64 {
	if s.far {
		return (s.usable + s.kerf + s.reface) / (s.leaf + s.kerf + s.reface)
	}
	return (s.usable + s.reface) / (s.leaf + s.kerf + s.reface)
}

// cuts returns the number of cuts that free n leaves.
func (s stack) cuts(n int64) int64 {
	if s.far && n > 0 {
		return n - 1
	}
	return n
}

// need returns the usable thickness that n leaves take.
func (s stack) need(n int64) nm {
	if n == 0 {
		return 0
	}
	return n*s.leaf + s.cuts(n)*s.kerf + (n-1)*s.reface
}

// thickestLeaf returns the thickest leaf of which n can be had, rounded down.
func (s stack) thickestLeaf(n int64) nm {
	return (s.usable - s.cuts(n)*s.kerf - (n-1)*s.reface) / n
}

// widestKerf returns the widest kerf that still gives n leaves, rounded down,
// and false when no kerf does or none is cut.
func (s stack) widestKerf(n int64) (nm, bool) {
	cuts := s.cuts(n)
	room := s.usable - n*s.leaf - (n-1)*s.reface
	if cuts < 1 || room < 0 {
		return 0, false
	}
	return room / cuts, true
}

// Remainder says what to do with the wood left over in a stack.
type Remainder string

// What can be done with the left over.
const (
	NothingLeft Remainder = "nothing_left"         // an exact fit
	KeepThick   Remainder = "keep_last_thick"      // at most a kerf: keep the last leaf thick, or plane it
	OneMoreCut  Remainder = "one_more_cut"         // more than a kerf: one more cut gives an offcut of Yield.Offcut
	RoughLeaf   Remainder = "leaf_with_rough_face" // thick enough for a leaf, with one face left rough
	RoughOffcut Remainder = "offcut_with_rough_face"
	TooThin     Remainder = "too_thin" // no leaf at all; the billet stays whole
)

// Next is what one more leaf would need; each cure alone.
type Next struct {
	Leaves     int
	Billet     quantity.Length  // thickness of a billet, facing included
	ShortBy    quantity.Length  // Billet less the thickness at hand
	KerfAtMost *quantity.Length // nil when no kerf would do
	LeafAtMost *quantity.Length // nil when no leaf would do
	ThinnerBy  *quantity.Length // Leaf less LeafAtMost
}

// Yield is what a Cut gives.
type Yield struct {
	Usable       quantity.Length // thickness after facing
	Leaves       int
	Cuts         int             // cuts that free the leaves
	LeftOver     quantity.Length // thickness neither leaf, kerf nor re-facing
	Remainder    Remainder
	Offcut       quantity.Length  // what a further cut, or the last, leaves as a strip; 0 if none
	ThickestLeaf *quantity.Length // for the same number of leaves, rounded down to 1 nm; nil with no leaf
	WidestKerf   *quantity.Length // for the same number of leaves; nil when no cut is made
	OneMore      Next
	Notes        method.Notes
}

// Leaves returns how many leaves a stack gives, exactly.
//
// c: see Cut for units and ranges. A billet thinner than a leaf gives 0 leaves
// and no error. Errors: method.OutOfRange for a length outside its limit or not
// a number; method.Contradictory when facing, re-facing or kerf exceed the
// thickness; method.TooMuchWork beyond MaxLeaves. Accuracy: exact in whole
// nanometres.
//
// Source: derived by arithmetic; see stack.count. Checked by sawing 100 000
// random billets piece by piece.
func Leaves(c Cut) (Yield, error) {
	var notes method.Notes
	s, err := c.stack(&notes)
	if err != nil {
		return Yield{}, err
	}
	y, err := s.yield(exact.Whole(c.Facing))
	y.Notes = notes
	return y, err
}

// yield judges a stack; facing is only told on in what one more leaf needs.
func (s stack) yield(facing nm) (Yield, error) {
	var y Yield
	n := s.count()
	if err := tooManyLeaves(n); err != nil {
		return Yield{}, err
	}
	left := s.usable - s.need(n)
	y.Usable, y.Leaves, y.Cuts, y.LeftOver = exact.Length(s.usable), int(n), int(s.cuts(n)), exact.Length(left)
	y.Remainder, y.Offcut = s.remainder(n, left)
	if n > 0 {
		y.ThickestLeaf = exact.LengthPtr(s.thickestLeaf(n))
		if k, ok := s.widestKerf(n); ok {
			y.WidestKerf = exact.LengthPtr(k)
		}
	}
	y.OneMore = s.next(n+1, facing)
	return y, nil
}

func (c Cut) stack(notes *method.Notes) (stack, error) {
	if err := exact.Check(notes, RowLeaves, exact.Named("thickness", c.Thickness), exact.Named("facing", c.Facing),
		exact.Named("leaf", c.Leaf), exact.Named("kerf", c.Kerf), exact.Named("reface", c.Reface)); err != nil {
		return stack{}, err
	}
	t := exact.Whole(c.Thickness)
	for _, g := range []exact.Given{exact.Named("facing", c.Facing), exact.Named("kerf", c.Kerf),
		exact.Named("reface", c.Reface)} {
		if exact.Whole(g.L) > t {
			return stack{}, exact.AtMost(g.Name, g.Name+" is more than the thickness of the billet", c.Thickness)
		}
	}
	return stack{t - exact.Whole(c.Facing), exact.Whole(c.Leaf), exact.Whole(c.Kerf), exact.Whole(c.Reface),
		c.FarFaceFinished}, nil
}

// remainder judges the left over: a cut-off strip is left - k, so a left over
// within a kerf of zero is not a saveable offcut.
func (s stack) remainder(n int64, left nm) (Remainder, quantity.Length) {
	switch {
	case left == 0:
		return NothingLeft, 0
	case !s.far && left >= s.leaf:
		return RoughLeaf, exact.Length(left)
	case n == 0:
		return TooThin, exact.Length(left)
	case !s.far:
		return RoughOffcut, exact.Length(left)
	case left > s.kerf:
		return OneMoreCut, exact.Length(left - s.kerf)
	}
	return KeepThick, 0
}

func (s stack) next(n int64, facing nm) Next {
	x := Next{Leaves: int(n), Billet: exact.Length(s.need(n) + facing), ShortBy: exact.Length(s.need(n) - s.usable)}
	if k, ok := s.widestKerf(n); ok {
		x.KerfAtMost = exact.LengthPtr(k)
	}
	if t := s.thickestLeaf(n); t > 0 {
		x.LeafAtMost, x.ThinnerBy = exact.LengthPtr(t), exact.LengthPtr(s.leaf-t)
	}
	return x
}

// MaxLeaves is the largest number of leaves of one stack the package answers
// for; beyond it the answer is a method.TooMuchWork error.
const MaxLeaves = 100_000

func tooManyLeaves(n int64) error {
	if n <= MaxLeaves {
		return nil
	}
	return &method.Error{
		Code: method.TooMuchWork, Input: "leaf", Limit: method.AtMost(MaxLeaves, "leaves"),
		Detail: "the cut gives more than 100000 leaves; check the leaf and its unit",
	}
}
