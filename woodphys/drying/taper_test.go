package drying_test

import (
	"context"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Volume and equivalent thickness against sums over a grid of the face.
func TestTaperAgainstASumOverItsFace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, low, high float64) quantity.Length {
			return quantity.Length(rapid.Float64Range(low, high).Draw(t, name)) * quantity.Millimetre
		}
		p := drying.Taper{Length: mm("length", 100, 2000), Width: mm("width", 50, 400), Thickness: mm("near", 20, 100),
			EndWidth: mm("end width", 30, 400), EndThickness: mm("end", 20, 100), FarThickness: mm("far", 20, 100)}
		thinnest, thickest := p.Extremes()
		if thinnest < 0 {
			t.Skip("its faces meet")
		}
		const n = 120
		volume, squares := 0.0, 0.0
		for i := range n {
			x := (float64(i) + 0.5) / n
			width := float64(p.Width) + x*float64(p.EndWidth-p.Width)
			for j := range n {
				y := (float64(j) + 0.5) / n * width
				thick := float64(p.Thickness) + x*float64(p.EndThickness-p.Thickness) + y/float64(p.Width)*float64(p.FarThickness-p.Thickness)
				area := float64(p.Length) / n * width / n
				volume += thick * area
				squares += thick * thick * area
			}
		}
		require.InEpsilon(t, volume, float64(p.Volume()), 1e-3)
		equivalent, err := p.Equivalent(&method.Notes{})
		require.NoError(t, err)
		require.InEpsilon(t, squares/volume, float64(equivalent), 1e-3)
		require.GreaterOrEqual(t, equivalent, thinnest)
		require.LessOrEqual(t, equivalent, thickest*(1+1e-12))
	})
	met := drying.Taper{Length: 1, Width: 0.2, EndWidth: 0.2, Thickness: 0.04, EndThickness: 0.01, FarThickness: 0.01}
	_, err := met.Equivalent(&method.Notes{})
	require.Error(t, err, "its faces meet within it")
}

// The mean of a wedge in the solver, strip by strip, against the board of its equivalent
// thickness, with the tolerance that the row states. The plain mean of the thickness is worse.
func TestWedgeDriesAsItsEquivalent(t *testing.T) {
	tr, err := drying.NewTransport(wood.Wood{SpecificGravity: wood.Published(0.56)})
	require.NoError(t, err)
	air, err := drying.Constant(quantity.Celsius(20), 0.45)
	require.NoError(t, err)
	var times []quantity.Duration
	for day := 2.0; day < 1500; day *= 1.1 {
		times = append(times, quantity.Duration(day)*quantity.Day)
	}
	run := func(thick quantity.Length) []quantity.Moisture {
		f, err := drying.ForThickness(drying.Factor{Median: 0.5}, thick)
		require.NoError(t, err)
		var s drying.Solver
		c, err := s.Run(context.Background(), &drying.Job{Transport: tr, Thickness: thick, Factor: f.Median, Initial: 0.25, Times: times,
			Phases: []drying.Phase{{Length: 1500 * quantity.Day, Climate: air, Exposure: drying.OpenStack()}}, Setting: drying.Coarse()})
		require.NoError(t, err)
		return append([]quantity.Moisture{}, c.Mean...)
	}
	for _, c := range []struct{ thin, thick, allowed float64 }{{20, 60, 0.5}, {5, 45, 1.1}} {
		const strips = 12
		whole, mass := make([]float64, len(times)), 0.0
		for i := range strips {
			mm := c.thin + (c.thick-c.thin)*(float64(i)+0.5)/strips
			for j, m := range run(quantity.Length(mm) * quantity.Millimetre) {
				whole[j] += mm * m.Percent()
			}
			mass += mm
		}
		p := drying.Taper{Length: 1, Width: 0.2, EndWidth: 0.2, Thickness: quantity.Length(c.thick) * quantity.Millimetre,
			EndThickness: quantity.Length(c.thick) * quantity.Millimetre, FarThickness: quantity.Length(c.thin) * quantity.Millimetre}
		equivalent, err := p.Equivalent(&method.Notes{})
		require.NoError(t, err)
		worst := func(thick quantity.Length) (off float64) {
			for j, m := range run(thick) {
				off = math.Max(off, math.Abs(m.Percent()-whole[j]/mass))
			}
			return off
		}
		got, plain := worst(equivalent), worst(quantity.Length((c.thin+c.thick)/2)*quantity.Millimetre)
		t.Logf("%g to %g mm: off by %.2f %%MC at most, %.2f with the plain mean", c.thin, c.thick, got, plain)
		assert.Less(t, got, c.allowed)
		assert.Less(t, got, plain)
	}
}

// What strips leave out: diffusion in two dimensions through the section of a wedge of 20 to
// 60 mm, 120 mm wide, with a constant coefficient and faces held dry, on an even grid, against
// the sum of its strips, computed on the same grid. Water flows from the thick side to the thin
// one; the difference stays below 2 % of what the piece held.
func TestStripsOfAWedgeAgainstTwoDimensions(t *testing.T) {
	const width, step = 120, 1.0
	half := func(y int) float64 { return 10 + 20*(float64(y)+0.5)/width } // mm, of the thickness
	solve := func(sideways float64) func() float64 {
		var u, next [width][31]float64
		inside := func(y, z int) bool { return float64(z)+0.5 <= half(y) }
		for y := range width {
			for z := range 31 {
				if inside(y, z) {
					u[y][z] = 1
				}
			}
		}
		return func() float64 { // a day of D dt/dx2 = 0.2, and what is left
			left, all := 0.0, 0.0
			for y := range width {
				for z := range 31 {
					if !inside(y, z) {
						continue
					}
					at := u[y][z]
					below, above := at, 0.0 // the middle is a mirror, the face is dry
					if z > 0 {
						below = u[y][z-1]
					}
					gap := 1.0 // to the next cell, or to the face
					if inside(y, z+1) {
						above = u[y][z+1]
					} else {
						gap = half(y) - float64(z) // half a cell and what is left to the face
					}
					flow := (below - at) + (above-at)/max(gap, 0.5)
					for _, beside := range []int{y - 1, y + 1} {
						if beside >= 0 && beside < width { // its edges are sealed
							flow += sideways * (u[beside][z] - at) // 0 beyond the face of the thinner side
						}
					}
					next[y][z] = at + 0.2*flow
					left += next[y][z]
					all++
				}
			}
			u = next
			return left / all
		}
	}
	plane, strips, worst := solve(1), solve(0), 0.0
	for range 2500 {
		worst = math.Max(worst, math.Abs(plane()-strips()))
	}
	t.Logf("in two dimensions the mean differs by %.3f of the water at most", worst)
	assert.Less(t, worst, 0.02)
	assert.Greater(t, worst, 1e-4, "it is not the same computation")
}
