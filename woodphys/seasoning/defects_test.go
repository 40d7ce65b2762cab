package seasoning_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// Each harm is told of where its conditions hold, and of nothing else.
func TestDefectsByWoodAndExposure(t *testing.T) {
	kinds := func(ease wood.Ease, listing wood.Listing, start quantity.Moisture, celsius, rh float64, exposure drying.Exposure) []seasoning.DefectKind {
		p := board(t)
		p.Wood.Ease, p.Wood.Listing = ease, listing
		p.Thickness, p.Start = 50*quantity.Millimetre, seasoning.Start{MC: start, SD: 0.03}
		climate, err := drying.Constant(quantity.Celsius(celsius), rh)
		require.NoError(t, err)
		p.Phases = []drying.Phase{{Length: 730 * quantity.Day, Climate: climate, Exposure: exposure}}
		rest, err := (&seasoning.Room{Temperature: quantity.Celsius(20), RelativeHumidity: 0.45}).For(start, 0, sorption.CurvesOf(&p.Wood))
		require.NoError(t, err)
		a, err := seasoning.Forecast(t.Context(), &seasoning.Question{Piece: p, Rest: rest})
		require.NoError(t, err)
		var list []seasoning.DefectKind
		for _, d := range a.Defects {
			list = append(list, d.Kind)
			assert.NotEmpty(t, d.Advice)
			assert.Positive(t, d.Span)
		}
		return list
	}
	wet := kinds(wood.Refractory, wood.ListedHardwood, 0.75, 60, 0.35, drying.Kiln())
	assert.Contains(t, wet, seasoning.Honeycomb, "green oak straight into a hot kiln")
	assert.Contains(t, wet, seasoning.Collapse)
	assert.Contains(t, wet, seasoning.Casehardening)
	assert.NotContains(t, kinds(wood.Easy, wood.ListedHardwood, 0.75, 60, 0.35, drying.Kiln()), seasoning.Honeycomb)
	wrapped := kinds(wood.Moderate, wood.ListedHardwood, 0.60, 18, 0.7, drying.Wrapped())
	for _, kind := range []seasoning.DefectKind{seasoning.Mould, seasoning.Stain, seasoning.Decay, seasoning.Insects} {
		assert.Contains(t, wrapped, kind, "wood in film")
	}
	assert.NotContains(t, wrapped, seasoning.Honeycomb)
	assert.Empty(t, kinds(wood.Refractory, wood.ListedHardwood, 0.14, 20, 0.45, drying.ClosedRoom()), "dry wood in a room")
	assert.NotContains(t, kinds(wood.Moderate, wood.ListedSoftwood, 0.60, 18, 0.7, drying.Wrapped()), seasoning.Insects)
}
