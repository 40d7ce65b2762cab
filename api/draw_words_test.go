package api

import (
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Rings of a layer are drawn at their angle, however flat, in the lines between the
// edges of the layer.
func TestRingLinesLieAtTheirAngle(t *testing.T) {
	for angle, words := range map[float64]string{3: "3", 10: "10", 45: "45", 80: "80"} {
		root := drawn(t, drawnOf(t, "/v1/laminate?as=svg", `{"length": "450 mm", "width": "330 mm", "layers": [{"species": "maple-sugar", "thickness": "20 mm", "ring_angle_deg": `+words+`}],
			"at_glue_up": {"mc_pct": 9}, "later": {"mc_pct": 7}}`))
		lines := 0
		root.all(func(s *shape) {
			if s.XMLName.Local != "line" || s.attr("stroke") != "#999" || s.number(t, "y2") > layersBottom || s.number(t, "y1") < layersTop {
				return
			}
			x, y := s.number(t, "x2")-s.number(t, "x1"), s.number(t, "y1")-s.number(t, "y2")
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
	for _, target := range []string{"/v1/laminate", "/v1/section"} {
		for i, body := range exampleBodies(t)[target] {
			root := drawn(t, drawnOf(t, target+"?as=svg", string(body)))
			textsOf(t, root)
			right := 0.0
			left := math.Inf(1)
			root.all(func(s *shape) {
				if s.XMLName.Local != "text" || s.number2("y") < 370 || s.number2("y") > 520 {
					return
				}
				b := boxOf(t, s)
				if s.attr("text-anchor") == fromRight && b.right < 400 {
					right = math.Max(right, b.right)
				}
				if s.attr("text-anchor") == fromLeft && b.left > 300 {
					left = math.Min(left, b.left)
				}
			})
			require.NotZero(t, right)
			assert.Greater(t, left-right, 25.0, "%s %d", target, i)
		}
	}
}

// The measures of a section do not run past their lines.
func TestMeasuresOfASectionFit(t *testing.T) {
	for i, body := range exampleBodies(t)["/v1/section"] {
		root := drawn(t, drawnOf(t, "/v1/section?as=svg", string(body)))
		var tall float64
		root.all(func(s *shape) {
			if s.XMLName.Local == "line" && s.number(t, "x1") == s.number(t, "x2") && s.number(t, "x1") < sectionRight {
				tall = math.Max(tall, math.Abs(s.number(t, "y2")-s.number(t, "y1")))
			}
		})
		root.all(func(s *shape) {
			if s.XMLName.Local == "text" && strings.HasPrefix(s.attr("transform"), "translate") {
				b := boxOf(t, s)
				assert.LessOrEqual(t, b.bottom-b.top, tall+0.01, "%d: %q", i, b.words)
			}
		})
	}
}

// What a reader cannot guess is said in words.
func TestDrawingsSayWhatTheyMean(t *testing.T) {
	year := textsOf(t, drawn(t, drawnOf(t, "/v1/in-service?as=svg", exampleText(t, "in-service.octave-mandolin-in-a-heated-room.json"))))
	assert.Contains(t, year, "days behind the air")
	assert.Equal(t, 2, strings.Count(year, "held: "), "top and back are held")

	body, err := os.ReadFile("../testdata/demo/instrument/octave-mandolin.json")
	require.NoError(t, err)
	root := drawn(t, drawnOf(t, "/v1/movement-figures?as=svg", string(body)))
	figures := strings.ReplaceAll(textsOf(t, root), "\n", " ")
	assert.Contains(t, figures, "Per 1 % MC: how far the size changes with each percentage point of moisture content.")
	assert.Contains(t, figures, " pear, figures from memory, ")
	assert.Contains(t, figures, " 6 to 11.7 % ")
	assert.Contains(t, figures, "A clearance below 0 is a press fit")
	last := 0.0
	root.all(func(s *shape) {
		if s.XMLName.Local == "text" {
			last = math.Max(last, s.number(t, "y"))
		}
	})
	assert.Less(t, numberIn(t, strings.Fields(root.attr("viewBox"))[3])-last, 40.0, "no empty half of a page")

	match := textsOf(t, drawn(t, drawnOf(t, "/v1/bookmatch?as=svg", exampleText(t, "bookmatch.stack-with-the-pith.json"))))
	assert.Contains(t, match, "2.5 mm of wood lost between the faces that show")

	timing := textsOf(t, drawn(t, drawnOf(t, "/v1/resaw/timing?as=svg", exampleText(t, "timing.maple-billet-at-eighteen-percent.json"))))
	assert.Contains(t, timing, "Madison, WI\n")
}
