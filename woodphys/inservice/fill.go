package inservice

import (
	"math"

	"latewood/woodphys/quantity"
)

// fill puts the three runs together.
func (y *Year) fill(room *Room, middle *course, ends *[2]course, scatter float64) {
	y.Outside, y.Inside = middle.outside, middle.inside
	y.Mean = make([]quantity.Band[quantity.Moisture], len(middle.mean))
	for i, m := range middle.mean {
		y.Mean[i] = around(m, ends[0].mean[i], ends[1].mean[i], scatter)
	}
	find := func(sign float64) Extreme {
		at, m := extreme(y.Times, middle.mean, sign, room.repeats && !room.rough)
		_, fast := extreme(y.Times, ends[0].mean, sign, room.repeats && !room.rough)
		_, slow := extreme(y.Times, ends[1].mean, sign, room.repeats && !room.rough)
		return Extreme{At: at, Mean: around(m, fast, slow, scatter), Outside: readAt(y.Times, middle.outside, at), Inside: readAt(y.Times, middle.inside, at)}
	}
	y.Dry, y.Wet = find(-1), find(1)
	air := room.Year()
	y.Delay = (room.after(y.Dry.At, air.Driest.At) + room.after(y.Wet.At, air.Wettest.At)) / 2
}

// after is how long one time of the room is after another, of a year that comes again the
// shorter way round.
func (r *Room) after(at, of quantity.Duration) quantity.Duration {
	late := at - of
	if !r.repeats {
		return max(late, 0)
	}
	for late < -r.span/4 {
		late += r.span
	}
	for late > 3*r.span/4 {
		late -= r.span
	}
	return max(late, 0)
}

// around is the band of m from its runs at the fast and the slow end and the
// scatter of the EMC, as independent.
func around(m, fast, slow quantity.Moisture, scatter float64) quantity.Band[quantity.Moisture] {
	half := quantity.Z90 * scatter * float64(m)
	up := math.Max(float64(max(fast, slow)-m), 0)
	down := math.Max(float64(m-min(fast, slow)), 0)
	return quantity.Band[quantity.Moisture]{
		Value: m, Low: max(m-quantity.Moisture(math.Hypot(half, down)), 0), High: m + quantity.Moisture(math.Hypot(half, up)),
	}
}

// extreme returns where values is highest (sign 1) or lowest (-1) and the value
// there; in a smooth year by a parabola through three points.
func extreme(times []quantity.Duration, values []quantity.Moisture, sign float64, smooth bool) (quantity.Duration, quantity.Moisture) {
	n := len(values)
	best := 0
	for i := range values {
		if sign*float64(values[i]) > sign*float64(values[best]) {
			best = i
		}
	}
	if !smooth || n < 4 {
		return times[best], values[best]
	}
	last := n - 1 // the same instant as 0, a year later
	a, b, c := float64(values[(best+last-1)%last]), float64(values[best]), float64(values[(best+1)%last])
	if curve := a - 2*b + c; sign*curve < 0 {
		u := 0.5 * (a - c) / curve
		if math.Abs(u) <= 1 {
			step := times[1] - times[0]
			at := times[best] + quantity.Duration(u)*step
			return quantity.Duration(math.Mod(float64(at+times[last]), float64(times[last]))), quantity.Moisture(b - 0.25*(a-c)*u)
		}
	}
	return times[best], values[best]
}

// readAt reads values at a time between the times, by straight lines.
func readAt(times []quantity.Duration, values []quantity.Moisture, at quantity.Duration) quantity.Moisture {
	for i := 1; i < len(times); i++ {
		if at <= times[i] {
			u := quantity.Moisture((at - times[i-1]) / (times[i] - times[i-1]))
			return values[i-1] + u*(values[i]-values[i-1])
		}
	}
	return values[len(values)-1]
}
