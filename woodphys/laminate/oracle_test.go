package laminate_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/laminate"
	"latewood/woodphys/quantity"
)

func floats(t testing.TB, text string) []float64 {
	t.Helper()
	var out []float64
	for _, f := range strings.Fields(text) {
		v, err := strconv.ParseFloat(f, 64)
		require.NoError(t, err)
		out = append(out, v)
	}
	return out
}

// The whole chain, from elastic constants and ring angle to stress, against an
// independent implementation by rotation of the full tensors. It prints 9 digits.
func TestAgainstTensorRotation(t *testing.T) {
	rows := expect.Named(t, "../../testdata/laminate/lamination.csv")
	require.Len(t, rows, 24)
	worst := 0.0
	near := func(want, got, scale float64, what string) {
		d := math.Abs(want-got) / scale
		worst = math.Max(worst, d)
		assert.LessOrEqual(t, d, 1e-7, "%s want %g got %g", what, want, got)
	}
	for _, row := range rows {
		var layers []laminate.Layer
		for _, text := range strings.Split(row["layers"], "|") {
			v := floats(t, text)
			layers = append(layers, laminate.Layer{
				Thickness: quantity.Length(v[0]) * mm, Elastic: full(v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8], v[9]),
				Grain: quantity.Angle(v[10]) * quantity.Degree, Ring: quantity.Angle(v[11]) * quantity.Degree,
				Wood: shrinks(-v[12], -v[13], -v[14]), AtGlueUp: exact(30), Later: exact(0),
			})
		}
		w, err := laminate.Bend(laminate.Panel{Layers: layers, Length: 1, Width: 1})
		require.NoError(t, err)
		for name, got := range map[string]float64{
			"strain_x": float64(w.ChangeLength.Value), "strain_y": float64(w.ChangeWidth.Value), "shear_xy": float64(w.Shear.Value),
			"kappa_x_per_mm": w.CurvatureX.Value / 1000, "kappa_y_per_mm": w.CurvatureY.Value / 1000, "kappa_xy_per_mm": w.TwistXY.Value / 1000,
		} {
			near(floats(t, row[name])[0], got, 1e-2, row["id"]+" "+name)
		}
		stress := floats(t, row["stress_mpa_along_across_lower_upper"])
		for i, l := range w.Layers {
			for j, got := range []quantity.Pressure{l.Lower.StressAlong.Value, l.Lower.StressAcross.Value, l.Upper.StressAlong.Value, l.Upper.StressAcross.Value} {
				near(stress[4*i+j], float64(got)/1e6, 10, row["id"])
			}
		}
	}
	t.Logf("worst difference %.1e of 1 %% strain, 0.01/mm curvature or 10 MPa", worst)
}

// The edge estimate against finite elements with a glue line of its own: the force to
// 10 % (the shear there is a sum over elements, and the edge is singular), the stresses
// inside their stated factor of three.
func TestGlueLineAgainstFiniteElements(t *testing.T) {
	rows := expect.Named(t, "../../testdata/laminate/glue_line.csv")
	require.Len(t, rows, 6)
	for _, row := range rows {
		v := func(name string) float64 { return floats(t, row[name])[0] }
		layer := func(side string) laminate.Layer {
			ex, g := v(side+"_ex"), v(side+"_g")
			// along y stands the direction of the strip; G_RT is the shear through the
			// thickness of a flatsawn layer across its grain; no Poisson's ratios
			el := math.Max(10000, 2*ex)
			return laminate.Layer{
				Wood: shrinks(0.01, math.Max(1e-4, -v(side+"_strain")), 0.0001), Thickness: quantity.Length(v(side+"_mm")) * mm,
				Elastic:  full(el, ex/el, 0.5, 0.08, 0.08, g/el, 0, 0, 0),
				AtGlueUp: exact(30), Later: exact(0),
			}
		}
		w, err := laminate.Bend(laminate.Panel{
			Layers: []laminate.Layer{layer("lower"), layer("upper")}, Length: 1, Width: quantity.Length(2*v("half_mm")) * mm,
			Glue: laminate.Glue{Thickness: quantity.Length(v("glue_mm")) * mm, ShearModulus: quantity.Pressure(v("glue_g")) * quantity.Megapascal},
		})
		require.NoError(t, err)
		edge := w.GlueLines[0].AtSides
		force, shear, peel := v("force_n_per_mm")*1000, v("shear_mpa")*1e6, v("peel_mpa")*1e6
		t.Logf("force %.2f, shear %.2f, peel %.2f of the estimate", force/edge.Force.Value, shear/float64(edge.Shear.Value), peel/float64(edge.Peel.Value))
		assert.InDelta(t, 1, force/edge.Force.Value, 0.10)
		assert.True(t, shear >= float64(edge.Shear.Low) && shear <= float64(edge.Shear.High))
		assert.True(t, peel >= float64(edge.Peel.Low) && peel <= float64(edge.Peel.High))
	}
}
