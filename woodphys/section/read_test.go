package section_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

// A section that is turned has the ring angle and the radius it had, its pith on the side
// that was asked for, and ring lines that near the edge that was asked for.
func TestTurnedSections(t *testing.T) {
	const w, h, r = 200 * quantity.Millimetre, 30 * quantity.Millimetre, 150 * quantity.Millimetre
	for _, lean := range []section.Lean{section.LeansFar, section.LeansNear} {
		for _, side := range []section.PithSide{section.TowardsFace1, section.TowardsFace2, section.TowardsNear, section.TowardsFar} {
			t.Run(fmt.Sprint(lean, side), func(t *testing.T) {
				as, err := section.FromRings(w, h, 35*quantity.Degree, r)
				require.NoError(t, err)
				s := as.Turned(lean, side)
				ring, err := section.RingAt(s, section.Point{})
				require.NoError(t, err)
				assert.InDelta(t, 35, ring.Angle.Degrees(), 1e-9)
				assert.InDelta(t, float64(r), float64(ring.Radius), 1e-12)
				y, z := s.FromCorner(section.Point{X: s.PithX, Y: s.PithY})
				switch side {
				case section.TowardsFace1:
					assert.Less(t, z, h/2)
				case section.TowardsFace2:
					assert.Greater(t, z, h/2)
				case section.TowardsNear:
					assert.Less(t, y, w/2)
				case section.TowardsFar:
					assert.Greater(t, y, w/2)
				}
				// the ring line is square to the way to the pith; deeper is a smaller Y
				across := float64(s.PithY) * math.Copysign(1, float64(s.PithX))
				if lean == section.LeansFar {
					assert.Positive(t, across)
				} else {
					assert.Negative(t, across)
				}
			})
		}
	}
	usual, err := section.FromRings(w, h, 35*quantity.Degree, r)
	require.NoError(t, err)
	assert.Equal(t, usual, usual.Turned(section.LeansFar, section.TowardsFace2), "as FromRings makes it")
}

// Any two places of a ring and its height over them give back the pith.
func TestPithFromAChord(t *testing.T) {
	const w, h = 200 * quantity.Millimetre, 50 * quantity.Millimetre
	pith := section.OnEndGrain(w, h, 60*quantity.Millimetre, 120*quantity.Millimetre)
	ring := func(deg float64, radius quantity.Length) section.Point {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		return section.Point{X: pith.X + radius*quantity.Length(cos), Y: pith.Y + radius*quantity.Length(sin)}
	}
	const radius = 100 * quantity.Millimetre
	for _, c := range []struct {
		from, to float64
		side     section.PithSide
	}{{60, 120, section.TowardsFace2}, {120, 60, section.TowardsFace2}, {-20, 30, section.TowardsNear}, {200, 160, section.TowardsFar},
		{250, 290, section.TowardsFace1}, {-40, 220, section.TowardsFace2}} { // the last: more than half of the ring
		half := math.Abs(c.to-c.from) / 2 * math.Pi / 180
		height := radius * quantity.Length(1-math.Cos(half))
		s, err := section.FromChord(w, h, ring(c.from, radius), ring(c.to, radius), height, c.side)
		require.NoError(t, err)
		y, z := s.FromCorner(section.Point{X: s.PithX, Y: s.PithY})
		assert.InDelta(t, 60, y.Millimetres(), 1e-9, "%v", c)
		assert.InDelta(t, 120, z.Millimetres(), 1e-9, "%v", c)
	}
	for _, c := range []struct {
		to     section.Point
		height quantity.Length
		side   section.PithSide
		input  string
		code   method.Code
	}{
		{section.Point{}, quantity.Millimetre, section.TowardsFace1, "to", method.Contradictory},
		{section.Point{X: 1}, 0, section.TowardsFace1, "height", method.OutOfRange},
		{section.Point{X: 1}, quantity.Length(math.NaN()), section.TowardsFace1, "height", method.OutOfRange},
		{section.Point{X: 1}, quantity.Millimetre, section.TowardsFar, "pith_side", method.Contradictory},
		{section.Point{X: 1}, quantity.Millimetre, "", "pith_side", method.Contradictory},
	} {
		_, err := section.FromChord(w, h, section.Point{}, c.to, c.height, c.side)
		var domain *method.Error
		require.ErrorAs(t, err, &domain)
		assert.Equal(t, c.input, domain.Input)
		assert.Equal(t, c.code, domain.Code)
	}
}

// A place of the frame and the same place of a section.
func TestPlacesOnTheEndGrain(t *testing.T) {
	s := section.Section{Width: 0.2, Thickness: 0.03}
	p := section.OnEndGrain(s.Width, s.Thickness, 0, 0)
	assert.Equal(t, section.Point{X: -0.1, Y: 0.015}, p, "the near edge is the left, face 1 the upper")
	y, z := s.FromCorner(section.Point{X: 0.05, Y: -0.015})
	assert.InDelta(t, 0.15, float64(y), 1e-15)
	assert.InDelta(t, 0.03, float64(z), 1e-15)
	assert.InDelta(t, 0.5, section.DepthOf(15*quantity.Millimetre, 30*quantity.Millimetre), 1e-12)
	assert.Equal(t, 1.0, section.DepthOf(3.0/16*quantity.Inch, 4.7625*quantity.Millimetre), "the same in inches") //nolint:testifylint // just 1
}
