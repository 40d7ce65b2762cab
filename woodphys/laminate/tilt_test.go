package laminate_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// A layer whose moisture runs in a straight line from face to face bends freely, without any
// stress, by the strain between its faces over its thickness.
func TestTiltBendsFreely(t *testing.T) {
	w := shrinks(0.04, 0.09, 0.001)
	l := laminate.Layer{Wood: w, Elastic: full(10000, 0.05, 0.1, 0.06, 0.05, 0.01, 0.4, 0.5, 0.6), Thickness: 20 * mm, AtGlueUp: exact(10), Later: exact(8), Tilt: 0.02}
	out := bend(t, l)
	// the upper face is moister by 2 points of 30: 0.09 x 2/30 of the green width, which at 10 %
	// is 1 - 0.09 x 20/30 of it
	strain := 0.09 * 2 / 30 / (1 - 0.09*20.0/30)
	assert.InEpsilon(t, strain/0.020, out.CurvatureY.Value, 1e-3, "hollow below")
	assert.InEpsilon(t, -strain/0.020*0.3*0.3/8, float64(out.Cup.Value), 1e-3)
	for _, h := range []laminate.Held{out.Layers[0].Lower, out.Layers[0].Upper} {
		assert.InDelta(t, 0, float64(h.StressAcross.Value), 1, "Pa, of megapascals")
		assert.InDelta(t, 0, float64(h.StressAlong.Value), 1)
	}
	assert.False(t, out.Symmetric)
	even := l
	even.Tilt = 0
	assert.InDelta(t, float64(bend(t, even).ChangeWidth.Value), float64(out.ChangeWidth.Value), 1e-12, "its mean is the same")
	assert.True(t, bend(t, even).Symmetric)
	assert.Less(t, out.Cup.Low, out.Cup.Value, "pieces shrink differently, and the tilt with them")

	// the same as many thin even layers in a staircase, whose bend comes near with their number
	stairs := make([]laminate.Layer, 20)
	for i := range stairs {
		stairs[i] = even
		stairs[i].Thickness = 1 * mm
		stairs[i].Later = exact(8 - 1 + (float64(i)+0.5)/10)
	}
	assert.InEpsilon(t, float64(out.Cup.Value), float64(bend(t, stairs...).Cup.Value), 0.005)
}

// Tilts that mirror each other leave a panel flat, and hold each other: the outer faces that
// are drier are pulled.
func TestMirroredTiltsStayFlat(t *testing.T) {
	l := laminate.Layer{Wood: shrinks(0.04, 0.09, 0.001), Elastic: full(10000, 0.05, 0.1, 0.06, 0.05, 0.01, 0.4, 0.5, 0.6), Thickness: 5 * mm, AtGlueUp: exact(10), Later: exact(8)}
	below, above := l, l
	below.Tilt, above.Tilt = 0.02, -0.02
	out := bend(t, below, above)
	assert.True(t, out.Symmetric)
	assert.InDelta(t, 0, float64(out.Cup.Value), 1e-12)
	assert.Positive(t, out.Layers[1].Upper.StressAcross.Value)
	assert.Negative(t, out.Layers[1].Lower.StressAcross.Value)
	assert.InDelta(t, float64(out.Layers[1].Upper.StressAcross.Value), float64(out.Layers[0].Lower.StressAcross.Value), 1e-3)
	assert.InDelta(t, 0, float64(out.GlueLines[0].AtSides.Shear.Value), 1e-3, "each layer's own force is nought")

	wrong := l
	wrong.Tilt = quantity.Moisture(math.Inf(1))
	_, err := laminate.Bend(laminate.Panel{Layers: []laminate.Layer{l, wrong}, Length: 0.5, Width: 0.3})
	var domain *method.Error
	require.ErrorAs(t, err, &domain)
	assert.Equal(t, "layers/1/tilt_mc_points", domain.Input)
}
