package match

import (
	"math"

	"latewood/woodphys/quantity"
)

// oddities are what the reader of the whole answer should know.
type oddities struct{ flat, unreached, apart, openBand bool }

func (o *oddities) note(p *Place) {
	const low = 5 * quantity.Degree
	if p.Angle < low {
		o.flat = true
	}
	if p.Plane == nil || p.Circle == nil {
		return
	}
	if off := math.Abs(float64(*p.Plane - *p.Circle)); off > 1e-4 && off > 0.05*math.Abs(float64(*p.Circle)) {
		o.apart = true
	}
}
