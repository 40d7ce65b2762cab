package readiness

import (
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
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
	return m - r.ahead*max(m-wetOnly, 0)
}

// dayOff is how far the day of a reading lies from the one that is written beside it: it is
// written down in the evening, at the weekend or from memory. Common practice, no source.
const dayOff = quantity.Day

// linearise sets slope and discrepancy from the course at time index k.
func (r *reading) linearise(c *drying.Course, k int, s *Setup) {
	m := r.moistureOf(c, k)
	r.slope = 1
	if r.kind == Weight {
		r.slope = 1 / (1 + m)
	}
	s.strays(r, m)
	r.extra, r.dated = 0, 0
	if since := c.Times[k] - c.Times[r.eve]; since > 0 && !s.normal {
		r.dated = math.Abs(r.slope*(r.moistureOf(c, k)-r.moistureOf(c, r.eve))) * float64(dayOff/since)
	}
	if r.kind != Weight && r.depth < 0 && r.part == moisture.Spot {
		r.extra = spotShare * math.Abs(float64(c.Core[k]-c.Surface[k]))
	}
}

// sd is the standard deviation of the discrepancy at moisture content m.
func (d *Discrepancy) sd(m float64) float64 { return math.Hypot(float64(d.SD), d.Share*m) }

// roomCalm is the quick discrepancy in air that is told as steady over that elsewhere.
const roomCalm = 0.6

// Of the quick discrepancy elsewhere: it is a mistake of the air around the wood, which
// damp wood follows by more than dry wood does, as the sorption curve rises. What is told
// of it holds at usualDamp, and it lies between the least and the most of that.
const (
	usualDamp               = 0.65 // relative humidity
	leastBreath, mostBreath = 0.7, 3.0
	breathEvery             = 10 * quantity.Day
	mostBreaths             = 400 // more repeat the last
)

// judgedAt is the temperature at which the scatter between woods is taken out of a
// target: that of a workshop.
var judgedAt = quantity.Celsius(20)

// breathe fills what the quick discrepancy is multiplied by over time.
func (s *Setup) breathe() {
	curves := sorption.CurvesOf(&s.Wood)
	usual := curves.At(judgedAt, sorption.Middle).Slope(usualDamp)
	start := quantity.Duration(0)
	s.breath = s.breath[:0:0]
	for i := range s.Phases {
		p := &s.Phases[i]
		end := start + p.Length
		for at := quantity.Duration(len(s.breath)) * breathEvery; at < end && len(s.breath) < mostBreaths; at += breathEvery {
			by := 1.0
			if p.Climate != nil && p.Climate.Steady() {
				by = roomCalm
			} else if p.Climate != nil {
				t, rh := p.Climate.At(at)
				by = min(max(curves.At(t, sorption.Middle).Slope(rh)/usual, leastBreath), mostBreath)
			}
			s.breath = append(s.breath, by)
		}
		start = end
	}
}

// quick is the standard deviation of the quick discrepancy at a time and a moisture content.
func (s *Setup) quick(at, m float64) float64 {
	return s.breathing(at) * s.Discrepancy.sd(m)
}

// breathing is what the discrepancies are multiplied by at a time.
func (s *Setup) breathing(at float64) float64 {
	if s.Discrepancy.None || len(s.breath) == 0 {
		return 1
	}
	return s.breath[min(max(int(at/float64(breathEvery)), 0), len(s.breath)-1)]
}

// searchQuick and searchLasting are what the quick discrepancy (a spell of weather is no
// slip of the pen) and the lasting one (which would hide one) are multiplied by while
// contradictions are looked for.
const searchQuick, searchLasting = 1.5, 0.53

// strays sets the discrepancies of a reading where the moisture content is m.
func (s *Setup) strays(r *reading, m float64) {
	r.stray, r.lasting = s.quick(r.at, m), s.lasts(r.at, m)
	if s.searching {
		r.stray, r.lasting = searchQuick*r.stray, searchLasting*r.lasting
	}
}

// wetOnly is the moisture content above which the share of the lasting discrepancy counts,
// and ends are ahead.
const wetOnly = 0.08

// lasts is the standard deviation of the lasting discrepancy at a time and a moisture
// content: a month that is damper than usual lifts damp wood more than dry wood, so its
// steady part goes with the air as the quick one does.
func (s *Setup) lasts(at, m float64) float64 {
	l := &s.Discrepancy.Lasting
	return math.Hypot(s.breathing(at)*float64(l.SD), l.Share*max(m-wetOnly, 0))
}

// smooth is the correlation of the lasting discrepancy over a time in its own: once
// differentiable (Matern 3/2, Rasmussen and Williams 2006, from memory), because a wrong
// law errs smoothly, and a single reading that strays from its neighbours is told by it.
func smooth(u float64) float64 {
	u *= math.Sqrt(3)
	return (1 + u) * math.Exp(-u)
}

// own is the variance of y that no other reading shares.
func (r *reading) own() float64 {
	noise := r.noise * max(r.wide, 1)
	return noise*noise + r.extra*r.extra + r.dated*r.dated
}

// shared returns the covariance of two readings: the discrepancy, the ovendry
// mass and lasting difference of a body, the common error of a meter.
func (s *Setup) shared(a, b *reading) float64 {
	apart := math.Abs(a.at - b.at)
	v := a.stray*b.stray*math.Exp(-apart/float64(s.Discrepancy.Time)) + a.lasting*b.lasting*smooth(apart/float64(s.Discrepancy.Lasting.Time))
	v *= a.slope * b.slope * s.inflate
	if a.body == b.body && a.body >= 0 {
		differs := float64(s.Bodies[a.body].Differs)
		v += a.slope * b.slope * differs * differs
		if a.kind == Weight && b.kind == Weight {
			sd := s.ovendrySD(a.body)
			v += sd * sd
			if a.earlier && b.earlier {
				v += vagueOvendry * vagueOvendry
			}
		}
	}
	if !s.normal && a.kind == Sample && b.kind == Sample && a.body == b.body && a.body >= 0 {
		v += sampleShare * sampleShare * a.y * b.y
	}
	if a.meter == b.meter && a.meter >= 0 {
		bias := float64(s.Meters[a.meter].BiasSD)
		v += bias * bias
	}
	return v
}

const (
	// sampleAhead is how far a sample is ahead of the piece, as a share of what is above
	// wetOnly: it is cut a thickness or two from an end, where damp wood is about a point
	// drier than in the middle (row drying.ends). Own choice.
	sampleAhead = 0.02
	// sampleShare is how far all samples of a piece lie from that for good, as a share of
	// their moisture content. Own choice.
	sampleShare = 0.03
)

// vagueOvendry is the standard deviation of the logarithm of an ovendry mass of
// which nothing is known: a factor of 2.7 either way.
const vagueOvendry = 1.0

func (s *Setup) ovendrySD(body int) float64 {
	if b := &s.Bodies[body]; b.Ovendry > 0 {
		if body == 0 {
			return math.Hypot(b.OvendrySD, s.resized)
		}
		return b.OvendrySD
	}
	return vagueOvendry
}

// straying is the discrepancy itself as an unknown at a time, where the moisture
// content is about m.
func (s *Setup) straying(at, m float64) reading {
	r := reading{kind: Sample, at: at, body: -1, meter: -1, depth: -1, slope: 1}
	s.strays(&r, m)
	return r
}

// covariance fills the matrix of the readings, row by row, lower part.
func (s *Setup) covariance(rs []*reading, out []float64) {
	n := len(rs)
	for i, a := range rs {
		for j, b := range rs[:i+1] {
			v := s.shared(a, b)
			if i == j {
				v += a.own()
			}
			out[i*n+j] = v
		}
	}
}
