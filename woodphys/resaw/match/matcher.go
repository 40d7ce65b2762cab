package match

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

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
			return exact.OutOfRange("spoiled", "a spoiled leaf has a number the stack does not have",
				method.Between(1, float64(len(m.leaves)), ""))
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
	if in.Arch > 0 {
		notes.Rest(rowCarved)
	}
	notes.Rest(rowMatchScore)
	m.places = [3]float64{float64(in.SeamEdge), float64(in.Width) / 2, float64(in.Width - in.SeamEdge)}
	m.out.Near, m.out.Far = m.rings.edges(in, notes)
	m.kinds = [3]EdgeKind{m.out.Near, UnknownEdge, m.out.Far}
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

// keep returns a place in memory that holds v. Lengths are kept in blocks,
// because one by one they would cost half of the time.
func (m *matcher) keep(v quantity.Length) *quantity.Length {
	if len(m.block) == cap(m.block) {
		m.block = make([]quantity.Length, 0, 256)
	}
	m.block = append(m.block, v)
	return &m.block[len(m.block)-1]
}
