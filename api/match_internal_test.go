package api

import (
	"math"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	places = regexp.MustCompile(`<line x1="([-0-9.]+)"`)
)

// The strips are to scale: at 60 degrees lines either side of the seam miss by
// the shift as opened, and lie alike after jointing.
func TestRingLinesOfTheDrawingAreToScale(t *testing.T) {
	request := decodedRequest[BookmatchRequest](t, `{"width": "210 mm", "leaves": {"count": 2, "thickness": "4.5 mm", "kerf": "1.3 mm"}, "cleanup": {"show": "0.5 mm"},
		"rings": {"ring_angle_deg": 60, "lean": "right"}, "ring_width": "2 mm", "openings": ["bookmatch"]}`)
	tables, err := loadTables()
	require.NoError(t, err)
	result, _, err := computeBookmatch(t.Context(), tables, request)
	require.NoError(t, err)
	d := result.drawn
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

func decodedRequest[T any](t *testing.T, body string) *T {
	t.Helper()
	request, err := decode[T]([]byte(body))
	require.NoError(t, err)
	return request
}
