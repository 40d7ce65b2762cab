package movement_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
)

// S_x = S_0 (1 - x/30): 8.6 % at 12 %MC is 5.16 %.
func TestShrinkageFromGreen(t *testing.T) {
	s, err := movement.ShrinkageFromGreen(movement.Tangential(), exact(12), redOak())
	require.NoError(t, err)
	assert.InDelta(t, 0.0516, s.Shrinkage.Value, 1e-12)
	s, err = movement.ShrinkageFromGreen(movement.Tangential(), exact(45), redOak())
	require.NoError(t, err)
	assert.Zero(t, s.Shrinkage.Value)
	assert.Zero(t, s.Shrinkage.High)
}

// Green 1989, FPL-RP-489, lumber equations S_w = 6.031 - 0.215 M and
// S_t = 5.062 - 0.181 M, green at 28 %, valid 8 to 19 %MC; the standard's
// factors at 15 % are 2.80 and 2.35. The rows differ from S_0 (1 - M/28) by the
// rounding of their slopes: at most 0.01 % of size.
func TestGreen1989(t *testing.T) {
	for _, c := range []struct{ s0, slope, standard float64 }{{6.031, 0.215, 2.80}, {5.062, 0.181, 2.35}} {
		wood := movement.Wood{Tangential: movement.Published(c.s0 / 100), FibreSaturation: 0.28}
		for mc := 8.0; mc <= 19; mc++ {
			s, err := movement.ShrinkageFromGreen(movement.Tangential(), exact(mc), wood)
			require.NoError(t, err)
			assert.InDelta(t, c.s0-c.slope*mc, 100*s.Shrinkage.Value, 0.01)
		}
		s, err := movement.ShrinkageFromGreen(movement.Tangential(), exact(15), wood)
		require.NoError(t, err)
		assert.InDelta(t, c.standard, 100*s.Shrinkage.Value, 0.005)
	}
}

// Trade problems Y34 and Y35: quartered leaf, S_T 7.5 %, S_R 4.3 %, target 8 %,
// 4.5 and 215 mm dry: 5.5 % and 4.7619; 3.1533 % and 222.0004.
func TestGreenLeaf(t *testing.T) {
	leaf, err := movement.GreenLeaf(4.5*quantity.Millimetre, 215*quantity.Millimetre, 90*quantity.Degree, 0, exact(8), sitka())
	require.NoError(t, err)
	assert.InDelta(t, 0.055, leaf.Thickness.Shrinkage.Value, 1e-12)
	assert.InDelta(t, 4.7619, leaf.Thickness.Size.Value.Millimetres(), 5e-5)
	assert.InDelta(t, 0.031533, leaf.Width.Shrinkage.Value, 5e-7)
	assert.InDelta(t, 222.0004, leaf.Width.Size.Value.Millimetres(), 5e-5)
	assert.Greater(t, leaf.Thickness.Size.High, leaf.Thickness.Size.Value)
	assert.Less(t, leaf.Thickness.Size.Low, leaf.Thickness.Size.Value)

	// 5.5 % +/- 1.645*15 %: the driest ends by hand.
	assert.InDelta(t, 4.5/(1-0.055*(1+1.644854*0.15)), leaf.Thickness.Size.High.Millimetres(), 1e-6)
	down, err := movement.SizeFromGreen(5*quantity.Millimetre, movement.Tangential(), exact(8), sitka())
	require.NoError(t, err)
	assert.InDelta(t, 5*(1-0.055*(1+1.644854*0.15)), down.Size.Low.Millimetres(), 1e-6)
	assert.InDelta(t, 5*(1-0.055*(1-1.644854*0.15)), down.Size.High.Millimetres(), 1e-6)

	flat, err := movement.GreenLeaf(4.5*quantity.Millimetre, 215*quantity.Millimetre, 0, 0, exact(8), sitka())
	require.NoError(t, err)
	assert.InDelta(t, 0.031533, flat.Thickness.Shrinkage.Value, 5e-7)
	assert.InDelta(t, 0.055, flat.Width.Shrinkage.Value, 1e-12)

	_, err = movement.GreenLeaf(0, 0.2, 0, 0, exact(8), sitka())
	requireCode(t, err, method.OutOfRange, "thickness")
	_, err = movement.GreenLeaf(0.005, -1, 0, 0, exact(8), sitka())
	requireCode(t, err, method.OutOfRange, "width")
	_, err = movement.GreenLeaf(0.005, 0.2, 0, 0, exact(300), sitka())
	requireCode(t, err, method.OutOfRange, "target_mc_pct")
	_, err = movement.GreenOversize(0.005, movement.Tangential(), exact(8), movement.Wood{CoefficientTangential: movement.Published(0.002)})
	requireCode(t, err, method.Unsupported, "wood")
}

func ExampleGreenLeaf() {
	wood := movement.Wood{Tangential: movement.Recall(0.075), Radial: movement.Recall(0.043), FibreSaturation: 0.30}
	target := quantity.NormalBand[quantity.Moisture](0.08, 0)
	leaf, _ := movement.GreenLeaf(4.5*quantity.Millimetre, 215*quantity.Millimetre, 90*quantity.Degree, 0, target, wood)
	fmt.Println(leaf.Thickness.Size.Value.Format("mm"), "thick,", leaf.Width.Size.Value.Format("mm"), "wide")
	// Output: 4.76 mm thick, 222 mm wide
}
