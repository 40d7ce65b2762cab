package inservice_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/inservice"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

func exact(pct float64) quantity.Band[quantity.Moisture] {
	return quantity.NormalBand(quantity.Moisture(pct)*quantity.PercentMC, 0)
}

// A quartered Sitka top of 400 mm, free, from 45 to 35, 30 and 25 %RH: 0.9, 1.4
// and 1.8 mm; flatsawn sugar maple 2.1, 3.2 and 4.4 mm. The figures were worked
// out by hand from the coefficients of Wood Handbook table 13-5 (0.00148 radial
// Sitka spruce, 0.00353 tangential sugar maple) and EMC at 21 C; to 0.06 mm.
func TestTopsInADryRoom(t *testing.T) {
	for _, c := range []struct {
		name        string
		coefficient float64
		want        [3]float64
	}{{"spruce", 0.00148, [3]float64{0.9, 1.4, 1.8}}, {"maple", 0.00353, [3]float64{2.1, 3.2, 4.4}}} {
		recalled := wood.Figure{Value: c.coefficient, Known: true, Recalled: true}
		w := wood.Wood{CoefficientRadial: recalled, CoefficientTangential: recalled}
		emc := func(rh float64) quantity.Band[quantity.Moisture] {
			return quantity.NormalBand(sorption.NewIsotherm(quantity.Celsius(21)).At(rh), 0)
		}
		for i, rh := range []float64{0.35, 0.30, 0.25} {
			s, err := inservice.SizesOf(400*quantity.Millimetre, movement.Radial(), emc(0.45), emc(rh), emc(0.45), false, w)
			require.NoError(t, err)
			assert.InDelta(t, -c.want[i], s.Dry.Change.Value.Millimetres(), 0.06, "%s at %g", c.name, rh)
			assert.InDelta(t, 0, s.Wet.Change.Value.Millimetres(), 1e-9)
			assert.InDelta(t, s.Swing.Value.Millimetres()/2, s.HalfSwing.Value.Millimetres(), 1e-12)
		}
	}
}

// Built in the air that is told, a part moves as far into the dry season as into
// the wet one.
func TestBothSeasonsShareTheMovement(t *testing.T) {
	w := wood.Wood{Radial: wood.Published(0.043), Tangential: wood.Published(0.075)}
	rapid.Check(t, func(rt *rapid.T) {
		dry := rapid.Float64Range(3, 12).Draw(rt, "dry")
		wet := dry + rapid.Float64Range(0.5, 8).Draw(rt, "more")
		celsius := rapid.Float64Range(5, 30).Draw(rt, "C")
		curves := sorption.Curves{Saturation: quantity.Moisture(rapid.Float64Range(0.23, 0.33).Draw(rt, "saturation"))}
		at := quantity.Celsius(celsius)
		b, err := inservice.AirToBuild(exact(dry).Value, exact(wet).Value, 0, &at, curves)
		require.NoError(rt, err)
		emc, err := sorption.EquilibriumBand(quantity.Celsius(celsius), b.RH.Value, sorption.Middle, curves)
		require.NoError(rt, err)
		require.InDelta(rt, (dry+wet)/2, emc.Moisture.Value.Percent(), 1e-6)
		s, err := inservice.SizesOf(quantity.Metre, movement.Radial(), exact(b.Moisture.Percent()), exact(dry), exact(wet), false, w)
		require.NoError(rt, err)
		require.InDelta(rt, float64(-s.Dry.Change.Value), float64(s.Wet.Change.Value), 1e-9)
	})
}

func TestHeldStrain(t *testing.T) {
	band := quantity.NormalBand[float64]
	for _, c := range []struct {
		dry, sd float64
		danger  inservice.Danger
		caution bool
	}{{-0.002, 0.0005, inservice.Slight, false}, {-0.008, 0.001, inservice.Moderate, true}, {-0.014, 0.002, inservice.High, true}, {0.001, 0.0001, inservice.Slight, false}} {
		h, err := inservice.HeldStrain(band(c.dry, c.sd), band(0.004, 0.001))
		require.NoError(t, err)
		assert.Equal(t, c.danger, h.Danger)
		assert.Len(t, h.Notes.Warnings, map[bool]int{false: 0, true: 1}[c.caution])
		assert.InDelta(t, max(-c.dry, 0), h.Stretch.Value, 1e-12)
		assert.InDelta(t, h.Stretch.Value/0.015, h.Share.Value, 1e-12)
		assert.InDelta(t, 0.004, h.Squeeze.Value, 1e-12)
	}
}

// The swing is the wettest size less the driest, to the last digit, for a wood whose forms
// differ and whose ends lie on both sides of the range of its coefficients.
func TestSwingIsWettestMinusDriest(t *testing.T) {
	teak := wood.Wood{Radial: wood.Published(0.025), Tangential: wood.Published(0.058), CoefficientTangential: wood.Published(0.00186), DifferentialTangential: wood.Published(0.0026), FibreSaturation: 0.244}
	for _, c := range [][3]float64{{8, 5, 12}, {9, 5.999, 14.001}, {12, 4, 26}} {
		s, err := inservice.SizesOf(0.4, movement.Tangential(), exact(c[0]), exact(c[1]), exact(c[2]), false, teak)
		require.NoError(t, err)
		assert.InDelta(t, float64(s.Wet.Final.Value-s.Dry.Final.Value), float64(s.Swing.Value), 1e-15)
	}
}

// Wood that is held and squeezed by more than 1 % keeps a compression set, and is told so.
func TestCompressionSet(t *testing.T) {
	warned := func(wet float64) bool {
		h, err := inservice.HeldStrain(quantity.NormalBand(-0.001, 0.0001), quantity.NormalBand(wet, 0))
		require.NoError(t, err)
		for _, w := range h.Notes.Warnings {
			if strings.Contains(w.Detail, "compression set") {
				return true
			}
		}
		return false
	}
	assert.True(t, warned(0.012))
	assert.False(t, warned(0.009))
}
