package drying

import "latewood/woodphys/quantity"

// meanSamples is at how many even times a mean of the air looks.
const meanSamples = 96

// Mean returns the mean temperature and the mean relative humidity (a fraction) of the air
// over a span (above 0) from the start of the run.
//
// Accuracy: that of the air; looked at 96 times, so that the hours of a log are not in it.
//
// Source: arithmetic means.
func (cl *Climate) Mean(span quantity.Duration) (t quantity.Temperature, rh float64) {
	celsius := 0.0
	for i := range meanSamples {
		at, humidity := cl.At(span * quantity.Duration((float64(i)+0.5)/meanSamples))
		celsius += at.Celsius() / meanSamples
		rh += humidity / meanSamples
	}
	return quantity.Celsius(celsius), min(max(rh, 0), 1)
}
