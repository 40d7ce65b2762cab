package cut_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/cut"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// The kerf and the leaf with which one more is had are told with digits that can be measured, and
// asked for as they are told they do give it: they are rounded down, never up. So does the widest
// kerf of a plan.
func TestLimitsOfOneMoreLeafAreKept(t *testing.T) {
	asked := 0
	for i := range 60 {
		thick, leaf, kerf := 40+0.77*float64(i), 2.9+0.031*float64(i), 1.1+0.013*float64(i)
		for _, unit := range []string{"mm", "in"} {
			system := map[string]string{"mm": "metric", "in": "inch"}[unit]
			yield := func(leaf, kerf string) shelf.LeafYieldResult {
				return asking.AnswerTo[shelf.LeafYieldResult](t, "/v1/leaf-yield", fmt.Sprintf(`{"billet": {"length": "600 mm", "width": "220 mm", "thickness": "%g mm", "facing_face_1": "0 mm", "facing_face_2": "0 mm"},
					"saw": {"kerf": "%s"}, "part": {"length": "500 mm", "width": "200 mm", "sawn_thickness": "%s"}, "report_in": "%s"}`, thick, kerf, leaf, system)).Result
			}
			said := func(v float64) string { return fmt.Sprintf("%.9f %s", v, "mm") }
			more := yield(said(leaf), said(kerf)).OneMoreLeaf
			require.NotNil(t, more)
			tell := func(q *wire.Quantity) string {
				places := map[string]float64{"mm": 1e3, "in": 1e4}[unit]
				assert.InDelta(t, math.Round(q.Value*places), q.Value*places, 1e-6, "%g %s", q.Value, unit)
				return fmt.Sprintf("%.9f %s", q.Value, unit)
			}
			if more.MaxKerf != nil {
				asked++
				assert.Equal(t, more.Leaves, yield(said(leaf), tell(more.MaxKerf)).Leaves, "kerf of %v", more.MaxKerf)
			}
			if more.MaxLeaf != nil {
				asked++
				assert.Equal(t, more.Leaves, yield(tell(more.MaxLeaf), said(kerf)).Leaves, "leaf of %v", more.MaxLeaf)
				tell(more.ThinnerBy)
			}
		}
	}
	assert.GreaterOrEqual(t, asked, 200)
}

// The widest kerf of a plan, as it is told in either system, still gives every leaf.
func TestWidestKerfOfAPlanIsKept(t *testing.T) {
	for i := range 8 {
		for _, unit := range []string{"mm", "in"} {
			body := fmt.Sprintf(`{"billets": [{"length": "600 mm", "width": "220 mm", "thickness": "%g mm", "facing_face_1": "0 mm", "facing_face_2": "0 mm"}], "saws": [{"kerf": "KERF"}],
				"parts": [{"id": "leaf", "length": "560 mm", "width": "210 mm", "final_thickness": "3.1 mm", "match": "none"}], "report_in": "%s"}`,
				40+0.77*float64(i), map[string]string{"mm": "metric", "in": "inch"}[unit])
			r := asking.AnswerTo[cut.ResawPlanResult](t, "/v1/resaw-plan", strings.Replace(body, "KERF", "1.2 mm", 1)).Result
			require.NotNil(t, r.MaxKerf)
			again := asking.AnswerTo[cut.ResawPlanResult](t, "/v1/resaw-plan", strings.Replace(body, "KERF", fmt.Sprintf("%.9f %s", r.MaxKerf.Value, unit), 1)).Result
			assert.GreaterOrEqual(t, again.Parts[0].Sets, r.Parts[0].Sets, "%g %s", r.MaxKerf.Value, unit)
		}
	}
}
