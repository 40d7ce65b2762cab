package readiness_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// Slips at the scale are told by name where only one of them explains the weight; a right weight
// is not doubted.
func TestOddWeightsAreDoubted(t *testing.T) {
	f := readiness.Foreseen{Least: 4.85, Most: 4.99}
	for _, c := range []struct {
		mass  quantity.Mass
		unit  string
		odd   bool
		below bool
		slip  string
	}{
		{4.91, "kg", false, false, ""},
		{4.85, "kg", false, false, ""},
		{4.19, "kg", true, true, "two digits were swapped: 4.91 for 4.19"},
		{49.1, "kg", true, false, "the decimal point slipped"},
		{10.82, "kg", true, false, "pounds were read as kilograms"},
		{4.42, "kg", true, true, ""}, // a tenth off
		{4.91e-3, "g", true, true, "kilograms were read as grams"},
		{4.19, "stone", true, true, ""},
	} {
		d, odd := f.Doubts(c.mass, c.unit)
		assert.Equal(t, c.odd, odd, c.mass)
		assert.Equal(t, c.below, d.Below, c.mass)
		if c.slip == "" {
			assert.Empty(t, d.Slip, c.mass)
		} else {
			assert.Contains(t, d.Slip, c.slip, c.mass)
		}
	}
}

// Without a forecast the last weight is what there is: a month takes a tenth at most, and longer
// times more, but never more than green wood holds.
func TestAfterAWeight(t *testing.T) {
	soon := readiness.AfterWeight(10, 3*quantity.Day)
	assert.InDelta(t, 9, float64(soon.Least), 1e-9)
	assert.InDelta(t, 11, float64(soon.Most), 1e-9)
	assert.InDelta(t, 7.29, float64(readiness.AfterWeight(10, 90*quantity.Day).Least), 1e-9)
	assert.InDelta(t, 4, float64(readiness.AfterWeight(10, 3650*quantity.Day).Least), 1e-9)
	d, odd := soon.Doubts(22.05, "kg")
	assert.True(t, odd)
	assert.Contains(t, d.Slip, "pounds were read as kilograms")
}
