package shape_test

import (
	"encoding/json"
	"fmt"
	"math"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/api/internal/serve"
	"latewood/api/internal/shape"
	"latewood/woodphys/method"
)

func askLaminate(t testing.TB, body string) serve.Answer[shape.LaminateResult] {
	t.Helper()
	return asking.InFull[shape.LaminateResult](t, "/v1/laminate", body)
}

// A worked problem of a drop top: cap 6 mm of flatsawn sugar maple (0.00353 per
// point) on a body 38 mm of quartered true mahogany (0.00172), equal stiffness,
// both lose 2 points after gluing, 330 mm wide: strain 0.00362, free difference
// 1.1946 mm, radius 17.2 m, cup 0.7914 mm. The coefficients are one form of what is known
// of both woods, so the bands hold the problem's figures, and the curvature is
// Timoshenko's of the strains that movement has; the panel beside it, with its own
// stiffness and Poisson's ratios, comes to another cup of the same strains.
func TestDropTop(t *testing.T) {
	a := askLaminate(t, `{"length": "450 mm", "width": "330 mm", "layers": [{"wood": "maple-sugar", "thickness": "6 mm", "rings": {"angle_deg": 0}}, {"wood": "mahogany-true", "thickness": "38 mm", "rings": {"angle_deg": 90}}],
		"glue_up_condition": {"mc_pct": 9}, "later_condition": {"mc_pct": 7}, "strip": {"stiffness_ratio": 1}}`)
	s := a.Result.Strip
	require.NotNil(t, s)
	moved := func(wood, direction string) *moist.MovementResult {
		m := asking.InFull[moist.MovementResult](t, "/v1/movement", `{"wood": "`+wood+`", "size": "330 mm", "direction": "`+direction+`", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 7}}`).Result
		return &m
	}
	maple, mahogany := moved("maple-sugar", "tangential"), moved("mahogany-true", "radial")
	assert.InDelta(t, 1.1946, asking.FormOf(t, mahogany.Forms, "coefficient").Change.Value-asking.FormOf(t, maple.Forms, "coefficient").Change.Value, 1e-9, "the problem's own form")
	assert.InDelta(t, mahogany.Strain-maple.Strain, s.Difference.Value, 1e-9, "one strain for both questions")
	assert.InDelta(t, mahogany.Change.Value-maple.Change.Value, s.Free.Value, 1e-9)
	assert.InDelta(t, s.Free.Value, math.Abs(a.Result.GlueLines[0].Width.Value), 1e-9, "one free difference in one answer")
	assert.Less(t, s.Free.Low, 1.1946)
	assert.Greater(t, s.Free.High, 1.1946)
	require.NotNil(t, s.Radius)
	assert.InDelta(t, 17.2*1.1946/s.Free.Value, s.Radius.Value, 0.05)
	assert.Equal(t, "m", s.Radius.Unit)
	assert.InDelta(t, 0.7914*s.Free.Value/1.1946, s.Cup.Value, 0.00005)
	assert.InDelta(t, 1/s.Radius.Value, s.Curvature.Value, 1e-12, "hollow above: the cap shrinks more")

	assert.Positive(t, a.Result.Cup.Value, "the panel cups the same way")
	assert.InEpsilon(t, s.Cup.Value, a.Result.Cup.Value, 0.17)
	assert.InDelta(t, 330*330.0/8*a.Result.Across.Value/1000, a.Result.Cup.Value, 1e-9, "sagitta and curvature have one sign")
	assert.InDelta(t, 450*450.0/8*a.Result.Along.Value/1000, a.Result.Bow.Value, 1e-9)
	found := map[method.Code]bool{}
	for _, w := range a.Warnings {
		found[w.Code] = true
	}
	assert.True(t, found[method.Disagreement], "the tables differ about true mahogany")
	assert.True(t, found[method.DefaultUsed], "sugar maple has no G_RT of its own")
	assert.True(t, found[method.Recalled])
	assert.Contains(t, a.Result.Strip.Note, "those of movement")
}

// own is a layer of a wood of the test's own that moves 0.2 % a point less or more.
func ownStrip(tangential, mm float64) string {
	return fmt.Sprintf(`{"wood": {"radial_shrinkage_pct": 2, "tangential_shrinkage_pct": %g, "fibre_saturation_mc_pct": 30, "group": "hardwood", "modulus_of_elasticity": "10000 MPa"}, "thickness": "%g mm", "rings": {"angle_deg": 0}}`, tangential, mm)
}

// Published strips: equal layers of 10 mm together, strains 0.002 apart, 200 mm
// wide cup 1.5 mm, and 0.00029091/mm with a stiffness ratio of 2
// (testdata/published/worked_examples.csv, BIL-02 and BIL-04).
func TestStripIsThePublishedOne(t *testing.T) {
	for _, row := range []struct{ ratio, perMetre, within float64 }{{1, 0.3, 1e-9}, {2, 0.29091, 1e-5}} {
		a := askLaminate(t, fmt.Sprintf(`{"length": "1 m", "width": "200 mm", "layers": [%s, %s], "glue_up_condition": {"mc_pct": 30}, "later_condition": {"mc_pct": 28}, "strip": {"stiffness_ratio": %g}}`,
			ownStrip(6, 5), ownStrip(3, 5), row.ratio))
		require.NotNil(t, a.Result.Strip)
		assert.InDelta(t, 0.2, a.Result.Strip.Difference.Value, 1e-9)
		assert.InDelta(t, row.perMetre, a.Result.Strip.Curvature.Value, row.within)
		assert.InDelta(t, row.perMetre*0.04/8*1000, a.Result.Strip.Cup.Value, 5000*row.within)
	}
}

// Three crossed layers by a separate sum: a symmetric stack only stretches, and
// along and across it two equations in two unknowns hold the forces at nought. The
// figures are those of the tables: yellow birch 13900 MPa, ET/EL 0.050, nu_LT
// 0.451, 9.5 %; yellow-poplar 10900 MPa, 0.043, 0.392, 8.2 %; 0.15 % along.
func TestCrossedLayersByHand(t *testing.T) {
	a := askLaminate(t, `{"length": "1 m", "width": "1 m", "layers": [
		{"wood": "birch-yellow", "thickness": "2 mm", "rings": {"angle_deg": 0}}, {"wood": "yellow-poplar", "thickness": "3 mm", "rings": {"angle_deg": 0}, "grain_angle_deg": 90}, {"wood": "birch-yellow", "thickness": "2 mm", "rings": {"angle_deg": 0}}],
		"glue_up_condition": {"mc_pct": 12}, "later_condition": {"mc_pct": 6}}`)
	r := a.Result
	assert.True(t, r.Symmetric)
	assert.True(t, r.Square)
	assert.InDelta(t, 0, r.Cup.Value, 1e-9)
	assert.Contains(t, r.Summary, "mirror image")
	require.Len(t, r.GlueLines, 2)
	assert.Nil(t, r.Strip)

	change := func(s float64) float64 { return (1-s*24/30)/(1-s*18/30) - 1 }
	plane := func(el, et, nu float64) (q11, q12, q22 float64) {
		el *= 1.10
		d := 1 - nu*nu*et
		return el / d, nu * et * el / d, et * el / d
	}
	b11, b12, b22 := plane(13900, 0.050, 0.451)
	p11, p12, p22 := plane(10900, 0.043, 0.392)
	alongB, alongP := (1-0.0015*(1-6/32.5))/(1-0.0015*(1-12/32.5))-1, change(0.0015) // the birch starts at 32.5 %
	moved := func(wood string, s float64) float64 {
		m := asking.InFull[moist.MovementResult](t, "/v1/movement", `{"wood": "`+wood+`", "size": "1 m", "direction": "tangential", "from_condition": {"mc_pct": 12}, "to_condition": {"mc_pct": 6}}`).Result
		assert.InEpsilon(t, change(s), m.Strain/100, 0.05, "near the total shrinkage form")
		return m.Strain / 100
	}
	birch, poplar := moved("birch-yellow", 0.095), moved("yellow-poplar", 0.082)
	// x along the birch; t = 4 mm of birch, 3 mm of poplar turned by 90 degrees
	a11, a12, a22 := 4*b11+3*p22, 4*b12+3*p12, 4*b22+3*p11
	nx := 4*(b11*alongB+b12*birch) + 3*(p22*poplar+p12*alongP)
	ny := 4*(b12*alongB+b22*birch) + 3*(p12*poplar+p11*alongP)
	det := a11*a22 - a12*a12
	ex, ey := (nx*a22-ny*a12)/det, (ny*a11-nx*a12)/det
	assert.InEpsilon(t, ex*1000, r.Length.Value, 1e-6)
	assert.InEpsilon(t, ey*1000, r.Width.Value, 1e-6)
	assert.InEpsilon(t, b12*(ex-alongB)+b22*(ey-birch), r.Layers[2].Face2.StressAcross.Value, 1e-6, "MPa")
	assert.InEpsilon(t, b11*(ex-alongB)+b12*(ey-birch), r.Layers[0].Face1.StressAlong.Value, 1e-6)
	assert.InEpsilon(t, p12*(ey-alongP)+p22*(ex-poplar), r.Layers[1].Face1.StressAcross.Value, 1e-6)
	assert.Equal(t, "MPa", r.Layers[2].Face2.StressAcross.Unit)
	assert.Positive(t, r.Layers[2].Face2.StressAcross.Value, "drying pulls across the grain")
	assert.InEpsilon(t, (birch-alongP)*1000, -r.GlueLines[1].Width.Value, 1e-9, "poplar above less birch below, over the width")
	assert.InEpsilon(t, (poplar-alongB)*1000, r.GlueLines[1].Length.Value, 1e-9)
	assert.InEpsilon(t, 3*r.GlueLines[0].AtSides.Shear.Value, r.GlueLines[0].AtSides.Shear.High, 1e-12)
	assert.InDelta(t, 1.10*13900, r.Layers[0].Modulus.Value, 1e-6)
}

// A layer's own conditions go before those of the panel, turning the stack over
// turns the cup over, and grain on the slant twists.
func TestLayersKeepTheirOwnConditions(t *testing.T) {
	const wetter = `{"wood": "maple-sugar", "thickness": "3 mm", "rings": {"angle_deg": 0}, "glue_up_condition": {"mc_pct": 12, "mc_sd_points": 1}}`
	const drier = `{"wood": "maple-sugar", "thickness": "3 mm", "rings": {"angle_deg": 0}}`
	up := askLaminate(t, `{"length": "400 mm", "width": "200 mm", "layers": [`+wetter+`, `+drier+`]`+asking.OkGlued+`}`).Result
	down := askLaminate(t, `{"length": "400 mm", "width": "200 mm", "layers": [`+drier+`, `+wetter+`]`+asking.OkGlued+`}`).Result
	assert.InDelta(t, 12, up.Layers[0].GlueUp.Value, 1e-9)
	assert.InDelta(t, 9, up.Layers[1].GlueUp.Value, 1e-9)
	assert.Positive(t, up.Cup.Value, "the wetter layer shrinks more and draws hollow")
	assert.InDelta(t, up.Cup.Value, -down.Cup.Value, 1e-9)
	assert.Contains(t, up.Summary, "becomes hollow on face 1")
	assert.Contains(t, down.Summary, "becomes hollow on face 2")

	slanted := askLaminate(t, `{"length": "400 mm", "width": "200 mm", "layers": [`+asking.LayerWith(`"grain_angle_deg": -10`)+`, `+asking.LayerWith(`"grain_angle_deg": 10`)+`]`+asking.OkGlued+`}`).Result
	assert.NotZero(t, slanted.CornerLift.Value)
	assert.InDelta(t, slanted.Twist.Value/1000*400*200/2, slanted.CornerLift.Value, 1e-9)
	assert.Contains(t, slanted.Summary, "twists")
	assert.Nil(t, slanted.Strip)
	assert.True(t, slanted.Square)

	one := askLaminate(t, `{"length": "400 mm", "width": "200 mm", "layers": [`+asking.OkLayer+`]`+asking.OkGlued+`}`).Result
	assert.Empty(t, one.GlueLines)
	assert.True(t, one.Symmetric)
}

// Where stiffness comes from: the tables, the caller, the mean of a group; imported
// conifers take that of the softwoods.
func TestStiffnessOfLayers(t *testing.T) {
	warned := func(layer string) string {
		a := askLaminate(t, `{"length": "400 mm", "width": "200 mm", "layers": [`+layer+`]`+asking.OkGlued+`}`)
		var all []string
		for _, w := range a.Warnings {
			if w.Code == method.DefaultUsed {
				all = append(all, w.Detail)
			}
		}
		return strings.Join(all, "\n")
	}
	assert.Contains(t, warned(`{"wood": "spruce-norway", "thickness": "3 mm", "rings": {"angle_deg": 90}}`), "mean of the softwoods")
	assert.Contains(t, warned(`{"wood": {"species": "koa", "modulus_of_elasticity": "1.5e6 psi"}, "thickness": "3 mm", "rings": {"angle_deg": 90}}`), "mean of the hardwoods")
	assert.NotContains(t, warned(`{"wood": "birch-yellow", "thickness": "3 mm", "rings": {"angle_deg": 90}}`), "mean of")
	a := askLaminate(t, `{"length": "400 mm", "width": "200 mm", "report_in": "inch", "layers": [{"wood": {"species": "koa", "modulus_of_elasticity": "1500000 psi"}, "thickness": "3 mm", "rings": {"angle_deg": 90}}]`+asking.OkGlued+`}`)
	assert.InEpsilon(t, 1.65e6, a.Result.Layers[0].Modulus.Value, 1e-12)
	assert.Equal(t, "psi", a.Result.Layers[0].Modulus.Unit)
}

// A thin panel that bends more than it is thick says that it leaves the theory.
func TestLargeDeflectionIsTold(t *testing.T) {
	told := func(layers string) bool {
		for _, w := range askLaminate(t, `{"length": "1 m", "width": "1 m", "layers": [`+layers+`]`+asking.OkGlued+`}`).Warnings {
			if w.Code == method.OutsideFitted && strings.Contains(w.Detail, "bends by more") {
				return true
			}
		}
		return false
	}
	assert.True(t, told(`{"wood": "maple-sugar", "thickness": "1 mm", "rings": {"angle_deg": 0}}, {"wood": "maple-sugar", "thickness": "1 mm", "rings": {"angle_deg": 0}, "grain_angle_deg": 90}`))
	assert.False(t, told(asking.OkLayer+", "+asking.OkLayer))
}

func BenchmarkSection(b *testing.B) {
	s, err := api.New(serve.Config{Version: "bench"})
	require.NoError(b, err)
	asking.Post(b, s, "/v1/section-shape", []byte(`{"wood": "maple-sugar", "width": "200 mm", "thickness": "30 mm", "rings": {"pith": {"z": "130 mm"}}, "from_condition": {"mc_pct": 14, "mc_sd_points": 1}, "to_condition": {"mc_pct": 8, "mc_sd_points": 0.5}}`))
}

// BenchmarkLaminate is a panel of eight layers of four woods.
func BenchmarkLaminate(b *testing.B) {
	s, err := api.New(serve.Config{Version: "bench"})
	require.NoError(b, err)
	var layers []string
	for i := range 8 {
		layers = append(layers, fmt.Sprintf(`{"wood": %q, "thickness": "3 mm", "rings": {"angle_deg": 10}, "grain_angle_deg": %d}`, []string{"birch-yellow", "maple-sugar", "walnut-black", "yellow-poplar"}[i%4], 90*(i%2)))
	}
	body := `{"length": "500 mm", "width": "300 mm", "layers": [` + strings.Join(layers, ",") + `]` + asking.OkGlued + `}`
	require.True(b, json.Valid([]byte(body)))
	require.Equal(b, http.StatusOK, asking.Posting("/v1/laminate", body).Of(b, s).Code)
	asking.Post(b, s, "/v1/laminate", []byte(body))
}

// Glue that was not given is told as it was taken, in the units of the answer.
func TestGlueThatIsTakenIsTold(t *testing.T) {
	told := func(rest string) string {
		return fmt.Sprint(asking.AnswerTo[shape.LaminateResult](t, "/v1/laminate", `{"length": "450 mm", "width": "330 mm", "layers": [
			{"wood": "maple-sugar", "thickness": "6 mm", "rings": {"angle_deg": 90}}, {"wood": "mahogany-true", "thickness": "40 mm", "rings": {"angle_deg": 90}}],
			"glue_up_condition": {"mc_pct": 9}, "later_condition": {"mc_pct": 7}`+rest+`}`).Warnings)
	}
	assert.Contains(t, told(""), "the glue is taken as 0.1 mm thick and of a shear modulus of 300 MPa")
	assert.Contains(t, told(`, "report_in": "inch"`), "0.0039 in thick and of a shear modulus of 43511 psi")
	half := told(`, "glue": {"thickness": "0.2 mm"}`)
	assert.Contains(t, half, "the glue is taken as of a shear modulus of 300 MPa")
	assert.NotContains(t, told(`, "glue": {"thickness": "0.2 mm", "shear_modulus": "200 MPa"}`), "the glue is taken")
}
