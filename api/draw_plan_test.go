package api

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// slabbed is a plan in which a shake spoils a slab between the leaves.
var slabbed = onePartPlan(`"length": "600 mm", "width": "220 mm", "thickness": "60 mm", "zones": [{"kind": "shake", "x_from": "0 mm", "x_to": "600 mm", "y_from": "50 mm", "y_to": "150 mm", "z_from": "20 mm", "z_to": "27 mm"}]`,
	"1.5 mm", "560 mm", "210 mm", "4.5 mm", "")

// twoParts is a billet that tapers to its far edge and its end, cut into short
// blanks.
const twoParts = `{"species": "black walnut", "billets": [{"name": "W1", "length": "1630 mm", "width": "286 mm", "thickness": "58 mm", "thickness_far_edge": "37 mm", "thickness_end": "52 mm",
	"zones": [{"kind": "shake", "x_from": "0 mm", "x_to": "600 mm", "y_from": "50 mm", "y_to": "150 mm", "z_from": "20 mm", "z_to": "27 mm"}]}],
	"saws": [{"name": "thin", "saw": "bandsaw_thin", "rip_kerf": "3.2 mm", "crosscut_kerf": "3.2 mm"}],
	"parts": [{"name": "small", "length": "240 mm", "width": "60 mm", "final_thickness": "4 mm", "worth": 10}, {"name": "mid", "length": "240 mm", "width": "140 mm", "final_thickness": "4 mm", "worth": 30}]}`

// plansDrawn are requests whose drawings are looked at.
func plansDrawn(t testing.TB) map[string]string {
	t.Helper()
	long := strings.Repeat("quite a long name of a part ", 2)
	plank := demoPlank(t)
	return map[string]string{
		"demo":           plank,
		"order in inch":  exampleText(t, "resaw.two-billets-and-an-order.json"),
		"many billets":   tooLarge(9, 5, "60 mm"),
		"nothing fits":   onePartPlan(`"length": "600 mm", "width": "220 mm", "thickness": "5 mm"`, "1 mm", "500 mm", "200 mm", "4 mm", ""),
		"one ring angle": strings.Replace(plank, `"rings": {"pith": {"y": "395 mm", "z": "25 mm"}}`, `"rings": {"ring_angle_deg": 78}`, 1),
		"pith inside":    strings.NewReplacer(`"y": "395 mm"`, `"y": "180 mm"`, `"least_ring_angle_deg": 60, `, ``).Replace(plank),
		"flat rings":     strings.NewReplacer(`"rings": {"pith": {"y": "395 mm", "z": "25 mm"}}`, `"rings": {"ring_angle_deg": 0.01}`, `"least_ring_angle_deg": 60, `, ``).Replace(plank),
		"no rings":       strings.NewReplacer(`"rings": {"pith": {"y": "395 mm", "z": "25 mm"}}`, `"packed_": 1`, `"least_ring_angle_deg": 60, `, ``, `, "packed_": 1`, ``).Replace(strings.Replace(plank, "],\n      \"rings\": {\"pith\": {\"y\": \"395 mm\", \"z\": \"25 mm\"}}", "]", 1)),
		"slabs and odd leaves": strings.NewReplacer(`"z_from": "20 mm", "z_to": "44 mm"`, `"z_from": "2 mm", "z_to": "9 mm"`, `"least_ring_angle_deg": 60, "worth": 160`, `"worth": 160, "most": 2`,
			`"least_ring_angle_deg": 60, "worth": 110`, `"worth": 110, "most": 1`).Replace(plank),
		"slab":       slabbed,
		"two parts":  twoParts,
		"veneers":    onePartPlan(`"length": "400 mm", "width": "120 mm", "thickness": "90 mm"`, "0.2 mm", "380 mm", "110 mm", "0.6 mm", `, "pieces_per_set": 4`),
		"small ones": onePartPlan(`"length": "1500 mm", "width": "200 mm", "thickness": "40 mm", "thickness_end": "20 mm", "width_end": "120 mm"`, "1 mm", "110 mm", "25 mm", "4 mm", `, "pieces_per_set": 1`),
		"long names": strings.NewReplacer(`"name": "back"`, `"name": "`+long+`"`, `"name": "W1"`, `"name": "the plank behind the door of the shed"`).Replace(plank),
		"one leaf":   onePartPlan(`"length": "600 mm", "width": "220 mm", "thickness": "7 mm"`, "1 mm", "500 mm", "200 mm", "4.5 mm", `, "pieces_per_set": 1`),
		"thick stub": onePartPlan(`"length": "60 mm", "width": "50 mm", "thickness": "300 mm"`, "1 mm", "55 mm", "45 mm", "20 mm", ""),
	}
}

// Drawings of plans and their templates are whole, in black and grey, and no text
// lies on another or beyond the sheet.
func TestDrawingsOfPlans(t *testing.T) {
	if underRace {
		t.Skip("a single goroutine, ten times slower under the race detector")
	}
	for name, body := range plansDrawn(t) {
		for _, as := range []string{"svg", "template"} {
			t.Run(name+" "+as, func(t *testing.T) {
				root := drawn(t, drawnOf(t, "/v1/resaw?as="+as, body))
				sheet := strings.Fields(root.attr("viewBox"))
				require.Len(t, sheet, 4)
				width, height := numberIn(t, sheet[2]), numberIn(t, sheet[3])
				unit := ""
				if as == "template" {
					unit = "mm"
				}
				assert.Equal(t, sheet[2]+unit, root.attr("width"))
				assert.Equal(t, sheet[3]+unit, root.attr("height"))
				var boxes []box
				root.all(func(s *shape) {
					for _, a := range s.Attrs {
						switch a.Name.Local {
						case "x", "y", "x1", "x2", "y1", "y2":
							v := numberIn(t, a.Value)
							assert.True(t, v >= 0 && v <= math.Max(width, height), "%s=%s", a.Name.Local, a.Value)
						case "width", "height":
							if unit == "" || s.XMLName.Local != "svg" {
								assert.GreaterOrEqual(t, numberIn(t, a.Value), 0.0)
							}
						}
					}
					if s.XMLName.Local == "text" {
						boxes = append(boxes, boxOf(t, s))
					}
				})
				require.NotEmpty(t, boxes)
				for i, b := range boxes {
					assert.True(t, b.left >= 0 && b.top >= 0 && b.right <= width && b.bottom <= height, "outside the sheet: %+v", b)
					for _, other := range boxes[:i] {
						assert.False(t, b.meets(other), "%q lies on %q", b.words, other.words)
					}
				}
			})
		}
	}
}

// A general-purpose renderer takes them; LATEWOOD_DRAWINGS names a folder that
// keeps the pictures.
func TestDrawingsOfPlansRender(t *testing.T) {
	if underRace {
		t.Skip("a single goroutine, ten times slower under the race detector")
	}
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
			command.Stdin = strings.NewReader(drawnOf(t, "/v1/resaw?as="+as, body))
			out, err := command.CombinedOutput()
			require.NoError(t, err, "%s: %s", name, out)
			assert.Empty(t, string(out), name)
		}
	}
}

// rectangles are those of a drawing with a filling.
func rectangles(t testing.TB, root *shape, fill string) [][4]float64 {
	t.Helper()
	var all [][4]float64
	root.all(func(s *shape) {
		if s.XMLName.Local == "rect" && s.attr("fill") == fill && s.attr("x") != "" {
			all = append(all, [4]float64{s.number(t, "x"), s.number(t, "y"), s.number(t, "width"), s.number(t, "height")})
		}
	})
	return all
}

// corners are the points of the polygons of a drawing with an attribute.
func corners(t testing.TB, root *shape, name, value string) [][]point {
	t.Helper()
	var all [][]point
	root.all(func(s *shape) {
		if s.XMLName.Local != "polygon" || s.attr(name) != value {
			return
		}
		var one []point
		for pair := range strings.FieldsSeq(s.attr("points")) {
			x, y, _ := strings.Cut(pair, ",")
			one = append(one, point{numberIn(t, x), numberIn(t, y)})
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
	root := drawn(t, drawnOf(t, "/v1/resaw?as=template", demoPlank(t)))
	black := rectangles(t, root, "#000")
	require.NotEmpty(t, black)
	assert.InDelta(t, 100.0, black[0][2], 0, "the check bar")
	ends := corners(t, root, "fill", "none")
	b := r.Billets[0]
	starts := map[float64]int{} // of the lengths
	for _, k := range b.Blanks {
		if _, known := starts[k.X.Value]; !known {
			starts[k.X.Value] = len(starts)
		}
	}
	require.Len(t, ends, 2)
	require.Len(t, starts, 2)
	for _, end := range ends {
		assert.InDelta(t, 360, end[1].x-end[0].x, 0.011)
		assert.InDelta(t, 40, end[2].y-end[1].y, 0.011, "thickness of the far edge")
		assert.InDelta(t, 62, end[3].y-end[0].y, 0.011, "thickness of the near edge")
	}
	var want [][4]float64
	var rips []float64
	blank := -1
	for _, s := range b.Steps {
		switch s.Action {
		case "flatten":
			blank++
		case "rip":
			rips = append(rips, s.At.Value)
		case "resaw":
			k := b.Blanks[blank]
			end := ends[starts[k.X.Value]]
			want = append(want, [4]float64{end[0].x + k.Y.Value, end[0].y + k.Face1.Value + s.At.Value, k.Width.Value, s.Width.Value})
		}
	}
	require.Len(t, black, len(want)+1)
	for i := range want {
		for side := range want[i] {
			assert.InDelta(t, want[i][side], black[i+1][side], 0.0101, "cut %d, printed to hundredths of a millimetre", i)
		}
	}
	var kerfs []float64
	for _, k := range corners(t, root, "fill", "#000") {
		kerfs = append(kerfs, math.Round(100*(k[0].x-ends[0][0].x))/100)
		assert.InDelta(t, 3.2, k[1].x-k[0].x, 0.011, "rip kerf")
	}
	assert.ElementsMatch(t, rips, kerfs)
}

// In inches a second bar measures 4 in.
func TestTemplateHasABarInInches(t *testing.T) {
	root := drawn(t, drawnOf(t, "/v1/resaw?as=template", exampleText(t, "resaw.two-billets-and-an-order.json")))
	black := rectangles(t, root, "#000")
	assert.InDelta(t, 100.0, black[0][2], 0)
	assert.InDelta(t, 4*25.4, black[1][2], 0)
}

// The ends of a tapered billet are drawn as they are at their places.
func TestTemplateFollowsTheTaper(t *testing.T) {
	root := drawn(t, drawnOf(t, "/v1/resaw?as=template", plansDrawn(t)["small ones"]))
	ends := corners(t, root, "fill", "none")
	require.Greater(t, len(ends), 3)
	for i, end := range ends {
		at := float64(i) * 111 // lengths of 110 mm and a kerf of 1 mm
		assert.InDelta(t, 200-80*at/1500, end[1].x-end[0].x, 0.02, "width of end %d", i)
		assert.InDelta(t, 40-20*at/1500, end[3].y-end[0].y, 0.02, "thickness of end %d", i)
	}
}

// A zone is drawn in an end view where it lies in a blank of that view, not where
// it lies beyond its end.
func TestZonesOfEndViews(t *testing.T) {
	boxes := func(body string) (n int) {
		drawn(t, drawnOf(t, "/v1/resaw?as=svg", body)).all(func(s *shape) {
			if s.XMLName.Local == "rect" && s.attr("stroke-dasharray") == "3 2" && s.number(t, "x") < aboveLeft-1 {
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
	root := drawn(t, drawnOf(t, "/v1/resaw?as=svg", demoPlank(t)))
	written := map[float64]bool{}
	all := ""
	root.all(func(s *shape) {
		if s.XMLName.Local == "text" {
			all += s.Words + "\n"
			if s.attr("text-anchor") == "end" && s.number(t, "x") == aboveLeft-15 {
				written[numberIn(t, s.Words)] = true
			}
		}
	})
	for _, k := range r.Billets[0].Blanks {
		assert.True(t, written[k.Y.Value], "%v", k.Y.Value)
		assert.True(t, written[math.Round(1000*(k.Y.Value+k.Width.Value))/1000], "%v", k.Y.Value+k.Width.Value)
	}
	assert.Contains(t, all, "62 mm to 40 mm (near to far edge)")
	assert.Contains(t, all, "thin band: worth 1782; 6 sets of back; 7 sets of sides")
	assert.NotContains(t, all, "planed 1.")
}

// Where even that is too much, the drawing says so.
func TestTooManyPlacesAreSaid(t *testing.T) {
	body := onePartPlan(`"length": "600 mm", "width": "800 mm", "thickness": "20 mm"`, "1 mm", "500 mm", "20 mm", "4 mm", `, "pieces_per_set": 1`)
	assert.Contains(t, drawnOf(t, "/v1/resaw?as=svg", body), "not everything is named")
	assert.NotContains(t, drawnOf(t, "/v1/resaw?as=svg", demoPlank(t)), "not everything is named")
}

// A label of a blank stays within its rim.
func TestLabelsStayInTheirBlanks(t *testing.T) {
	for name, body := range plansDrawn(t) {
		root := drawn(t, drawnOf(t, "/v1/resaw?as=svg", body))
		blanks := rectangles(t, root, "#fff")
		root.all(func(s *shape) {
			if s.XMLName.Local != "text" || s.attr("text-anchor") != "middle" || s.attr("transform") != "" || s.number(t, "x") < aboveLeft {
				return
			}
			b := boxOf(t, s)
			for _, k := range blanks {
				if k[2] == planSheet || k[3] == planLabel { // the paper, and what labels stand on
					continue
				}
				if x, y := (b.left+b.right)/2, (b.top+b.bottom)/2; x > k[0] && x < k[0]+k[2] && y > k[1] && y < k[1]+k[3] {
					assert.True(t, b.left > k[0] && b.right < k[0]+k[2] && b.top > k[1] && b.bottom < k[1]+k[3], "%s: %q", name, b.words)
				}
			}
		})
	}
}

// Blanks lie in the view from above where the answer says.
func TestPlanSeenFromAboveIsInProportion(t *testing.T) {
	r := planOf(t, demoPlank(t)).Result
	root := drawn(t, drawnOf(t, "/v1/resaw?as=svg", demoPlank(t)))
	white := rectangles(t, root, "#fff")
	scale := aboveWidth / 1905
	for _, k := range r.Billets[0].Blanks {
		found := false
		for _, w := range white {
			found = found || math.Abs(w[0]-aboveLeft-scale*k.X.Value) < 0.011 && math.Abs(w[2]-scale*k.Length.Value) < 0.011 && math.Abs(w[3]-scale*k.Width.Value) < 0.011
		}
		assert.True(t, found, k.Label)
	}
}

// Another billet, and the date, as the request asks.
func TestTemplateOfAnotherBillet(t *testing.T) {
	body := strings.Replace(exampleText(t, "resaw.two-billets-and-an-order.json"), `"report_in"`, `"template_billet": 2, "date": "2026-05-01", "report_in"`, 1)
	text := drawnOf(t, "/v1/resaw?as=template", body)
	assert.Contains(t, text, "tapered: ends at true scale")
	assert.Contains(t, text, "2026-05-01")
	assert.NotContains(t, text, "quartered")
}
