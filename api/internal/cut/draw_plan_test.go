package cut_test

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/cut"
	"latewood/api/internal/drawing"
)

// slabbed is a plan in which a shake spoils a slab between the leaves.
var slabbed = onePartPlan(`"length": "600 mm", "width": "220 mm", "thickness": "60 mm", "zones": [{"kind": "shake", "x_from": "0 mm", "x_to": "600 mm", "y_from": "50 mm", "y_to": "150 mm", "z_from": "20 mm", "z_to": "27 mm"}]`,
	"1.5 mm", "560 mm", "210 mm", "4.5 mm", "")

// twoParts is a billet that tapers to its far edge and its end, cut into short
// blanks.
const twoParts = `{"billets": [{"id": "W1", "wood": "black walnut", "length": "1630 mm", "width": "286 mm", "thickness": "58 mm", "far_thickness": "37 mm", "end_thickness": "52 mm",
	"zones": [{"kind": "shake", "x_from": "0 mm", "x_to": "600 mm", "y_from": "50 mm", "y_to": "150 mm", "z_from": "20 mm", "z_to": "27 mm"}]}],
	"saws": [{"id": "thin", "usual_kerf": "bandsaw_thin", "rip_kerf": "3.2 mm", "crosscut_kerf": "3.2 mm"}],
	"parts": [{"id": "small", "length": "240 mm", "width": "60 mm", "final_thickness": "4 mm", "set_value": 10}, {"id": "mid", "length": "240 mm", "width": "140 mm", "final_thickness": "4 mm", "set_value": 30}]}`

// plansDrawn are requests whose drawings are looked at.
func plansDrawn(t testing.TB) map[string]string {
	t.Helper()
	long := strings.Repeat("quite a long name of a part ", 2)
	plank := demoPlank(t)
	return map[string]string{
		"demo":           plank,
		"order in inch":  asking.ExampleText(t, "resaw-plan.two-billets-and-an-order.json"),
		"many billets":   tooLarge(9, 5, "60 mm"),
		"nothing fits":   onePartPlan(`"length": "600 mm", "width": "220 mm", "thickness": "5 mm"`, "1 mm", "500 mm", "200 mm", "4 mm", ""),
		"one ring angle": strings.Replace(plank, `"rings": {"pith": {"y": "395 mm", "z": "25 mm"}}`, `"rings": {"angle_deg": 78}`, 1),
		"pith inside":    strings.NewReplacer(`"y": "395 mm"`, `"y": "180 mm"`, `"min_ring_angle_deg": 60, `, ``).Replace(plank),
		"flat rings":     strings.NewReplacer(`"rings": {"pith": {"y": "395 mm", "z": "25 mm"}}`, `"rings": {"angle_deg": 0.01}`, `"min_ring_angle_deg": 60, `, ``).Replace(plank),
		"no rings":       strings.NewReplacer(`"rings": {"pith": {"y": "395 mm", "z": "25 mm"}}`, `"packed_": 1`, `"min_ring_angle_deg": 60, `, ``, `, "packed_": 1`, ``).Replace(strings.Replace(plank, "],\n      \"rings\": {\"pith\": {\"y\": \"395 mm\", \"z\": \"25 mm\"}}", "]", 1)),
		"slabs and odd leaves": strings.NewReplacer(`"z_from": "20 mm", "z_to": "44 mm"`, `"z_from": "2 mm", "z_to": "9 mm"`, `"min_ring_angle_deg": 60, "set_value": 160`, `"set_value": 160, "max_sets": 2`,
			`"min_ring_angle_deg": 60, "set_value": 110`, `"set_value": 110, "max_sets": 1`).Replace(plank),
		"slab":       slabbed,
		"two parts":  twoParts,
		"veneers":    onePartPlan(`"length": "400 mm", "width": "120 mm", "thickness": "90 mm"`, "0.2 mm", "380 mm", "110 mm", "0.6 mm", `, "pieces_per_set": 4`),
		"small ones": onePartPlan(`"length": "1500 mm", "width": "200 mm", "thickness": "40 mm", "end_thickness": "20 mm", "end_width": "120 mm"`, "1 mm", "110 mm", "25 mm", "4 mm", `, "pieces_per_set": 1`),
		"long names": strings.NewReplacer(`"id": "back"`, `"name": "`+long+`"`, `"id": "W1"`, `"id": "the-plank-behind-the-door-of-the-shed", "name": "the plank behind the door of the shed"`).Replace(plank),
		"one leaf":   onePartPlan(`"length": "600 mm", "width": "220 mm", "thickness": "7 mm"`, "1 mm", "500 mm", "200 mm", "4.5 mm", `, "pieces_per_set": 1`),
		"thick stub": onePartPlan(`"length": "60 mm", "width": "50 mm", "thickness": "300 mm"`, "1 mm", "55 mm", "45 mm", "20 mm", ""),
	}
}

// Drawings of plans and their templates are whole, in black and grey, and no text
// lies on another or beyond the sheet.
func TestDrawingsOfPlans(t *testing.T) {
	asking.OneByOne(t)
	for name, body := range plansDrawn(t) {
		for _, as := range []string{"svg", "template"} {
			t.Run(name+" "+as, func(t *testing.T) {
				root := asking.Drawn(t, asking.DrawnOf(t, "/v1/resaw-plan?as="+as, body))
				sheet := strings.Fields(root.Attr("viewBox"))
				require.Len(t, sheet, 4)
				width, height := asking.NumberIn(t, sheet[2]), asking.NumberIn(t, sheet[3])
				unit := ""
				if as == "template" {
					unit = "mm"
				}
				assert.Equal(t, sheet[2]+unit, root.Attr("width"))
				assert.Equal(t, sheet[3]+unit, root.Attr("height"))
				var boxes []asking.Box
				root.All(func(s *asking.Shape) {
					for _, a := range s.Attrs {
						switch a.Name.Local {
						case "x", "y", "x1", "x2", "y1", "y2":
							v := asking.NumberIn(t, a.Value)
							assert.True(t, v >= 0 && v <= math.Max(width, height), "%s=%s", a.Name.Local, a.Value)
						case "width", "height":
							if unit == "" || s.XMLName.Local != "svg" {
								assert.GreaterOrEqual(t, asking.NumberIn(t, a.Value), 0.0)
							}
						}
					}
					if s.XMLName.Local == "text" {
						boxes = append(boxes, asking.BoxOf(t, s))
					}
				})
				require.NotEmpty(t, boxes)
				for i, b := range boxes {
					assert.True(t, b.Left >= 0 && b.Top >= 0 && b.Right <= width && b.Bottom <= height, "outside the sheet: %+v", b)
					for _, other := range boxes[:i] {
						assert.False(t, b.Meets(other), "%q lies on %q", b.Words, other.Words)
					}
				}
			})
		}
	}
}

// Plans are laid out for a narrow screen; LATEWOOD_SWEEP=1 looks at wider ones as well.
func TestPlansForTheWidthTheyGet(t *testing.T) {
	asking.OneByOne(t)
	widths := asking.ScreenWidths
	if os.Getenv("LATEWOOD_SWEEP") == "" {
		widths = widths[:1]
	}
	for name, body := range plansDrawn(t) {
		for _, width := range widths {
			t.Run(name+" "+strconv.Itoa(width), func(t *testing.T) {
				asking.HeldToWidth(t, asking.DrawnOf(t, "/v1/resaw-plan?as=svg&width="+strconv.Itoa(width), body), width)
			})
		}
	}
}

// A general-purpose renderer takes them; LATEWOOD_DRAWINGS names a folder that
// keeps the pictures.
func TestDrawingsOfPlansRender(t *testing.T) {
	asking.OneByOne(t)
	program, err := exec.LookPath("rsvg-convert")
	if err != nil {
		t.Skip("rsvg-convert is not here; apt-get install librsvg2-bin")
	}
	keep := os.Getenv("LATEWOOD_DRAWINGS")
	for name, body := range plansDrawn(t) {
		for _, as := range []string{"svg", "template"} {
			if keep == "" && name != "demo" {
				continue
			}
			file := filepath.Join(t.TempDir(), "drawing.png")
			if keep != "" {
				file = filepath.Join(keep, "plan-"+strings.ReplaceAll(name, " ", "-")+"-"+as+".png")
			}
			command := exec.CommandContext(t.Context(), program, "--width", "1300", "--output", file)
			command.Stdin = strings.NewReader(asking.DrawnOf(t, "/v1/resaw-plan?as="+as, body))
			out, err := command.CombinedOutput()
			require.NoError(t, err, "%s: %s", name, out)
			assert.Empty(t, string(out), name)
		}
	}
}

// rectangles are those of a drawing with a filling.
func rectangles(t testing.TB, root *asking.Shape, fill string) [][4]float64 {
	t.Helper()
	var all [][4]float64
	root.All(func(s *asking.Shape) {
		if s.XMLName.Local == "rect" && s.Attr("fill") == fill && s.Attr("x") != "" {
			all = append(all, [4]float64{s.Number(t, "x"), s.Number(t, "y"), s.Number(t, "width"), s.Number(t, "height")})
		}
	})
	return all
}

// corners are the points of the polygons of a drawing with an attribute.
func corners(t testing.TB, root *asking.Shape, name, value string) [][]drawing.Point {
	t.Helper()
	var all [][]drawing.Point
	root.All(func(s *asking.Shape) {
		if s.XMLName.Local != "polygon" || s.Attr(name) != value {
			return
		}
		var one []drawing.Point
		for pair := range strings.FieldsSeq(s.Attr("points")) {
			x, y, _ := strings.Cut(pair, ",")
			one = append(one, drawing.At(asking.NumberIn(t, x), asking.NumberIn(t, y)))
		}
		all = append(all, one)
	})
	return all
}

// The template is in millimetres: its bar measures 100, it has the end of every
// length, and every rip and resaw cut of the plan lies where the answer says, from
// face 1 and the near edge.
func TestTemplateIsAtTrueScale(t *testing.T) {
	r := planOf(t, demoPlank(t)).Result
	root := asking.Drawn(t, asking.DrawnOf(t, "/v1/resaw-plan?as=template", demoPlank(t)))
	black := rectangles(t, root, "#000")
	require.NotEmpty(t, black)
	assert.InDelta(t, 100.0, black[0][2], 0, "the check bar")
	ends := corners(t, root, "fill", "none")
	b := r.Billets[0]
	require.NotEmpty(t, ends)
	for _, end := range ends {
		assert.InDelta(t, 360, end[1].X-end[0].X, 0.011)
		assert.InDelta(t, 40, end[2].Y-end[1].Y, 0.011, "thickness of the far edge")
		assert.InDelta(t, 62, end[3].Y-end[0].Y, 0.011, "thickness of the near edge")
	}
	// Every resaw cut is drawn on the end of a length that its blank reaches.
	drawn := func(want [4]float64) bool {
		return slices.ContainsFunc(black[1:], func(is [4]float64) bool {
			for side := range want {
				if math.Abs(want[side]-is[side]) > 0.0101 { // printed to hundredths of a millimetre
					return false
				}
			}
			return true
		})
	}
	rips := map[float64]bool{}
	blank, cuts := -1, 0
	for _, s := range b.Steps {
		switch s.Action {
		case "flatten":
			blank++
		case "rip":
			if !strings.HasPrefix(s.Name, "leaf ") && (s.Low == nil || s.Low.Thickness == nil) { // no leaf is parted
				rips[math.Round(100*s.Position.Value)/100] = true
			}
		case "resaw":
			if strings.HasPrefix(s.Detail, "saw the taper off") {
				continue
			}
			k := b.Blanks[blank]
			found := false
			for _, end := range ends {
				at := [4]float64{end[0].X + k.Y.Value, end[0].Y + k.Z.Value + s.Position.Value, k.Width.Value, s.Removed.Value}
				if k.Turned {
					at = [4]float64{end[0].X + k.Y.Value + s.Position.Value, end[0].Y + k.Z.Value, s.Removed.Value, k.Usable.Value}
				}
				found = found || drawn(at)
			}
			assert.True(t, found, "step %d", s.Number)
			cuts++
		}
	}
	require.Positive(t, cuts)
	for _, k := range corners(t, root, "fill", "#000") {
		assert.True(t, rips[math.Round(100*(k[0].X-ends[0][0].X))/100], "a rip of the plan")
		assert.LessOrEqual(t, k[1].X-k[0].X, 3.211, "a rip kerf, or what of it lies in the wood")
	}
}

// In inches the bar to hold a rule against measures 4 in, and there is no other.
func TestTemplateHasABarInInches(t *testing.T) {
	root := asking.Drawn(t, asking.DrawnOf(t, "/v1/resaw-plan?as=template", asking.ExampleText(t, "resaw-plan.two-billets-and-an-order.json")))
	black := rectangles(t, root, "#000")
	assert.InDelta(t, 4*25.4, black[0][2], 0)
	assert.Greater(t, math.Abs(black[1][2]-100), 1e-9, "no second one")
}

// The ends of a tapered billet are drawn as they are at their places.
func TestTemplateFollowsTheTaper(t *testing.T) {
	root := asking.Drawn(t, asking.DrawnOf(t, "/v1/resaw-plan?as=template", plansDrawn(t)["small ones"]))
	ends := corners(t, root, "fill", "none")
	require.Greater(t, len(ends), 3)
	for i, end := range ends {
		at := float64(i) * 111 // lengths of 110 mm and a kerf of 1 mm
		assert.InDelta(t, 200-80*at/1500, end[1].X-end[0].X, 0.02, "width of end %d", i)
		assert.InDelta(t, 40-20*at/1500, end[3].Y-end[0].Y, 0.02, "thickness of end %d", i)
	}
}

// A zone is drawn in an end view where it lies in a blank of that view, not where
// it lies beyond its end.
func TestZonesOfEndViews(t *testing.T) {
	boxes := func(body string) (n int) {
		asking.Drawn(t, asking.DrawnOf(t, "/v1/resaw-plan?as=svg", body)).All(func(s *asking.Shape) {
			if s.XMLName.Local == "rect" && s.Attr("stroke-dasharray") == "3 2" && s.Number(t, "x") < cut.AboveLeft-1 {
				n++
			}
		})
		return n
	}
	assert.Equal(t, 0, boxes(demoPlank(t)), "the knot lies beyond the end of its strip's blank, the check before it")
	assert.Equal(t, 1, boxes(slabbed), "the shake lies in the blank")
}

// Every place across the width is written, those that crowd too, and tapers are told.
func TestPlacesAcrossAreAllWritten(t *testing.T) {
	r := planOf(t, demoPlank(t)).Result
	root := asking.Drawn(t, asking.DrawnOf(t, "/v1/resaw-plan?as=svg", demoPlank(t)))
	written := map[float64]bool{}
	all := ""
	root.All(func(s *asking.Shape) {
		if s.XMLName.Local == "text" {
			all += s.Words + "\n"
			if s.Attr("text-anchor") == "end" && s.Number(t, "x") == cut.AboveLeft-15 {
				written[asking.NumberIn(t, s.Words)] = true
			}
		}
	})
	for _, k := range r.Billets[0].Blanks {
		assert.True(t, written[k.Y.Value], "%v", k.Y.Value)
		assert.True(t, written[math.Round(1000*(k.Y.Value+k.Width.Value))/1000], "%v", k.Y.Value+k.Width.Value)
	}
	assert.Contains(t, all, "62 mm to 40 mm (near to far edge)")
	assert.Regexp(t, "thin band: worth [0-9]+; [0-9]+ sets of back; [0-9]+ sets of sides", all)
	assert.NotContains(t, all, "planed 1.")
}

// Where even that is too much, the drawing says so.
func TestTooManyPlacesAreSaid(t *testing.T) {
	body := onePartPlan(`"length": "600 mm", "width": "800 mm", "thickness": "20 mm"`, "1 mm", "500 mm", "20 mm", "4 mm", `, "pieces_per_set": 1`)
	assert.Contains(t, asking.DrawnOf(t, "/v1/resaw-plan?as=svg", body), "not everything is named")
	assert.NotContains(t, asking.DrawnOf(t, "/v1/resaw-plan?as=svg", demoPlank(t)), "not everything is named")
}

// A label of a blank stays within its rim.
func TestLabelsStayInTheirBlanks(t *testing.T) {
	for name, body := range plansDrawn(t) {
		root := asking.Drawn(t, asking.DrawnOf(t, "/v1/resaw-plan?as=svg", body))
		blanks := rectangles(t, root, "#fff")
		root.All(func(s *asking.Shape) {
			if s.XMLName.Local != "text" || s.Attr("text-anchor") != "middle" || s.Attr("transform") != "" || s.Number(t, "x") < cut.AboveLeft {
				return
			}
			b := asking.BoxOf(t, s)
			for _, k := range blanks {
				if k[2] == cut.PlanSheet || k[3] == cut.PlanLabel { // the paper, and what labels stand on
					continue
				}
				if x, y := (b.Left+b.Right)/2, (b.Top+b.Bottom)/2; x > k[0] && x < k[0]+k[2] && y > k[1] && y < k[1]+k[3] {
					assert.True(t, b.Left > k[0] && b.Right < k[0]+k[2] && b.Top > k[1] && b.Bottom < k[1]+k[3], "%s: %q", name, b.Words)
				}
			}
		})
	}
}

// Blanks lie in the view from above where the answer says.
func TestPlanSeenFromAboveIsInProportion(t *testing.T) {
	r := planOf(t, demoPlank(t)).Result
	root := asking.Drawn(t, asking.DrawnOf(t, "/v1/resaw-plan?as=svg", demoPlank(t)))
	white := rectangles(t, root, "#fff")
	scale := cut.AboveWidth / 1905
	for _, k := range r.Billets[0].Blanks {
		found := false
		for _, w := range white {
			found = found || math.Abs(w[0]-cut.AboveLeft-scale*k.X.Value) < 0.011 && math.Abs(w[2]-scale*k.Length.Value) < 0.011 && math.Abs(w[3]-scale*k.Width.Value) < 0.011
		}
		assert.True(t, found, k.ID)
	}
}

// Another billet, and the date, as the request asks.
func TestTemplateOfAnotherBillet(t *testing.T) {
	body := strings.Replace(asking.ExampleText(t, "resaw-plan.two-billets-and-an-order.json"), `"report_in"`, `"template_billet": "tapered", "as_of": "2026-05-01", "report_in"`, 1)
	text := asking.DrawnOf(t, "/v1/resaw-plan?as=template", body)
	assert.Contains(t, text, "tapered: ends at true scale")
	assert.Contains(t, text, "2026-05-01")
	assert.NotContains(t, text, "quartered")
}
