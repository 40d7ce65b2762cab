package resaw_test

import (
	"cmp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/wood"
)

// billets are billets of all shapes with a saw and a piece that is had from most.
func billets(t *rapid.T) (resaw.Billet, resaw.Saw, resaw.Piece) {
	draw := func(name string, low, high int64) quantity.Length {
		return um(rapid.Int64Range(low, high).Draw(t, name))
	}
	b := resaw.Billet{
		Length: draw("length", 300_000, 2_000_000), Width: draw("width", 80_000, 400_000),
		Thickness: draw("thickness", 20_000, 90_000),
		TrimStart: draw("trim start", 0, 60_000), TrimEnd: draw("trim end", 0, 60_000),
		TrimNear: draw("trim near", 0, 15_000), TrimFar: draw("trim far", 0, 15_000),
	}
	end, far := draw("end", 0, 120_000), draw("far", 0, 120_000)
	switch rapid.IntRange(0, 3).Draw(t, "shape") {
	case 1:
		b.EndThickness = &end
	case 2:
		b.FarThickness = &far
	case 3:
		far = max(far, b.Thickness-end) // for the fourth corner to be in the wood
		b.EndThickness, b.FarThickness = &end, &far
	}
	s := resaw.Saw{
		Kerf: draw("kerf", 0, 3000), Rip: draw("rip", 0, 4000), Crosscut: draw("crosscut", 0, 4000),
		Facing: draw("facing", 0, 4000),
		Reface: draw("reface", 0, 500), RoughFar: rapid.Bool().Draw(t, "rough"),
	}
	p := resaw.Piece{Length: draw("piece length", 80_000, 700_000), Width: draw("piece width", 30_000, 250_000),
		Leaf: draw("leaf", 2000, 9000), PerSet: rapid.IntRange(1, 4).Draw(t, "per set")}
	return b, s, p
}

// Every stack is what its own thinnest place gives, and all of them add up.
func TestYieldOfABilletIsThatOfItsStacks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, s, p := billets(t)
		y, err := resaw.YieldOf(b, s, p, nil)
		require.NoError(t, err)
		require.Len(t, y.Stacks, y.Rows*y.Columns)
		leaves, sets, odd := 0, 0, 0
		for i, stack := range y.Stacks {
			assert.Equal(t, [2]int{i/y.Columns + 1, i%y.Columns + 1}, [2]int{stack.Row, stack.Column})
			// A blank is laid from the thick end and edge, and is as thick as at its far side from there.
			at := func(number, of int, size, kerf, before, after, whole quantity.Length, thin *quantity.Length) quantity.Length {
				if thin == nil {
					return 0
				}
				if *thin > b.Thickness {
					number, before = of+1-number, after
				}
				reach := before + quantity.Length(number)*size + quantity.Length(number-1)*kerf
				if *thin > b.Thickness {
					reach = whole - reach
				}
				return (*thin - b.Thickness) * reach / whole
			}
			thick := b.Thickness + at(stack.Row, y.Rows, p.Length, s.Crosscut, b.TrimStart, b.TrimEnd, b.Length, b.EndThickness) +
				at(stack.Column, y.Columns, p.Width, s.Rip, b.TrimNear, b.TrimFar, b.Width, b.FarThickness)
			assert.InDelta(t, float64(max(0, thick)), float64(stack.Thickness), 4e-9)
			alone, err := resaw.Leaves(resaw.Cut{Thickness: stack.Thickness, Facing: min(s.Facing, stack.Thickness),
				Leaf: p.Leaf,
				Kerf: min(s.Kerf, stack.Thickness), Reface: min(s.Reface, stack.Thickness),
				FarFaceFinished: !s.RoughFar})
			require.NoError(t, err)
			assert.Equal(t, alone.Leaves, stack.Yield.Leaves)
			leaves, sets, odd = leaves+alone.Leaves, sets+alone.Leaves/p.PerSet, odd+alone.Leaves%p.PerSet
		}
		assert.Equal(t, [3]int{leaves, sets, odd}, [3]int{y.Leaves, y.Sets, y.OddLeaves})
		assert.Equal(t, len(y.Stacks) == 0, y.OneMore == nil)
		assert.Equal(t, len(y.Stacks) == 0, y.Misfit != nil)
		if y.Misfit != nil {
			assert.True(t, y.Misfit.TooLong > 0 || y.Misfit.TooWide > 0)
		}
		mean := b.Thickness
		for _, thin := range []*quantity.Length{b.EndThickness, b.FarThickness} {
			if thin != nil {
				mean += (*thin - b.Thickness) / 2
			}
		}
		assert.InEpsilon(t, float64(b.Length*b.Width*mean), float64(y.Volume), 1e-9)
		if f := y.Shares; f != nil {
			assert.InDelta(t, 1, f.Plate+f.Kerf+f.Shavings+f.Trim+f.Offcut, 1e-12)
		}
		assert.Equal(t, b.EndThickness == nil && b.FarThickness == nil, y.Shares != nil, "told of a box only")
	})
}

func TestSpoiledLeavesOfABillet(t *testing.T) {
	const mm = quantity.Millimetre
	b := resaw.Billet{Length: 1200 * mm, Width: 220 * mm, Thickness: 32 * mm}
	s := resaw.Saw{Kerf: 1.5 * mm, Rip: 2 * mm, Crosscut: 3 * mm, Facing: 2 * mm}
	p := resaw.Piece{Length: 560 * mm, Width: 210 * mm, Leaf: 4.5 * mm, PerSet: 2}
	y, err := resaw.YieldOf(b, s, p, []resaw.Spoiled{{Row: 2, Column: 1, Leaf: 3}, {Row: 2, Column: 1, Leaf: 1}})
	require.NoError(t, err)
	assert.Equal(t, 2, y.Rows)
	assert.Equal(t, 10, y.Leaves)
	assert.Equal(t, []resaw.Run{{First: 1, Last: 2}, {First: 3, Last: 4}}, y.Stacks[0].Sets.Sets)
	assert.Equal(t, []resaw.Run{{First: 4, Last: 5}}, y.Stacks[1].Sets.Sets,
		"leaf 2 stands alone between two spoiled ones")
	assert.Equal(t, 2, y.OddLeaves)

	for _, c := range []struct {
		spoiled []resaw.Spoiled
		code    method.Code
		input   string
	}{
		{[]resaw.Spoiled{{1, 1, 1}, {3, 1, 1}}, method.OutOfRange, "spoiled/1"},
		{[]resaw.Spoiled{{1, 1, 1}, {2, 1, 1}, {2, 1, 6}}, method.OutOfRange, "spoiled/2"}, // the second of its stack
		{[]resaw.Spoiled{{1, 1, 1}, {1, 1, 1}}, method.Contradictory, "spoiled"},
	} {
		_, err := resaw.YieldOf(b, s, p, c.spoiled)
		assertError(t, err, c.code, c.input)
	}
	wrong := -1 * mm
	for name, set := range map[string]func(*resaw.Billet){
		"end_thickness": func(b *resaw.Billet) { b.EndThickness = &wrong },
		"far_thickness": func(b *resaw.Billet) { b.FarThickness = &wrong },
		"end_width":     func(b *resaw.Billet) { b.EndWidth = &wrong },
	} {
		is := b
		set(&is)
		_, err = resaw.YieldOf(is, s, p, nil)
		assertError(t, err, method.OutOfRange, name)
	}
	p.Length, p.Width = 5*mm, 5*mm
	_, err = resaw.YieldOf(b, s, p, nil)
	assertError(t, err, method.TooMuchWork, "part")
}

// A part that is too long for the billet may fit across it.
func TestMisfitTellsOfTurning(t *testing.T) {
	const mm = quantity.Millimetre
	b := resaw.Billet{Length: 200 * mm, Width: 300 * mm, Thickness: 30 * mm, TrimStart: 5 * mm, TrimEnd: 5 * mm}
	y, err := resaw.YieldOf(b, resaw.Saw{Kerf: mm}, resaw.Piece{Length: 250 * mm, Width: 100 * mm, Leaf: 4 * mm,
		PerSet: 1}, nil)
	require.NoError(t, err)
	require.NotNil(t, y.Misfit)
	assert.InDelta(t, 0.060, float64(y.Misfit.TooLong), 1e-12)
	assert.Negative(t, float64(y.Misfit.TooWide))
	assert.True(t, y.Misfit.FitsTurned)
}

// What a leaf loses in drying leaves what it was to have.
func TestLeafToSawDriesToItsSize(t *testing.T) {
	const mm = quantity.Millimetre
	a := resaw.Allowances{Final: 3 * mm, CleanupShow: 0.8 * mm, CleanupBack: 0.8 * mm, Wander: 0.5 * mm,
		Flatness: 0.5 * mm}
	as, err := resaw.LeafToSaw(a, nil)
	require.NoError(t, err)
	assert.InDelta(t, 5.6, as.Thickness.Millimetres(), 1e-9)
	w := wood.Wood{Radial: wood.Published(0.04), Tangential: wood.Published(0.08)}
	wet, err := resaw.LeafToSaw(a, &resaw.Drying{From: 0.5, To: 0.075, RingAngle: 90 * quantity.Degree, Wood: w})
	require.NoError(t, err)
	// Quartersawn, its thickness moves tangentially: 8 % x (1 - 7.5/30) of the green size.
	assert.InDelta(t, 5.6/(1-0.06), wet.Thickness.Millimetres(), 1e-6)
	assert.Equal(t, "oversize", wet.Parts[5].Name)
	assert.InDelta(t, wet.Thickness.Millimetres()-5.6, wet.Parts[5].Thickness.Millimetres(), 1e-6)
	_, err = resaw.LeafToSaw(a, &resaw.Drying{From: 0.5, To: 0.075})
	require.Error(t, err, "nothing is known of the wood")
	a.Final = 0
	_, err = resaw.LeafToSaw(a, &resaw.Drying{From: 0.5, To: 0.075, Wood: w})
	assertError(t, err, method.OutOfRange, "final")
}

// A billet is the same wood however it lies: turned end for end or edge for edge it gives
// the same leaves, counted from the other side.
func TestATurnedBilletGivesTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, s, p := billets(t)
		first := b.ThickFirst()
		assert.InDelta(t, float64(first.Thickness), float64(b.Thickest()), 0)
		for _, thin := range []*quantity.Length{first.EndThickness, first.FarThickness} {
			assert.True(t, thin == nil || *thin <= first.Thickness)
		}
		y, err := resaw.YieldOf(b, s, p, nil)
		require.NoError(t, err)
		turned, err := resaw.YieldOf(first, s, p, nil)
		require.NoError(t, err)
		assert.Equal(t, [3]int{y.Leaves, y.Sets, y.OddLeaves}, [3]int{turned.Leaves, turned.Sets, turned.OddLeaves})
		assert.InEpsilon(t, float64(y.Volume), float64(turned.Volume), 1e-12)
		if y.OneMore != nil {
			assert.Equal(t, *y.OneMore, *turned.OneMore)
			assert.Equal(t, turned.Stacks[0].Thickness, slices.MaxFunc(y.Stacks, func(a, b resaw.StackYield) int {
				return cmp.Compare(a.Thickness, b.Thickness)
			}).Thickness)
		}
	})
}

// Of a billet that narrows towards one end what is beyond the narrower width is not counted
// on, and its volume is that between its faces.
func TestABilletThatNarrows(t *testing.T) {
	const mm = quantity.Millimetre
	narrow := 210 * mm
	b := resaw.Billet{Length: 1200 * mm, Width: 430 * mm, Thickness: 32 * mm, EndWidth: &narrow}
	p := resaw.Piece{Length: 560 * mm, Width: 210 * mm, Leaf: 4.5 * mm, PerSet: 2}
	y, err := resaw.YieldOf(b, resaw.Saw{Kerf: mm, Crosscut: mm, Rip: mm}, p, nil)
	require.NoError(t, err)
	assert.Equal(t, [2]int{2, 1}, [2]int{y.Rows, y.Columns})
	assert.Nil(t, y.Shares)
	assert.InEpsilon(t, 1.2*(0.430+0.210)/2*0.032, float64(y.Volume), 1e-12)
	require.NotEmpty(t, y.Notes.Warnings)
	assert.Equal(t, "end_width", y.Notes.Warnings[len(y.Notes.Warnings)-1].Input)
	b.EndWidth = &b.Width
	y, err = resaw.YieldOf(b, resaw.Saw{Kerf: mm, Crosscut: mm, Rip: mm}, p, nil)
	require.NoError(t, err)
	assert.Equal(t, 2, y.Columns)
	assert.NotNil(t, y.Shares)
	// A wedge: thickness and width both fall, so that the section is a parabola.
	thin := 16 * mm
	b.EndWidth, b.FarThickness = &narrow, &thin
	y, err = resaw.YieldOf(b, resaw.Saw{Kerf: mm, Crosscut: mm, Rip: mm}, p, nil)
	require.NoError(t, err)
	sum := 0.0 // by slices
	for i := range 10_000 {
		w := 0.430 + (0.210-0.430)*(float64(i)+0.5)/10_000
		sum += w * (0.032 + (0.016-0.032)*w/0.430/2) * 1.2 / 10_000
	}
	assert.InEpsilon(t, sum, float64(y.Volume), 1e-7)
}
