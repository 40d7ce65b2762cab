package air_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// A wet bulb or dew point that no air has beside its dry bulb tells how warm or cold it may be,
// and that is taken.
func TestPointsThatCannotBeTellWhichCan(t *testing.T) {
	refused := 0
	rapid.Check(t, func(t *rapid.T) {
		dry := quantity.Celsius(float64(rapid.IntRange(-100, 600).Draw(t, "tenths")) / 10)
		point := rapid.Float64Range(-30, 70).Draw(t, "point")
		p := quantity.Pressure(rapid.Float64Range(80000, 105000).Draw(t, "pressure"))
		iced := rapid.Bool().Draw(t, "iced")
		for input, of := range map[string]func(c float64) error{
			"wet_bulb": func(c float64) error {
				_, err := air.FromWetBulb(dry, quantity.Celsius(c), p, iced && c < 0)
				return err
			},
			"dew_point": func(c float64) error { _, err := air.FromDewPoint(dry, quantity.Celsius(c), p); return err },
		} {
			err := of(point)
			if err == nil {
				continue
			}
			e := expect.Code(t, err, method.Contradictory, input)
			require.NotNil(t, e.Limit)
			refused++
			assert.Equal(t, "C", e.Limit.Unit)
			if e.Limit.Max != nil {
				assert.Greater(t, point, *e.Limit.Max)
				assert.NoError(t, of(*e.Limit.Max))
				continue
			}
			assert.Less(t, point, *e.Limit.Min)
			if again := *e.Limit.Min; !iced || again < 0 && point < 0 {
				assert.NoError(t, of(again))
			}
		}
	})
	assert.Positive(t, refused)
}
