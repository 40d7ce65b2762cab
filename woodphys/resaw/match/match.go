package match

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// Halves returns how every pair of neighbouring leaves of a stack matches
// across the seam, for each way of opening and for each edge at the seam, what
// it costs to bring the halves into line, which edge is the better one, and the
// pairs in order of merit.
//
// in: lengths 0 to 100 m (Width and Leaf at least 1 micrometre), ring angles
// 0 to 90 degrees, AngleSD 0 to 30 degrees, Dip 0 to 1e6, Runout 0 or 1 to
// 1e9, BandLean 0 to 89 degrees, Arch 0 to a half's width, weights 0 to 1e6; 2 to MostMatchLeaves leaves.
//
// Errors: method.OutOfRange; method.Missing for rings; method.Contradictory for
// readings at two depths, both a pith and ring angles, leaves that overlap, clean-up or
// an arch that leaves nothing, a seam edge of half the width; method.Unknown for another opening,
// edge or lean; method.TooMuchWork.
//
// Accuracy: exact for circular rings about the pith (Circle) and for plane rings
// (Plane); see PlaceMatch. Real rings are neither: eccentric growth makes them
// off-circular, and figure changes over d. The score is an order of preference.
//
// Source: derived; see rowMatch. A shift equal over the whole width only changes
// the period of a slip-match, so that there the spread of the shift counts.
// That the bark edge usually goes to the seam is common practice.
//
// Left out: turning one half end for end in its plane (restores the sense of the
// runout, but puts its other edge at the seam), and leaves whose sawn faces are not parallel; the
// two halves of a wedge that is sawn along its middle show the two faces of one kerf, which are.
func Halves(in Input) (Result, error) {
	m := matcher{in: &in}
	if err := m.prepare(); err != nil {
		return Result{}, err
	}
	openings := in.Openings
	if len(openings) == 0 {
		openings = []resaw.Opening{resaw.Bookmatch, resaw.SlipMatch, resaw.WrongWay}
	}
	n := len(m.leaves) - 1
	layouts := make([]Layout, n*len(openings))
	m.out.Pairs = make([]Pair, 0, n)
	for i := range n {
		if m.spoiled[i] || m.spoiled[i+1] {
			continue
		}
		a, b := m.leaves[i], m.leaves[i+1]
		own := layouts[:len(openings):len(openings)]
		layouts = layouts[len(openings):]
		for j, o := range openings {
			m.layout(&own[j], o, a, b)
		}
		m.out.Pairs = append(m.out.Pairs, Pair{First: i + 1, Kerf: b.Front - a.Back, Layouts: own})
	}
	m.warn()
	m.rank()
	return m.out, nil
}

// layout fills in a pair opened in one way. The billet thickness between the two
// faces that show is, with kerf k, re-facing j, leaf t and s off each of them, k + j +
// 2 s for a bookmatch, t + k + j for a slip-match and 2 t + k + j - 2 s the wrong way.
func (m *matcher) layout(l *Layout, o resaw.Opening, a, b resaw.LeafFaces) {
	l.Opening = o
	s := m.in.CleanupShow
	switch o {
	case resaw.SlipMatch: // same side up; the front faces are taken to show
		l.ShowA, l.ShowB = a.Front+s, b.Front+s
	case resaw.WrongWay:
		l.ShowA, l.ShowB = a.Front+s, b.Back-s
	default:
		l.ShowA, l.ShowB = a.Back-s, b.Front+s
	}
	// in whole nanometres, as all that is sawn
	l.Distance = exact.Length(exact.Whole(l.ShowB) - exact.Whole(l.ShowA))
	for i := range l.Places {
		m.place(&l.Places[i], i, l)
	}
	l.Largest = m.largest(l)
	m.seen.noteFace(l)
	if m.lean != nil {
		l.BandShift = m.keep(l.Distance * quantity.Length(m.lean.Tan())) // d tan(phi), exact for plane bands
	}
	if m.in.Dip > 0 {
		l.TipShift = m.keep(l.Distance * quantity.Length(m.in.Dip)) // d N for a dip of 1 in N
	}
	if m.runout > 0 {
		// The show faces of a booked pair look opposite ways, so the fibre
		// leaves one towards the far end and the other towards the near end.
		l.Runout = &Runout{Angle: m.runout, Mirrored: o != resaw.SlipMatch}
		if l.Runout.Mirrored {
			l.Runout.Difference = 2 * m.runout
		}
	}
	for i, e := range []int{0, 2} {
		m.seam(&l.Seams[i], l, e)
	}
	l.Better, l.Reasons = better(&l.Seams)
}
