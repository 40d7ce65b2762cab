package drying

import (
	"fmt"
	"math"

	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// heatedKnot is the spacing at which smooth outdoor air is turned into indoor air.
const heatedKnot = 2.5 * day

// summerGain (K) is by how much a room that nothing cools is warmer than outdoors, by sun and
// people, when it is not heated: assumed.
const summerGain = 2.0

// RoomAt returns how warm a room is that is heated to t, when it is outdoors outside: a heater
// does not cool, and on warm days the room is 2 K warmer than outdoors.
//
// Accuracy: rooms differ by a few K; a room of thick walls is cooler on the first warm days.
//
// Source: assumed, no source.
func RoomAt(outdoors, t quantity.Temperature) quantity.Temperature {
	return quantity.Kelvin(math.Max(outdoors.Kelvin()+summerGain, t.Kelvin()))
}

// Heated returns outdoor air after it was warmed to t (-40 to 80 degC) indoors, or on warm
// days to what RoomAt says, with its vapour kept, its humidity held at 100 % at most: the
// air of a heated room whose air comes from outside. added is vapour that people,
// plants and work add indoors with the windows shut, as a rise of vapour pressure, 0 to 3000
// Pa; nil takes UsualVapour, with a warning. It falls as VapourAt says.
//
// Errors: *method.Error with input "temperature" or "added_vapour".
// Accuracy: that of the outdoor air and of the vapour.
//
// Source: vapour pressure kept at constant pressure, ASHRAE Fundamentals 2017 ch. 1; VapourAt; RoomAt.
func Heated(outdoor *Climate, t quantity.Temperature, added *quantity.Pressure) (*Climate, error) {
	if _, err := rowClimate.Check("temperature", t.Celsius()); err != nil {
		return nil, err
	}
	cl := &Climate{period: outdoor.period, phase: outdoor.phase, end: outdoor.end, maxStep: outdoor.maxStep, smooth: outdoor.smooth}
	cl.notes.Merge(outdoor.notes)
	vapour, err := VapourOfPeople(added, &rowClimate, &cl.notes)
	if err != nil {
		return nil, err
	}
	cl.knots = outdoor.knots
	if outdoor.smooth {
		n := int(math.Round(outdoor.period / heatedKnot))
		cl.knots = make([]float64, n)
		for i := range cl.knots {
			cl.knots[i] = outdoor.period / float64(n) * float64(i)
		}
	}
	n := len(cl.knots)
	cl.c, cl.slope, cl.rh, cl.rise = make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	wet, cursor := false, 0
	for i, at := range cl.knots {
		c, _, h, _ := outdoor.at(at-outdoor.phase, &cursor)
		outdoors := quantity.Celsius(c)
		room := RoomAt(outdoors, t)
		e, inside := h*air.SaturationPressureOverWater(outdoors).Pascals()+VapourAt(c, vapour).Pascals(), air.SaturationPressureOverWater(room).Pascals()
		wet = wet || e > inside
		cl.c[i], cl.rh[i] = room.Celsius(), min(e/inside, 1)
	}
	for i := range n {
		switch {
		case cl.smooth:
			before, after, span := (i+n-1)%n, (i+1)%n, cl.period/float64(n)
			cl.slope[i] = slopeBetween(cl.c[before], cl.c[i], cl.c[after]) / span
			cl.rise[i] = (cl.rh[after] - cl.rh[before]) / (2 * span)
		case i+1 < n:
			span := cl.knots[i+1] - cl.knots[i]
			cl.slope[i], cl.rise[i] = (cl.c[i+1]-cl.c[i])/span, (cl.rh[i+1]-cl.rh[i])/span
		}
	}
	if wet {
		const said = "at times the air of a room heated to %s is saturated; water would condense and the humidity is held at 100 %%"
		cl.notes.Warn(method.Warning{Code: method.Assumption, Method: rowClimate.ID, Input: "temperature", Detail: fmt.Sprintf(said, t.Format("C"))}.
			Saying(said, method.Amount{Value: t.Celsius(), Unit: "C"}))
	}
	return cl, nil
}

// slopeBetween is the slope of a smooth course at the middle of three values an even step
// apart, per step: that of the outer two, but for a course between values that stays between
// them, so that a room does not get colder than it is heated where the heating comes on.
//
// Source: Fritsch and Carlson (1980), Monotone piecewise cubic interpolation (from memory): no
// more than three times either secant, and none at a turn.
func slopeBetween(before, here, after float64) float64 {
	in, out := here-before, after-here
	if in*out <= 0 {
		return 0
	}
	slope := (in + out) / 2
	return math.Copysign(min(math.Abs(slope), 3*math.Abs(in), 3*math.Abs(out)), slope)
}
