package api_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/api/internal/shape"
	"latewood/species"
)

// widthAsked asks a route how a width of 100 mm changes from one condition to another; change
// is where it answers, in mm or percent, and start what is taken off there. A reading is never
// exact, and the band of a year holds more than two airs: those two are held by their middle.
type widthAsked struct {
	route, body, change string
	start, within       float64
	banded              bool
}

var (
	widthByMoisture = []widthAsked{
		{"/v1/movement", `{"wood": WOOD, "size": "100 mm", "size_ring_angle_deg": RING, "from_condition": FROM, "to_condition": TO}`,
			"/result/change", 0, 1e-9, true},
		{"/v1/laminate", `{"length": "1 m", "width": "100 mm", "layers": [LAYER, LAYER], "glue_up_condition": FROM, "later_condition": TO}`,
			"/result/width_change", 0, 1e-9, true},
		{"/v1/assembly-movement", `{"build_condition": FROM, "driest_condition": TO, "wettest_condition": FROM, "parts": [PART]}`,
			"/result/parts/0/sizes/dimension=width/to_driest", 0, 1e-9, true},
		{"/v1/readiness", `{"billet": {"wood": WOOD, "thickness": "50 mm", "width": "100 mm", "length": "1 m", "rings": {"angle_deg": RING}}, "readings": [{"kind": "stated", "mc_pct": 12, "mc_sd_points": 0.01}], "target_condition": TO}`,
			"/result/movement/dimension=width/change", 0, 1e-9, false},
		{"/v1/section-shape", `{"wood": WOOD, "width": "100 mm", "thickness": "1 mm", "rings": {"angle_deg": RING}, "from_condition": FROM, "to_condition": TO}`,
			"/result/DIRECTION_strain", 0, 1e-9, true},
	}
	widthByAir = []widthAsked{
		{"/v1/movement", widthByMoisture[0].body, "/result/change", 0, 1e-9, true},
		{"/v1/laminate", widthByMoisture[1].body, "/result/width_change", 0, 1e-9, true},
		{"/v1/assembly-movement", widthByMoisture[2].body, "/result/parts/0/sizes/dimension=width/to_driest", 0, 1e-9, true},
		{"/v1/section-shape", widthByMoisture[4].body, "/result/DIRECTION_strain", 0, 1e-9, true},
		{"/v1/year-in-service", `{"room": TO, "build_condition": FROM, "parts": [THIN]}`, "/result/parts/0/sizes/dimension=width/driest", 100, 1e-5, false},
	}
)

// ask returns the band that a route answers with, before it is rounded.
func (q *widthAsked) ask(t *testing.T, body, change string) map[string]float64 {
	t.Helper()
	answer := asking.InFull[any](t, q.route, body).Result
	found, is := at(answer, strings.TrimPrefix(change, "/result"))
	require.True(t, is, "no %s in the answer to %s", change, body)
	band, is := found.(map[string]any)
	require.True(t, is)
	got := map[string]float64{}
	for _, end := range []string{"value", "low", "high"} {
		got[end], is = band[end].(float64)
		require.True(t, is, "no %s in the answer to %s", end, body)
	}
	return got
}

// Every route that is asked how a width changes answers alike, for every wood of the tables,
// flat and on the quarter: to 1e-9 in the middle, and with one band.
func TestAllRoutesAnswerAlike(t *testing.T) {
	asking.OneByOne(t)
	tables, err := species.Default()
	require.NoError(t, err)
	for i, w := range tables.Woods() {
		if testing.Short() && i%10 != 0 {
			continue
		}
		ring, direction := [2]string{"0", "90"}[i%2], [2]string{"tangential", "radial"}[i%2]
		layer := `{"wood": WOOD, "thickness": "5 mm", "rings": {"angle_deg": RING}}`
		for _, c := range []struct {
			to    string
			asked []widthAsked
		}{
			{`{"mc_pct": 8}`, widthByMoisture},
			{`{"air": {"temperature": "20 C", "rh_pct": 40}}`, widthByAir},
		} {
			fill := strings.NewReplacer("LAYER", layer, "PART", `{"wood": WOOD, "thickness": "20 mm", "width": "100 mm", "rings": {"angle_deg": RING}}`,
				"THIN", `{"wood": WOOD, "thickness": "1 mm", "width": "100 mm", "rings": {"angle_deg": RING}}`)
			given := strings.NewReplacer("WOOD", `"`+w.ID+`"`, "RING", ring, "FROM", `{"mc_pct": 12}`, "TO", c.to, "DIRECTION", direction)
			var first map[string]float64
			for _, q := range c.asked {
				got := q.ask(t, given.Replace(fill.Replace(q.body)), given.Replace(q.change))
				if first == nil {
					first = got
				}
				require.InDelta(t, first["value"], got["value"]-q.start, q.within, "%s of %s", q.route, w.ID)
				if q.banded {
					require.InDelta(t, first["low"], got["low"], 1e-6, "%s of %s", q.route, w.ID)
					require.InDelta(t, first["high"], got["high"], 1e-6, "%s of %s", q.route, w.ID)
				}
			}
		}
	}
}

// The same air gives a layer the moisture content that it gives a board.
func TestLayersTellTheMoistureOfTheirAir(t *testing.T) {
	const air = `{"air": {"temperature": "20 C", "rh_pct": 45}}`
	board := asking.AnswerTo[moist.MovementResult](t, "/v1/movement",
		`{"wood": "maple-sugar", "size": "100 mm", "direction": "radial", "from_condition": `+air+`, "to_condition": {"air": {"temperature": "20 C", "rh_pct": 24}}}`)
	panel := asking.AnswerTo[shape.LaminateResult](t, "/v1/laminate",
		`{"length": "1 m", "width": "100 mm", "layers": [{"wood": "maple-sugar", "thickness": "5 mm", "rings": {"angle_deg": 0}}], "glue_up_condition": `+air+`, "later_condition": {"air": {"temperature": "20 C", "rh_pct": 24}}}`)
	assert.Equal(t, board.Result.From, panel.Result.Layers[0].GlueUp)
	assert.Equal(t, board.Result.To, panel.Result.Layers[0].Later)
}
