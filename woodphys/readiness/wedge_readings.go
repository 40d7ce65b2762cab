package readiness

import (
	"context"
	"fmt"
	"math"
	"slices"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// WedgePlace is where on a wedge a meter was set or a sample cut.
type WedgePlace string

// Places of a wedge; the empty one: not told.
const (
	AtThinnest WedgePlace = "thinnest"
	AtHalfway  WedgePlace = "halfway"
	AtThickest WedgePlace = "thickest"
)

const (
	// shiftSpread is how far what a place lies off the whole is unsure of, as a share of it. Own
	// choice.
	shiftSpread = 0.3
	// tellsApart is from how far on thin and thick places lie apart before that is told. Own choice.
	tellsApart = 0.5 * quantity.PercentMC
	// sureTo is how surely a place holds what was read at best. Own choice.
	sureTo = 1 * quantity.PercentMC
	// wedgeTimes is how many times a course of a wedge is looked at.
	wedgeTimes = 120
)

// wedgeCourses are the middle courses of the whole of a wedge and of its thin and thick places.
type wedgeCourses struct {
	times              []quantity.Duration
	whole, thin, thick []quantity.Moisture
}

// onWedge turns readings of one place of a wedge into readings of the whole, by how far the place
// lies off it at such a moisture; one of which the place is not told may be of any, and counts as
// less sure. What is told of the whole, as a weight is, stays.
func (q *HistoryQuestion) onWedge(ctx context.Context, notes *method.Notes) ([]Observation, error) {
	list := slices.Clone(q.Observations)
	if q.Setup.Edges == nil {
		return list, nil
	}
	var c *wedgeCourses
	for i := range list {
		o := &list[i]
		at, ofPlace := q.TakenAt[i]
		if !ofPlace {
			continue
		}
		if c == nil {
			var err error
			if c, err = q.wedgeCourses(ctx); err != nil {
				return nil, err
			}
		}
		shift, spread := c.off(o, at)
		if at == "" && spread > float64(tellsApart)/math.Sqrt(12) {
			notes.Warn(method.Warning{Code: method.Assumption, Method: "drying.taper", Input: fmt.Sprintf("observations/%d", i),
				Detail: fmt.Sprintf("where on the wedge it was taken is not told; at such a moisture thin and thick places lie some %s points "+
					"apart, so that it counts as less sure. Say taken_at", quantity.FormatNumber(100*spread*math.Sqrt(12), 1))})
		}
		o.MC = max(o.MC+quantity.Moisture(shift), 0)
		o.SD = quantity.Moisture(math.Hypot(float64(o.SD), spread))
	}
	return list, nil
}

// wedgeCourses runs the middle forecast.
func (q *HistoryQuestion) wedgeCourses(ctx context.Context) (*wedgeCourses, error) {
	s := &q.Setup
	transport, err := drying.NewTransport(s.Wood)
	if err != nil {
		return nil, err
	}
	total := s.horizon()
	var times []quantity.Duration
	for i := range wedgeTimes {
		share := quantity.Duration(i) / (wedgeTimes - 1)
		times = append(times, min(total*share*share, total))
	}
	solver := drying.Solver{Work: s.Work}
	run := func(thickness quantity.Length, faster float64) ([]quantity.Moisture, error) {
		course, err := solver.Run(ctx, &drying.Job{Transport: transport, Thickness: thickness, Factor: s.Factor * faster, Pace: s.Pace,
			Initial: s.StartMC, History: s.History, Ends: s.Ends, Phases: s.Phases, Times: times, Setting: drying.Coarse()})
		return slices.Clone(course.Mean), err
	}
	c := wedgeCourses{times: times}
	if c.whole, err = run(s.Thickness, 1); err != nil {
		return nil, err
	}
	if c.thin, err = run(s.Edges.Thin.Thickness, s.Edges.Thin.Faster); err != nil {
		return nil, err
	}
	c.thick, err = run(s.Edges.Thick.Thickness, s.Edges.Thick.Faster)
	return &c, err
}

// off is how far the whole lies off a reading of a place, and the spread of that: looked at when
// the place holds what was read, at the time next to the reading.
func (c *wedgeCourses) off(o *Observation, at WedgePlace) (shift, spread float64) {
	course := map[WedgePlace][]quantity.Moisture{AtThinnest: c.thin, AtThickest: c.thick}[at]
	if course == nil {
		course = c.whole
	}
	i := c.when(course, o)
	apart := math.Abs(float64(c.thick[i] - c.thin[i]))
	switch at {
	case AtThinnest, AtThickest:
		shift = float64(c.whole[i] - course[i])
		return shift, shiftSpread * math.Abs(shift)
	case AtHalfway:
		return 0, shiftSpread * apart / 2
	}
	return 0, apart / math.Sqrt(12)
}

// when is the time at which a course holds what was read, to what the reading is sure of: the one
// next to the reading; where it never does, that at which it comes nearest.
func (c *wedgeCourses) when(course []quantity.Moisture, o *Observation) int {
	best, nearest := -1, 0
	for i, mc := range course {
		off := math.Abs(float64(mc - o.MC))
		if off < math.Abs(float64(course[nearest]-o.MC)) {
			nearest = i
		}
		if off <= math.Max(float64(o.SD), float64(sureTo)) && (best < 0 || math.Abs(float64(c.times[i]-o.At)) < math.Abs(float64(c.times[best]-o.At))) {
			best = i
		}
	}
	if best < 0 {
		return nearest
	}
	return best
}
