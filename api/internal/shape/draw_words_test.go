package shape_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/drawing"
	"latewood/api/internal/shape"
)

// Rings of a layer are drawn at their angle, however flat, in the lines between the
// edges of the layer.
func TestRingLinesLieAtTheirAngle(t *testing.T) {
	for angle, words := range map[float64]string{3: "3", 10: "10", 45: "45", 80: "80"} {
		root := asking.Drawn(t, asking.DrawnOf(t, "/v1/laminate?as=svg", `{"length": "450 mm", "width": "330 mm", "layers": [{"wood": "maple-sugar", "thickness": "20 mm", "rings": {"angle_deg": `+words+`}}],
			"glue_up_condition": {"mc_pct": 9}, "later_condition": {"mc_pct": 7}}`))
		lines := 0
		root.All(func(s *asking.Shape) {
			if s.XMLName.Local != "line" || s.Attr("stroke") != "#999" || s.Number(t, "y2") > shape.LayersBottom || s.Number(t, "y1") < shape.LayersTop {
				return
			}
			x, y := s.Number(t, "x2")-s.Number(t, "x1"), s.Number(t, "y1")-s.Number(t, "y2")
			if math.Hypot(x, y) > 30 { // shorter ones are rounded too much
				lines++
				assert.InDelta(t, angle, math.Atan2(y, x)*180/math.Pi, 0.1)
			}
		})
		assert.Greater(t, lines, 5, words)
	}
}

// A label and its figure, and the two columns, stand apart.
func TestFigureColumnsStandApart(t *testing.T) {
	for _, target := range []string{"/v1/laminate", "/v1/section-shape"} {
		for i, body := range asking.ExampleBodies(t)[target] {
			root := asking.Drawn(t, asking.DrawnOf(t, target+"?as=svg", string(body)))
			asking.TextsOf(t, root)
			right := 0.0
			left := math.Inf(1)
			root.All(func(s *asking.Shape) {
				if s.XMLName.Local != "text" || s.Number2("y") < 370 || s.Number2("y") > 520 {
					return
				}
				b := asking.BoxOf(t, s)
				if s.Attr("text-anchor") == drawing.FromRight && b.Right < 400 {
					right = math.Max(right, b.Right)
				}
				if s.Attr("text-anchor") == drawing.FromLeft && b.Left > 300 {
					left = math.Min(left, b.Left)
				}
			})
			require.NotZero(t, right)
			assert.Greater(t, left-right, 25.0, "%s %d", target, i)
		}
	}
}

// The measures of a section do not run past their lines.
func TestMeasuresOfASectionFit(t *testing.T) {
	for i, body := range asking.ExampleBodies(t)["/v1/section-shape"] {
		root := asking.Drawn(t, asking.DrawnOf(t, "/v1/section-shape?as=svg", string(body)))
		var tall float64
		root.All(func(s *asking.Shape) {
			if s.XMLName.Local == "line" && s.Number(t, "x1") == s.Number(t, "x2") && s.Number(t, "x1") < shape.SectionRight {
				tall = math.Max(tall, math.Abs(s.Number(t, "y2")-s.Number(t, "y1")))
			}
		})
		root.All(func(s *asking.Shape) {
			if s.XMLName.Local == "text" && strings.HasPrefix(s.Attr("transform"), "translate") {
				b := asking.BoxOf(t, s)
				assert.LessOrEqual(t, b.Bottom-b.Top, tall+0.01, "%d: %q", i, b.Words)
			}
		})
	}
}
