package readiness

import (
	"fmt"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Condition is what is known of a piece at a time. Its bands hold 90 %; the
// readings up to the time and after it count alike.
type Condition struct {
	At       quantity.Duration
	Mean     quantity.Band[quantity.Moisture]
	Shell    quantity.Band[quantity.Moisture] // outer tenth at each face
	Core     quantity.Band[quantity.Moisture] // middle fifth
	Gradient quantity.Band[quantity.Moisture] // core minus shell
	// Thin and Thick are the mean over the thickness where a wedge is thinnest and where
	// it is thickest; nil for a board.
	Thin, Thick *quantity.Band[quantity.Moisture]
	// MCPerDay and MassPerDay are the changes per day over the week before and the
	// week after, as moisture content and as a share of the mass; below 0 is drying.
	MCPerDay   quantity.Band[quantity.Moisture]
	MassPerDay quantity.Band[float64]
	Notes      method.Notes
}

// Now returns the condition of the piece at a time, 0 to the horizon.
//
// Errors: *method.Error out_of_range for "at_days".
// Accuracy: that of Learn.
//
// Source: row readiness.learn.
func (p *Posterior) Now(at quantity.Duration) (Condition, error) {
	c := Condition{At: at}
	c.Notes.Merge(p.Notes)
	if err := p.within(at, "at_days"); err != nil {
		return Condition{}, err
	}
	v := p.view(at)
	s := make([]sample, p.Members)
	band := func(value func(m int) float64) []sample {
		for m := range s {
			s[m] = sample{value(m), p.e.weight[m]}
		}
		return s
	}
	dry := func(b quantity.Band[quantity.Moisture]) quantity.Band[quantity.Moisture] { return b.Clamp(0, 2.5) }
	c.Mean = dry(bandOf[quantity.Moisture](band(v.meanOf)))
	c.Shell = dry(bandOf[quantity.Moisture](band(func(m int) float64 { return v.shell[m] + v.stray[m] })))
	c.Core = dry(bandOf[quantity.Moisture](band(func(m int) float64 { return v.core[m] + v.stray[m] })))
	c.Gradient = bandOf[quantity.Moisture](band(func(m int) float64 { return v.core[m] - v.shell[m] }))
	c.MCPerDay = bandOf[quantity.Moisture](band(func(m int) float64 { return v.rate[m] }))
	c.MassPerDay = bandOf[float64](band(func(m int) float64 { return v.rate[m] / (1 + v.mean[m]) }))
	if p.e.thin != nil {
		at := p.e.find(at)
		thin := dry(bandOf[quantity.Moisture](band(func(m int) float64 { return v.meanOf(m) + at.of(p.e.thin[m]) })))
		thick := dry(bandOf[quantity.Moisture](band(func(m int) float64 { return v.meanOf(m) + at.of(p.e.thick[m]) })))
		c.Thin, c.Thick = &thin, &thick
	}
	return c, nil
}

func (p *Posterior) within(at quantity.Duration, input string) error {
	if horizon := p.Horizon(); !(at >= 0 && at <= horizon) {
		return &method.Error{Code: method.OutOfRange, Input: input, Limit: method.Between(0, horizon.Days(), "days"),
			Detail: fmt.Sprintf("a time must lie between the day of stacking and the end of the forecast, %g days later; got %g days", horizon.Days(), at.Days())}
	}
	return nil
}

// view is what the members say of a time: the forecast, and by how much each
// strays from it (added to the mean to be what the piece really has).
type view struct {
	mean, shell, core []float64
	rate              []float64 // of the forecast, per day
	stray             []float64
}

func (v *view) meanOf(m int) float64 { return v.mean[m] + v.stray[m] }

// place is where a time lies among the times of the forecast.
type place struct {
	i     int
	share float64 // on the way from i to i+1
}

func (e *ensemble) find(at quantity.Duration) place {
	low, high := 0, len(e.times)-1
	for low+1 < high {
		if mid := (low + high) / 2; e.times[mid] <= at {
			low = mid
		} else {
			high = mid
		}
	}
	if high == low { // a single time
		return place{}
	}
	return place{low, min(max(float64((at-e.times[low])/(e.times[high]-e.times[low])), 0), 1)}
}

func (q place) of(v []float32) float64 {
	if q.share == 0 {
		return float64(v[q.i])
	}
	return float64(v[q.i]) + q.share*(float64(v[q.i+1])-float64(v[q.i]))
}

func (p *Posterior) view(at quantity.Duration) *view {
	e, n := p.e, p.Members
	flat := make([]float64, 5*n)
	part := func(k int) []float64 { return flat[k*n : (k+1)*n] }
	v := &view{part(0), part(1), part(2), part(3), part(4)}
	g := p.gauge(at, TrendSpan)
	for m := range n {
		v.mean[m], v.shell[m], v.core[m] = g.here.of(e.mean[m]), g.here.of(e.shell[m]), g.here.of(e.core[m])
		v.rate[m], v.stray[m] = g.rate(e, m), g.stray(e, m)
	}
	return v
}

// gauge is what it takes to read the members at a time.
type gauge struct {
	here, from, to place
	days           float64 // from from to to
	loose          float64 // standard deviation of the discrepancy beside its mean
}

// gauge reads the members at a time; the change is that over a span about it.
func (p *Posterior) gauge(at, span quantity.Duration) gauge {
	before, after := max(at-span/2, 0), min(at+span/2, p.Horizon())
	here := p.e.find(at)
	return gauge{here, p.e.find(before), p.e.find(after), (after - before).Days(), here.of(p.e.loose)}
}

// rate of member m over the span, per day: that of the forecast and of the mean of its discrepancy,
// so that weights that stay as they are tell of rest where the law has it drying on.
func (g *gauge) rate(e *ensemble, m int) float64 {
	if !(g.days > 0) {
		return 0
	}
	more := g.to.of(e.mean[m]) - g.from.of(e.mean[m]) + g.to.of(e.drift[m]) - g.from.of(e.drift[m])
	if e.thick != nil { // the thick places are the last to come to rest
		more += g.to.of(e.thick[m]) - g.from.of(e.thick[m])
	}
	return more / g.days
}

// drift is the mean of the discrepancy of member m.
func (g *gauge) drift(e *ensemble, m int) float64 { return g.here.of(e.drift[m]) }

// stray is the discrepancy of member m.
func (g *gauge) stray(e *ensemble, m int) float64 {
	return g.here.of(e.drift[m]) + g.loose*g.here.of(e.wander[m])
}

// mostCourse bounds the times of a course.
const mostCourse = 400

// Course is the forecast over time with its 90 % bands, for a drawing.
type Course struct {
	Times             []quantity.Duration
	Mean, Shell, Core []quantity.Band[quantity.Moisture]
	Notes             method.Notes
}

// Course returns the bands at times between 0 and the horizon, at most 400.
//
// Errors: *method.Error out_of_range for "times/<n>", too_much_work for "times".
// Accuracy: that of Learn; between the times of the forecast straight lines.
//
// Source: row readiness.learn.
func (p *Posterior) Course(times []quantity.Duration) (Course, error) {
	if len(times) > mostCourse {
		return Course{}, &method.Error{Code: method.TooMuchWork, Input: "times", Limit: method.AtMost(mostCourse, ""),
			Detail: fmt.Sprintf("a course has at most %d times; got %d", mostCourse, len(times))}
	}
	n := len(times)
	bands := make([]quantity.Band[quantity.Moisture], 3*n)
	c := Course{Times: times, Mean: bands[:n:n], Shell: bands[n : 2*n : 2*n], Core: bands[2*n:]}
	c.Notes.Merge(p.Notes)
	s := make([]sample, 2*p.Members)
	for i, at := range times {
		if err := p.within(at, fmt.Sprintf("times/%d", i)); err != nil {
			return Course{}, err
		}
		here := p.e.find(at)
		loose := here.of(p.e.loose)
		for k, of := range [...][][]float32{p.e.mean, p.e.shell, p.e.core} {
			for m, w := range p.e.weight {
				// each path and its mirror, so that the middle of the course does not wander
				mean, off := here.of(of[m])+here.of(p.e.drift[m]), loose*here.of(p.e.wander[m])
				s[2*m], s[2*m+1] = sample{mean + off, w}, sample{mean - off, w}
			}
			b := bandOf[quantity.Moisture](s).Clamp(0, 2.5)
			switch k {
			case 0:
				c.Mean[i] = b
			case 1:
				c.Shell[i] = b
			default:
				c.Core[i] = b
			}
		}
	}
	return c, nil
}
