package drying

import (
	"fmt"
	"math"
	"sort"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

const (
	day = 86400.0 // s
	// slowStep is the longest time step in seconds under air that changes with the
	// seasons; the error control usually asks for less.
	slowStep = 15 * day
	// restStep is the longest time step under constant air.
	restStep = 120 * day
)

// Climate is the course of the air around the wood in run time (seconds since
// the start of the run). It does not change and may be shared. Make it with
// Constant, Station, Logged or Heated.
type Climate struct {
	knots    []float64 // s, ascending
	c, slope []float64 // degC and its slope per second to the right of the knot
	rh, rise []float64 // fraction and its slope to the right
	smooth   bool      // cubic Hermite with slopes that hold from both sides; else straight lines
	period   float64   // s; 0 means not periodic
	phase    float64   // s, added to the run time
	end      float64   // s of run time after which nothing is known
	maxStep  float64   // s
	notes    method.Notes
}

// Constant returns air that stays at t (-40 to 80 degC) and rh (fraction 0 to 1).
//
// Errors: *method.Error with input "temperature" or "rh_pct".
// Accuracy: that of the two figures.
//
// Source: the caller's figures; nothing is computed.
func Constant(t quantity.Temperature, rh float64) (*Climate, error) {
	if err := checkAir(t, rh); err != nil {
		return nil, err
	}
	return &Climate{
		knots: []float64{0}, c: []float64{t.Celsius()}, slope: []float64{0}, rh: []float64{rh}, rise: []float64{0},
		end: math.Inf(1), maxStep: restStep,
	}, nil
}

// Reading is one row of logged air.
type Reading struct {
	Time        quantity.Duration    // since the start of the run; may be negative
	Temperature quantity.Temperature // -40 to 80 degC
	RH          float64              // fraction 0 to 1
}

// maxReadings bounds the rows of a log.
const maxReadings = 200_000

// Logged returns the air of a log, with straight lines between its rows. rows
// must rise in time; 2 to 200 000 of them. A run may not reach beyond them. The
// solver steps no longer than the spacing of the rows (at least an hour), so an
// hourly log of a year costs about 9000 steps; average it to days if the day
// cycle does not matter.
//
// Errors: *method.Error with input "rows", "rows/<n>/time",
// "rows/<n>/temperature" or "rows/<n>/rh_pct".
// Accuracy: that of the log; what happens between two rows is not known.
//
// Source: the caller's log; straight lines between its rows.
func Logged(rows []Reading) (*Climate, error) {
	if len(rows) < 2 || len(rows) > maxReadings {
		return nil, &method.Error{Code: method.OutOfRange, Input: "rows", Limit: method.Between(2, maxReadings, "rows"),
			Detail: fmt.Sprintf("a log of air must have 2 to %d rows; got %d", maxReadings, len(rows))}
	}
	n := len(rows)
	cl := &Climate{knots: make([]float64, n), c: make([]float64, n), slope: make([]float64, n), rh: make([]float64, n), rise: make([]float64, n)}
	for i, r := range rows {
		at := float64(r.Time)
		if math.IsNaN(at) || math.IsInf(at, 0) || i > 0 && at <= cl.knots[i-1] {
			return nil, &method.Error{Code: method.Contradictory, Input: fmt.Sprintf("rows/%d/time", i),
				Detail: fmt.Sprintf("row %d of the log must have a time later than the row before", i)}
		}
		if err := checkAir(r.Temperature, r.RH); err != nil {
			return nil, method.Below(err, fmt.Sprintf("rows/%d", i))
		}
		cl.knots[i], cl.c[i], cl.rh[i] = at, r.Temperature.Celsius(), r.RH
	}
	for i := range n - 1 {
		span := cl.knots[i+1] - cl.knots[i]
		cl.slope[i], cl.rise[i] = (cl.c[i+1]-cl.c[i])/span, (cl.rh[i+1]-cl.rh[i])/span
	}
	cl.end = cl.knots[n-1]
	cl.maxStep = min(max((cl.end-cl.knots[0])/float64(n-1), 3600), slowStep)
	return cl, nil
}

// checkAir refuses air outside the limits.
func checkAir(t quantity.Temperature, rh float64) error {
	if _, err := rowClimate.Check("temperature", t.Celsius()); err != nil {
		return err
	}
	_, err := rowClimate.Check("rh_pct", rh*100)
	return err
}

// At returns the temperature and the relative humidity (fraction) of the air at
// a time since the start of the run; outside a log, those of its nearer end.
//
// Accuracy: that of the function that made the climate.
//
// Source: as the climate was made.
func (cl *Climate) At(d quantity.Duration) (t quantity.Temperature, rh float64) {
	cursor := 0
	c, _, h, _ := cl.at(float64(d), &cursor)
	return quantity.Celsius(c), h
}

// Basis returns the methods the climate rests on and its warnings.
func (cl *Climate) Basis() method.Notes { return cl.notes }

// at returns degC, its slope, the relative humidity and its slope at time s;
// cursor remembers the interval between calls.
func (cl *Climate) at(s float64, cursor *int) (c, slope, h, rise float64) {
	n := len(cl.knots)
	if n == 1 {
		return cl.c[0], 0, cl.rh[0], 0
	}
	s += cl.phase
	if cl.period > 0 {
		if s < 0 || s >= cl.period {
			s -= cl.period * math.Floor(s/cl.period)
		}
	} else if !(s > cl.knots[0]) {
		return cl.c[0], 0, cl.rh[0], 0
	} else if s >= cl.knots[n-1] {
		return cl.c[n-1], 0, cl.rh[n-1], 0
	}
	i := cl.find(s, *cursor)
	*cursor = i
	if !cl.smooth {
		u := s - cl.knots[i]
		return cl.c[i] + cl.slope[i]*u, cl.slope[i], cl.rh[i] + cl.rise[i]*u, cl.rise[i]
	}
	j := (i + 1) % n
	span := cl.knots[j] - cl.knots[i]
	if j == 0 {
		span += cl.period
	}
	u := (s - cl.knots[i]) / span
	c, slope = hermite(u, span, cl.c[i], cl.c[j], cl.slope[i], cl.slope[j])
	h, rise = hermite(u, span, cl.rh[i], cl.rh[j], cl.rise[i], cl.rise[j])
	if h < 0 || h > 1 {
		h, rise = min(max(h, 0), 1), 0
	}
	return c, slope, h, rise
}

// find returns the interval of s, trying the remembered one and its neighbour
// first. The knots start at or before s.
func (cl *Climate) find(s float64, i int) int {
	n := len(cl.knots)
	for range 2 {
		if i >= 0 && i < n && s >= cl.knots[i] && (i+1 == n || s < cl.knots[i+1]) {
			return i
		}
		i++
	}
	return max(sort.SearchFloat64s(cl.knots, math.Nextafter(s, math.Inf(1)))-1, 0)
}

func hermite(u, span, a, b, slopeA, slopeB float64) (value, slope float64) {
	m0, m1, rise := slopeA*span, slopeB*span, b-a
	c2, c3 := 3*rise-2*m0-m1, m0+m1-2*rise
	return a + u*(m0+u*(c2+u*c3)), (m0 + u*(2*c2+u*3*c3)) / span
}

// Steady reports whether the air is told as one that stays as it is.
//
// Accuracy: exact. Source: how the climate was made.
func (cl *Climate) Steady() bool { return !cl.changes() }

// changes reports whether the air is anything but constant.
func (cl *Climate) changes() bool { return len(cl.knots) > 1 }
