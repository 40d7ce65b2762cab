package resaw

import (
	"math/bits"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// TaperBlank is one blank of a billet that tapers along its length.
type TaperBlank struct {
	Start, End quantity.Length // from the thick end
	Thickness  quantity.Length // at its thin end
	Yield      Yield
}

// Tapered returns the blanks of a billet whose thickness runs in a straight
// line from c.Thickness at one end to thin at the other, parts laid from the
// thick end, and the leaves of each: every blank is limited by its thin end.
//
// billet, blank: length of the billet and of each blank (1 micrometre to
// 100 m); kerf: of the crosscuts, 0 to 100 m; thin: thickness at the thin end,
// 0 to c.Thickness; c: how each blank is resawn, c.Thickness being the thick
// end. Errors: as Across and Leaves; method.Contradictory when thin is more
// than c.Thickness. Accuracy: exact, thickness rounded down to 1 nm.
//
// Source: derived; T(x) = T1 + (T2 - T1) x/L.
func Tapered(billet, blank, kerf, thin quantity.Length, c Cut) ([]TaperBlank, method.Notes, error) {
	var notes method.Notes
	row, err := Across(billet, 0, 0, blank, kerf)
	if err != nil {
		return nil, notes, err
	}
	notes.Merge(row.Notes)
	if err := check(&notes, rowTaper, given{"thickness", c.Thickness}, given{"thin_end", thin}); err != nil {
		return nil, notes, err
	}
	if thin > c.Thickness {
		return nil, notes, contradictory("thin_end", "the thin end is thicker than the thick end")
	}
	st, err := c.stack(&notes)
	if err != nil {
		return nil, notes, err
	}
	blanks := make([]TaperBlank, row.Blanks)
	for i := range blanks {
		start := nm(i) * (whole(blank) + whole(kerf))
		end := start + whole(blank)
		t := between(whole(c.Thickness), whole(thin), end, whole(billet))
		// Near a feather edge the facing can exceed what is there: no leaf.
		st.usable = max(0, t-whole(c.Facing))
		y, err := st.yield(whole(c.Facing))
		if err != nil {
			return nil, notes, err
		}
		y.Notes = notes
		blanks[i] = TaperBlank{length(start), length(end), length(t), y}
	}
	return blanks, notes, nil
}

// between returns a + (b-a) x/l rounded down, exactly; x, a, b >= 0.
func between(a, b, x, l nm) nm {
	q, _ := share(b-a, x, l)
	return a + q
}

// share returns d x/l as a whole number rounded down and what is left over, in
// parts of l; x >= 0.
func share(d, x, l nm) (q nm, rest uint64) {
	if l <= 0 || d == 0 {
		return 0, 0
	}
	hi, lo := bits.Mul64(uint64(max(d, -d)), uint64(x))
	n, r := bits.Div64(hi, lo, uint64(l))
	if d > 0 {
		return nm(n), r
	}
	if r > 0 {
		return -nm(n) - 1, uint64(l) - r
	}
	return -nm(n), 0
}

// bothShares returns d x/l + e y/w rounded down, exactly.
func bothShares(d, x, l, e, y, w nm) nm {
	q1, r1 := share(d, x, l)
	q2, r2 := share(e, y, w)
	// r1/l + r2/w >= 1 ?
	h1, l1 := bits.Mul64(r1, uint64(w))
	h2, l2 := bits.Mul64(r2, uint64(l))
	lo, carry := bits.Add64(l1, l2, 0)
	hi, _ := bits.Add64(h1, h2, carry)
	th, tl := bits.Mul64(uint64(l), uint64(w))
	if hi > th || hi == th && lo >= tl {
		return q1 + q2 + 1
	}
	return q1 + q2
}
