package resaw_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// sawn is what comes off a billet sawn piece by piece.
type sawn struct{ leaves, cuts, left int64 }

// saw saws a billet the way a person does, knowing no formula: take a leaf off
// the near face as long as one and its cut are there, plane the fresh face, and
// at the end look whether what is in hand is itself a leaf.
func saw(usable, leaf, kerf, reface int64, far bool) sawn {
	var s sawn
	hand := usable
	for {
		if s.leaves > 0 { // plane the fresh face, if a leaf can still follow
			after := hand - reface
			if after < leaf || !far && after < leaf+kerf {
				break
			}
			hand = after
		}
		if far && hand >= leaf && hand < leaf+kerf+reface+leaf {
			// The next cut would leave no leaf behind it: this is the last one.
			s.leaves++
			hand -= leaf
			break
		}
		if hand < leaf+kerf {
			break
		}
		hand -= leaf + kerf
		s.leaves++
		s.cuts++
	}
	s.left = hand
	return s
}

func um(n int64) quantity.Length { return quantity.Length(float64(n) / 1e6) }

func micrometres(l quantity.Length) int64 { return int64(math.Round(float64(l) * 1e6)) }

func TestLeavesAgainstSawingPieceByPiece(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	exactFits := 0
	for range 100_000 {
		leaf, kerf := 500+random.Int64N(8000), random.Int64N(4000)
		reface := int64(0)
		if random.IntN(3) == 0 {
			reface = random.Int64N(1500)
		}
		far := random.IntN(2) == 0
		usable := random.Int64N(120_000)
		if random.IntN(3) == 0 { // exact, or one micrometre either side
			n := 1 + random.Int64N(14)
			usable = n*leaf + (n-1)*(kerf+reface) + random.Int64N(3) - 1
			if !far {
				usable += kerf
			}
			exactFits++
		}
		facing := random.Int64N(3000)
		want := saw(usable, leaf, kerf, reface, far)
		y, err := resaw.Leaves(resaw.Cut{
			Thickness: um(usable + facing + 5000), Facing: um(facing + 5000), Leaf: um(leaf), Kerf: um(kerf), Reface: um(reface), FarFaceFinished: far,
		})
		require.NoError(t, err)
		got := sawn{int64(y.Leaves), int64(y.Cuts), micrometres(y.LeftOver)}
		require.Equal(t, want, got, "usable %d leaf %d kerf %d reface %d far %v", usable, leaf, kerf, reface, far)
	}
	assert.Greater(t, exactFits, 30_000)
}

func TestEveryExactFitOnATenthOfAMillimetre(t *testing.T) {
	// The grid on which a plain float64 floor loses a leaf in 16 % of cases.
	cases, lost := 0, 0
	for leaf := int64(20); leaf <= 69; leaf++ {
		for kerf := int64(5); kerf <= 35; kerf++ {
			for n := int64(2); n <= 14; n++ {
				thick := quantity.Length(n*leaf+(n-1)*kerf) / 10 * quantity.Millimetre
				c := resaw.Cut{
					Thickness: thick, Leaf: quantity.Length(leaf) / 10 * quantity.Millimetre,
					Kerf: quantity.Length(kerf) / 10 * quantity.Millimetre, FarFaceFinished: true,
				}
				y, err := resaw.Leaves(c)
				require.NoError(t, err)
				require.Equal(t, int(n), y.Leaves)
				require.Zero(t, y.LeftOver)
				require.Equal(t, resaw.NothingLeft, y.Remainder)
				cases++
				if int(math.Floor(float64((c.Thickness+c.Kerf)/(c.Leaf+c.Kerf)))) < int(n) {
					lost++
				}
			}
		}
	}
	assert.Equal(t, 20_150, cases)
	assert.Positive(t, lost, "the grid is meant to hold cases that floating point gets wrong")
}

func TestExactFitsInSixtyFourths(t *testing.T) {
	// 12 boards of 1 1/8 in and 11 kerfs of 9/32 in: whole micrometres would
	// round the kerf up and lose a board.
	for _, n := range []int{2, 5, 12, 40} {
		for leaf := 8; leaf <= 80; leaf++ {
			for kerf := 1; kerf <= 20; kerf++ {
				sixtyFourth := quantity.Inch / 64
				y, err := resaw.Leaves(resaw.Cut{
					Thickness: quantity.Length(n*leaf+(n-1)*kerf) * sixtyFourth, Leaf: quantity.Length(leaf) * sixtyFourth,
					Kerf: quantity.Length(kerf) * sixtyFourth, FarFaceFinished: true,
				})
				require.NoError(t, err)
				require.Equal(t, n, y.Leaves)
				require.Zero(t, y.LeftOver)
			}
		}
	}
}

func cuts() *rapid.Generator[resaw.Cut] {
	return rapid.Custom(func(t *rapid.T) resaw.Cut {
		thick := rapid.Int64Range(10_000, 300_000).Draw(t, "thickness")
		return resaw.Cut{
			Thickness: um(thick), Facing: um(rapid.Int64Range(0, 5000).Draw(t, "facing")),
			Leaf: um(rapid.Int64Range(500, 20_000).Draw(t, "leaf")), Kerf: um(rapid.Int64Range(0, 4000).Draw(t, "kerf")),
			Reface: um(rapid.Int64Range(0, 1000).Draw(t, "reface")), FarFaceFinished: rapid.Bool().Draw(t, "far"),
		}
	})
}

func TestLeavesProperties(t *testing.T) {
	leaves := func(t *rapid.T, c resaw.Cut) resaw.Yield {
		y, err := resaw.Leaves(c)
		require.NoError(t, err)
		return y
	}
	rapid.Check(t, func(t *rapid.T) {
		c := cuts().Draw(t, "cut")
		y := leaves(t, c)
		thinner, finer := c, c
		thinner.Leaf -= um(rapid.Int64Range(0, micrometres(c.Leaf)-10).Draw(t, "thinner"))
		finer.Kerf -= um(rapid.Int64Range(0, micrometres(c.Kerf)).Draw(t, "finer"))
		assert.GreaterOrEqual(t, leaves(t, thinner).Leaves, y.Leaves)
		assert.GreaterOrEqual(t, leaves(t, finer).Leaves, y.Leaves)

		if y.Leaves > 0 {
			at := c
			at.Leaf = *y.ThickestLeaf
			assert.Equal(t, y.Leaves, leaves(t, at).Leaves, "thickest leaf keeps the number")
			at.Leaf += 2 * quantity.Micrometre / 1000
			assert.Less(t, leaves(t, at).Leaves, y.Leaves, "and 2 nm more does not")
			need := c.Facing + quantity.Length(y.Leaves)*c.Leaf + quantity.Length(y.Leaves-1)*(c.Kerf+c.Reface)
			if !c.FarFaceFinished {
				need += c.Kerf
			}
			assert.LessOrEqual(t, float64(need), float64(c.Thickness)+1e-12)
		}
		if y.WidestKerf != nil && *y.WidestKerf <= c.Thickness {
			at := c
			at.Kerf = *y.WidestKerf
			assert.Equal(t, y.Leaves, leaves(t, at).Leaves, "widest kerf keeps the number")
		}
		next := c
		next.Thickness = y.OneMore.Billet
		assert.Equal(t, y.Leaves+1, leaves(t, next).Leaves, "the billet for one more gives one more")
		next.Thickness -= quantity.Micrometre
		assert.Equal(t, y.Leaves, leaves(t, next).Leaves, "and a micrometre less does not")
		if y.OneMore.LeafAtMost != nil && *y.OneMore.LeafAtMost >= quantity.Micrometre {
			at := c
			at.Leaf = *y.OneMore.LeafAtMost
			assert.GreaterOrEqual(t, leaves(t, at).Leaves, y.Leaves+1)
		}
		if y.OneMore.KerfAtMost != nil {
			at := c
			at.Kerf = *y.OneMore.KerfAtMost
			assert.GreaterOrEqual(t, leaves(t, at).Leaves, y.Leaves+1)
		}
	})
}

func TestLeavesInMillimetresAndInches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Whole sixteenths given in inches and in millimetres.
		draw := func(name string, low, high int) (inch, mm quantity.Length) {
			n := rapid.IntRange(low, high).Draw(t, name)
			return quantity.Length(n) / 16 * quantity.Inch, quantity.Length(float64(n)*25.4/16) * quantity.Millimetre
		}
		var a, b resaw.Cut
		a.Thickness, b.Thickness = draw("thickness", 20, 160)
		a.Facing, b.Facing = draw("facing", 0, 4)
		a.Leaf, b.Leaf = draw("leaf", 1, 32)
		a.Kerf, b.Kerf = draw("kerf", 0, 5)
		a.FarFaceFinished = rapid.Bool().Draw(t, "far")
		b.FarFaceFinished = a.FarFaceFinished
		x, err := resaw.Leaves(a)
		require.NoError(t, err)
		y, err := resaw.Leaves(b)
		require.NoError(t, err)
		x.Notes, y.Notes = method.Notes{}, method.Notes{}
		assert.Equal(t, x, y)
	})
}

func TestRemainder(t *testing.T) {
	const mm = quantity.Millimetre
	cases := []struct {
		name   string
		c      resaw.Cut
		want   resaw.Remainder
		offcut float64
	}{
		{"more than a kerf", resaw.Cut{Thickness: 58 * mm, Leaf: 4.5 * mm, Kerf: 1.5 * mm, FarFaceFinished: true}, resaw.OneMoreCut, 4},
		{"under a kerf", resaw.Cut{Thickness: 48 * mm, Leaf: 4 * mm, Kerf: 3.2 * mm, FarFaceFinished: true}, resaw.KeepThick, 0},
		{"just a kerf", resaw.Cut{Thickness: 11.2 * mm, Leaf: 4 * mm, Kerf: 1.6 * mm, FarFaceFinished: true}, resaw.KeepThick, 0},
		{"a leaf with a rough face", resaw.Cut{Thickness: 58.5 * mm, Leaf: 4.5 * mm, Kerf: 1.5 * mm}, resaw.RoughLeaf, 4.5},
		{"a strip with a rough face", resaw.Cut{Thickness: 57 * mm, Leaf: 4.5 * mm, Kerf: 1.5 * mm}, resaw.RoughOffcut, 3},
		{"too thin", resaw.Cut{Thickness: 4 * mm, Leaf: 4.5 * mm, Kerf: 1.5 * mm, FarFaceFinished: true}, resaw.TooThin, 4},
	}
	for _, c := range cases {
		y, err := resaw.Leaves(c.c)
		require.NoError(t, err, c.name)
		assert.Equal(t, c.want, y.Remainder, c.name)
		assert.InDelta(t, c.offcut, y.Offcut.Millimetres(), 1e-9, c.name)
	}
}

func TestLeavesRefuses(t *testing.T) {
	good := resaw.Cut{Thickness: 0.05, Facing: 0.002, Leaf: 0.0045, Kerf: 0.0013}
	nan, inf := quantity.Length(math.NaN()), quantity.Length(math.Inf(1))
	cases := []struct {
		input  string
		code   method.Code
		change func(*resaw.Cut)
	}{
		{"thickness", method.OutOfRange, func(c *resaw.Cut) { c.Thickness = nan }},
		{"thickness", method.OutOfRange, func(c *resaw.Cut) { c.Thickness = inf }},
		{"thickness", method.OutOfRange, func(c *resaw.Cut) { c.Thickness = -1 }},
		{"facing", method.OutOfRange, func(c *resaw.Cut) { c.Facing = -0.001 }},
		{"facing", method.Contradictory, func(c *resaw.Cut) { c.Facing = 0.051 }},
		{"leaf", method.OutOfRange, func(c *resaw.Cut) { c.Leaf = 0 }},
		{"kerf", method.OutOfRange, func(c *resaw.Cut) { c.Kerf = nan }},
		{"kerf", method.Contradictory, func(c *resaw.Cut) { c.Kerf = 0.06 }},
		{"reface", method.Contradictory, func(c *resaw.Cut) { c.Reface = 0.06 }},
		{"leaf", method.TooMuchWork, func(c *resaw.Cut) { c.Thickness, c.Leaf, c.Kerf = 1, quantity.Micrometre, 0 }},
	}
	for _, c := range cases {
		cut := good
		c.change(&cut)
		_, err := resaw.Leaves(cut)
		var e *method.Error
		require.ErrorAs(t, err, &e, c.input)
		assert.Equal(t, c.code, e.Code, c.input)
		assert.Equal(t, c.input, e.Input)
	}
	good.Kerf = 0 // splitting
	y, err := resaw.Leaves(good)
	require.NoError(t, err)
	assert.Equal(t, 10, y.Leaves)
}

func BenchmarkLeaves(b *testing.B) {
	c := resaw.Cut{Thickness: 0.0605, Facing: 0.002, Leaf: 0.0045, Kerf: 0.0015, FarFaceFinished: true}
	for b.Loop() {
		_, _ = resaw.Leaves(c)
	}
}
