package moisture_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// A core is refused that no plank of such a mean has, drying or taking up moisture; what the readings
// leave open is not.
func TestCoreBesideTheMean(t *testing.T) {
	for name, c := range map[string]struct {
		mean, core, sd quantity.Moisture
		refused        bool
	}{
		"drier by 16 points":             {0.25, 0.09, 0.015, true},
		"the same, hardly known":         {0.25, 0.09, 0.08, false},
		"taking up moisture":             {0.13, 0.09, 0.01, false},
		"drying":                         {0.18, 0.26, 0.015, false},
		"wetter than twice the mean":     {0.10, 0.30, 0.015, true},
		"green, with a core as wet":      {0.80, 0.85, 0.05, false},
		"green, with a core that is dry": {0.80, 0.12, 0.03, true},
	} {
		_, err := moisture.Gather([]moisture.Estimate{
			{MC: quantity.NormalBand(c.mean, 0.004), SD: 0.004, Place: moisture.Mean, How: "mc.ovendry"},
			{MC: quantity.NormalBand(c.core, c.sd), SD: c.sd, Place: moisture.Core, How: "mc.pin-meter"}})
		if !c.refused {
			assert.NoError(t, err, name)
			continue
		}
		var domain *method.Error
		if assert.ErrorAs(t, err, &domain, name) {
			assert.Equal(t, method.Contradictory, domain.Code)
			assert.Equal(t, "estimates/1", domain.Input)
		}
	}
}
