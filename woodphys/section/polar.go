package section

import "math"

// polar is the map r' = a r, phi' = k phi about the pith, with phi counted from
// the direction of the middle of the section.
type polar struct {
	a, b, k float64
	px, py  float64 // pith
	ux, uy  float64 // unit vector from the pith to the middle of the section
	radius  float64 // of the ring through the middle
}

func newPolar(s *Section, radial, tangential float64) polar {
	m := polar{a: 1 + radial, b: 1 + tangential, px: float64(s.PithX), py: float64(s.PithY)}
	m.k = m.b / m.a
	m.radius = math.Hypot(m.px, m.py)
	m.ux, m.uy = 1, 0
	if m.radius > 0 {
		m.ux, m.uy = -m.px/m.radius, -m.py/m.radius
	}
	return m
}

// mapped is a point after the change, from the pith along u and square to it
// (anticlockwise), with its derivatives by a and by b.
type mapped struct{ x, y, xa, ya, xb, yb float64 }

// at maps a point of the section.
func (m *polar) at(x, y float64) mapped {
	dx, dy := x-m.px, y-m.py
	c, s := dx*m.ux+dy*m.uy, dy*m.ux-dx*m.uy
	r, phi := math.Sqrt(c*c+s*s), math.Atan2(s, c)
	sin, cos := math.Sincos(m.k * phi)
	// P = a r (cos k phi, sin k phi); dk/da = -k/a, dk/db = 1/a
	bx, by := -r*phi*sin, r*phi*cos
	return mapped{
		x: m.a * r * cos, y: m.a * r * sin,
		xa: r*cos - m.k*bx, ya: r*sin - m.k*by,
		xb: bx, yb: by,
	}
}

// tangent returns the mapped point and what becomes of the unit vector (dx, dy)
// there: F d, F = diag(a, b) in polar axes turned by (k-1) phi.
func (m *polar) tangent(x, y, dx, dy float64) (p, t [2]float64) {
	vx, vy := x-m.px, y-m.py
	c, s := vx*m.ux+vy*m.uy, vy*m.ux-vx*m.uy
	r, phi := math.Sqrt(c*c+s*s), math.Atan2(s, c)
	sin, cos := math.Sincos(m.k * phi)
	p = [2]float64{m.a * r * cos, m.a * r * sin}
	if r == 0 {
		return p, [2]float64{dx*m.ux + dy*m.uy, dy*m.ux - dx*m.uy}
	}
	along, around := m.a*(dx*vx+dy*vy)/r, m.b*(dy*vx-dx*vy)/r
	return p, [2]float64{along*cos - around*sin, along*sin + around*cos}
}

// number is a figure of the shape with its derivatives by a and by b.
type number struct{ v, a, b float64 }

// distance is the distance of two points.
func distance(p, q *mapped) number {
	x, y := q.x-p.x, q.y-p.y
	d := math.Sqrt(x*x + y*y)
	if d == 0 {
		return number{}
	}
	x, y = x/d, y/d
	return number{v: d, a: x*(q.xa-p.xa) + y*(q.ya-p.ya), b: x*(q.xb-p.xb) + y*(q.yb-p.yb)}
}

// offset is how far s lies to the left of the line from p to q.
func offset(s, p, q *mapped) number {
	d := distance(p, q)
	if d.v == 0 {
		return number{}
	}
	x, y := q.x-p.x, q.y-p.y
	vx, vy := s.x-p.x, s.y-p.y
	cross := x*vy - y*vx
	return number{
		v: cross / d.v,
		a: ((q.xa-p.xa)*vy+x*(s.ya-p.ya)-(q.ya-p.ya)*vx-y*(s.xa-p.xa))/d.v - cross*d.a/(d.v*d.v),
		b: ((q.xb-p.xb)*vy+x*(s.yb-p.yb)-(q.yb-p.yb)*vx-y*(s.xb-p.xb))/d.v - cross*d.b/(d.v*d.v),
	}
}

// corner is the angle at c from the direction of p anticlockwise to that of q.
func corner(c, p, q *mapped) number {
	px, py, qx, qy := p.x-c.x, p.y-c.y, q.x-c.x, q.y-c.y
	cross, dot := px*qy-py*qx, px*qx+py*qy
	square := cross*cross + dot*dot
	if square == 0 {
		return number{}
	}
	turn := func(pxd, pyd, qxd, qyd float64) float64 {
		dCross := pxd*qy + px*qyd - pyd*qx - py*qxd
		dDot := pxd*qx + px*qxd + pyd*qy + py*qyd
		return (dot*dCross - cross*dDot) / square
	}
	return number{
		v: math.Atan2(cross, dot),
		a: turn(p.xa-c.xa, p.ya-c.ya, q.xa-c.xa, q.ya-c.ya),
		b: turn(p.xb-c.xb, p.yb-c.yb, q.xb-c.xb, q.yb-c.yb),
	}
}

func (n number) scaled(f float64) number { return number{n.v * f, n.a * f, n.b * f} }
