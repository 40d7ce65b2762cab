package movement_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// An answer lies among what its forms give, wherever the moisture contents lie, and its band
// holds nothing that cannot be.
func TestAnswersLieAmongTheirForms(t *testing.T) {
	asked := 0
	for _, w := range []wood.Wood{
		{Radial: wood.Published(0.048), Tangential: wood.Published(0.099), CoefficientRadial: wood.Published(0.00165),
			CoefficientTangential: wood.Published(0.00353), FibreSaturation: 0.30},
		{Radial: wood.Published(0.048), Tangential: wood.Published(0.099), CoefficientRadial: wood.Published(0.00165),
			CoefficientTangential: wood.Published(0.00353), DifferentialRadial: wood.Published(0.002),
			DifferentialTangential: wood.Published(0.0034), FibreSaturation: 0.28},
		{Radial: wood.Published(0.03), Tangential: wood.Published(0.06), DifferentialRadial: wood.Published(0.0017),
			DifferentialTangential: wood.Published(0.0027), SwellingVolumetric: wood.Published(0.0042), FibreSaturation: 0.26},
		{Radial: wood.Published(0.04), Tangential: wood.Published(0.08), SwellingVolumetric: wood.Published(0.0033), FibreSaturation: 0.30},
	} {
		for _, d := range []movement.Direction{movement.Radial(), movement.Tangential(), movement.WidthAt(40*quantity.Degree, 0)} {
			for from := 0.0; from <= 40; from += 2.5 {
				for to := 0.0; to <= 40; to += 2.5 {
					m, err := movement.Change(1, d, about(from, 0), about(to, 0), w)
					require.NoError(t, err)
					low, high := math.Inf(1), math.Inf(-1)
					for _, f := range []movement.FormResult{m.Coefficient, m.Shrinkage, m.Differential, m.Volume} {
						if f.Known {
							low, high = math.Min(low, float64(f.Change.Value)), math.Max(high, float64(f.Change.Value))
						}
					}
					// within its range a form is told as its equation is printed, which counts on another size
					slack := 0.025*math.Max(math.Abs(low), math.Abs(high)) + 1e-12
					require.GreaterOrEqual(t, m.Strain.Value, low-slack, "%v to %v of %+v", from, to, w)
					require.LessOrEqual(t, m.Strain.Value, high+slack, "%v to %v of %+v", from, to, w)
					switch {
					case to < from:
						require.LessOrEqual(t, m.Strain.High, 0.0)
					case to > from:
						require.GreaterOrEqual(t, m.Strain.Low, 0.0)
					}
					asked++
				}
			}
		}
	}
	assert.Equal(t, 4*3*17*17, asked)
}

// The band of each form holds its value, however little is known of the moisture contents.
func TestBandsOfFormsHoldTheirValues(t *testing.T) {
	w := wood.Wood{Radial: wood.Published(0.048), Tangential: wood.Published(0.099), CoefficientRadial: wood.Published(0.00165),
		CoefficientTangential: wood.Published(0.00353), DifferentialRadial: wood.Published(0.002),
		DifferentialTangential: wood.Published(0.0034), SwellingVolumetric: wood.Published(0.0042), FibreSaturation: 0.28}
	for _, sd := range []float64{0, 1, 5, 20} {
		for from := 0.0; from <= 100; from += 4 {
			for to := 0.0; to <= 100; to += 4 {
				m, err := movement.Change(1, movement.Tangential(), about(from, sd), about(to, 20-sd), w)
				require.NoError(t, err)
				for _, f := range []movement.FormResult{m.Coefficient, m.Shrinkage, m.Differential, m.Volume} {
					require.True(t, f.Known)
					require.LessOrEqual(t, f.Change.Low, f.Change.Value, "%v: %v to %v, SD %v", f.Form, from, to, sd)
					require.GreaterOrEqual(t, f.Change.High, f.Change.Value, "%v: %v to %v, SD %v", f.Form, from, to, sd)
				}
			}
		}
	}
}
