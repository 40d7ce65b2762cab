package plan_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
	"latewood/woodphys/wood"
)

func tell(t require.TestingT, q plan.Question) plan.Told {
	if q.Work == 0 {
		q.Work = 500_000
	}
	told, err := plan.Tell(context.Background(), q)
	require.NoError(t, err)
	return told
}

// Of random plans every piece has its name: each leaf is freed once, in its blank and
// its order, and what the steps name is told.
func TestEveryPieceOfAPlanHasItsName(t *testing.T) {
	r := rand.New(rand.NewPCG(71, 3))
	leaves := 0
	for i := range 150 {
		q := plan.Question{Request: plan.Request{Billets: []plan.Billet{randomBillet(r)}, Parts: randomParts(r, 4),
			Saws: []plan.Saw{bandsaw}}}
		q.Saws[0].FarFaceFinished = i%2 == 0
		told := tell(t, q)
		b, is := &told.Billets[0], told.Cut[0].Pieces
		assert.Equal(t, "the billet", is[0].Name())
		seen, parted := map[plan.Piece]int{}, map[int]bool{}
		for _, blank := range b.Blanks {
			for _, l := range blank.Leaves {
				parted[l.Piece] = l.Strips != nil
			}
		}
		for n, s := range b.Steps {
			for _, made := range []int{s.Low, s.High} {
				if made >= 0 {
					require.Contains(t, is, made)
					seen[is[made]]++
				}
			}
			if s.Piece > 0 && s.Action != plan.FlattenBlank && s.Action != plan.Resaw && s.Action != plan.Plane && s.Action != plan.Reface && !parted[s.Piece] {
				assert.Equal(t, plan.ToBeCut, is[s.Piece].Is, "step %d", n)
			}
		}
		for j, blank := range b.Blanks {
			n := seen[plan.Piece{Is: plan.ABlank, Blank: j}]
			assert.True(t, n == 1 || n == 0 && len(blank.Leaves) == 1,
				"blank %d, which may be one leaf that needs no cut", j)
			for _, l := range blank.Leaves {
				kind := plan.ALeaf
				if l.Role == plan.RoleRejected {
					kind = plan.ASlab
				}
				assert.Equal(t, 1, seen[plan.Piece{Is: kind, Blank: j, Leaf: l.Number}], "leaf %d of blank %d",
					l.Number, j)
				leaves++
			}
		}
		f := told.Cut[0].Shares
		assert.InDelta(t, 1, f.Plate+f.Kerf+f.Shavings+f.Trim+f.Offcut, 1e-9)
	}
	assert.Greater(t, leaves, 1000)
}

func TestNamesOfPieces(t *testing.T) {
	assert.Equal(t, []string{"A", "Z", "AA", "AZ", "BA"},
		[]string{plan.Letters(0), plan.Letters(25), plan.Letters(26), plan.Letters(51), plan.Letters(52)})
	for name, p := range map[string]plan.Piece{
		"leaf C3": {Is: plan.ALeaf, Blank: 2, Leaf: 3}, "slab A1": {Is: plan.ASlab, Leaf: 1},
		"blank B": {Is: plan.ABlank, Blank: 1},
		"offcut":  {Is: plan.AnOffcut}, "to be cut further": {Is: plan.ToBeCut},
	} {
		assert.Equal(t, name, p.Name())
	}
}

// oneBillet is a request of a clear billet of 600 x 200 x 50 mm and one kind of part.
func oneBillet(part plan.PartKind) plan.Question {
	const mm = quantity.Millimetre
	saw := bandsaw
	saw.HighestCut = 180 * mm
	return plan.Question{Request: plan.Request{
		Billets: []plan.Billet{{Name: "one", Length: 600 * mm, Width: 200 * mm, Thickness: 50 * mm}},
		Parts:   []plan.PartKind{part}, Saws: []plan.Saw{saw},
	}}
}

// Why a part is missing: told by the limits that the search keeps to.
func TestWhyAPartIsMissing(t *testing.T) {
	const mm = quantity.Millimetre
	part := plan.PartKind{Name: "p", Length: 500 * mm, Width: 150 * mm, Final: 4 * mm, Pieces: 2,
		Match: plan.MatchBook, Worth: 1}
	one := 1
	for name, c := range map[string]struct {
		change func(*plan.Question)
		cause  plan.Cause
		faults []plan.Fault
	}{
		"high": {func(q *plan.Question) { q.Parts[0].Width = 190 * mm }, plan.NoBillet,
			[]plan.Fault{plan.TooHigh}},
		"wide": {func(q *plan.Question) { q.Parts[0].Width, q.Saws[0].HighestCut = 210*mm, 0 }, plan.NoBillet,
			[]plan.Fault{plan.TooWide}},
		"long": {func(q *plan.Question) { q.Billets[0].TrimEnd = 101 * mm }, plan.NoBillet,
			[]plan.Fault{plan.TooLong}},
		"thick": {func(q *plan.Question) { q.Parts[0].Pieces = 20 }, plan.NoBillet, []plan.Fault{plan.TooThick}},
		"cupped": {func(q *plan.Question) { q.Billets[0].Cup = 90 * mm }, plan.NoBillet,
			[]plan.Fault{plan.TooThick}},
		"flat": {func(q *plan.Question) { q.Parts[0].LeastRingAngle = quantity.Degree }, plan.NoBillet,
			[]plan.Fault{plan.TooFlat}},
		"steep": {func(q *plan.Question) { q.Parts[0].MostRunoutOneIn = 20 }, plan.NoBillet,
			[]plan.Fault{plan.TooSteep}},
		"two ways": {func(q *plan.Question) { q.Parts[0].Pieces, q.Parts[0].Length = 20, 601*mm }, plan.NoBillet,
			[]plan.Fault{plan.TooLong, plan.TooThick}},
		"knotty": {func(q *plan.Question) {
			q.Billets[0].Zones = []plan.Zone{{X0: 290 * mm, X1: 310 * mm, Y0: 0,
				Y1: 200 * mm}}
		}, plan.NoPlace, nil},
		"too many": {func(q *plan.Question) { q.Parts[0].Least = 50 }, plan.NoWood, nil},
		"competing": {func(q *plan.Question) {
			other := part
			other.Name, other.Worth = "o",
				5
			other.Least = 3
			q.Parts[0].Least = 3
			q.Parts = append(q.Parts, other)
		}, plan.Competes, nil},
		"not bought": {func(q *plan.Question) {
			other := part
			other.Name, other.Worth, other.Final = "o", 900, 44*mm
			other.Pieces = one
			q.Parts = append(q.Parts, other)
		}, -1, nil},
	} {
		t.Run(name, func(t *testing.T) {
			q := oneBillet(part)
			c.change(&q)
			told := tell(t, q)
			if c.cause < 0 {
				assert.Zero(t, told.Sets[0])
				assert.Empty(t, told.Lacks, "it could be had, and pays less")
				return
			}
			require.NotEmpty(t, told.Lacks)
			assert.Equal(t, c.cause, told.Lacks[0].Cause)
			assert.Equal(t, c.faults, told.Lacks[0].Misfit.Everywhere)
		})
	}
}

// Two billets that each fail by something else are told by what each fails.
func TestMisfitOfSeveralBillets(t *testing.T) {
	const mm = quantity.Millimetre
	q := oneBillet(plan.PartKind{Name: "p", Length: 500 * mm, Width: 150 * mm, Final: 4 * mm, Pieces: 4,
		Match: plan.MatchBook, Worth: 1})
	short, thin := q.Billets[0], q.Billets[0]
	short.Length, thin.Thickness = 300*mm, 10*mm
	q.Billets = []plan.Billet{short, thin}
	m := tell(t, q).Lacks[0].Misfit
	assert.Empty(t, m.Everywhere)
	assert.Equal(t, []plan.Fault{plan.TooLong, plan.TooThick}, m.Somewhere)
	assert.InDelta(t, 0.600, float64(m.Longest), 1e-12)
	assert.InDelta(t, 0.050, float64(m.Thick), 1e-12, "of the short one; no facing is taken")
	need := 4*q.Parts[0].On(&q.Saws[0]).Sum() + 3*(q.Saws[0].Resaw+q.Saws[0].Reface)
	assert.InDelta(t, float64(need), float64(m.Thickness), float64(q.Saws[0].Resaw)+1e-9)
}

// A reason is given only where no plan has a set: a part that a plan holds is never
// told to fit nowhere, on random wood.
func TestWhatIsCutIsNeverMissing(t *testing.T) {
	r := rand.New(rand.NewPCG(73, 5))
	told, nowhere := 0, 0
	for range 200 {
		q := plan.Question{Request: plan.Request{Billets: []plan.Billet{randomBillet(r)}, Parts: randomParts(r, 1),
			Saws: []plan.Saw{bandsaw}}}
		got := tell(t, q)
		if got.Sets[0] > 0 {
			assert.Empty(t, got.Lacks)
			told++
			continue
		}
		require.Len(t, got.Lacks, 1)
		assert.Contains(t, []plan.Cause{plan.NoBillet, plan.NoPlace}, got.Lacks[0].Cause)
		nowhere++
	}
	assert.Greater(t, told, 20)
	assert.Greater(t, nowhere, 20)
}

func TestWhatIsToldOfAPlan(t *testing.T) {
	const mm = quantity.Millimetre
	part := plan.PartKind{Name: "p", Length: 500 * mm, Width: 150 * mm, Final: 4 * mm, Pieces: 2,
		Match: plan.MatchBook, Worth: 1}
	q := oneBillet(part)
	q.Billets[0].Pith = &resaw.Point{X: 20 * mm, Z: 300 * mm}
	q.Weights = []*plan.Weight{{Wood: wood.Wood{SpecificGravity: wood.Published(0.5), FibreSaturation: 0.3}, MC: 0.5}}
	q.Small = []plan.Size{{Length: 100 * mm, Width: 100 * mm, Final: mm},
		{Length: 100 * mm, Width: 100 * mm, Final: 20 * mm}}
	q.Varies = &plan.Variation{HiddenFault: 0.1}
	most := 1
	q.Parts[0].Most = &most
	told := tell(t, q)
	assert.Equal(t, 1, told.Sets[0])
	assert.Equal(t, plan.NotNeeded, told.Uncut)
	assert.InDelta(t, 0.6*0.2*0.05*750, float64(told.Mass.Value), 1e-9)
	assert.Equal(t, *told.Mass, told.Cut[0].Mass.Mass, "of the one billet")
	assert.InDelta(t, 0.81, told.Chance.Parts[0].AtLeast[0], 1e-12)
	assert.Zero(t, told.Chance.Parts[0].Likely, "less than 90 %")
	require.Len(t, told.Pairs, 1)
	blank := told.Billets[0].Blanks[0]
	assert.Equal(t, resaw.LeafFaces{Front: blank.Leaves[0].From, Back: blank.Leaves[0].To},
		told.Opened[0].Pairs[0].First)
	assert.Equal(t, resaw.Point{X: 20*mm - blank.Y, Z: 300*mm - blank.Face1}, *told.Opened[0].Pith)
	assert.Nil(t, told.Cut[0].Blanks[0].GoodFor[0], "of a set")
	assert.Equal(t, 1, told.Cut[0].Blanks[0].OneMore.Leaves)
	assert.Equal(t, 2, told.Cut[0].Blanks[0].NextSet.Leaves)

	q.Billets[0].Pith, q.Weights, q.Varies = nil, nil, nil
	told = tell(t, q)
	assert.True(t, told.Unread, "no rings were read of a pair")
	assert.Empty(t, told.Opened)
	assert.Nil(t, told.Mass)
	assert.Nil(t, told.Chance)

	q.Parts[0].Most, q.Parts[0].Length, q.Parts[0].Width, q.Parts[0].Final, q.Parts[0].Name = nil, 2*mm, 2*mm, 0.1*mm,
		"crumb"
	_, err := plan.Tell(context.Background(), q)
	assertError(t, err, method.TooMuchWork, "parts/0")
}

// The angles of a part are those of the rings of its billet: one, or the steepest and the
// flattest about a pith, looked for here at many places of the section; what no ring says is
// between 0 and 90 degrees. A narrow part may lie on its side.
func TestRingAnglesThatPartsDryAt(t *testing.T) {
	angle := 40 * quantity.Degree
	for _, c := range []struct {
		b           plan.Billet
		wide, least float64
		thick, flat float64
		known       bool
	}{
		{plan.Billet{RingAngle: &angle}, 200, 0, 40, 40, true},
		{plan.Billet{RingAngle: &angle}, 200, 80, 80, 80, true}, // it fits nowhere
		{plan.Billet{RingAngle: &angle}, 50, 0, 50, 40, true},
		{plan.Billet{RingAngle: &angle}, 50, 45, 50, 50, true}, // it fits on its side
		{plan.Billet{}, 200, 0, 90, 0, false},
		{plan.Billet{}, 200, 60, 90, 60, false},
		{plan.Billet{Pith: &resaw.Point{X: 0.1, Z: 0.3}}, 200, 0, math.Atan2(130, 240) * 180 / math.Pi, 0, true},
		{plan.Billet{Pith: &resaw.Point{X: -0.4, Z: -0.1}}, 200, 70, math.Atan2(630, 100) * 180 / math.Pi, 70, true},
	} {
		c.b.Width, c.b.Thickness = 230*mm, 60*mm
		p := plan.PartKind{Width: quantity.Length(c.wide) * mm, LeastRingAngle: quantity.Angle(c.least) * quantity.Degree}
		got, known := plan.DriesAt(&p, &c.b)
		assert.InDelta(t, c.thick, got.Thickness.Degrees(), 1e-9)
		assert.InDelta(t, c.flat, got.Width.Degrees(), 1e-9)
		assert.Equal(t, c.known, known)
		if c.b.Pith == nil {
			continue
		}
		for y := range 24 {
			for z := range 7 {
				here := resaw.RingAngleAt(resaw.Point{X: quantity.Length(y) * 10 * mm, Z: quantity.Length(z) * 10 * mm}, *c.b.Pith)
				assert.LessOrEqual(t, here.Degrees(), got.Thickness.Degrees()+1e-9)
				assert.GreaterOrEqual(t, math.Max(here.Degrees(), c.least), got.Width.Degrees()-1e-9)
			}
		}
	}
}

// The most that any of the woods shrinks is allowed for, in thickness and in width.
func TestDryingIsAllowedForInEveryWood(t *testing.T) {
	little := wood.Wood{Radial: wood.Published(0.03), Tangential: wood.Published(0.05)}
	much := wood.Wood{Radial: wood.Published(0.05), Tangential: wood.Published(0.10)}
	quartered := plan.Angles{Thickness: 90 * quantity.Degree, Width: 90 * quantity.Degree}
	p := plan.PartKind{Width: 0.2, Final: 0.004}
	for _, w := range []wood.Wood{little, much, little} {
		_, err := p.AllowForDrying(resaw.Drying{From: 0.5, To: 0.06, Wood: w}, quartered, 0.2)
		require.NoError(t, err)
	}
	assert.InDelta(t, 0.10*0.8, p.Shrinkage, 1e-9, "tangential, from the fibre saturation of 30 to 6 %")
	assert.InDelta(t, 0.2/(1-0.05*0.8), float64(p.Width), 1e-9)
	on := p.On(&plan.Saw{}).Sum()
	assert.InDelta(t, 0.004, float64(on)*(1-p.Shrinkage), 1e-9)
	assert.False(t, math.IsNaN(p.Shrinkage))
	_, err := p.AllowForDrying(resaw.Drying{From: 0.5, To: 0.06}, quartered, 0.2)
	require.Error(t, err)
}
