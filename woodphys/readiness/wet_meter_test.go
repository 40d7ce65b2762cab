package readiness

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// A meter is as sure of itself however wet a reading of it was, and a reading above what it can tell
// is as unsure as one of just that much.
func TestAMeterIsNoLessSureForAWetReading(t *testing.T) {
	for _, density := range []bool{true, false} {
		at := func(shown quantity.Moisture) moisture.Estimate {
			e, err := moisture.FromPinlessMeter(shown, density)
			assert.NoError(t, err)
			return e
		}
		top := at(meterTop)
		for _, shown := range []quantity.Moisture{0.3, 0.4, 0.6} {
			wet := at(shown)
			assert.InDelta(t, float64(top.SD), float64(MeterSD(shown, wet.SD)), 1e-9)
			one := ObservationOf(wet, 0, 0).atLeast()
			assert.Equal(t, quantity.Moisture(meterTop), one.MC)
			assert.InDelta(t, float64(ObservationOf(top, 0, 0).SD), float64(one.SD), 1e-9)
		}
		assert.Equal(t, top.SD, MeterSD(meterTop, top.SD))
	}
}
