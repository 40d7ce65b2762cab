package plan

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// MoreLeaves is what further leaves of one kind would need of a planned blank;
// each cure alone.
type MoreLeaves struct {
	Leaves  int             // how many more
	ShortBy quantity.Length // of the blank's usable thickness; 0: they would fit
	// KerfAtMost and ThinnerBy change every cut and every leaf of the blank alike;
	// nil where no kerf or leaf would do, or where a zone holds leaves in their
	// place.
	KerfAtMost *quantity.Length // the widest kerf with which they fit
	ThinnerBy  *quantity.Length // off every leaf, rounded up
}

// More returns what n more leaves of a thickness would need behind the last leaf
// of a blank, every leaf in its order and the zones as they are.
//
// n: 1 to MaxLeaves; leaf: the sawn thickness, at least 1 micrometre, of the last
// leaf's kind or any other. Errors: method.OutOfRange for n and leaf. Accuracy:
// exact in whole nanometres, for wood behind the last leaf that is clear.
//
// Source: derived by arithmetic; equal to Next of Leaves where a blank holds one
// kind and no zone, and checked against it.
func (b *Blank) More(n int, leaf quantity.Length, s *Saw) (MoreLeaves, error) {
	if n < 1 || n > resaw.MaxLeaves {
		return MoreLeaves{}, exact.OutOfRange("leaves", "leaves must be 1 to 100000", method.Between(1, resaw.MaxLeaves, ""))
	}
	if _, err := resaw.RowLeaves.Check("leaf", exact.Millimetres(leaf)); err != nil {
		return MoreLeaves{}, err
	}
	k, j, t, more := exact.Whole(s.Resaw), exact.Whole(s.Reface), exact.Whole(leaf), nm(n)
	usable, end, plates := exact.Whole(b.Usable), nm(0), more*t
	spoiled := false
	for _, l := range b.Leaves {
		end = exact.Whole(l.To)
		plates += exact.Whole(l.To) - exact.Whole(l.From)
		spoiled = spoiled || l.Role == RoleRejected
	}
	count := nm(len(b.Leaves)) + more
	cuts := count
	if s.FarFaceFinished {
		cuts--
	}
	need := end + more*(t+k+j)
	if len(b.Leaves) == 0 {
		need -= k + j
	}
	if !s.FarFaceFinished {
		need += k
	}
	out := MoreLeaves{Leaves: n, ShortBy: exact.Length(max(0, need-usable))}
	// A planed sliver or a slab before the first leaf holds the others in place.
	if len(b.Leaves) > 0 && exact.Whole(b.Leaves[0].From) > 0 || spoiled || b.gaps(k+j) {
		return out, nil
	}
	if room := usable - plates - (count-1)*j; room >= 0 && cuts > 0 {
		out.KerfAtMost = exact.LengthPtr(room / cuts)
	}
	if short := need - usable; short > 0 {
		if by := (short + count - 1) / count; by < t && b.thinnestLeaf() > by {
			out.ThinnerBy = exact.LengthPtr(by)
		}
	}
	return out, nil
}

// gaps reports whether leaves lie farther apart than a cut and its re-facing.
func (b *Blank) gaps(cut nm) bool {
	for i := 1; i < len(b.Leaves); i++ {
		if exact.Whole(b.Leaves[i].From)-exact.Whole(b.Leaves[i-1].To) > cut {
			return true
		}
	}
	return false
}

// thinnestLeaf is 0 where there is none.
func (b *Blank) thinnestLeaf() nm {
	thin := nm(1 << 62)
	for _, l := range b.Leaves {
		thin = min(thin, exact.Whole(l.To)-exact.Whole(l.From))
	}
	return thin
}
