package shape_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"net/http"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
	"latewood/api/internal/shape"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/section"
)

// sectionAnswer is a result as a caller reads it.
type sectionAnswer struct {
	Summary    string                 `json:"summary"`
	From       wire.Band              `json:"from_mc"`
	Radial     wire.Band              `json:"radial_strain"`
	Tangential wire.Band              `json:"tangential_strain"`
	Start      shape.SectionStart     `json:"start"`
	Shape      *shape.SectionShape    `json:"shape"`
	Heart      *shape.BoxedHeart      `json:"boxed_heart"`
	Gradient   *shape.GradientBend    `json:"gradient"`
	Lengthwise *shape.LengthwiseShape `json:"lengthwise_shape"`
	Outline    *shape.SectionOutline  `json:"outline"`
	To         wire.Band              `json:"to_mc"`
	Wood       shelf.WoodUsed         `json:"wood"`
}

func askSection(t testing.TB, body string) serve.Answer[sectionAnswer] {
	t.Helper()
	return asking.InFull[sectionAnswer](t, "/v1/section-shape", body)
}

// plain is a wood that shrinks 3 and 6 % from 30 % down.
const plainWood = `"wood": {"radial_shrinkage_pct": 3, "tangential_shrinkage_pct": 6, "fibre_saturation_mc_pct": 30}`

// A published sum: c = (eT - eR) h theta tan(theta), 2.356 mm and 5.356 % for
// 200 mm of width 100 mm above the pith (testdata/published/worked_examples.csv,
// CUP-01 and CUP-02). It is of first order, so a hundredth of the change is asked.
func TestSectionCupIsThePublishedOne(t *testing.T) {
	a := askSection(t, `{`+plainWood+`, "width": "200 mm", "thickness": "30 mm", "rings": {"pith": {"z": "130 mm"}}, "from_condition": {"mc_pct": 30}, "to_condition": {"mc_pct": 29.7}}`)
	s := a.Result.Shape
	require.NotNil(t, s)
	assert.InDelta(t, 2.356, 100*s.Faces[1].Cup.Value, 0.003, "0.1 % for the second order")
	assert.InDelta(t, 5.356, 100*(200-s.WidthFace2.Value)/200*100, 0.004)
	assert.Equal(t, "bark", s.Faces[1].HollowSide)
	assert.Equal(t, "face 2 becomes round: its curve opens to the bark", s.Faces[1].Detail)
	assert.Equal(t, "face 1 becomes hollow: its curve opens to the bark", s.Faces[0].Detail)
}

// The corners of four sections against a linear finite-element solution
// (testdata/section/finite_element.csv): lengths from corner to corner, for a
// hundredth of its strains. Linear and exact differ by about the strain, 0.06 %
// here; the mesh is good to 0.1 %.
func TestSectionsAgainstFiniteElements(t *testing.T) {
	file, err := os.Open("../../../testdata/section/finite_element.csv")
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	type body struct {
		w, t, px, py float64
		ux, uy       map[[2]float64]float64
	}
	cases := map[string]*body{}
	for _, row := range rows[1:] {
		var v [10]float64
		for i := range v {
			v[i] = asking.NumberIn(t, row[i+1])
		}
		require.InDelta(t, -0.03, v[4], 1e-12)
		require.InDelta(t, -0.06, v[5], 1e-12)
		b := cases[row[0]]
		if b == nil {
			b = &body{w: v[0], t: v[1], px: v[2], py: v[3], ux: map[[2]float64]float64{}, uy: map[[2]float64]float64{}}
			cases[row[0]] = b
		}
		b.ux[[2]float64{v[6], v[7]}], b.uy[[2]float64{v[6], v[7]}] = v[8], v[9]
	}
	require.GreaterOrEqual(t, len(cases), 4)
	for name, b := range cases {
		a := askSection(t, fmt.Sprintf(`{%s, "width": "%g mm", "thickness": "%g mm", "rings": {"pith": {"y": "%g mm", "z": "%g mm"}}, "from_condition": {"mc_pct": 30}, "to_condition": {"mc_pct": 29.7}}`,
			plainWood, b.w, b.t, b.px+b.w/2, b.t/2-b.py))
		s := a.Result.Shape
		require.NotNil(t, s, name)
		// change of the distance between two corners, linear in the displacement
		change := func(x1, y1, x2, y2 float64) float64 {
			one, two := [2]float64{x1 * b.w / 2, y1 * b.t / 2}, [2]float64{x2 * b.w / 2, y2 * b.t / 2}
			_, known := b.ux[one]
			require.True(t, known, "%s %v", name, one)
			_, known = b.ux[two]
			require.True(t, known, "%s %v", name, two)
			dx, dy := two[0]-one[0], two[1]-one[1]
			return (dx*(b.ux[two]-b.ux[one]) + dy*(b.uy[two]-b.uy[one])) / math.Hypot(dx, dy)
		}
		for what, pair := range map[string][2]float64{
			"lower width": {change(-1, -1, 1, -1), s.WidthFace2.Value - b.w}, "upper width": {change(-1, 1, 1, 1), s.WidthFace1.Value - b.w},
			"left thickness": {change(-1, -1, -1, 1), s.ThicknessNear.Value - b.t}, "right thickness": {change(1, -1, 1, 1), s.ThicknessFar.Value - b.t},
			"rising": {change(-1, -1, 1, 1), s.DiagonalFace2.Value - math.Hypot(b.w, b.t)}, "falling": {change(-1, 1, 1, -1), s.DiagonalFace1.Value - math.Hypot(b.w, b.t)},
		} {
			assert.InEpsilon(t, pair[0], 100*pair[1], 0.003, "%s %s", name, what)
		}
	}
}

// Hollow and round follow the pith, whichever side it is on, and swelling turns
// them over.
func TestSensesOfCup(t *testing.T) {
	for _, row := range []struct {
		pith, change, sense, lower, upper string
	}{
		{`"z": "130 mm"`, `"from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": 8}`, "bark", "round", "hollow"},
		{`"z": "-100 mm"`, `"from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": 8}`, "bark", "hollow", "round"},
		{`"z": "130 mm"`, `"from_condition": {"mc_pct": 8}, "to_condition": {"mc_pct": 14}`, "pith", "hollow", "round"},
	} {
		a := askSection(t, `{"wood": "maple-sugar", "width": "200 mm", "thickness": "30 mm", "rings": {"pith": {`+row.pith+`}}, `+row.change+`}`)
		s := a.Result.Shape
		for i, is := range []string{row.upper, row.lower} {
			assert.Equal(t, row.sense, s.Faces[i].HollowSide, row.pith)
			assert.Contains(t, s.Faces[i].Detail, "becomes "+is, row.pith)
		}
		// The outline says the same: the middle of the upper face against its ends.
		upper := s.Faces[0].Cup.Value
		after := a.Result.Outline.After
		middle := after[section.PointsPerSide/2].Z
		ends := (after[0].Z + after[section.PointsPerSide].Z) / 2
		opens := math.Copysign(1, middle-ends) // away from the wood: z runs into it
		if row.pith == `"z": "-100 mm"` {
			opens = -opens
		}
		assert.Equal(t, math.Copysign(1, upper), opens)
		assert.InDelta(t, math.Abs(upper), math.Abs(ends-middle), 0.01*math.Abs(upper)+1e-9, "25 points on a side, none just in the middle")
	}
	flat := askSection(t, `{"wood": "maple-sugar", "width": "200 mm", "thickness": "30 mm", "rings": {"pith": {"z": "130 mm"}}, "from_condition": {"mc_pct": 35}, "to_condition": {"mc_pct": 60}}`)
	assert.Equal(t, "none", flat.Result.Shape.Faces[0].HollowSide, "nothing moves above fibre saturation")
}

// Rings from ring angle and radius are the same as the pith they belong to.
func TestRingsOrPith(t *testing.T) {
	const rest = `"wood": "walnut-black", "width": "200 mm", "thickness": "30 mm", "from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": 8}}`
	rings := askSection(t, `{"rings": {"angle_deg": 30, "radius": "100 mm"}, `+rest)
	pith := askSection(t, fmt.Sprintf(`{"rings": {"pith": {"y": "50 mm", "z": "%.12f mm"}}, %s`, 100*math.Cos(math.Pi/6)+15, rest))
	assert.InDelta(t, 30, rings.Result.Start.Rings.Middle, 1e-9)
	assert.InDelta(t, rings.Result.Shape.Faces[1].Cup.Value, pith.Result.Shape.Faces[1].Cup.Value, 1e-9)
	assert.InDelta(t, rings.Result.Shape.Flat.Value, pith.Result.Shape.Flat.Value, 1e-9)
}

// Shell and core alone: a strain that runs evenly from face to face bends by
// difference over thickness, cup = kappa w^2/8. Quartered, so that the cup of
// the rings is small; 1.5 % over 12 points of 30 for 3 % radial.
func TestGradientIsABeam(t *testing.T) {
	a := askSection(t, `{`+plainWood+`, "width": "100 mm", "thickness": "10 mm", "rings": {"angle_deg": 90, "radius": "500 m"},
		"profile": [{"z": "0 mm", "from_mc_pct": 8, "to_mc_pct": 8}, {"z": "10 mm", "from_mc_pct": 14, "to_mc_pct": 8}]}`)
	r := a.Result
	require.NotNil(t, r.Gradient)
	// free strains: 0 above, 3 % x 6/30 below, over the size at 14 %
	strain := (1-0.03*22/30)/(1-0.03*16/30) - 1
	assert.InEpsilon(t, strain/0.010, r.Gradient.Curvature.Value, 1e-9, "hollow on face 2 is negative")
	assert.InEpsilon(t, strain/0.010*100*100/8/1000, r.Gradient.Cup.Value, 1e-9)
	assert.InDelta(t, 11, r.From.Value, 1e-9, "the mean of both faces")
	assert.Contains(t, r.Gradient.Detail, "face 2")
	require.NotNil(t, r.Shape.Faces[0].WithGradient)
	assert.InDelta(t, 10*(1-0.06*3/30)-math.Abs(r.Gradient.Cup.Value), r.Shape.FlatWithGradient.Value, 0.02, "what is left of a thickness that shrank by the rings")

	// A level above fibre saturation counts up to it.
	wet := askSection(t, `{`+plainWood+`, "width": "100 mm", "thickness": "10 mm", "rings": {"pith": {"z": "70 mm"}},
		"profile": [{"z": "0 mm", "from_mc_pct": 60, "to_mc_pct": 10}, {"z": "5 mm", "from_mc_pct": 90, "to_mc_pct": 60}, {"z": "10 mm", "from_mc_pct": 60, "to_mc_pct": 10}]}`)
	assert.InDelta(t, 30, wet.Result.From.Value, 1e-9)
	assert.InDelta(t, 20, wet.Result.To.Value, 1e-9, "10, 30 and 10 with the weights 1, 2 and 1")
	assert.InDelta(t, 0, wet.Result.Gradient.Cup.Value, 1e-9, "both faces alike")
}

// A bend too large for its sum is told.
func TestCurlIsTold(t *testing.T) {
	told := func(wet float64) bool {
		a := askSection(t, fmt.Sprintf(`{%s, "width": "200 mm", "thickness": "4 mm", "rings": {"pith": {"z": "2.004 m"}},
			"profile": [{"z": "0 mm", "from_mc_pct": %g, "to_mc_pct": 8}, {"z": "4 mm", "from_mc_pct": 8, "to_mc_pct": 8}]}`, plainWood, wet))
		for _, w := range a.Warnings {
			if strings.Contains(w.Detail, "it curls") {
				return true
			}
		}
		return false
	}
	// 20 mm of 200: kappa 4 per metre, strain 1.6 %, 8 points of 30 for 6 %
	assert.True(t, told(17))
	assert.False(t, told(14))
}

// Boxed heart: the full turn misses 2 pi (1 - (1-sT)/(1-sR)).
func TestBoxedHeart(t *testing.T) {
	a := askSection(t, `{`+plainWood+`, "width": "100 mm", "thickness": "80 mm", "rings": {"pith": {"z": "50 mm"}}, "from_condition": {"green": true}, "to_condition": {"mc_pct": 0}}`)
	h := a.Result.Heart
	require.NotNil(t, h)
	assert.Nil(t, a.Result.Shape)
	assert.Nil(t, a.Result.Outline)
	assert.True(t, h.Opens)
	assert.InDelta(t, 360*(1-0.94/0.97), h.Opening.Value, 1e-9)
	assert.InDelta(t, 2*math.Pi*30*0.03, h.Face2Gap.Value, 1e-9)
	assert.InDelta(t, 2*math.Pi*50*0.03, h.Face1Gap.Value, 1e-9)
	assert.True(t, a.Result.Start.Pith.Inside)
	assert.Contains(t, a.Result.Summary, "boxed heart")

	back := askSection(t, `{`+plainWood+`, "width": "100 mm", "thickness": "80 mm", "rings": {"pith": {"z": "50 mm"}}, "from_condition": {"mc_pct": 5}, "to_condition": {"mc_pct": 15}}`)
	assert.False(t, back.Result.Heart.Opens)
	assert.Contains(t, back.Result.Heart.Detail, "nothing opens")
	assert.Zero(t, back.Result.Heart.Face2Gap.Value)
}

// Twist 2 s g L/((1 + s) r) with the mean radius of the section, crook and bow difference L^2/(8 depth).
func TestLengthwise(t *testing.T) {
	a := askSection(t, `{`+plainWood+`, "width": "100 mm", "thickness": "20 mm", "rings": {"pith": {"z": "110 mm"}}, "from_condition": {"green": true}, "to_condition": {"mc_pct": 0},
		"lengthwise": {"length": "2 m", "spiral_deg": 4, "near_minus_far_strain_pct": -0.1, "face_2_minus_face_1_strain_pct": 0.02}}`)
	l := a.Result.Lengthwise
	require.NotNil(t, l)
	assert.InEpsilon(t, 2*0.06*4*2/(1.06*0.10446), l.Twist.Value, 1e-3, "the mean radius of the section: 100 mm + (w^2 + t^2)/12R - w^2/24R")
	assert.InDelta(t, -0.001*4/(8*0.1)*1000, l.Crook.Value, 1e-9, "the near edge shrinks more: hollow there")
	assert.InDelta(t, 0.0002*4/(8*0.02)*1000, l.Bow.Value, 1e-9)
}

// Both halves of a centred board cup alike, and a board so ripped is left thicker.
func TestRipped(t *testing.T) {
	a := askSection(t, `{"wood": "maple-sugar", "width": "200 mm", "thickness": "30 mm", "rings": {"pith": {"z": "130 mm"}}, "from_condition": {"mc_pct": 14, "mc_sd_points": 1}, "to_condition": {"mc_pct": 8, "mc_sd_points": 0.5}}`)
	s := a.Result.Shape
	require.Len(t, s.HalvesRipped, 2)
	assert.InDelta(t, s.HalvesRipped[0].Face2.Value, s.HalvesRipped[1].Face2.Value, 1e-9)
	assert.InDelta(t, s.Faces[1].Cup.Value/4, s.HalvesRipped[0].Face2.Value, 0.05*s.Faces[1].Cup.Value, "a quarter, nearly: the rings of a half are not those of the middle")
	assert.Greater(t, s.RippedFlat.Value, s.Flat.Value)
	assert.Less(t, s.Flat.Low, s.Flat.Value)
	assert.Less(t, s.Flat.Value, s.Flat.High)
	assert.Len(t, a.Result.Outline.Before, 100)
	assert.Len(t, a.Result.Outline.After, 100)
}

// The table holds the outline of the JSON answer.
func TestSectionTable(t *testing.T) {
	for _, body := range asking.ExampleBodies(t)["/v1/section-shape"] {
		a := asking.AnswerTo[sectionAnswer](t, "/v1/section-shape", string(body))
		r := asking.Posting("/v1/section-shape?as=csv", string(body)).Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, r.Code)
		require.Equal(t, "text/csv; charset=utf-8", r.Header().Get("Content-Type"))
		rows, err := csv.NewReader(strings.NewReader(r.Body.String())).ReadAll()
		require.NoError(t, err)
		if a.Result.Outline == nil {
			require.Len(t, rows, 5)
			for _, row := range rows[1:] {
				assert.Equal(t, []string{"", ""}, row[3:])
			}
			continue
		}
		require.Len(t, rows, 101)
		unit := a.Result.Outline.Before[0].Unit
		assert.Equal(t, []string{"point", "before_y_" + unit, "before_z_" + unit, "after_y_" + unit, "after_z_" + unit}, rows[0])
		for i, row := range rows[1:] {
			b, c := a.Result.Outline.Before[i], a.Result.Outline.After[i]
			for j, v := range []float64{float64(i + 1), b.Y, b.Z, c.Y, c.Z} {
				assert.InDelta(t, v, asking.NumberIn(t, row[j]), 1e-12, "to the digit")
			}
		}
	}
}

// shapesDrawn are requests that are hard to draw.
func shapesDrawn(t testing.TB) []asking.Asked {
	t.Helper()
	all := []asking.Asked{
		asking.Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "3 m", "thickness": "1 mm", "rings": {"pith": {"z": "101 mm"}}, "from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": 8}}`),
		asking.Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "5 mm", "thickness": "900 mm", "rings": {"pith": {"y": "5 mm", "z": "450 mm"}}, "from_condition": {"green": true}, "to_condition": {"mc_pct": 0}}`),
		asking.Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "100 mm", "thickness": "100 mm", "rings": {"pith": {"z": "50 mm"}}, "from_condition": {"green": true}, "to_condition": {"mc_pct": 8}, "report_in": "inch"}`),
		asking.Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "100 mm", "thickness": "100 mm", "rings": {"pith": {"z": "50 mm"}}, "from_condition": {"mc_pct": 4}, "to_condition": {"mc_pct": 8}}`),
		asking.Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "100 mm", "thickness": "20 mm", "rings": {"angle_deg": 45, "radius": "1000 m"}, "from_condition": {"mc_pct": 4}, "to_condition": {"mc_pct": 4}}`),
		asking.Posting("/v1/section-shape", `{"wood": "maple-sugar", "width": "200 mm", "thickness": "4 mm", "rings": {"pith": {"y": "190 mm", "z": "34 mm"}}, "lengthwise": {"length": "3 m", "spiral_deg": -5, "near_minus_far_strain_pct": 1, "face_2_minus_face_1_strain_pct": 1},
			"profile": [{"z": "0 mm", "from_mc_pct": 30, "to_mc_pct": 4}, {"z": "4 mm", "from_mc_pct": 4, "to_mc_pct": 30}]}`),
		asking.LaminateOf(asking.OkLayer, asking.OkGlued),
		asking.LaminateOf(strings.TrimSuffix(strings.Repeat(asking.LayerWith(`"grain_angle_deg": 45`)+","+asking.OkLayer+",", 16), ","), asking.OkGlued),
		asking.LaminateOf(`{"wood": {"name": "`+strings.Repeat("long name ", 9)+`", "radial_shrinkage_pct": 3, "tangential_shrinkage_pct": 6, "group": "softwood", "modulus_of_elasticity": "9000 MPa"}, "thickness": "0.1 mm", "rings": {"angle_deg": 45}, "grain_angle_deg": -33.3}, `+asking.OkLayer, asking.OkGlued),
		asking.Posting("/v1/laminate", `{"length": "30 m", "width": "10 m", "layers": [`+asking.LayerWith(`"grain_angle_deg": 90`)+`, `+asking.OkLayer+`], "glue_up_condition": {"mc_pct": 20}, "later_condition": {"mc_pct": 4}, "report_in": "inch"}`),
	}
	for _, path := range []string{"/v1/section-shape", "/v1/laminate"} {
		for _, body := range asking.ExampleBodies(t)[path] {
			all = append(all, asking.Posting(path, string(body)))
		}
	}
	return all
}

// Drawings are well formed, grey, with every text on the sheet and apart.
func TestShapesAreDrawn(t *testing.T) {
	for _, request := range shapesDrawn(t) {
		request.Headers = []string{"Accept", "image/svg+xml"}
		r := request.Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, r.Code, r.Body.String())
		root := asking.Drawn(t, r.Body.String())
		sheet := strings.Fields(root.Attr("viewBox"))
		width, height := asking.NumberIn(t, sheet[2]), asking.NumberIn(t, sheet[3])
		assert.NotEmpty(t, root.Inside[0].Words)
		assert.NotEmpty(t, root.Inside[1].Words)
		var boxes []asking.Box
		lines := 0
		root.All(func(s *asking.Shape) {
			for _, a := range s.Attrs {
				switch a.Name.Local {
				case "fill", "stroke":
					grey := len(a.Value) == 4 && a.Value[1] == a.Value[2] && a.Value[2] == a.Value[3]
					assert.True(t, a.Value == "none" || grey, a.Value)
				case "x", "y", "x1", "x2", "y1", "y2", "width", "height":
					if s.XMLName.Local != "svg" {
						v := asking.NumberIn(t, a.Value)
						assert.True(t, v >= 0 && v <= math.Max(width, height), "%s=%s", a.Name.Local, a.Value)
					}
				case "points":
					for pair := range strings.FieldsSeq(a.Value) {
						x, y, _ := strings.Cut(pair, ",")
						assert.True(t, asking.NumberIn(t, x) >= 0 && asking.NumberIn(t, x) <= width && asking.NumberIn(t, y) >= 0 && asking.NumberIn(t, y) <= height, "%s of %s", pair, request.Body)
					}
				}
			}
			switch s.XMLName.Local {
			case "text":
				boxes = append(boxes, asking.BoxOf(t, s))
			case "polyline", "polygon", "line":
				lines++
			}
		})
		assert.Greater(t, lines, 4, request.Body)
		for i, b := range boxes {
			assert.True(t, b.Left >= 0 && b.Top >= 0 && b.Right <= width && b.Bottom <= height, "outside the sheet: %+v", b)
			for _, other := range boxes[:i] {
				assert.False(t, b.Meets(other), "%q lies on %q", b.Words, other.Words)
			}
		}
	}
}

// However the rings are read, the pith is the same, and so is the answer.
func TestRingsReadInAnyWay(t *testing.T) {
	const rest = `"wood": "walnut-black", "width": "200 mm", "thickness": "30 mm", "from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": 8}}`
	pith := askSection(t, `{"rings": {"pith": {"y": "50 mm", "z": "130 mm"}}, `+rest).Result
	// on face 1 the ring at y = 50 + 130 tan a; the one of 100 mm radius is 60 mm high over a chord of 160 mm
	for _, rings := range []string{
		fmt.Sprintf(`{"readings": [{"y": "%.12f mm", "angle_deg": 20}, {"y": "%.12f mm", "angle_deg": 40}]}`, 50+130*math.Tan(math.Pi/9), 50+130*math.Tan(2*math.Pi/9)),
		fmt.Sprintf(`{"readings": [{"y": "%.12f mm", "z": "30 mm", "angle_deg": 20}, {"y": "%.12f mm", "z": "30 mm", "angle_deg": 40}]}`, 50+100*math.Tan(math.Pi/9), 50+100*math.Tan(2*math.Pi/9)),
		`{"chord": {"from": {"y": "-30 mm", "z": "70 mm"}, "to": {"y": "130 mm", "z": "70 mm"}, "height": "40 mm"}, "pith_side": "face_2"}`,
		fmt.Sprintf(`{"angle_deg": %.12f, "radius": "%.12f mm"}`, math.Atan2(50, 115)*180/math.Pi, math.Hypot(50, 115)),
		fmt.Sprintf(`{"angle_deg": %.12f, "radius": "%.12f mm", "lean": "far", "pith_side": "near"}`, math.Atan2(50, 115)*180/math.Pi, math.Hypot(50, 115)),
	} {
		r := askSection(t, `{"rings": `+rings+`, `+rest).Result
		assert.InDelta(t, 50, r.Start.Pith.Y.Value, 1e-6, rings)
		assert.InDelta(t, 130, r.Start.Pith.Z.Value, 1e-6, rings)
		assert.InDelta(t, pith.Shape.Flat.Value, r.Shape.Flat.Value, 1e-7, rings)
	}
	// One angle without a radius: straight rings do not cup.
	straight := askSection(t, `{"rings": {"readings": [{"y": "30 mm", "angle_deg": 40}]}, `+rest)
	assert.InDelta(t, 0, straight.Result.Shape.Faces[0].Cup.Value, 0.001)
	assert.InDelta(t, 40, straight.Result.Start.Rings.Middle, 1e-6)
	assert.Nil(t, straight.Result.Start.Pith, "no place is known of a pith whose rings show no curve")
	assert.Contains(t, straight.Result.Summary, "any curve of theirs would cup it")
	said := ""
	for _, w := range straight.Warnings {
		said += w.Detail + "\n"
	}
	assert.Contains(t, said, "taken as straight")
}

// A section seen in a mirror is the section mirrored.
func TestMirroredSection(t *testing.T) {
	const rest = `"wood": "walnut-black", "width": "200 mm", "thickness": "30 mm", "from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": 8}}`
	of := func(rings string) *shape.SectionShape {
		return askSection(t, `{"rings": `+rings+`, `+rest).Result.Shape
	}
	usual := of(`{"angle_deg": 35, "radius": "150 mm"}`)
	near := of(`{"angle_deg": 35, "radius": "150 mm", "lean": "near"}`)
	assert.InDelta(t, usual.ThicknessNear.Value, near.ThicknessFar.Value, 1e-9)
	assert.InDelta(t, usual.DiagonalFace1.Value, near.DiagonalFace2.Value, 1e-9)
	assert.InDelta(t, usual.Corners.NearFace1.Value, near.Corners.FarFace1.Value, 1e-9)
	over := of(`{"angle_deg": 35, "radius": "150 mm", "lean": "near", "pith_side": "face_1"}`)
	assert.InDelta(t, usual.WidthFace1.Value, over.WidthFace2.Value, 1e-9)
	assert.InDelta(t, usual.DiagonalFace1.Value, over.DiagonalFace2.Value, 1e-9)
	assert.InDelta(t, usual.Faces[0].Cup.Value, over.Faces[1].Cup.Value, 1e-9, "towards the bark, wherever that is")
	assert.NotEqual(t, usual.ThicknessNear.Value, usual.ThicknessFar.Value) //nolint:testifylint // two numbers
}

// What has no bearing is taken and named, once, and labels are given back.
func TestWhatHasNoBearing(t *testing.T) {
	unused := func(warnings []method.Warning) []string {
		var all []string
		for _, w := range warnings {
			if w.Code == method.NotUsed {
				all = append(all, w.Detail)
			}
		}
		return all
	}
	a := askSection(t, `{"wood": {"species": "maple-sugar", "specific_gravity": 0.6}, "width": "200 mm", "thickness": "30 mm", "rings": {"pith": {"z": "130 mm"}, "ring_width": "2 mm"}, "from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": 8}}`)
	assert.Equal(t, []string{"wood.specific_gravity has no bearing on this answer", "rings.ring_width has no bearing on this answer"}, unused(a.Warnings))
	plain := askSection(t, `{"wood": {"species": "maple-sugar"}, "width": "200 mm", "thickness": "30 mm", "rings": {"pith": {"z": "130 mm"}, "angle_sd_deg": 0}, "from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": 8}}`)
	assert.Empty(t, unused(plain.Warnings), "a default that is sent")
	assert.Equal(t, plain.Result.Shape, a.Result.Shape)

	l := askLaminate(t, `{"length": "450 mm", "width": "330 mm", "layers": [{"id": "cap", "name": "cap, figured", "wood": {"species": "maple-sugar", "drying_factor": {"value": 1}}, "thickness": "6 mm", "rings": {"pith": {"y": "165 mm", "z": "90 mm"}, "angle_sd_deg": 3}}, {"wood": "maple-sugar", "thickness": "6 mm", "rings": {"angle_deg": 0}}]`+asking.OkGlued+`}`)
	assert.Equal(t, []string{"layers.wood.drying_factor has no bearing on this answer", "layers.rings.angle_sd_deg has no bearing on this answer"}, unused(l.Warnings))
	assert.Equal(t, "cap", l.Result.Layers[0].ID)
	assert.Equal(t, "cap, figured", l.Result.Layers[0].Name)
	assert.Equal(t, "2", l.Result.Layers[1].ID)
	assert.True(t, l.Result.Symmetric, "a pith under the middle is an angle of 0")
}

// A leg with its rings from corner to corner goes out of square and cups nowhere: that is told
// first. A flatsawn board cups, and is told as before.
func TestOutOfSquareIsToldFirst(t *testing.T) {
	said := func(body string) string {
		return asking.InFull[shape.SectionShapeResult](t, "/v1/section-shape", body).Result.Summary
	}
	assert.Contains(t, said(`{"wood": "maple-sugar", "width": "50 mm", "thickness": "50 mm", "rings": {"angle_deg": 45}, "from_condition": {"mc_pct": 25}, "to_condition": {"mc_pct": 6}}`),
		"free of load it goes out of square: the corner of the near edge comes to 91.7 degrees on face 1 and to 88.3 on face 2; face 1 stays straight")
	for _, rings := range []string{`{"pith": {"z": "130 mm"}}`, `{"angle_deg": 90}`, `{"angle_deg": 0}`} {
		assert.NotContains(t, said(`{"wood": "maple-sugar", "width": "200 mm", "thickness": "30 mm", "rings": `+rings+`, "from_condition": {"mc_pct": 14}, "to_condition": {"mc_pct": 8}}`), "out of square")
	}
}

// Wood that dries from green does not swell, and boxed heart does not close by it: for every band.
func TestDryingSwellsNothing(t *testing.T) {
	r := asking.InFull[shape.SectionShapeResult](t, "/v1/section-shape", `{"wood": "oak-northern-red", "width": "100 mm", "thickness": "100 mm",
		"rings": {"pith": {"y": "50 mm", "z": "50 mm"}}, "from_condition": {"green": true}, "to_condition": {"mc_pct": 12}}`).Result
	assert.LessOrEqual(t, r.Radial.High, 0.0)
	assert.LessOrEqual(t, r.Tangential.High, 0.0)
	assert.GreaterOrEqual(t, r.Heart.Opening.Low, 0.0)
}
