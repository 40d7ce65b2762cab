package cut

import (
	"math"
	"regexp"
	"testing"

	json "github.com/go-json-experiment/json"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/shelf"
)

var (
	places = regexp.MustCompile(`<line x1="([-0-9.]+)"`)
)

// The strips are to scale: at 60 degrees lines either side of the seam miss by
// the shift as opened, and lie alike after jointing.
func TestRingLinesOfTheDrawingAreToScale(t *testing.T) {
	request := new(BookmatchRequest)
	require.NoError(t, json.Unmarshal([]byte(`{"billet": {"width": "210 mm", "rings": {"angle_deg": 60, "lean": "far", "ring_width": "2 mm"}},
		"stack": {"leaves": 2, "sawn_thickness": "4.5 mm"}, "saw": {"kerf": "1.3 mm", "cleanup_show": "0.5 mm"}, "openings": ["bookmatch"]}`), request))
	tables, err := shelf.LoadTables()
	require.NoError(t, err)
	result, _, err := ComputeBookmatch(t.Context(), tables, request)
	require.NoError(t, err)
	d, drawn := result.drawn.(*matchDrawing)
	require.True(t, drawn)
	d.draw()
	left, right, cured := d.halves(0)
	require.True(t, cured)
	compared := 0
	for i, at := range left.lines {
		for k := range at {
			if k < len(right.lines[i]) {
				compared++
				assert.InDelta(t, 1.3279e-3, math.Abs(at[k]-right.lines[i][k]), 5e-8)
				assert.InDelta(t, at[k]-left.given, right.lines[i][k]-right.given, 1e-9)
			}
		}
	}
	assert.Greater(t, compared, 20)
	assert.NotEmpty(t, places.FindAllString(string(d.draw()), -1))
}
