package api_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

// What a reader cannot guess is said in words.
func TestDrawingsSayWhatTheyMean(t *testing.T) {
	year := asking.TextsOf(t, asking.Drawn(t, asking.DrawnOf(t, "/v1/year-in-service?as=svg", asking.ExampleText(t, "year-in-service.octave-mandolin-in-a-heated-room.json"))))
	assert.Contains(t, year, "days behind the air")
	assert.Equal(t, 2, strings.Count(year, "held: "), "top and back are held")

	body, err := os.ReadFile("../testdata/demo/instrument/octave-mandolin.json")
	require.NoError(t, err)
	pressed := strings.Replace(string(body), `"min_clearance": "0.2 mm"`, `"min_clearance": "-2 mm"`, 1)
	root := asking.Drawn(t, asking.DrawnOf(t, "/v1/assembly-movement?as=svg", pressed))
	figures := strings.ReplaceAll(asking.TextsOf(t, root), "\n", " ")
	assert.Contains(t, figures, "Per 1 % MC: how far the size changes with each percentage point of moisture content.")
	assert.Contains(t, figures, " pear, figures from memory, ")
	assert.Contains(t, figures, " 5.2 to 12.3 % ")
	assert.Contains(t, figures, "A clearance below 0 is a press fit")
	last := 0.0
	root.All(func(s *asking.Shape) {
		if s.XMLName.Local == "text" {
			last = math.Max(last, s.Number(t, "y"))
		}
	})
	assert.Less(t, asking.NumberIn(t, strings.Fields(root.Attr("viewBox"))[3])-last, 40.0, "no empty half of a page")

	match := asking.TextsOf(t, asking.Drawn(t, asking.DrawnOf(t, "/v1/bookmatch?as=svg", asking.ExampleText(t, "bookmatch.stack-with-the-pith.json"))))
	assert.Contains(t, match, "2.5 mm of wood lost between the faces that show")

	timing := asking.TextsOf(t, asking.Drawn(t, asking.DrawnOf(t, "/v1/resaw-timing?as=svg", asking.ExampleText(t, "resaw-timing.maple-billet-at-eighteen-percent.json"))))
	assert.Contains(t, timing, "Madison, WI\n")
}
