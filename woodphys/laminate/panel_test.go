package laminate_test

import (
	"fmt"
	"math"
	"math/rand/v2"
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

// A spruce plate with a cross-grained layer glued below it, in a dry winter.
func ExampleBend() {
	recalled := func(v float64) wood.Figure { return wood.Figure{Value: v, Known: true, Recalled: true} }
	spruce := wood.Wood{Radial: recalled(0.043), Tangential: recalled(0.075), FibreSaturation: 0.30}
	p := wood.Published
	elastic := laminate.Elastic{EL: 10900 * quantity.Megapascal, Group: wood.Softwood, StandIn: wood.Ratios{ // means of the conifers
		ETEL: p(0.0574), EREL: p(0.0963), GLREL: p(0.0824), GLTEL: p(0.0771), GRTEL: p(0.0092), PoissonLR: p(0.3525), PoissonLT: p(0.3651), PoissonRT: p(0.4259),
	}}
	made, winter := quantity.NormalBand(9*quantity.PercentMC, 0), quantity.NormalBand(6*quantity.PercentMC, 0)
	layer := laminate.Layer{Wood: spruce, Elastic: elastic, Ring: 90 * quantity.Degree, AtGlueUp: made, Later: winter}
	below, above := layer, layer
	below.Thickness, below.Grain = 1*quantity.Millimetre, 90*quantity.Degree
	above.Thickness = 3 * quantity.Millimetre
	w, err := laminate.Bend(laminate.Panel{Layers: []laminate.Layer{below, above}, Length: 500 * quantity.Millimetre, Width: 380 * quantity.Millimetre})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("across %.1f mm hollow above (%.1f to %.1f), symmetric %t\n", w.Cup.Value.Millimetres(), w.Cup.Low.Millimetres(), w.Cup.High.Millimetres(), w.Symmetric)
	// Output: across 28.3 mm hollow above (16.2 to 44.7), symmetric false
}

// One strip wide and without Poisson's ratios, two layers are Timoshenko's strip, and
// the stress at the glue is E de/2 for equal layers.
func TestReducesToTimoshenko(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		t1, t2, e1, e2 := f(0.5, 20, "t1"), f(0.5, 20, "t2"), f(200, 2000, "e1"), f(200, 2000, "e2")
		s1, s2 := f(0.001, 0.1, "s1"), f(0.001, 0.1, "s2")
		layer := func(thick, e, s float64) laminate.Layer {
			return laminate.Layer{
				Wood: shrinks(0.04, s, 0.001), Elastic: full(10000, e/10000, 0.1, 0.08, 0.08, 0.01, 0, 0, 0.4), Thickness: quantity.Length(thick) * mm,
				AtGlueUp: exact(30), Later: exact(0),
			}
		}
		w := bend(t, layer(t2, e2, s2), layer(t1, e1, s1)) // 1 above, 2 below, across is y
		difference := s1 - s2                              // the lower becomes longer by this
		b, err := laminate.TwoLayers(laminate.Strip{Thickness: quantity.Length(t1) * mm, Modulus: quantity.Pressure(e1) * quantity.Megapascal},
			laminate.Strip{Thickness: quantity.Length(t2) * mm, Modulus: quantity.Pressure(e2) * quantity.Megapascal},
			quantity.Band[float64]{Value: difference, Low: difference, High: difference}, 0.3)
		require.NoError(t, err)
		require.InDelta(t, b.Curvature.Value, -w.CurvatureY.Value, 1e-9+1e-9*math.Abs(b.Curvature.Value))
		require.InDelta(t, float64(b.Cup.Value), float64(w.Cup.Value), 1e-10)
		equal := bend(t, layer(t1, e1, s2), layer(t1, e1, s1))
		require.InDelta(t, e1*1e6*difference/2, float64(equal.Layers[1].Lower.StressAcross.Value), 1, "above, at the glue")
		require.InDelta(t, -e1*1e6*difference/2, float64(equal.Layers[0].Upper.StressAcross.Value), 1, "below, at the glue")
		require.InDelta(t, -e1*1e6*difference/4, float64(equal.Layers[1].Upper.StressAcross.Value), 1)
		require.InDelta(t, math.Abs(e1*1e6*difference/8*t1/1000), equal.GlueLines[0].AtSides.Force.Value, 1)
	})
}

// A mirror stack does not bend, whatever its woods.
func TestSymmetricDoesNotBend(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := drawLayers(t, 4)
		layers := append([]laminate.Layer{}, half...)
		for i := len(half) - 1; i >= 0; i-- {
			layers = append(layers, half[i])
		}
		w := bend(t, layers...)
		require.True(t, w.Symmetric)
		size := 0.0
		for r := range 3 {
			for c := range 3 {
				size = math.Max(size, math.Abs(w.Stiffness.A[r][c]))
			}
		}
		for r := range 3 {
			for c := range 3 {
				require.InDelta(t, 0, w.Stiffness.B[r][c]/size, 1e-15)
				require.InDelta(t, w.Stiffness.A[r][c], w.Stiffness.A[c][r], 1e-9*size)
				require.InDelta(t, w.Stiffness.D[r][c], w.Stiffness.D[c][r], 1e-9*size)
			}
		}
		require.InDelta(t, 0, w.CurvatureX.Value, 1e-9)
		require.InDelta(t, 0, w.CurvatureY.Value, 1e-9)
		require.InDelta(t, 0, w.TwistXY.Value, 1e-9)
		require.Positive(t, w.CurvatureY.High, "but no two pieces are alike")
	})
}

// Every layer at +p with its like at -p: no shear of the plane.
func TestBalancedDoesNotShear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var layers []laminate.Layer
		for _, l := range drawLayers(t, 3) {
			other := l
			other.Grain = -l.Grain
			layers = append([]laminate.Layer{l}, append(layers, other)...)
		}
		w := bend(t, layers...)
		require.True(t, w.Balanced)
	})
}

// Turning the panel by 90 degrees swaps length and width; turning it over turns the
// bending over; turning it by any angle turns strains and curvatures as tensors.
func TestFrames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layers := drawLayers(t, 6)
		w := bend(t, layers...)
		scale := 1e-9 * (1 + math.Abs(w.CurvatureX.Value) + math.Abs(w.CurvatureY.Value) + math.Abs(w.TwistXY.Value))

		over := make([]laminate.Layer, len(layers))
		for i, l := range layers {
			over[len(layers)-1-i] = l // mirrored in mid-thickness, grain as seen in x, y the same
		}
		o := bend(t, over...)
		require.InDelta(t, w.CurvatureX.Value, -o.CurvatureX.Value, scale)
		require.InDelta(t, w.CurvatureX.Low, -o.CurvatureX.High, scale)
		require.InDelta(t, w.TwistXY.Value, -o.TwistXY.Value, scale)
		require.InDelta(t, float64(w.ChangeWidth.Low), float64(o.ChangeWidth.Low), 1e-12)

		p := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "turn")
		turned := append([]laminate.Layer{}, layers...)
		for i := range turned {
			turned[i].Grain = quantity.Angle(float64(turned[i].Grain) + p)
		}
		r := bend(t, turned...)
		c, s := math.Cos(p), math.Sin(p)
		// the panel turned by p carries its tensor with it
		kx, ky, kxy := w.CurvatureX.Value, w.CurvatureY.Value, w.TwistXY.Value
		require.InDelta(t, kx*c*c+ky*s*s-kxy*c*s, r.CurvatureX.Value, scale)
		require.InDelta(t, kx*s*s+ky*c*c+kxy*c*s, r.CurvatureY.Value, scale)
		require.InDelta(t, 2*c*s*(kx-ky)+kxy*(c*c-s*s), r.TwistXY.Value, 2*scale)
		for i := range w.Layers {
			a, b := w.Layers[i].Upper, r.Layers[i].Upper
			require.InDelta(t, float64(a.StressAlong.Value), float64(b.StressAlong.Value), 1)
			require.InDelta(t, float64(a.StressAcross.High), float64(b.StressAcross.High), 1)
			require.InDelta(t, float64(a.Shear), float64(b.Shear), 1)
		}
		quarter := append([]laminate.Layer{}, layers...)
		for i := range quarter {
			quarter[i].Grain += 90 * quantity.Degree
		}
		q, err := laminate.Bend(laminate.Panel{Layers: quarter, Length: 0.3, Width: 0.5})
		require.NoError(t, err)
		require.InDelta(t, w.CurvatureX.High, q.CurvatureY.High, scale)
		require.InDelta(t, float64(w.ChangeLength.Value), float64(q.ChangeWidth.Value), 1e-12)
		require.InDelta(t, w.Stiffness.A[0][0], q.Stiffness.A[1][1], 1e-9*w.Stiffness.A[0][0])
		if len(layers) > 1 {
			require.InDelta(t, float64(w.GlueLines[0].AtEnds.Shear.Value), float64(q.GlueLines[0].AtSides.Shear.Value), 1e-6*float64(w.GlueLines[0].AtEnds.Shear.Value)+1)
		}
	})
}

// One layer moves freely: its own strains, no stress, no bending. So does a stack of
// like layers.
func TestFreeLayer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLayer(t)
		l.Grain = 0
		n := rapid.IntRange(1, 5).Draw(t, "layers")
		layers := make([]laminate.Layer, n)
		for i := range layers {
			layers[i] = l
		}
		w := bend(t, layers...)
		require.InDelta(t, w.Layers[0].Along.Value*0.5, float64(w.ChangeLength.Value), 1e-12)
		require.InDelta(t, w.Layers[0].Across.Value*0.3, float64(w.ChangeWidth.Value), 1e-12)
		require.InDelta(t, 0, float64(w.Layers[0].Upper.StressAlong.Value), 1)
		require.InDelta(t, 0, w.CurvatureY.Value, 1e-9)
		m, err := movement.Change(0.3, movement.WidthAt(l.Ring, 0), l.AtGlueUp, l.Later, l.Wood)
		require.NoError(t, err)
		// movement turns the total shrinkage, this package the strains: the same to first order, 5 % apart for the widest ratios at 45 degrees
		require.InDelta(t, float64(m.Change.Value), float64(w.ChangeWidth.Value), 0.06*math.Abs(float64(m.Change.Value))+1e-9)
	})
}

// Forces and moments of the stresses over the whole section vanish: nothing holds
// the panel. Stress is linear in a layer, so Simpson's rule is exact.
func TestEquilibrium(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layers := drawLayers(t, 6)
		w := bend(t, layers...)
		h := 0.0
		for _, l := range layers {
			h += float64(l.Thickness)
		}
		var n, m [3]float64
		most, z := 0.0, -h/2
		for i, l := range layers {
			d := float64(l.Thickness)
			c, s := math.Cos(float64(l.Grain)), math.Sin(float64(l.Grain))
			panel := func(k laminate.Held) [3]float64 {
				a, b, t := float64(k.StressAlong.Value), float64(k.StressAcross.Value), float64(k.Shear)
				most = math.Max(most, math.Abs(a)+math.Abs(b)+math.Abs(t))
				return [3]float64{a*c*c + b*s*s - 2*t*c*s, a*s*s + b*c*c + 2*t*c*s, (a-b)*c*s + t*(c*c-s*s)}
			}
			low, high := panel(w.Layers[i].Lower), panel(w.Layers[i].Upper)
			for k := range 3 {
				n[k] += d * (low[k] + high[k]) / 2
				m[k] += d / 6 * (low[k]*z + 4*(low[k]+high[k])/2*(z+d/2) + high[k]*(z+d))
			}
			z += d
		}
		for k := range 3 {
			require.InDelta(t, 0, n[k], 1e-7*(1+most*h))
			require.InDelta(t, 0, m[k], 1e-7*(1+most*h*h))
		}
	})
}

// The bands against simulation of what they claim, layers deviating independently
// and all together: at least 90 % inside whichever holds.
func TestBandCoverage(t *testing.T) {
	spruce := groupOnly(t, 10900, wood.Softwood)
	maple := groupOnly(t, 13900, wood.Hardwood)
	layers := []laminate.Layer{
		{Wood: shrinks(0.048, 0.099, 0.0015), Elastic: maple, Thickness: 2 * mm, Grain: 1.2, Ring: 0.3, AtGlueUp: about(8, 0.5), Later: about(11, 1)},
		{Wood: shrinks(0.043, 0.075, 0.0015), Elastic: spruce, Thickness: 3 * mm, Grain: 0, Ring: 1.5, AtGlueUp: about(8, 0.5), Later: about(11, 1)},
		{Wood: shrinks(0.048, 0.099, 0.0015), Elastic: maple, Thickness: 1 * mm, Grain: 0.3, Ring: 0.1, AtGlueUp: about(9, 0.5), Later: about(11, 1)},
	}
	figures := func(w *laminate.Warped) []quantity.Band[float64] {
		f := func(b quantity.Band[quantity.Pressure]) quantity.Band[float64] {
			return quantity.Band[float64]{Value: float64(b.Value), Low: float64(b.Low), High: float64(b.High)}
		}
		return []quantity.Band[float64]{
			w.CurvatureX, w.CurvatureY, w.TwistXY,
			{Value: float64(w.ChangeWidth.Value), Low: float64(w.ChangeWidth.Low), High: float64(w.ChangeWidth.High)},
			f(w.Layers[0].Lower.StressAcross), f(w.Layers[1].Upper.StressAlong), w.Layers[2].Lower.StrainAcross,
		}
	}
	answer := bend(t, layers...)
	claimed := figures(&answer)
	rng := rand.New(rand.NewPCG(5, 6))
	const draws = 4000
	for _, together := range []bool{false, true} {
		inside := make([]int, len(claimed))
		for range draws {
			one := append([]laminate.Layer{}, layers...)
			shared := [3]float64{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}
			for i := range one {
				z := shared
				if !together {
					z = [3]float64{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}
				}
				l := &one[i]
				piece := 1 + 0.15*z[0]
				along := math.Max(1e-5, l.Wood.Longitudinal.Value*(1+0.5*rng.NormFloat64()))
				l.Wood = shrinks(l.Wood.Radial.Value*piece, l.Wood.Tangential.Value*piece, along)
				l.AtGlueUp = exact(100*float64(l.AtGlueUp.Value) + 0.5*z[1])
				l.Later = exact(100*float64(l.Later.Value) + z[2])
				l.Elastic.EL *= quantity.Pressure(1 + 0.25*math.Max(-3, rng.NormFloat64()))
			}
			w := bend(t, one...)
			for i, f := range figures(&w) {
				if f.Value >= claimed[i].Low && f.Value <= claimed[i].High {
					inside[i]++
				}
			}
		}
		for i, n := range inside {
			// 3 standard errors of 4000 draws are 1.4
			assert.GreaterOrEqual(t, 100*float64(n)/draws, 88.0, "figure %d together %t", i, together)
		}
		t.Logf("together %t: inside of %d: %v", together, draws, inside)
	}
}

func TestAcrossGrain(t *testing.T) {
	e := full(10000, 0.05, 0.08, 0.07, 0.06, 0.005, 0.3, 0.4, 0.45)
	for degrees, want := range map[float64]float64{0: 500, 90: 800, 45: 1 / (0.25/500 + 0.25/800 + 0.25*(1/50.0-2*0.45/800))} {
		a, err := laminate.AcrossGrain(e, quantity.Angle(degrees)*quantity.Degree)
		require.NoError(t, err)
		assert.InDelta(t, want, float64(a.Modulus)/1e6, 1e-9*want)
	}
	a, err := laminate.AcrossGrain(e, 0)
	require.NoError(t, err)
	assert.InDelta(t, 600, float64(a.Shear)/1e6, 1e-6)
	assert.InDelta(t, 0.4, a.Poisson, 1e-12)
	e.GRTEL = wood.Figure{}
	_, err = laminate.AcrossGrain(e, 0)
	expect.Code(t, err, method.Missing, "grt_el")
	e.StandIn.GRTEL = wood.Published(0.0092)
	a, err = laminate.AcrossGrain(e, 0)
	require.NoError(t, err)
	assert.True(t, expect.Warned(a.Notes, method.DefaultUsed))
	e.ETEL, e.EREL, e.PoissonRT = wood.Published(0.9), wood.Published(0.1), wood.Published(0.9)
	_, err = laminate.AcrossGrain(e, 0)
	expect.Code(t, err, method.Contradictory, "nu_rt")
}

func TestRefused(t *testing.T) {
	good := laminate.Layer{Wood: shrinks(0.04, 0.08, 0.001), Elastic: groupOnly(t, 1e4, wood.Hardwood), Thickness: 0.003, AtGlueUp: exact(10), Later: exact(8)}
	for input, spoil := range map[string]func(*laminate.Layer, float64){
		"layers/1/thickness":         func(l *laminate.Layer, v float64) { l.Thickness = quantity.Length(v) },
		"layers/1/grain_deg":         func(l *laminate.Layer, v float64) { l.Grain = quantity.Angle(v) },
		"layers/1/ring_angle_deg":    func(l *laminate.Layer, v float64) { l.Ring = quantity.Angle(v) },
		"layers/1/modulus_along":     func(l *laminate.Layer, v float64) { l.Elastic.EL = quantity.Pressure(v) },
		"layers/1/et_el":             func(l *laminate.Layer, v float64) { l.Elastic.ETEL = wood.Published(v) },
		"layers/1/tangential_pct":    func(l *laminate.Layer, v float64) { l.Wood.Tangential = wood.Published(v) },
		"layers/1/at_glue_up_mc_pct": func(l *laminate.Layer, v float64) { l.AtGlueUp = exact(v) },
		"layers/1/later_mc_pct":      func(l *laminate.Layer, v float64) { l.Later = exact(v) },
	} {
		for _, v := range []float64{nan, inf, -inf} {
			bad := good
			spoil(&bad, v)
			_, err := laminate.Bend(laminate.Panel{Layers: []laminate.Layer{good, bad}, Length: 1, Width: 1})
			expect.Code(t, err, method.OutOfRange, input)
		}
	}
	_, err := laminate.Bend(laminate.Panel{Length: 1, Width: 1})
	expect.Code(t, err, method.OutOfRange, "layers")
	_, err = laminate.Bend(laminate.Panel{Layers: make([]laminate.Layer, 33), Length: 1, Width: 1})
	expect.Code(t, err, method.OutOfRange, "layers")
	_, err = laminate.Bend(laminate.Panel{Layers: []laminate.Layer{good}, Length: quantity.Length(nan), Width: 1})
	expect.Code(t, err, method.OutOfRange, "length")
	_, err = laminate.Bend(laminate.Panel{Layers: []laminate.Layer{good}, Length: 1, Width: 1, Glue: laminate.Glue{ShearModulus: quantity.Pressure(nan)}})
	expect.Code(t, err, method.OutOfRange, "glue_shear_modulus")
	bad := good
	bad.Elastic.StandIn = wood.Ratios{}
	_, err = laminate.Bend(laminate.Panel{Layers: []laminate.Layer{bad}, Length: 1, Width: 1})
	expect.Code(t, err, method.Missing, "layers/0/et_el")
}

func TestMethodIDsAreUnique(t *testing.T) {
	ids := map[string]bool{}
	for _, m := range laminate.Methods() {
		require.False(t, ids[m.ID], m.ID)
		ids[m.ID] = true
		require.NotEmpty(t, m.Source)
		require.NotEmpty(t, m.Accuracy)
		require.Equal(t, "laminate", m.Chapter)
	}
}

// Eight layers: at most 10 microseconds, of two woods and of eight.
func BenchmarkBend(b *testing.B) {
	for _, woods := range []int{1, 2, 8} {
		var layers []laminate.Layer
		for i := range 8 {
			s := 0.05 + 0.005*float64(i%woods)
			layers = append(layers, laminate.Layer{
				Wood: shrinks(s/2, s, 0.0015), Elastic: groupOnly(b, 1e4, wood.Hardwood), Thickness: 0.003,
				Grain: quantity.Angle(i%2) * math.Pi / 2, Ring: 0.2, AtGlueUp: about(8, 0.5), Later: about(11, 1),
			})
		}
		in := laminate.Panel{Layers: layers, Length: 0.5, Width: 0.3}
		b.Run(fmt.Sprintf("8 layers of %d woods", woods), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := laminate.Bend(in); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
