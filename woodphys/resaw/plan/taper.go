package plan

import (
	"math"

	"latewood/woodphys/resaw/exact"
)

// Tapers. A blank is as thick as the wood at its thinnest corner. Where the wood is much thicker
// at another, what is behind is not planed to shavings: it is sawn off parallel to face 1 before
// the blank is flattened, and is an offcut, itself a wedge.

// leastTaper is how thick what is sawn off must be at its thickest corner. Own choice: less is
// planed off as soon.
const leastTaper = 4_000_000 // nm

// above is the mean height above k of a plane that rises from 0 by a along a square and by b across
// it.
func above(a, b, k float64) float64 {
	if a < b {
		a, b = b, a
	}
	over := func(v float64, n float64) float64 { return math.Pow(math.Max(0, v-k), n) }
	if b < 1 { // nm: along one side alone
		return over(a, 2) / (2 * a)
	}
	return (over(a+b, 3) - over(a, 3) - over(b, 3)) / (6 * a * b)
}

// sawTaper saws off what is behind a blank as thick as its thinnest corner, where that is worth a
// cut and the saw is high enough for it. It returns the piece that is left, and what was sawn off
// with its kerf.
func (t *writer) sawTaper(p *blankPlan, piece inHand) (inHand, exact.Cubic) {
	w, kerf := t.w, t.r.resaw
	x1, y1 := p.x+p.length, p.y+p.width
	thin := w.thinnest(p.x, x1, p.y, y1)
	set := upToSteps(thin, w.step)
	over := w.thickest(p.x, x1, p.y, y1) - set
	if kerf == 0 || over < kerf+leastTaper || p.width > t.r.highest {
		return piece, exact.Cubic{}
	}
	lies := box{p.x, x1, p.y, y1}
	low := t.place(lies, exact.LengthPtr(0), exact.LengthPtr(set))
	high := t.place(lies, exact.LengthPtr(set+kerf), nil)
	t.add(Step{Action: Resaw, Piece: piece.number, At: exact.Length(set), Kerf: exact.Length(kerf), Low: low, High: high,
		Against: Face1, Fence: exact.Length(set)})
	along := w.thickest(p.x, x1, p.y, p.y) - w.thinnest(p.x, x1, p.y, p.y)
	across := over + set - thin - along
	area := float64(p.length) * float64(p.width)
	all := exact.CubicOf(area * above(float64(along), float64(across), float64(set-thin)))
	off := exact.CubicOf(area * above(float64(along), float64(across), float64(set-thin+kerf)))
	if all.Compare(off) > 0 {
		t.dust = t.dust.Plus(all.Minus(off))
	}
	piece.number = low
	return piece, all
}
