package laminate_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

func strips(t1, e1, t2, e2 float64) (laminate.Strip, laminate.Strip) {
	return laminate.Strip{Thickness: quantity.Length(t1) * mm, Modulus: quantity.Pressure(e1) * quantity.Megapascal},
		laminate.Strip{Thickness: quantity.Length(t2) * mm, Modulus: quantity.Pressure(e2) * quantity.Megapascal}
}

func sure(v float64) quantity.Band[float64] { return quantity.Band[float64]{Value: v, Low: v, High: v} }

// Timoshenko 1925, from memory: equal layers 3/2 (eq. 5); equal thickness
// 24/(14 + n + 1/n) (eq. 6), so that n = 2 or 1/2 changes it by 3 %.
func TestTimoshenkoPublished(t *testing.T) {
	for _, n := range []float64{1, 2, 0.5, 3, 10} {
		upper, lower := strips(5, 1000*n, 5, 1000)
		b, err := laminate.TwoLayers(upper, lower, sure(0.002), 0.2)
		require.NoError(t, err)
		assert.InDelta(t, 24/(14+n+1/n)*0.002/0.010, b.Curvature.Value, 1e-12)
		assert.InDelta(t, 1/b.Curvature.Value, float64(b.Radius), 1e-9)
	}
	assert.InDelta(t, 0.03, 1-24/16.5/1.5, 0.001)
}

// Cap and body, worked problem L01: cap 6 on body 38, equal stiffness, flatsawn sugar
// maple on quartered true mahogany, both lose 2 % after gluing, 330 wide.
func TestCapAndBodyL01(t *testing.T) {
	maple := wood.Wood{CoefficientTangential: wood.Published(0.00353), FibreSaturation: 0.30}
	mahogany := wood.Wood{CoefficientRadial: wood.Published(0.00172), FibreSaturation: 0.30}
	upper, lower := strips(6, 1000, 38, 1000)
	top := laminate.Member{Wood: maple, Direction: movement.Tangential(), Strip: upper, From: exact(10), To: exact(8)}
	body := laminate.Member{Wood: mahogany, Direction: movement.Radial(), Strip: lower, From: exact(10), To: exact(8)}
	p, err := laminate.CapAndBody(top, body, 330*mm)
	require.NoError(t, err)
	assert.InDelta(t, 0.00362, p.Difference.Value, 1e-9)
	assert.InDelta(t, 1.1946, p.Free.Value.Millimetres(), 1e-6)
	assert.InDelta(t, 17.2, float64(p.Bent.Radius), 0.05)
	assert.InDelta(t, 0.7914, p.Bent.Cup.Value.Millimetres(), 5e-5)
	// independent woods: 15 % of 0.00706 and of 0.00344, and the error of the coefficients
	one := quantity.Z90 * math.Hypot(0.15, math.Hypot(0.21, 5/30.0/quantity.Z90))
	assert.InEpsilon(t, one*math.Hypot(0.00706, 0.00344), (p.Difference.High-p.Difference.Low)/2, 0.05)
	body.Strip.Thickness = 0
	_, err = laminate.CapAndBody(top, body, 330*mm)
	expect.Code(t, err, method.OutOfRange, "body/thickness")
	body.Wood = wood.Wood{}
	_, err = laminate.CapAndBody(top, body, 330*mm)
	expect.Code(t, err, method.MissingData, "body/wood")
}

// Swapping the strips turns the curvature over; scaling both moduli does nothing;
// scaling all thicknesses by f divides the curvature by f.
func TestStripProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		t1, t2, e1, e2, d := f(0.1, 100, "t1"), f(0.1, 100, "t2"), f(50, 20000, "e1"), f(50, 20000, "e2"), f(-0.1, 0.1, "d")
		a, b := strips(t1, e1, t2, e2)
		in := quantity.Band[float64]{Value: d, Low: d - 0.001, High: d + 0.002}
		up, err := laminate.TwoLayers(a, b, in, 0.1)
		require.NoError(t, err)
		down, err := laminate.TwoLayers(b, a, quantity.Band[float64]{Value: -d, Low: -in.High, High: -in.Low}, 0.1)
		require.NoError(t, err)
		tol := 1e-9 * (1 + math.Abs(up.Curvature.Value))
		require.InDelta(t, up.Curvature.Value, -down.Curvature.Value, tol)
		require.InDelta(t, up.Curvature.Low, -down.Curvature.High, 100*tol)
		c, e := strips(3*t1, 2*e1, 3*t2, 2*e2)
		big, err := laminate.TwoLayers(c, e, in, 0.1)
		require.NoError(t, err)
		require.InDelta(t, up.Curvature.Value/3, big.Curvature.Value, tol)
		require.LessOrEqual(t, up.Curvature.Low, up.Curvature.Value)
		require.LessOrEqual(t, up.Curvature.Value, up.Curvature.High)
	})
}

func TestStripRefused(t *testing.T) {
	a, b := strips(5, 1000, 5, 1000)
	for _, v := range []float64{nan, inf, -inf} {
		bad := a
		bad.Thickness = quantity.Length(v)
		_, err := laminate.TwoLayers(bad, b, sure(0.01), 1)
		expect.Code(t, err, method.OutOfRange, "upper/thickness")
		bad = b
		bad.Modulus = quantity.Pressure(v)
		_, err = laminate.TwoLayers(a, bad, sure(0.01), 1)
		expect.Code(t, err, method.OutOfRange, "lower/modulus")
		_, err = laminate.TwoLayers(a, b, sure(v), 1)
		expect.Code(t, err, method.OutOfRange, "difference_pct")
		_, err = laminate.TwoLayers(a, b, sure(0.01), quantity.Length(v))
		expect.Code(t, err, method.OutOfRange, "width")
	}
	_, err := laminate.TwoLayers(a, b, quantity.Band[float64]{Value: 0.01, Low: 0.02, High: 0.03}, 1)
	expect.Code(t, err, method.Contradictory, "difference_pct")
}

// The edge estimate by hand for two layers without Poisson's ratios (Chen and Nelson
// 1979 with bending): F = de/lambda, tau = F beta tanh(beta L/2).
func TestGlueLineByHand(t *testing.T) {
	layer := func(thick, s float64) laminate.Layer {
		return laminate.Layer{
			Wood: shrinks(0.04, s, 0.001), Elastic: full(10000, 0.06, 0.1, 0.08, 0.08, 0.01, 0, 0, 0.4), Thickness: quantity.Length(thick) * mm,
			AtGlueUp: exact(30), Later: exact(0),
		}
	}
	w := bend(t, layer(4, 0.02), layer(2, 0.05))
	const e, t1, t2 = 600e6, 0.002, 0.004
	lambda := 1/(e*t1) + 1/(e*t2) + (t1+t2)*(t1+t2)/4*12/(e*(t1*t1*t1+t2*t2*t2))
	force := 0.03 / lambda
	through := 0.1e-3/300e6 + (t1+t2)/(3*100e6)
	beta := math.Sqrt(lambda / through)
	edge := w.GlueLines[0].AtSides
	assert.InDelta(t, force, edge.Force.Value, 1e-9*force)
	assert.InDelta(t, force*beta*math.Tanh(beta*0.15), float64(edge.Shear.Value), 1e-6*force*beta)
	assert.InDelta(t, 1/beta, float64(edge.Zone), 1e-12)
	assert.InDelta(t, 3, float64(edge.Peel.Value/edge.Shear.Value), 1e-9)
	assert.InDelta(t, 9, float64(edge.Shear.High/edge.Shear.Low), 1e-9)
}
