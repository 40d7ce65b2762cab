package match

import (
	"math"

	"latewood/woodphys/quantity"
)

var edgeNames = [3]Edge{NearEdge, MidWidth, FarEdge}

// place fills in the match at one place of the width.
func (m *matcher) place(p *Place, i int, l *Layout) {
	x, za, zb := m.places[i], float64(l.ShowA), float64(l.ShowB)
	d := float64(l.Distance)
	p.At, p.X = edgeNames[i], quantity.Length(x)
	mid, sign := m.rings.at(x, (za+zb)/2)
	onA, _ := m.rings.at(x, za)
	onB, _ := m.rings.at(x, zb)
	p.Angle = mid.angle()
	p.AngleA, p.AngleB = p.Angle, p.Angle
	if m.rings.circular {
		p.AngleA, p.AngleB = onA.angle(), onB.angle()
	}
	direction := sign
	if sign == 0 {
		direction = 1
	}
	if !mid.flat() {
		p.Plane = m.keep(quantity.Length(direction*d*mid.cos/mid.sin + 0)) // d cot(theta); + 0 turns -0 into 0
	}
	if m.rings.circular {
		if shift, ok := m.rings.circleShift(x, za, zb); ok {
			p.Circle = m.keep(quantity.Length(shift + 0))
		}
		p.Shift = p.Circle
	} else {
		p.Shift = p.Plane
	}
	if slope := math.Hypot(mid.sin, mid.cos/m.in.Dip); m.in.Dip > 0 {
		p.Square = m.keep(quantity.Length(d * mid.cos / slope)) // d/sqrt(tan^2(theta) + 1/N^2), divided through by cos
	}
	between := m.rings.circular && (za-m.rings.z)*(zb-m.rings.z) <= 0
	if mid.cos > 1.745e-4*mid.sin && !between { // below 89.99 degrees
		p.Ray = m.keep(quantity.Length(-direction * d * mid.sin / mid.cos)) // d tan(theta); rays are square to the rings
	}
	if m.in.RingWidth > 0 {
		for j, s := range []steepness{onA, onB} {
			if !s.flat() {
				p.Spacing[j] = m.keep(m.in.RingWidth / quantity.Length(s.sin)) // ring/sin(theta)
			}
		}
	}
	if m.in.AngleSD > 0 {
		m.band(p, d, direction)
	}
	m.seen.note(p)
}

// band fills in the 90 % band of the ring shift. d cot(theta) only falls with
// theta, through 0 at 90 degrees, so the quantiles of the angle are those of the
// shift.
func (m *matcher) band(p *Place, d, direction float64) {
	if p.Plane == nil || p.Shift == nil {
		return
	}
	const leastAngle = 0.01 * quantity.Degree
	spread := quantity.Angle(quantity.Z90) * m.in.AngleSD
	low, high := p.Angle+spread, p.Angle-spread
	if high < leastAngle {
		high = leastAngle
		m.seen.openBand = true
	}
	value := direction * float64(*p.Shift)
	offset := value - direction*float64(*p.Plane)
	cot := func(a quantity.Angle) float64 { return d*a.Cos()/a.Sin() + offset }
	b := quantity.Band[quantity.Length]{Value: quantity.Length(value), Low: quantity.Length(cot(low)),
		High: quantity.Length(cot(high))}
	if direction < 0 {
		b.Value, b.Low, b.High = -b.Value, -b.High, -b.Low
	}
	p.Band = &b
}
