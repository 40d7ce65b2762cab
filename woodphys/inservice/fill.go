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

// extreme returns where values is highest (sign 1) or lowest (-1) and the value there; in
// a smooth year by a parabola through three points, and its value on the cubic spline of
// Catmull and Rom through all points, which moves on without a jump where the highest point
// changes.
func extreme(times []quantity.Duration, values []quantity.Moisture, sign float64, smooth bool) (quantity.Duration, quantity.Moisture) {
	best := 0
	for i := range values {
		if sign*float64(values[i]) > sign*float64(values[best]) {
			best = i
		}
	}
	at, top := times[best], values[best]
	last := len(values) - 1 // the same instant as 0, a year later
	if !smooth || last < 3 {
		return at, top
	}
	a, b, c := float64(values[(best+last-1)%last]), float64(values[best]), float64(values[(best+1)%last])
	if curve := a - 2*b + c; sign*curve < 0 {
		if u := 0.5 * (a - c) / curve; math.Abs(u) <= 1 {
			at = quantity.Duration(math.Mod(float64(at+quantity.Duration(u)*(times[1]-times[0])+times[last]), float64(times[last])))
		}
	}
	for i := range last {
		before, a, b, after := float64(values[(i+last-1)%last]), float64(values[i]), float64(values[i+1]), float64(values[(i+1)%last+1])
		for _, u := range flat((b-before)/2, (after-a)/2, b-a) {
			if v := hermite(a, b, (b-before)/2, (after-a)/2, u); sign*v > sign*float64(top) {
				top = quantity.Moisture(v)
			}
		}
	}
	return at, top
}

// hermite is the cubic from a to b with the slopes p and q, at u of 0 to 1.
func hermite(a, b, p, q, u float64) float64 {
	rise := b - a
	return a + u*(p+u*(3*rise-2*p-q+u*(p+q-2*rise)))
}

// flat is where between 0 and 1 that cubic is level, none where it is nowhere.
func flat(p, q, rise float64) [2]float64 {
	c, b, a := p, 2*(3*rise-2*p-q), 3*(p+q-2*rise)
	under := b*b - 4*a*c
	if under < 0 {
		return [2]float64{}
	}
	inside := func(u float64) float64 {
		if u > 0 && u < 1 {
			return u
		}
		return 0
	}
	w := -(b + math.Copysign(math.Sqrt(under), b)) / 2
	return [2]float64{inside(w / a), inside(c / w)}
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
