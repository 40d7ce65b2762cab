package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

// The shape against a finite-element solution that knows nothing of the closed
// form. That is linear, so the map is taken at a thousandth of its strains and
// scaled up; both shapes are laid on each other by the best rigid motion.
func TestAgainstFiniteElements(t *testing.T) {
	const part = 1e-3
	type pair struct{ x, y, ux, uy, vx, vy float64 }
	cases := map[string][]pair{}
	for _, row := range expect.Named(t, "../../testdata/section/finite_element.csv") {
		s := section.Section{
			Width: quantity.Length(expect.Number(t, row["width_mm"])) * mm, Thickness: quantity.Length(expect.Number(t, row["thickness_mm"])) * mm,
			PithX: quantity.Length(expect.Number(t, row["pith_x_mm"])) * mm, PithY: quantity.Length(expect.Number(t, row["pith_y_mm"])) * mm,
		}
		p := pair{x: expect.Number(t, row["x_mm"]), y: expect.Number(t, row["y_mm"]), ux: expect.Number(t, row["ux_mm"]), uy: expect.Number(t, row["uy_mm"])}
		out, err := section.Draw(s, part*expect.Number(t, row["radial"]), part*expect.Number(t, row["tangential"]), 16)
		require.NoError(t, err)
		near := math.Inf(1)
		for i, q := range out.Before {
			if d := math.Hypot(q.X.Millimetres()-p.x, q.Y.Millimetres()-p.y); d < near {
				near = d
				p.vx = (out.After[i].X - q.X).Millimetres() / part
				p.vy = (out.After[i].Y - q.Y).Millimetres() / part
			}
		}
		if near < 1e-5 { // a point of both
			cases[row["case"]] = append(cases[row["case"]], p)
		}
	}
	require.Len(t, cases, 4)
	for name, points := range cases {
		require.GreaterOrEqual(t, len(points), 16, name)
		// least squares of ux = vx + cx - w y, uy = vy + cy + w x
		n := float64(len(points))
		var mx, my, mdx, mdy float64
		for _, p := range points {
			mx, my, mdx, mdy = mx+p.x/n, my+p.y/n, mdx+(p.ux-p.vx)/n, mdy+(p.uy-p.vy)/n
		}
		var top, bottom float64
		for _, p := range points {
			x, y, dx, dy := p.x-mx, p.y-my, p.ux-p.vx-mdx, p.uy-p.vy-mdy
			top += x*dy - y*dx
			bottom += x*x + y*y
		}
		w := top / bottom
		worst, largest := 0.0, 0.0
		for _, p := range points {
			x, y := p.x-mx, p.y-my
			worst = math.Max(worst, math.Hypot(p.ux-p.vx-mdx+w*y, p.uy-p.vy-mdy-w*x))
			largest = math.Max(largest, math.Hypot(p.vx, p.vy))
		}
		t.Logf("%-12s %d points, largest difference %.5f mm of %.3f mm (%.4f %%)", name, len(points), worst, largest, 100*worst/largest)
		// the error of the mesh of 160 elements; with 80 it was 0.16 % at the worst, so it falls with the square of their size
		assert.Less(t, worst/largest, 6e-4, name)
	}
}

// Residual stress over E_T (e_T - e_R): it goes to zero with the mesh where the
// pith is outside, and does not where it is inside.
func TestNoResidualStressInFiniteElements(t *testing.T) {
	series := map[string][]float64{}
	for _, row := range expect.Named(t, "../../testdata/section/finite_element_convergence.csv") {
		series[row["case"]] = append(series[row["case"]], expect.Number(t, row["largest_stress_over_et_times_strain"]))
	}
	require.Len(t, series, 5)
	for name, s := range series {
		require.Len(t, s, 4)
		if name == "boxed heart" {
			assert.Greater(t, s[3], s[0], "stress near the pith grows with the mesh: a singularity")
			assert.Greater(t, s[3], 1.0)
			continue
		}
		assert.Less(t, s[1], s[0], name)
		assert.Less(t, s[2], s[1], name)
		assert.Less(t, s[3], 0.65*s[2], name)
		assert.Less(t, s[3], 0.01, name)
	}
}
