package moisture_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// Wood Handbook forms, arithmetic: G_b 0.56 at 12 % is 0.615 (the book lists
// 0.63 for sugar maple, from memory); G 0.4 at 12 % weighs 27.968 lb/ft3.
func TestSpecificGravityAt(t *testing.T) {
	g, err := moisture.SpecificGravityAt(0.56, 0.12, 0, 0)
	require.NoError(t, err)
	assert.InDelta(t, 0.615, g.SpecificGravity, 0.002)
	assert.InDelta(t, 0.63, g.SpecificGravity, 0.02)
	g, err = moisture.SpecificGravityAt(0.4, 0.40, 0.11, 0.3)
	require.NoError(t, err)
	assert.InDelta(t, 0.4, g.SpecificGravity, 1e-15, "green")
	assert.InDelta(t, 560, g.Density, 1e-9)
	_, err = moisture.SpecificGravityAt(math.NaN(), 0.4, 0, 0)
	expect.Code(t, err, method.OutOfRange, "specific_gravity")
	_, err = moisture.SpecificGravityAt(0.5, 0.4, 0.9, 0)
	expect.Code(t, err, method.OutOfRange, "volumetric_shrinkage_pct")
}

// A litre of green volume, followed by hand: basic 0.40, S_v 11.5 % (Sitka
// spruce, from memory), at 12 %MC: mass 448 g, volume 1 - 0.115*(1-12/30) = 0.931 l.
func TestFromDensity(t *testing.T) {
	body := moisture.Body{Mass: 0.448, Volume: 0.931e-3, SpecificGravity: 0.40, VolumetricShrinkage: 0.115, FibreSaturation: 0.30, SpecificGravityCV: 0.02}
	e, err := moisture.FromDensity(body)
	require.NoError(t, err)
	assert.InDelta(t, 12, e.MC.Value.Percent(), 1e-9)
	// The SD against a finite step: 0.1 % more mass, all else equal.
	heavier := body
	heavier.Mass *= 1.001
	more, err := moisture.FromDensity(heavier)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(more.MC.Value-e.MC.Value)/0.001*math.Hypot(0.02, 0.01), float64(e.SD), 0.005)
	// From the species mean the band is wide: about 20 %MC.
	body.SpecificGravityCV = 0
	wide, err := moisture.FromDensity(body)
	require.NoError(t, err)
	assert.InDelta(t, 20, wide.SD.Percent(), 3)
	assert.Zero(t, wide.MC.Low)
	assert.True(t, expect.Warned(wide.Notes, method.DefaultUsed))
	// Green: 0.40*1.9 = 0.76 kg in 1 l.
	green, err := moisture.FromDensity(moisture.Body{Mass: 0.76, Volume: 1e-3, SpecificGravity: 0.40, VolumetricShrinkage: 0.115})
	require.NoError(t, err)
	assert.InDelta(t, 90, green.MC.Value.Percent(), 1e-9)
	assert.InDelta(t, 190*math.Hypot(0.10, 0.01), green.SD.Percent(), 1e-6)
}

func TestFromDensityRefuses(t *testing.T) {
	good := moisture.Body{Mass: 0.448, Volume: 0.931e-3, SpecificGravity: 0.40, VolumetricShrinkage: 0.115, FibreSaturation: 0.30, SpecificGravityCV: 0.05}
	for input, change := range map[string]func(*moisture.Body){
		"mass":                     func(b *moisture.Body) { b.Mass = 0 },
		"volume":                   func(b *moisture.Body) { b.Volume = quantity.Volume(math.NaN()) },
		"specific_gravity":         func(b *moisture.Body) { b.SpecificGravity = 0 },
		"specific_gravity_cv":      func(b *moisture.Body) { b.SpecificGravityCV = -0.1 },
		"volumetric_shrinkage_pct": func(b *moisture.Body) { b.VolumetricShrinkage = math.Inf(1) },
		"fibre_saturation_pct":     func(b *moisture.Body) { b.FibreSaturation = 0.7 },
	} {
		b := good
		change(&b)
		_, err := moisture.FromDensity(b)
		expect.Code(t, err, method.OutOfRange, input)
	}
	b := good
	b.Mass = 0.2
	_, err := moisture.FromDensity(b)
	expect.Code(t, err, method.Contradictory, "mass")
	b.Mass = 2
	_, err = moisture.FromDensity(b)
	expect.Code(t, err, method.Contradictory, "mass")
	b = good
	b.SpecificGravity, b.VolumetricShrinkage, b.Mass = 0.95, 0.24, 1.0
	_, err = moisture.FromDensity(b)
	expect.Code(t, err, method.Unsupported, "volumetric_shrinkage_pct")
}

// SpecificGravityAt and FromDensity undo each other, below and above fibre saturation.
func TestDensityInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rapid.Float64Range(0.25, 0.6).Draw(t, "g")
		s := rapid.Float64Range(0.05, 0.18).Draw(t, "s")
		f := quantity.Moisture(rapid.Float64Range(0.27, 0.40).Draw(t, "f"))
		mc := quantity.Moisture(rapid.Float64Range(0, 0.95).Draw(t, "mc"))
		at, err := moisture.SpecificGravityAt(g, mc, s, f)
		require.NoError(t, err)
		e, err := moisture.FromDensity(moisture.Body{Mass: quantity.Mass(at.Density * 1e-3), Volume: 1e-3, SpecificGravity: g, VolumetricShrinkage: s, FibreSaturation: f})
		require.NoError(t, err)
		require.InDelta(t, float64(mc), float64(e.MC.Value), 1e-9)
	})
}
