package plan_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// carved is a pair that is 22 mm thick at one edge and 9 mm at the other.
var carved = plan.PartKind{Name: "carved top", Length: 390 * mm, Width: 125 * mm, Final: 22 * mm, ThinEdge: 9 * mm,
	Flatness: 0.5 * mm, Pieces: 2, Match: plan.MatchBook, Worth: 1}

var splitter = plan.Saw{Name: "band", Resaw: 1.2 * mm, Crosscut: 1.2 * mm, Rip: 1.2 * mm, Wander: 0.5 * mm,
	CleanupShow: 0.8 * mm, CleanupBack: 0.8 * mm, FarFaceFinished: true}

func wedgeBillet(length, width, thick, thin quantity.Length) plan.Billet {
	return plan.Billet{Length: length, Width: width, Thickness: thick, ThicknessFarEdge: &thin, FacingFace1: mm, FacingFar: mm}
}

// By hand: a wedge of 150 mm, 58 to 22 mm thick, is 28 mm thick at 125 mm. Planed by 1 mm on
// both faces it is 56 and 26 mm; a kerf of 1.2 mm that leans by 18 in 150 takes 1.2086 mm, so
// that halves are 27.396 and 12.396 mm thick. With 2.6 mm of allowances 24.6 and 11.6 are
// asked for.
func TestPairSplitFromAWedge(t *testing.T) {
	q := plan.Request{Billets: []plan.Billet{wedgeBillet(420*mm, 150*mm, 58*mm, 22*mm)}, Parts: []plan.PartKind{carved},
		Saws: []plan.Saw{splitter}}
	p := makePlan(t, q)
	checkPlan(t, q, p)
	require.Equal(t, []int{1}, p.Sets)
	assert.True(t, p.Optimal)
	b := p.Billets[0].Blanks[0]
	require.True(t, b.Split)
	assert.InDelta(t, 56, b.Usable.Millimetres(), 1e-5)
	assert.InDelta(t, 26, b.FarUsable.Millimetres(), 1e-5)
	assert.InDelta(t, 27.3957, (b.Leaves[0].To - b.Leaves[0].From).Millimetres(), 1e-4)
	assert.InDelta(t, 12.3957, (*b.Leaves[1].FarTo - *b.Leaves[1].FarFrom).Millimetres(), 1e-4)

	parallel := carved
	parallel.ThinEdge = 0
	q.Parts = []plan.PartKind{parallel}
	assert.Equal(t, []int{0}, makePlan(t, q).Sets, "not as parallel pieces")

	// With the thick edge on the far side it is the same, seen from there.
	q.Parts, q.Billets = []plan.PartKind{carved}, []plan.Billet{wedgeBillet(420*mm, 150*mm, 22*mm, 58*mm)}
	p = makePlan(t, q)
	checkPlan(t, q, p)
	require.Equal(t, []int{1}, p.Sets)
	b = p.Billets[0].Blanks[0]
	assert.InDelta(t, 26, b.Usable.Millimetres(), 1e-5)
	assert.InDelta(t, 25, b.Y.Millimetres(), 1e-5, "against the thick edge")

	// A knot anywhere in it spoils it.
	q.Billets[0].Zones = []plan.Zone{{Kind: "knot", X0: 200 * mm, X1: 210 * mm, Y0: 90 * mm, Y1: 95 * mm}}
	assert.Equal(t, []int{0}, makePlan(t, q).Sets)
}

// Of one carved part from clear wedges without other taper as many are planned as a count
// along and across gives.
func TestWedgesAgainstTheCount(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	some := 0
	for range 150 {
		thick := float64(40 + r.IntN(60))
		long, wide, thin := float64(300+r.IntN(1700)), float64(100+r.IntN(400)), thick*(0.3+0.68*r.Float64())
		b := wedgeBillet(quantity.Length(long)*mm, quantity.Length(wide)*mm, quantity.Length(thick)*mm, quantity.Length(thin)*mm)
		part := carved
		part.Final, part.ThinEdge = quantity.Length(10+r.IntN(14))*mm, quantity.Length(4+r.IntN(6))*mm
		part.Length, part.Width = quantity.Length(250+r.IntN(200))*mm, quantity.Length(100+r.IntN(40))*mm // too wide to lie on its side
		q := plan.Request{Billets: []plan.Billet{b}, Parts: []plan.PartKind{part}, Saws: []plan.Saw{splitter}}
		q.Saws[0].HighestCut = 0
		l, w := part.Length.Millimetres(), part.Width.Millimetres()
		along, across, flat := int((long+1.2)/(l+1.2)), 0, 0
		at := func(y float64) float64 { return thick + (thin-thick)*y/wide - 2 }
		kerf := 1.2 * math.Hypot(1, (thick-thin)/2/wide)
		over := 0.5 + 0.8 + 0.8 + 0.5
		// Flat pairs come from the same strips where the wood is thick enough at the thin edge.
		for y := 0.0; y+w <= wide; y += w + 1.2 {
			pairs := int((at(y+w) + 1.2) / (2 * (part.Final.Millimetres() + over + 1.2)))
			flat += pairs
			if pairs == 0 && (at(y)-kerf)/2 >= part.Final.Millimetres()+over && (at(y+w)-kerf)/2 >= part.ThinEdge.Millimetres()+over {
				across++
			}
		}
		p := makePlan(t, q)
		checkPlan(t, q, p)
		require.Equal(t, []int{along * (across + flat)}, p.Sets, "%v %v %v %v %+v", long, wide, thick, thin, part)
		if across > 0 {
			some++
		}
	}
	assert.Greater(t, some, 10)
}

// Wedges beside all else, with zones, warp and the pith: every plan can be sawn, piece by
// piece.
func TestPlansWithWedgesCanBeSawn(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	split, ringed := 0, 0
	for i := range 80 {
		b := randomBillet(r)
		thin := b.Thickness * quantity.Length(0.3+0.5*r.Float64())
		b.Thickness += 25 * mm
		b.ThicknessFarEdge = &thin
		if b.Pith != nil { // a wedge is thin towards the pith
			b.Pith = &resaw.Point{X: b.Width + quantity.Length(5+r.IntN(100))*mm, Z: quantity.Length(r.IntN(60)) * mm}
		}
		if i%4 == 0 { // the other way round
			b.Thickness, b.ThicknessFarEdge = thin, &b.Thickness
			if b.Pith != nil {
				b.Pith.X = -quantity.Length(5+r.IntN(100)) * mm
			}
		}
		part := carved
		part.Final, part.Worth = quantity.Length(12+r.IntN(10))*mm, int64(4000+r.IntN(9000))
		if i%2 == 0 {
			part.LeastRingAngle = 60 * quantity.Degree
		}
		q := plan.Request{Billets: []plan.Billet{b}, Parts: append(randomParts(r, 2), part), Saws: []plan.Saw{bandsaw}}
		if i%3 == 0 {
			most := 1
			q.Parts[2].Most = &most
		}
		p := makePlan(t, q)
		checkPlan(t, q, p)
		for _, blank := range p.Billets[0].Blanks {
			if blank.Split {
				split++
				if part.LeastRingAngle > 0 && b.Pith != nil {
					ringed++
				}
			}
		}
	}
	assert.Greater(t, split, 10)
	assert.Positive(t, ringed)
}

// By hand: plates of the whole width of a wedge are as thick together as its thin edge, 22 mm.
// What is behind is sawn off and not planed: with a kerf of 1.2 mm it is 58 - 23.2 = 34.8 mm thick
// at the near edge, and 0.5 mm at 150 (34.8 - 0.5)/36 = 142.9167 mm from there.
func TestTaperIsSawnOff(t *testing.T) {
	part := plan.PartKind{Name: "plate", Length: 400 * mm, Width: 150 * mm, Final: 4 * mm, Pieces: 1,
		Match: plan.MatchNone, Worth: 1}
	plain := splitter
	plain.Wander, plain.CleanupShow, plain.CleanupBack = 0, 0, 0
	small := plan.Size{Length: 380 * mm, Width: 20 * mm, Final: 25 * mm}
	for _, flipped := range []bool{false, true} {
		b := wedgeBillet(420*mm, 150*mm, 58*mm, 22*mm)
		if flipped {
			b = wedgeBillet(420*mm, 150*mm, 22*mm, 58*mm)
		}
		q := plan.Request{Billets: []plan.Billet{b}, Parts: []plan.PartKind{part}, Saws: []plan.Saw{plain}}
		p := makePlan(t, q)
		checkPlan(t, q, p)
		require.Equal(t, []int{4}, p.Sets, "floor((22 - 2 + 1.2)/5.2)")
		f := p.Billets[0].Shares.Fractions()
		assert.Less(t, f.Shavings, 0.1)
		// 400 x 150 x (34.8^2/72) of 420 x 150 x 40, and the piece beyond the crosscut.
		assert.InDelta(t, (400*34.8*34.8/72+18.8*40)/(420*40), f.Offcut, 0.002)
		found := 0
		for _, o := range plan.Offcuts(&q, &p, 0, []plan.Size{small}) {
			if o.Billet.ThicknessFarEdge == nil || o.Billet.Length < 300*mm {
				continue
			}
			found++
			near, far := o.Billet.Thickness, *o.Billet.ThicknessFarEdge
			if flipped {
				near, far = far, near
			}
			assert.InDelta(t, 34.8, near.Millimetres(), 1e-5)
			assert.InDelta(t, 0.5, far.Millimetres(), 1e-5)
			assert.InDelta(t, 142.91667, o.Billet.Width.Millimetres(), 1e-4)
			assert.InDelta(t, 400, o.Billet.Length.Millimetres(), 1e-5)
		}
		assert.Equal(t, 1, found)
	}
}

// By hand: the wedge of TestPairSplitFromAWedge has its cut from 27.396 mm below the planed face at
// the near edge to 12.396 mm at 125 mm, so it falls by 15 in 125: sqrt(125^2 + 15^2) = 125.897 mm
// along the cut. A pith 10 mm beyond the far edge of the blank and on the line of the cut lies at
// 135 x 125.897/125 = 135.968 mm along it, in the plane of the first sawn face; rings there stand
// square to the cut, and do not shift across its kerf but by what a circle curves.
func TestHalvesOfAWedgeAreMatched(t *testing.T) {
	b := wedgeBillet(420*mm, 150*mm, 58*mm, 22*mm)
	fall := func(y float64) quantity.Length { return quantity.Length(1+27.3957-y*15/125) * mm }
	b.Pith = &resaw.Point{X: 135 * mm, Z: fall(135)}
	q := plan.Request{Billets: []plan.Billet{b}, Parts: []plan.PartKind{carved}, Saws: []plan.Saw{splitter}}
	told, err := plan.Tell(context.Background(), plan.Question{Request: q})
	require.NoError(t, err)
	require.Len(t, told.Opened, 1)
	require.False(t, told.Unread)
	one := told.Opened[0]
	assert.InDelta(t, 125.897, one.Width.Millimetres(), 1e-3)
	assert.InDelta(t, 135.968, one.Pith.X.Millimetres(), 1e-3)
	assert.InDelta(t, one.Pairs[0].First.Back.Millimetres(), one.Pith.Z.Millimetres(), 1e-3)
	assert.InDelta(t, 1.2, (one.Pairs[0].Second.Front - one.Pairs[0].First.Back).Millimetres(), 1e-4, "square to the cut")
	assert.Equal(t, resaw.NearEdge, one.Seam, "the thick edge")
	assert.Equal(t, []plan.PairOf{{Leaf: 1}}, told.Pairs)

	// Seen from the other edge it is the same pair.
	other := wedgeBillet(420*mm, 150*mm, 22*mm, 58*mm)
	other.Pith = &resaw.Point{X: 15 * mm, Z: b.Pith.Z}
	q.Billets = []plan.Billet{other}
	told, err = plan.Tell(context.Background(), plan.Question{Request: q})
	require.NoError(t, err)
	back := told.Opened[0]
	assert.InDelta(t, float64(one.Width-one.Pith.X), float64(back.Pith.X), 1e-9)
	assert.InDelta(t, float64(one.Pith.Z), float64(back.Pith.Z), 1e-8)
	assert.Equal(t, resaw.FarEdge, back.Seam)

	q.Billets[0].Pith = nil
	angle := 80 * quantity.Degree
	q.Billets[0].RingAngle = &angle
	told, err = plan.Tell(context.Background(), plan.Question{Request: q})
	require.NoError(t, err)
	assert.Empty(t, told.Opened, "on which side of the cut the rings lean nobody said")
	assert.True(t, told.Unread)
}
