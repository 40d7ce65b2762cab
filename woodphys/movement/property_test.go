package movement_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

func drawWood(t *rapid.T) wood.Wood {
	f := rapid.Float64Range
	return wood.Wood{
		Radial: wood.Published(f(0.01, 0.12).Draw(t, "radial")), Tangential: wood.Published(f(0.01, 0.16).Draw(t, "tangential")),
		FibreSaturation: quantity.Moisture(f(0.15, 0.40).Draw(t, "fibre saturation")),
	}
}

func drawDirection(t *rapid.T) movement.Direction {
	return movement.WidthAt(quantity.Angle(rapid.Float64Range(0, 90).Draw(t, "ring angle"))*quantity.Degree, 0)
}

func final(t require.TestingT, size quantity.Length, d movement.Direction, from, to float64, w wood.Wood) quantity.Length {
	m, err := movement.Change(size, d, exact(from), exact(to), w)
	require.NoError(t, err)
	return m.Final.Value
}

// The total shrinkage form does not depend on the path and can be reversed, at
// any moisture content, also across fibre saturation.
func TestPathIndependent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, d := drawWood(t), drawDirection(t)
		mc := rapid.Float64Range(0, 120)
		a, b, c := mc.Draw(t, "a"), mc.Draw(t, "b"), mc.Draw(t, "c")
		direct := final(t, 1, d, a, c, w)
		require.InDelta(t, float64(direct), float64(final(t, final(t, 1, d, a, b, w), d, b, c, w)), 1e-12)
		require.InDelta(t, 1, float64(final(t, final(t, 1, d, a, b, w), d, b, a, w)), 1e-12)
	})
}

func TestMonotoneAndSigned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, d := drawWood(t), drawDirection(t)
		mc := rapid.Float64Range(0, 60)
		from, low, step := mc.Draw(t, "from"), mc.Draw(t, "to"), rapid.Float64Range(0, 30).Draw(t, "step")
		a, b := final(t, 1, d, from, low, w), final(t, 1, d, from, low+step, w)
		require.LessOrEqual(t, float64(a), float64(b)+1e-15, "wetter is never smaller")
		if low > from {
			require.GreaterOrEqual(t, float64(a), 1-1e-15, "wetting does not shrink")
		} else {
			require.LessOrEqual(t, float64(a), 1+1e-15, "drying does not swell")
		}
	})
}

// A length in inches and the same length in millimetres give the same answer,
// and the change is proportional to the dimension.
func TestUnitInvariance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, d := drawWood(t), drawDirection(t)
		mc := rapid.Float64Range(0, 40)
		from, to := about(mc.Draw(t, "from"), 0.5), about(mc.Draw(t, "to"), 1)
		x := rapid.Float64Range(0.01, 500).Draw(t, "inches")
		a, err := movement.Change(quantity.Length(x)*quantity.Inch, d, from, to, w)
		require.NoError(t, err)
		b, err := movement.Change(quantity.Length(x*25.4)*quantity.Millimetre, d, from, to, w)
		require.NoError(t, err)
		require.InDelta(t, float64(a.Change.Value/quantity.Inch), b.Change.Value.Millimetres()/25.4, 1e-10*x)
		require.InDelta(t, float64(a.Change.High/quantity.Inch), b.Change.High.Millimetres()/25.4, 1e-10*x)
		one, err := movement.Change(1, d, from, to, w)
		require.NoError(t, err)
		require.InDelta(t, float64(one.Change.Low), float64(a.Change.Low)/(x*0.0254), 1e-12)
		require.LessOrEqual(t, a.Change.Low, a.Change.Value)
		require.LessOrEqual(t, a.Change.Value, a.Change.High)
	})
}

// No input, however broken, panics, and an answer is always finite.
func TestAnyInput(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{0, nan, inf, -inf, 0.1, 0.3, 1e-300}))
		figure := func(name string) wood.Figure {
			return wood.Figure{Value: f.Draw(t, name), Known: rapid.Bool().Draw(t, name+" known")}
		}
		w := wood.Wood{Radial: figure("r"), Tangential: figure("t"), Volumetric: figure("v"), Longitudinal: figure("l"),
			CoefficientRadial: figure("cr"), CoefficientTangential: figure("ct"),
			CoefficientFibreSaturation: quantity.Moisture(f.Draw(t, "cf")), FibreSaturation: quantity.Moisture(f.Draw(t, "fs"))}
		mc := func(name string) band {
			return band{Value: quantity.Moisture(f.Draw(t, name)), Low: quantity.Moisture(f.Draw(t, name+" low")), High: quantity.Moisture(f.Draw(t, name+" high"))}
		}
		d := movement.WidthAt(quantity.Angle(f.Draw(t, "angle")), quantity.Angle(f.Draw(t, "sd")))
		if m, err := movement.Change(quantity.Length(f.Draw(t, "dimension")), d, mc("from"), mc("to"), w); err == nil {
			require.False(t, isNaN(float64(m.Change.Low)) || isNaN(float64(m.Change.High)) || isNaN(float64(m.Change.Value)))
		}
	})
}
