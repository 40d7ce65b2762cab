package readiness

import (
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/moisture"
)

// moistureOf returns what the course says of the part of the thickness that r
// speaks for, at time index k.
func (r *reading) moistureOf(c *drying.Course, k int) float64 {
	switch {
	case r.depth >= 0:
		return float64(c.Depth[r.depth][k])
	case r.part == moisture.Core:
		return float64(c.Core[k])
	case r.part == moisture.Shell:
		return float64(c.Shell[k])
	}
	return float64(c.Mean[k])
}

// expect returns y without its linear parts for moisture content m.
func (r *reading) expect(m float64) float64 {
	if r.kind == Weight {
		return math.Log1p(m)
	}
	return m
}

// linearise sets slope and discrepancy from the course at time index k.
func (r *reading) linearise(c *drying.Course, k int, d *Discrepancy) {
	m := r.moistureOf(c, k)
	r.slope = 1
	if r.kind == Weight {
		r.slope = 1 / (1 + m)
	}
	r.stray = d.sd(m)
	r.extra = 0
	if r.kind != Weight && r.depth < 0 && r.part == moisture.Spot {
		r.extra = spotShare * math.Abs(float64(c.Core[k]-c.Surface[k]))
	}
}

// sd is the standard deviation of the discrepancy at moisture content m.
func (d *Discrepancy) sd(m float64) float64 { return math.Hypot(float64(d.SD), d.Share*m) }

// own is the variance of y that no other reading shares.
func (r *reading) own() float64 { return r.noise*r.noise + r.extra*r.extra }

// shared returns the covariance of two readings: the discrepancy, the ovendry
// mass and lasting difference of a body, the common error of a meter.
func (s *Setup) shared(a, b *reading) float64 {
	v := a.slope * b.slope * a.stray * b.stray * math.Exp(-math.Abs(a.at-b.at)/float64(s.Discrepancy.Time))
	if a.body == b.body && a.body >= 0 {
		differs := float64(s.Bodies[a.body].Differs)
		v += a.slope * b.slope * differs * differs
		if a.kind == Weight && b.kind == Weight {
			sd := s.ovendrySD(a.body)
			v += sd * sd
		}
	}
	if a.meter == b.meter && a.meter >= 0 {
		bias := float64(s.Meters[a.meter].BiasSD)
		v += bias * bias
	}
	return v
}

// vagueOvendry is the standard deviation of the logarithm of an ovendry mass of
// which nothing is known: a factor of 2.7 either way.
const vagueOvendry = 1.0

func (s *Setup) ovendrySD(body int) float64 {
	if b := &s.Bodies[body]; b.Ovendry > 0 {
		return b.OvendrySD
	}
	return vagueOvendry
}

// straying is the discrepancy itself as an unknown at a time, where the moisture
// content is about m.
func straying(at, m float64, d *Discrepancy) reading {
	return reading{kind: Sample, at: at, body: -1, meter: -1, depth: -1, slope: 1, stray: d.sd(m)}
}

// covariance fills the matrix of the readings, row by row, lower part.
func (s *Setup) covariance(rs []*reading, inflate float64, out []float64) {
	n := len(rs)
	for i, a := range rs {
		for j, b := range rs[:i+1] {
			v := s.shared(a, b)
			if i == j {
				v += a.own()
			}
			out[i*n+j] = v * inflate
		}
	}
}
