package drying

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// yearOfAir is two years of a room between 30 and 65 %RH, with the temperature given.
func yearOfAir(t *testing.T, celsius float64) (*Climate, []quantity.Duration) {
	t.Helper()
	var rows []Reading
	var times []quantity.Duration
	for d := 0; d <= 730; d += 5 {
		at := quantity.Duration(d) * quantity.Day
		rows = append(rows, Reading{Time: at, Temperature: quantity.Celsius(celsius),
			RH: 0.475 - 0.175*math.Cos(2*math.Pi*float64(d)/365)})
		times = append(times, at)
	}
	cl, err := Logged(rows)
	require.NoError(t, err)
	return cl, times
}

func transportOf(t *testing.T, g float64) *Transport {
	t.Helper()
	tr, err := newTransport(mediumAt(g), transverse)
	require.NoError(t, err)
	return tr
}

func stackOf(t *testing.T, set StackSetting, layers ...StackLayer) *Stack {
	t.Helper()
	var notes method.Notes
	s, err := NewStack(layers, set, &notes)
	require.NoError(t, err)
	return s
}

func ran(t *testing.T, s *Stack, cl *Climate, times []quantity.Duration) StackCourse {
	t.Helper()
	s.Rest(quantity.Celsius(20), 0.30)
	c, err := s.Run(t.Context(), cl, times)
	require.NoError(t, err)
	return c
}

// A board of one layer, and the same board cut into layers and glued again, is the board
// that the slab computes, whose scheme, grid and time steps are others.
func TestStackOfOneWoodIsTheSlab(t *testing.T) {
	tr := transportOf(t, 0.5)
	cl, times := yearOfAir(t, 20)
	for _, row := range []struct{ mm, coat float64 }{{4, 0}, {20, 0}, {20, 3e4}, {60, 1e4}} {
		face := Exposure{Name: "room", FilmCoefficient: 0.003, CoatResistance: row.coat}
		var solver Solver
		rest := tr.Isotherm(quantity.Celsius(20)).Surface(0.30)
		slab, err := solver.Run(t.Context(), &Job{Transport: tr, Thickness: quantity.Length(row.mm) * quantity.Millimetre, Factor: 0.6,
			Initial: rest, History: NoHysteresis, Phases: []Phase{{Length: times[len(times)-1], Climate: cl, Exposure: face}}, Times: times})
		require.NoError(t, err)
		layer := func(share float64) StackLayer {
			return StackLayer{tr, quantity.Length(share*row.mm) * quantity.Millimetre, 0.6}
		}
		for _, layers := range [][]StackLayer{{layer(1)}, {layer(0.25), layer(0.5), layer(0.25)}, {layer(0.1), layer(0.9)}} {
			s := stackOf(t, StackSetting{Faces: [2]Exposure{face, face}}, layers...)
			c := ran(t, s, cl, times)
			worst := 0.0
			for k := range times {
				mean := 0.0
				for i := range layers {
					mean += float64(c.Mean[i][k]) * float64(layers[i].Thickness) / (row.mm / 1000)
				}
				worst = math.Max(worst, math.Abs(mean-float64(slab.Mean[k])))
			}
			assert.Less(t, 100*worst, 0.02, "%g mm, coat %g, %d layers: %%MC", row.mm, row.coat, len(layers))
			if len(layers) == 3 {
				for k := range times {
					assert.InDelta(t, float64(c.Mean[0][k]), float64(c.Mean[2][k]), 1e-9, "the faces are alike")
					assert.InDelta(t, float64(c.Tilt[0][k]), -float64(c.Tilt[2][k]), 1e-9)
					assert.InDelta(t, 0, float64(c.Tilt[1][k]), 1e-9)
				}
			}
		}
	}
}

// Four times the cells change no layer by more than is claimed, woods of any density and
// layers of any thickness.
func TestStackOfTwiceTheCells(t *testing.T) {
	light, dense := transportOf(t, 0.35), transportOf(t, 0.75)
	cl, times := yearOfAir(t, 20)
	mm := func(v float64) quantity.Length { return quantity.Length(v) * quantity.Millimetre }
	bare, coated := Exposure{FilmCoefficient: 0.003}, Exposure{FilmCoefficient: 0.003, CoatResistance: 3e4}
	for _, layers := range [][]StackLayer{
		{{dense, mm(6), 0.4}, {light, mm(38), 0.7}},
		{{dense, mm(0.6), 0.4}, {light, mm(3), 0.7}, {dense, mm(1.5), 0.4}},
		{{light, mm(20), 0.7}, {dense, mm(20), 0.4}, {light, mm(20), 0.7}},
	} {
		usual := ran(t, stackOf(t, StackSetting{Faces: [2]Exposure{coated, bare}}, layers...), cl, times)
		fine := ran(t, stackOf(t, StackSetting{Faces: [2]Exposure{coated, bare}, Finer: 4}, layers...), cl, times)
		for i := range layers {
			worst, tilted := 0.0, 0.0
			for k := range times {
				worst = math.Max(worst, math.Abs(float64(usual.Mean[i][k]-fine.Mean[i][k])))
				tilted = math.Max(tilted, math.Abs(float64(usual.Tilt[i][k]-fine.Tilt[i][k])))
			}
			assert.Less(t, 100*worst, 0.02, "layer %d of %d", i, len(layers))
			assert.Less(t, 100*tilted, 0.05, "tilt of layer %d of %d", i, len(layers))
			t.Logf("%d layers, layer %d: mean within %.4f, tilt within %.4f %%MC", len(layers), i, 100*worst, 100*tilted)
		}
	}
}

// In steady air every layer comes to rest on its own isotherm; behind closed faces the mass
// of the water stays, though woods exchange it until their humidities are alike.
func TestStackAtRest(t *testing.T) {
	light, dense := transportOf(t, 0.35), transportOf(t, 0.75)
	layers := []StackLayer{{dense, 5 * quantity.Millimetre, 1}, {light, 10 * quantity.Millimetre, 1}}
	air, err := Constant(quantity.Celsius(20), 0.6)
	require.NoError(t, err)
	long := []quantity.Duration{0, 3000 * quantity.Day}
	open := stackOf(t, StackSetting{Faces: [2]Exposure{{FilmCoefficient: 0.003}, {FilmCoefficient: 0.003}}}, layers...)
	c := ran(t, open, air, long)
	for i := range layers {
		assert.InDelta(t, float64(layers[i].Transport.Isotherm(quantity.Celsius(20)).Surface(0.6)), float64(c.Mean[i][1]), 1e-5)
	}
	closed := Exposure{FilmCoefficient: 0.003, CoatResistance: 1e9}
	shut := stackOf(t, StackSetting{Faces: [2]Exposure{closed, closed}}, layers...)
	cells := shut.Cells()
	for k := range cells {
		cells[k] = 0.06
		if k >= shut.first[1] {
			cells[k] = 0.12
		}
	}
	shut.Start(cells)
	masses := shut.Masses()
	assert.InDelta(t, 3.75, masses[0], 1e-12)
	c, err = shut.Run(t.Context(), air, long)
	require.NoError(t, err)
	water := func(k int) float64 { return masses[0]*float64(c.Mean[0][k]) + masses[1]*float64(c.Mean[1][k]) }
	assert.InDelta(t, water(0), water(1), 0.01*water(0), "a closed face lets next to nothing pass")
	a, _ := shut.now.acts[0].at(float64(c.Mean[0][1]))
	b, _ := shut.now.acts[1].at(float64(c.Mean[1][1]))
	assert.InDelta(t, a, b, 1e-3, "one humidity in both woods")
	_, _, err = stackOf(t, StackSetting{Faces: [2]Exposure{{FilmCoefficient: 1e-9, CoatResistance: 1e9}, {FilmCoefficient: 1e-9, CoatResistance: 1e9}}},
		StackLayer{dense, 600 * quantity.Millimetre, 1}).Lags(quantity.Celsius(20), 0.5)
	var domain *method.Error
	require.ErrorAs(t, err, &domain)
	assert.Equal(t, "finish", domain.Input)
}

// The lag of a plate is R a + a^2/3D with a half its thickness; a glue line in the middle
// that lets nothing pass changes nothing of that, and a layer deep inside is further behind.
func TestLagsOfAStack(t *testing.T) {
	tr := transportOf(t, 0.5)
	const coat, factor, half = 2e4, 0.5, 0.010
	face := Exposure{FilmCoefficient: 0.003, CoatResistance: coat}
	air := quantity.Celsius(20)
	rest := tr.Isotherm(air).Surface(0.5)
	d, err := tr.Diffusivity(rest, air)
	require.NoError(t, err)
	curve := tr.Isotherm(air)
	saturated := 2338.0 / (vapourConstant * 293.15)
	perVapour := 0.5 * 1000 * curve.Slope(curve.Inverse(rest)) / saturated
	want := half*(1/0.003+coat)*perVapour + half*half/(3*factor*d)
	for _, glue := range []float64{0, 1e9} {
		s := stackOf(t, StackSetting{Faces: [2]Exposure{face, face}, Glue: glue, Finer: 4}, StackLayer{tr, half, factor}, StackLayer{tr, half, factor})
		layers, whole, err := s.Lags(air, 0.5)
		require.NoError(t, err)
		assert.InEpsilon(t, want, float64(whole), 0.005)
		assert.InEpsilon(t, float64(layers[0]), float64(layers[1]), 1e-9)
	}
	s := stackOf(t, StackSetting{Faces: [2]Exposure{face, face}}, StackLayer{tr, 0.005, factor}, StackLayer{tr, 0.010, factor}, StackLayer{tr, 0.005, factor})
	layers, whole, err := s.Lags(air, 0.5)
	require.NoError(t, err)
	assert.Greater(t, layers[1], layers[0], "deeper below the faces")
	assert.InEpsilon(t, want, float64(whole), 0.005)
}

// What is wrong with a stack is told with its layer.
func TestStackRefuses(t *testing.T) {
	tr := transportOf(t, 0.5)
	for name, row := range map[string]struct {
		layers []StackLayer
		set    StackSetting
		input  string
	}{
		"none":      {nil, StackSetting{}, "layers"},
		"no wood":   {[]StackLayer{{tr, 0.01, 1}, {nil, 0.01, 1}}, StackSetting{}, "layers/1/wood"},
		"too thick": {[]StackLayer{{tr, 0.7, 1}}, StackSetting{}, "layers/0/thickness"},
		"factor":    {[]StackLayer{{tr, 0.01, 0}}, StackSetting{}, "layers/0/drying_factor"},
		"glue":      {[]StackLayer{{tr, 0.01, 1}}, StackSetting{Glue: -1}, "glue_resistance"},
		"coat":      {[]StackLayer{{tr, 0.01, 1}}, StackSetting{Faces: [2]Exposure{{FilmCoefficient: 0.003, CoatResistance: -1}, {FilmCoefficient: 0.003}}}, "coat_resistance"},
	} {
		var notes method.Notes
		if row.set.Faces[0].FilmCoefficient == 0 {
			row.set.Faces = [2]Exposure{{FilmCoefficient: 0.003}, {FilmCoefficient: 0.003}}
		}
		_, err := NewStack(row.layers, row.set, &notes)
		var domain *method.Error
		require.ErrorAs(t, err, &domain, name)
		assert.Equal(t, row.input, domain.Input, name)
	}
	s := stackOf(t, StackSetting{Faces: [2]Exposure{{FilmCoefficient: 0.003}, {FilmCoefficient: 0.003}}}, StackLayer{tr, 0.01, 1})
	s.Work = &Work{Most: 10}
	cl, times := yearOfAir(t, 20)
	_, err := s.Run(t.Context(), cl, times)
	var domain *method.Error
	require.ErrorAs(t, err, &domain)
	assert.Equal(t, method.TooMuchWork, domain.Code)
}
