package match

import (
	"math"
	"slices"

	"latewood/woodphys/method"
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
// 0.01 to 90 degrees, AngleSD 0 to 30 degrees, Dip 0 to 1e6, Runout 0 or 1 to
// 1e9, BandLean 0 to 89 degrees, weights 0 to 1e6; 2 to MostMatchLeaves leaves.
//
// Errors: method.OutOfRange; method.Missing for rings; method.Contradictory for
// both a pith and ring angles, leaves that overlap, clean-up that leaves
// nothing, a seam edge of half the width; method.Unknown for another opening,
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
// runout, but puts its other edge at the seam), and wedges, whose sawn faces are
// not parallel.
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

// matcher carries one request through.
type matcher struct {
	in      *Input
	leaves  []resaw.LeafFaces
	spoiled []bool
	rings   rings
	places  [3]float64 // left seam edge, middle, right seam edge
	kinds   [3]EdgeKind
	weights Weights
	spare   [2]quantity.Length // width, length
	lean    *quantity.Angle    // of flame
	runout  quantity.Angle
	seen    oddities
	block   []quantity.Length // of keep
	out     Result
}

func (m *matcher) prepare() error {
	in, notes := m.in, &m.out.Notes
	notes.Rest(rowMatch)
	if err := checkMatch(in, notes); err != nil {
		return err
	}
	var err error
	if m.leaves, err = stackOf(in, notes); err != nil {
		return err
	}
	m.out.Faces = m.leaves
	m.spoiled = make([]bool, len(m.leaves))
	for _, n := range in.Spoiled {
		if n < 1 || n > len(m.leaves) {
			return exact.OutOfRange("spoiled", "a spoiled leaf has a number the stack does not have", "1 to the number of leaves")
		}
		m.spoiled[n-1] = true
	}
	if m.rings, err = ringsOf(in, notes); err != nil {
		return err
	}
	if m.rings.circular {
		notes.Rest(rowCircleShift)
		m.out.Pith = &resaw.Point{X: quantity.Length(m.rings.x), Z: quantity.Length(m.rings.z)}
	}
	notes.Rest(rowMatchScore)
	m.places = [3]float64{float64(in.SeamEdge), float64(in.Width) / 2, float64(in.Width - in.SeamEdge)}
	m.out.Left, m.out.Right = m.rings.edges(in, notes)
	m.kinds = [3]EdgeKind{m.out.Left, UnknownEdge, m.out.Right}
	m.weights = UsualWeights()
	if in.Weights != nil {
		m.weights = *in.Weights
	}
	m.spare = [2]quantity.Length{in.SpareWidth, in.SpareLength}
	for i := range m.spare {
		if m.spare[i] == 0 {
			m.spare[i] = UsualSpare
		}
	}
	m.alongGrain()
	m.angles()
	return nil
}

// alongGrain settles the lean of flame and the runout.
func (m *matcher) alongGrain() {
	m.lean = m.in.BandLean
	if m.in.Runout == 0 {
		return
	}
	m.runout = quantity.Angle(math.Atan2(1, m.in.Runout))
	if m.lean == nil {
		m.lean = &m.runout
		m.out.Notes.Warn(method.Warning{
			Code: method.Assumption, Method: rowMatch.ID, Input: "band_lean",
			Detail: "the lean of flame was not given; bands are taken square to the fibre, so that it is the runout",
		})
	}
}

// angles fills in the ring angles of the leaves, at their mid-planes.
func (m *matcher) angles() {
	m.out.Leaves = make([]LeafAngles, len(m.leaves))
	w := float64(m.in.Width)
	for i, l := range m.leaves {
		z := float64(l.Front+l.Back) / 2
		near, _ := m.rings.at(0, z)
		middle, _ := m.rings.at(w/2, z)
		far, _ := m.rings.at(w, z)
		m.out.Leaves[i] = LeafAngles{i + 1, near.angle(), middle.angle(), far.angle()}
	}
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

// keep returns a place in memory that holds v. Lengths are kept in blocks,
// because one by one they would cost half of the time.
func (m *matcher) keep(v quantity.Length) *quantity.Length {
	if len(m.block) == cap(m.block) {
		m.block = make([]quantity.Length, 0, 256)
	}
	m.block = append(m.block, v)
	return &m.block[len(m.block)-1]
}

var edgeNames = [3]Edge{LeftEdge, MidWidth, RightEdge}

// place fills in the match at one place of the width.
func (m *matcher) place(p *Place, i int, l *Layout) {
	x, za, zb := m.places[i], float64(l.ShowA), float64(l.ShowB)
	d := float64(l.Distance)
	p.At, p.X = edgeNames[i], quantity.Length(x)
	mid, sign := m.rings.at(x, (za+zb)/2)
	onA, _ := m.rings.at(x, za)
	onB, _ := m.rings.at(x, zb)
	p.Angle = mid.angle()
	p.AngleA, p.AngleB = p.Angle, p.Angle
	if m.rings.circular {
		p.AngleA, p.AngleB = onA.angle(), onB.angle()
	}
	direction := sign
	if sign == 0 {
		direction = 1
	}
	if !mid.flat() {
		p.Plane = m.keep(quantity.Length(direction*d*mid.cos/mid.sin + 0)) // d cot(theta); + 0 turns -0 into 0
	}
	if m.rings.circular {
		if shift, ok := m.rings.circleShift(x, za, zb); ok {
			p.Circle = m.keep(quantity.Length(shift + 0))
		}
		p.Shift = p.Circle
	} else {
		p.Shift = p.Plane
	}
	if slope := math.Hypot(mid.sin, mid.cos/m.in.Dip); m.in.Dip > 0 {
		p.Square = m.keep(quantity.Length(d * mid.cos / slope)) // d/sqrt(tan^2(theta) + 1/N^2), divided through by cos
	}
	between := m.rings.circular && (za-m.rings.z)*(zb-m.rings.z) <= 0
	if mid.cos > 1.745e-4*mid.sin && !between { // below 89.99 degrees
		p.Ray = m.keep(quantity.Length(-direction * d * mid.sin / mid.cos)) // d tan(theta); rays are square to the rings
	}
	if m.in.RingWidth > 0 {
		for j, s := range []steepness{onA, onB} {
			if !s.flat() {
				p.Spacing[j] = m.keep(m.in.RingWidth / quantity.Length(s.sin)) // ring/sin(theta)
			}
		}
	}
	if m.in.AngleSD > 0 {
		m.band(p, d, direction)
	}
	m.seen.note(p)
}

// band fills in the 90 % band of the ring shift. d cot(theta) only falls with
// theta, through 0 at 90 degrees, so the quantiles of the angle are those of the
// shift.
func (m *matcher) band(p *Place, d, direction float64) {
	if p.Plane == nil || p.Shift == nil {
		return
	}
	const leastAngle = 0.01 * quantity.Degree
	spread := quantity.Angle(quantity.Z90) * m.in.AngleSD
	low, high := p.Angle+spread, p.Angle-spread
	if high < leastAngle {
		high = leastAngle
		m.seen.openBand = true
	}
	value := direction * float64(*p.Shift)
	offset := value - direction*float64(*p.Plane)
	cot := func(a quantity.Angle) float64 { return d*a.Cos()/a.Sin() + offset }
	b := quantity.Band[quantity.Length]{Value: quantity.Length(value), Low: quantity.Length(cot(low)), High: quantity.Length(cot(high))}
	if direction < 0 {
		b.Value, b.Low, b.High = -b.Value, -b.High, -b.Low
	}
	p.Band = &b
}

// oddities are what the reader of the whole answer should know.
type oddities struct{ flat, unreached, apart, openBand bool }

func (o *oddities) note(p *Place) {
	const low = 5 * quantity.Degree
	if p.Angle < low {
		o.flat = true
	}
	if p.Plane == nil || p.Circle == nil {
		return
	}
	if off := math.Abs(float64(*p.Plane - *p.Circle)); off > 1e-4 && off > 0.05*math.Abs(float64(*p.Circle)) {
		o.apart = true
	}
}

// apartWarning tells of plane rings that depart from circular ones; see oddities.note.
var apartWarning = method.Warning{
	Code: method.Disagreement, Method: rowMatch.ID, Input: "pith",
	Detail: "somewhere the shift of plane rings is more than 0.1 mm and 5 % off that of circular rings; the circular one counts",
}.Saying("somewhere the shift of plane rings is more than %s and 5 %% off that of circular rings; the circular one counts", method.Amount{Value: 0.1, Unit: "mm"})

// inStackWarning tells of a pith among the leaves. What is discarded round it is a rule
// of thumb (common practice, no source): where it is said in inches it is 1 to 2 of them.
var inStackWarning = method.Warning{
	Code: method.Assumption, Method: rowMatch.ID, Input: "pith",
	Detail: "the pith lies in the stack; it and 25 to 50 mm round it are usually discarded, so the leaves there make no plates",
}.Saying("the pith lies in the stack; it and %s to %s round it are usually discarded, so the leaves there make no plates",
	method.Amount{Value: 25.4, Unit: "mm"}, method.Amount{Value: 50.8, Unit: "mm"})

func (m *matcher) warn() {
	notes := &m.out.Notes
	say := func(code method.Code, input, detail string) {
		notes.Warn(method.Warning{Code: code, Method: rowMatch.ID, Input: input, Detail: detail})
	}
	if m.in.AngleSD > 0 {
		notes.Rest(rowMatchBand)
	}
	for i := range m.out.Pairs {
		for j := range m.out.Pairs[i].Layouts {
			for k := range m.out.Pairs[i].Layouts[j].Places {
				m.seen.unreached = m.seen.unreached || m.rings.circular && m.out.Pairs[i].Layouts[j].Places[k].Circle == nil
			}
		}
	}
	if m.seen.flat {
		say(method.Assumption, "ring_angle", "somewhere the ring angle is below 5 degrees: ring lines nearly lie in the face and their shift grows without limit; expect cathedrals that look unlike")
	}
	if m.seen.unreached {
		say(method.Assumption, "pith", "somewhere the ring does not reach both show faces, and ring lines there have no partner")
	}
	if m.seen.apart {
		notes.Warn(apartWarning)
	}
	if m.seen.openBand {
		say(method.Assumption, "ring_angle_sd", "somewhere the band of the ring angle reaches 0 degrees, where the shift has no limit; the upper end of its band is that of 0.01 degrees")
	}
	last := m.leaves[len(m.leaves)-1].Back
	if r := &m.rings; r.circular && r.x >= 0 && r.x <= float64(m.in.Width) && r.z >= float64(m.leaves[0].Front) && r.z <= float64(last) {
		notes.Warn(inStackWarning)
	}
}

// rank orders the pairs and chooses pairs without a common leaf.
func (m *matcher) rank() {
	best := make([]RankedPair, len(m.leaves)) // by number of the first leaf
	m.out.Ranked = make([]RankedPair, 0, len(m.out.Pairs)*3)
	for i := range m.out.Pairs {
		p := &m.out.Pairs[i]
		for j := range p.Layouts {
			l := &p.Layouts[j]
			seam := &l.Seams[l.Better]
			r := RankedPair{p.First, l.Opening, seam.Edge, seam.Score}
			m.out.Ranked = append(m.out.Ranked, r)
			if best[p.First].First == 0 || r.Score < best[p.First].Score {
				best[p.First] = r
			}
		}
	}
	m.out.Ranked = inOrder(m.out.Ranked)
	m.out.Chosen = choose(best)
}

// inOrder returns the pairs by score. Numbers are sorted in their stead, because
// pairs are heavy to move.
func inOrder(pairs []RankedPair) []RankedPair {
	order := make([]int, len(pairs))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case pairs[a].Score < pairs[b].Score:
			return -1
		case pairs[a].Score > pairs[b].Score:
			return 1
		}
		return a - b
	})
	sorted := make([]RankedPair, len(pairs))
	for i, n := range order {
		sorted[i] = pairs[n]
	}
	return sorted
}

// choose returns as many pairs without a common leaf as there can be, those of
// the least total score; best holds the pair that begins with each leaf, from 1.
func choose(best []RankedPair) []RankedPair {
	type state struct {
		pairs int
		score float64
		taken bool // the pair that ends with this leaf
	}
	upTo := make([]state, len(best)+1) // of the first i leaves
	for i := 2; i <= len(best); i++ {
		upTo[i] = state{upTo[i-1].pairs, upTo[i-1].score, false}
		if best[i-1].First == 0 {
			continue
		}
		with := state{upTo[i-2].pairs + 1, upTo[i-2].score + best[i-1].Score, true}
		if with.pairs > upTo[i].pairs || with.pairs == upTo[i].pairs && with.score < upTo[i].score {
			upTo[i] = with
		}
	}
	var chosen []RankedPair
	for i := len(best); i >= 2; {
		if upTo[i].taken {
			chosen = append(chosen, best[i-1])
			i -= 2
		} else {
			i--
		}
	}
	slices.Reverse(chosen)
	return chosen
}
