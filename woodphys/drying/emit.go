package drying

import (
	"math"

	"latewood/woodphys/quantity"
)

// accept takes over the step from t over h: outputs within it, the target, the
// exchange of the face.
func (s *Solver) accept(job *Job, t, h float64) {
	s.throughEnds(h)
	if target := float64(job.StopAt); target > 0 && !s.course.Reached {
		s.seek(target, t, h)
	}
	s.emit(job, t, h)
	s.y, s.trial = s.trial, s.y
	s.f, s.ftrial = s.ftrial, s.f
	s.d, s.dtrial = s.dtrial, s.d
	s.q, s.dq = s.qtrial, s.dqtrial
	if s.moving {
		s.now, s.next = s.next, s.now
	}
	s.lost += s.out
	s.take(s.out)
	s.course.Steps++
	if now := s.choose(s.now, s.y[len(s.y)-1]); now != s.exchange {
		s.settle(now)
	}
}

// settle changes the exchange of the face between steps.
func (s *Solver) settle(e exchange) {
	s.exchange = e
	s.q, s.dq = s.balance(s.now, s.y, s.f, s.d)
}

// seek looks for the mean falling to target within the step.
func (s *Solver) seek(target, t, h float64) {
	take := s.grid.weight
	was, behind := s.line.was, s.line.behind
	a, b := dot(take, s.y)-was, dot(take, s.trial)-behind
	if a <= target {
		s.reached(t, 0, h)
		return
	}
	if b > target {
		return
	}
	low, high := 0.0, 1.0
	for range 50 {
		mid := (low + high) / 2
		if v, _ := hermite(mid, h, a, b, limit(-s.q-(behind-was)/h, (b-a)/h), limit(-s.qtrial-(behind-was)/h, (b-a)/h)); v > target {
			low = mid
		} else {
			high = mid
		}
	}
	s.reached(t, high, h)
}

// reached notes that the target was, at the share u of the step from t over h, and the
// profile then.
func (s *Solver) reached(t, u, h float64) {
	c := &s.course
	c.Reached, c.ReachedAt = true, quantity.Duration(t+u*h)
	for i := range c.Depth {
		c.Stopped = append(c.Stopped, s.read(firstDepth+i, u, h))
	}
}

// firstDepth is the place of the first depth asked for among the functionals.
const firstDepth = 4

// emit gives out the wanted times from t to t+h; at the start of the run h is 0.
func (s *Solver) emit(job *Job, t, h float64) {
	c := &s.course
	for len(c.Mean) < len(job.Times) {
		at := float64(job.Times[len(c.Mean)])
		if at > t+h*(1+1e-12) || c.Reached && at > float64(c.ReachedAt) {
			return
		}
		u := 0.0
		if h > 0 {
			u = min((at-t)/h, 1)
		}
		c.Mean = append(c.Mean, s.read(0, u, h)-quantity.Moisture(s.line.at(u)))
		c.Shell = append(c.Shell, s.read(1, u, h))
		c.Core = append(c.Core, s.read(2, u, h))
		c.Surface = append(c.Surface, s.read(3, u, h))
		for i := range c.Depth {
			c.Depth[i] = append(c.Depth[i], s.read(firstDepth+i, u, h))
		}
	}
}

// read returns functional k at the share u of the step: cubic Hermite from the
// values and rates at its ends, the rates limited so that the curve stays between
// the two values (they are stiff near the face).
func (s *Solver) read(k int, u, h float64) quantity.Moisture {
	take := &s.takes[k]
	a := dot(take.take, s.y)
	if u == 0 {
		return quantity.Moisture(a)
	}
	b := dot(take.take, s.trial)
	chord := (b - a) / h
	ra, rb := limit(dot(take.rate, s.f), chord), limit(dot(take.rate, s.ftrial), chord)
	v, _ := hermite(u, h, a, b, ra, rb)
	return quantity.Moisture(v)
}

// limit holds a rate between 0 and three times the chord, which keeps the cubic
// monotone (Fritsch and Carlson 1980, from memory).
func limit(rate, chord float64) float64 {
	if rate*chord <= 0 {
		return 0
	}
	return math.Copysign(math.Min(math.Abs(rate), 3*math.Abs(chord)), chord)
}
