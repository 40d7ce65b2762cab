package api

import (
	"fmt"
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

// The template is in millimetres: its bar measures 100, and every cut of the
// plan lies where the answer says, from face 1 and the near edge.
func TestTemplateIsAtTrueScale(t *testing.T) {
	r := planOf(t, demoPlank(t)).Result
	root := drawn(t, drawnOf(t, "/v1/resaw?as=template", demoPlank(t)))
	black := rectangles(t, root, "#000")
	require.NotEmpty(t, black)
	assert.InDelta(t, 100.0, black[0][2], 0, "the check bar")
	var left, top float64
	root.all(func(s *shape) {
		if s.XMLName.Local == "polygon" {
			_, err := fmt.Sscanf(s.attr("points"), "%g,%g", &left, &top)
			require.NoError(t, err)
			var x, y float64
			_, err = fmt.Sscanf(strings.Fields(s.attr("points"))[2], "%g,%g", &x, &y)
			require.NoError(t, err)
			assert.InDelta(t, 360, x-left, 0.011)
			assert.InDelta(t, 40, y-top, 0.011, "thickness of the far edge")
		}
	})
	var want [][4]float64
	b := r.Billets[0]
	blank := -1
	for _, s := range b.Steps {
		if s.Action == "flatten" {
			blank++
		}
		if s.Action == "resaw" && b.Blanks[blank].X.Value == b.Blanks[0].X.Value {
			k := b.Blanks[blank]
			want = append(want, [4]float64{left + k.Y.Value, top + k.Face1.Value + s.At.Value, k.Width.Value, s.Width.Value})
		}
	}
	require.Len(t, black, len(want)+1)
	for i := range want {
		for side := range want[i] {
			assert.InDelta(t, want[i][side], black[i+1][side], 0.0101, "cut %d, printed to hundredths of a millimetre", i)
		}
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
	assert.Contains(t, text, "tapered: start end")
	assert.Contains(t, text, "2026-05-01")
	assert.NotContains(t, text, "quartered")
}
