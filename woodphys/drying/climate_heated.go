package drying

import (
	"fmt"
	"math"

	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// heatedKnot is the spacing at which smooth outdoor air is turned into indoor air.
const heatedKnot = 5 * day

// Heated returns outdoor air after it was warmed (or cooled) to t (-40 to 80
// degC) indoors with its vapour kept, its humidity held at 100 % at most: the
// air of a heated room whose air comes from outside. added is vapour that people,
// plants and work add indoors with the windows shut, as a rise of vapour pressure, 0 to 3000
// Pa; nil takes UsualVapour, with a warning. It falls as VapourAt says.
//
// Errors: *method.Error with input "temperature" or "added_vapour".
// Accuracy: that of the outdoor air and of the vapour.
//
// Source: vapour pressure kept at constant pressure, ASHRAE Fundamentals 2017 ch. 1; VapourAt.
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
	inside := air.SaturationPressureOverWater(t).Pascals()
	wet, cursor := false, 0
	for i, at := range cl.knots {
		c, _, h, _ := outdoor.at(at-outdoor.phase, &cursor)
		e := h*air.SaturationPressureOverWater(quantity.Celsius(c)).Pascals() + VapourAt(c, vapour).Pascals()
		wet = wet || e > inside
		cl.c[i], cl.rh[i] = t.Celsius(), min(e/inside, 1)
	}
	for i := range n {
		switch {
		case cl.smooth:
			cl.rise[i] = (cl.rh[(i+1)%n] - cl.rh[(i+n-1)%n]) / (2 * cl.period / float64(n))
		case i+1 < n:
			cl.rise[i] = (cl.rh[i+1] - cl.rh[i]) / (cl.knots[i+1] - cl.knots[i])
		}
	}
	if wet {
		const said = "at times the outdoor air brought to %s is saturated; water would condense and the humidity is held at 100 %%"
		cl.notes.Warn(method.Warning{Code: method.Assumption, Method: rowClimate.ID, Input: "temperature", Detail: fmt.Sprintf(said, t.Format("C"))}.
			Saying(said, method.Amount{Value: t.Celsius(), Unit: "C"}))
	}
	return cl, nil
}
