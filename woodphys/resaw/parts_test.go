package resaw_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

func layouts() *rapid.Generator[resaw.Layout] {
	return rapid.Custom(func(t *rapid.T) resaw.Layout {
		draw := func(name string, low, high int64) quantity.Length {
			return um(rapid.Int64Range(low, high).Draw(t, name))
		}
		return resaw.Layout{
			Length: draw("length", 10_000, 2_000_000), Width: draw("width", 10_000, 500_000),
			TrimStart: draw("trim start", 0, 100_000), TrimEnd: draw("trim end", 0, 100_000),
			EdgeStart: draw("edge start", 0, 20_000), EdgeEnd: draw("edge end", 0, 20_000),
			BlankLength: draw("blank length", 5000, 900_000), BlankWidth: draw("blank width", 5000, 250_000),
			Crosscut: draw("crosscut", 0, 4000), Rip: draw("rip", 0, 4000), Cut: cuts().Draw(t, "cut"),
		}
	})
}

func TestSharesAddUpExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := layouts().Draw(t, "layout")
		g, err := resaw.Stacks(l)
		if err != nil { // a great many small blanks
			assertError(t, err, method.TooMuchWork, "leaf")
			return
		}
		s := g.Shares
		sum := s.Plate.Plus(s.Kerf).Plus(s.Shavings).Plus(s.Trim).Plus(s.Offcut)
		assert.Equal(t, s.Whole, sum)
		plate := float64(g.Leaves) * float64(l.BlankLength*l.BlankWidth*l.Cut.Leaf)
		assert.InDelta(t, plate, float64(s.Plate.Volume()), 1e-12*plate)
		assert.Equal(t, g.Leaves, g.Rows.Blanks*g.Columns.Blanks*g.Stack.Leaves)
	})
}

func TestStacksOfARealBillet(t *testing.T) {
	const mm = quantity.Millimetre
	// 1200 x 440 x 60.5 with two rows and two columns of 560 x 210, 10 leaves
	// each: by hand, trims 38 each end, rip 2, crosscut 3.2.
	g, err := resaw.Stacks(resaw.Layout{
		Length: 1200 * mm, Width: 440 * mm, TrimStart: 38 * mm, TrimEnd: 38 * mm,
		BlankLength: 560 * mm, BlankWidth: 210 * mm, Crosscut: 3.2 * mm, Rip: 2 * mm,
		Cut: resaw.Cut{Thickness: 60.5 * mm, Facing: 2 * mm, Leaf: 4.5 * mm, Kerf: 1.5 * mm, FarFaceFinished: true},
	})
	require.NoError(t, err)
	assert.Equal(t, 4, g.Stacks)
	assert.Equal(t, 40, g.Leaves)
	mm3 := func(c exact.Cubic) float64 { return float64(c.Volume()) * 1e9 }
	assert.InDelta(t, 1200*440*60.5, mm3(g.Shares.Whole), 1e-4)
	assert.InDelta(t, 76*440*60.5, mm3(g.Shares.Trim), 1e-4)
	assert.InDelta(t, 40*560*210*4.5, mm3(g.Shares.Plate), 1e-4)
	// crosscut 3.2 between, 0.8 left all dust; rip 2 between, then 2 and 16 left.
	assert.InDelta(t, 4*440*60.5+1120*4*60.5+1120*420*9*1.5, mm3(g.Shares.Kerf), 1e-4)
	assert.InDelta(t, 1120*420*2, mm3(g.Shares.Shavings), 1e-4)
	assert.InDelta(t, 1120*16*60.5, mm3(g.Shares.Offcut), 1e-4)
}

func TestBilletVolume(t *testing.T) {
	v, err := resaw.BilletVolume(quantity.Foot, quantity.Foot, quantity.Inch)
	require.NoError(t, err)
	assert.InEpsilon(t, 1, v.Volume().BoardFeet(), 1e-14)
	whole, err := resaw.BilletVolume(1, 1, 1)
	require.NoError(t, err)
	assert.InDelta(t, 423.776001, whole.Volume().BoardFeet(), 5e-7, "board feet in a cubic metre")
	_, err = resaw.BilletVolume(1, quantity.Length(math.NaN()), 1)
	assertError(t, err, method.OutOfRange, "width")
}

func assertError(t require.TestingT, err error, code method.Code, input string) {
	var e *method.Error
	require.ErrorAs(t, err, &e)
	assert.Equal(t, code, e.Code, e.Detail)
	assert.Equal(t, input, e.Input, e.Detail)
}

func TestSetsProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 40).Draw(t, "n")
		p := rapid.IntRange(1, 6).Draw(t, "per set")
		spoiled := rapid.SliceOfNDistinct(rapid.IntRange(1, max(n, 1)), 0, n, rapid.ID[int]).Draw(t, "spoiled")
		s, err := resaw.Sets(n, spoiled, p)
		require.NoError(t, err)
		used := map[int]bool{}
		for _, leaf := range spoiled {
			used[leaf] = true
		}
		for _, set := range s.Sets {
			assert.Equal(t, p, set.Len())
			for leaf := set.First; leaf <= set.Last; leaf++ {
				assert.False(t, used[leaf], "leaf %d is spoiled or used twice", leaf)
				used[leaf] = true
			}
		}
		for _, leaf := range s.Odd {
			assert.False(t, used[leaf])
			used[leaf] = true
		}
		assert.Len(t, used, n, "every leaf is told")
		assert.Equal(t, mostSets(n, spoiled, p), len(s.Sets))
		// Leaving one out costs a set unless the leaf is listed.
		for leaf := 1; leaf <= n; leaf++ {
			if contains(spoiled, leaf) {
				continue
			}
			less := mostSets(n, append([]int{leaf}, spoiled...), p)
			spare := contains(s.LeaveOut, leaf)
			assert.Equal(t, spare, less == len(s.Sets), "leaf %d", leaf)
		}
	})
}

func contains(list []int, v int) bool {
	for _, x := range list {
		if x == v {
			return true
		}
	}
	return false
}

// mostSets finds the largest number of sets by trying: best[i] is the most from
// leaf i on.
func mostSets(n int, spoiled []int, p int) int {
	best := make([]int, n+p+2)
	for i := n; i >= 1; i-- {
		best[i] = best[i+1]
		good := i+p-1 <= n
		for leaf := i; good && leaf < i+p; leaf++ {
			good = !contains(spoiled, leaf)
		}
		if good {
			best[i] = max(best[i], 1+best[i+p])
		}
	}
	return best[1]
}

func TestLeaveOutAnOddNumberedLeaf(t *testing.T) {
	s, err := resaw.Sets(9, nil, 2)
	require.NoError(t, err)
	assert.Equal(t, []int{1, 3, 5, 7, 9}, s.LeaveOut)
	assert.Equal(t, []int{9}, s.Odd)
	s, err = resaw.Sets(9, []int{1}, 2)
	require.NoError(t, err)
	assert.Equal(t, resaw.Run{First: 2, Last: 3}, s.Sets[0], "a pair may start at 2")
}

func TestSetsRefuses(t *testing.T) {
	_, err := resaw.Sets(1_000_000, nil, 2)
	assertError(t, err, method.TooMuchWork, "leaf")
	_, err = resaw.Sets(-1, nil, 2)
	assertError(t, err, method.OutOfRange, "leaves")
	_, err = resaw.Sets(9, nil, 0)
	assertError(t, err, method.OutOfRange, "per_set")
	_, err = resaw.Sets(9, []int{3, 10}, 2)
	assertError(t, err, method.OutOfRange, "spoiled/1")
	_, err = resaw.Sets(9, []int{3, 3}, 2)
	assertError(t, err, method.Contradictory, "spoiled")
}

func TestAcrossAgainstCounting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.Int64Range(1000, 500_000).Draw(t, "length")
		trim := rapid.Int64Range(0, 50_000).Draw(t, "trim")
		blank := rapid.Int64Range(500, 200_000).Draw(t, "blank")
		kerf := rapid.Int64Range(0, 1000).Draw(t, "kerf")
		x, err := resaw.Across(um(length), um(trim), 0, um(blank), um(kerf))
		require.NoError(t, err)
		n, at := 0, trim
		for at+blank <= length {
			n++
			at += blank + kerf
		}
		assert.Equal(t, n, x.Blanks)
	})
	_, err := resaw.Across(1, 0, 0, 0.5, 1.5)
	assertError(t, err, method.Contradictory, "kerf")
	_, err = resaw.Across(100, 0, 0, quantity.Micrometre, 0)
	assertError(t, err, method.TooMuchWork, "leaf")
}

func TestWedgeRefuses(t *testing.T) {
	const mm = quantity.Millimetre
	_, _, err := resaw.WedgeThickness(70*mm, 25*mm, 260*mm, 261*mm)
	assertError(t, err, method.Contradictory, "blank")
}

func TestLeafThickness(t *testing.T) {
	l, parts, notes, err := resaw.LeafThickness(resaw.Allowances{Final: 0.0025, CleanupShow: 0.0008, CleanupBack: 0.0008, Wander: 0.0005, Flatness: 0.0005, Oversize: 0.0003})
	require.NoError(t, err)
	sum := quantity.Length(0)
	for _, p := range parts {
		sum += p.Thickness
	}
	assert.InDelta(t, float64(l), float64(sum), 1e-12)
	assert.Equal(t, []string{"resaw.leaf-thickness"}, notes.Basis)
	_, _, _, err = resaw.LeafThickness(resaw.Allowances{Final: quantity.Length(math.NaN())})
	assertError(t, err, method.OutOfRange, "final")
}

func TestFlatten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Against the range of the mid-surface of a cupped, bowed and twisted
		// piece on a grid: the added losses bound it, and equal it for one alone.
		cup, bow, twist := rapid.Float64Range(0, 0.003).Draw(t, "cup"), rapid.Float64Range(0, 0.003).Draw(t, "bow"), rapid.Float64Range(0, 0.003).Draw(t, "twist")
		alone := rapid.SampledFrom([]string{"all", "cup", "bow"}).Draw(t, "alone")
		switch alone {
		case "cup":
			bow, twist = 0, 0
		case "bow":
			cup, twist = 0, 0
		}
		pl := rapid.Float64Range(0.1, 1).Draw(t, "piece length")
		pw := rapid.Float64Range(0.05, 0.2).Draw(t, "piece width")
		loss := resaw.FlatteningLoss(bow, cup, twist, pl, pw/0.2)
		low, high := math.Inf(1), math.Inf(-1)
		const steps = 20
		for i := 0; i <= steps; i++ {
			for j := 0; j <= steps; j++ {
				x, y := (float64(i)/steps-0.5)*pl, (float64(j)/steps-0.5)*pw
				s := 4*bow*x*x + 4*cup*y*y/0.04 + twist*(x+pl/2)*(y+pw/2)/0.2
				low, high = min(low, s), max(high, s)
			}
		}
		assert.GreaterOrEqual(t, loss, high-low-1e-12)
		if alone != "all" {
			assert.InDelta(t, high-low, loss, 1e-12)
		}
	})
}
