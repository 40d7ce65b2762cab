package match

import (
	"math"

	"latewood/woodphys/quantity"
)

// oddities are what the reader of the whole answer should know.
type oddities struct{ flat, unreached, apart, openBand, elsewhere bool }

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

// noteFace notes a layout whose ring lines miss by over a millimetre more somewhere on the
// face than at its three places.
func (o *oddities) noteFace(l *Layout) {
	if l.Largest == nil {
		return
	}
	most := 0.0
	for i := range l.Places {
		if s := l.Places[i].Shift; s != nil {
			most = math.Max(most, math.Abs(float64(*s)))
		}
	}
	o.elsewhere = o.elsewhere || math.Abs(float64(l.Largest.Shift)) > most+1e-3
}
