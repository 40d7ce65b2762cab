package air

import (
	"fmt"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Heated returns the air s after it was warmed or cooled to t (-60 to 120 degC)
// at constant pressure, with its vapour kept: what outdoor air becomes in a
// heated room. Cooled below its dew point the air stays saturated over liquid
// water at t and a warning says that water condenses; cooled below its frost
// point only, the vapour is kept and a warning speaks of frost. The notes hold
// those of s.
//
// Errors: *method.Error with input "temperature" or "pressure" out of range.
// Accuracy: that of SaturationPressureOverWater. It knows no other source of vapour: the
// people, plants and drying wood in a room add to it.
//
// Source: vapour pressure unchanged at constant pressure, ASHRAE Fundamentals
// 2017 ch. 1, moist air sensible heating or cooling.
func Heated(s State, t quantity.Temperature) (State, error) {
	heated, err := begin(t, s.Pressure)
	if err != nil {
		return State{}, err
	}
	heated.Notes.Rest(&rowHeated)
	e := s.VapourPressure
	if saturation := SaturationPressureOverWater(t); e > saturation {
		e = saturation
		heated.Notes.Warn(tooCold("%s lies below the dew point %s: water condenses and the air stays saturated", t, DewPointOf(s.VapourPressure)))
	} else if t.Kelvin() < freezing && t.Less(s.DryBulb) && e > SaturationPressureOverIce(t) {
		heated.Notes.Warn(tooCold("%s lies below the frost point %s: frost may form and dry the air further", t, FrostPointOf(e)))
	}
	heated, err = heated.with(e, "temperature")
	if err != nil {
		return State{}, err
	}
	var notes method.Notes
	notes.Merge(s.Notes)
	notes.Merge(heated.Notes)
	heated.Notes = notes
	return heated, nil
}

// tooCold warns of a temperature below the one at which water leaves the air.
func tooCold(said string, t, point quantity.Temperature) method.Warning {
	return method.Warning{Code: method.Assumption, Method: rowHeated.ID, Input: "temperature", Detail: fmt.Sprintf(said, t.Format("C"), point.Format("C"))}.
		Saying(said, method.Amount{Value: t.Celsius(), Unit: "C"}, method.Amount{Value: point.Celsius(), Unit: "C"})
}
