package seasoning

import (
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/sorption"
)

// DriedBefore is the moisture content below which a piece is taken to have been dry
// before, so that its place in the sorption loop is not known. Own choice, below the
// fibre saturation of most woods.
const DriedBefore = 25 * quantity.PercentMC

// driestTarget is the driest moisture content that a piece is judged by.
const driestTarget = 0.5 * quantity.PercentMC

// Room is the air that a piece comes to rest in.
type Room struct {
	Temperature      quantity.Temperature // -40 to 100 degC
	RelativeHumidity float64              // fraction 0 to 1
	Notes            method.Notes         // of how the air was come by
}

// Rest is where a wood comes to rest in a room.
type Rest struct {
	Moisture quantity.Band[quantity.Moisture]
	Branch   sorption.Branch // that it is taken on
	Room     readiness.Room  // whose air that is; the zero one where the moisture content is stated
	Notes    method.Notes
}

// At returns where a wood comes to rest in the room, on a branch of the sorption loop;
// curves are the sorption of the wood.
//
// Errors: *method.Error with input "temperature" or "rh_pct"; out_of_range for "rh_pct"
// where the air is so dry that wood would be ovendry.
// Accuracy: that is its band.
//
// Source: sorption.EquilibriumBand.
func (r *Room) At(branch sorption.Branch, curves sorption.Curves) (Rest, error) {
	rest := Rest{Branch: branch}
	rest.Notes.Merge(r.Notes)
	emc, err := sorption.EquilibriumBand(r.Temperature, r.RelativeHumidity, branch, curves)
	if err != nil {
		return Rest{}, err
	}
	rest.Notes.Merge(emc.Notes)
	if emc.Moisture.Value < driestTarget {
		damper, err := sorption.HumidityFor(r.Temperature, driestTarget, branch, curves)
		if err != nil {
			return Rest{}, err
		}
		return Rest{}, &method.Error{Code: method.OutOfRange, Input: "rh_pct",
			Limit:  method.AtLeast(quantity.RoundedUp(100*damper.RH.Value, 1), "%"),
			Detail: "wood would be ovendry in such a room; humidity is in percent, 45 and not 0.45"}
	}
	rest.Moisture = emc.Moisture
	rest.Room = readiness.Room{Temperature: r.Temperature, RelativeHumidity: r.RelativeHumidity}
	return rest, nil
}

// For returns where a piece comes to rest in the room that starts at a moisture content
// (0.01 to 1.5; 0: green) with a standard deviation (0 to 0.5), as the forecast has it: one
// that dries from green on the drying side; one that was dry before half a point above the
// middle curve or below, by the side that it comes from, and where that is not sure between
// the two by how likely each is; curves are the sorption of the wood. The room of the rest
// has the edges of the loop.
//
// Errors: as At.
// Accuracy: as At.
//
// Source: as At; the dead band of row drying.hysteresis; the mean of a normal number held
// between two bounds.
func (r *Room) For(start, sd quantity.Moisture, curves sorption.Curves) (Rest, error) {
	rest, err := r.At(Branch(start), curves)
	if err != nil {
		return rest, err
	}
	middle := curves.At(r.Temperature, sorption.Middle).At(r.RelativeHumidity)
	loop := drying.Loop{Driest: max(middle-drying.HalfBand, driestTarget), Wettest: middle + drying.HalfBand}
	if rest.Branch == sorption.Desorption {
		loop.Wettest = max(loop.Wettest, rest.Moisture.Value)
	} else {
		rest.Moisture = rest.Moisture.Shifted(loop.MeanRest(start, sd) - rest.Moisture.Value)
	}
	rest.Room.Loop = loop
	return rest, nil
}

// Branch returns the side of the sorption loop on which a piece comes to rest that
// starts at a moisture content (0.01 to 1.5; 0: green): one that dries from green stays
// on the drying side.
//
// Accuracy: the threshold is our own choice.
//
// Source: hysteresis of sorption (package sorption); DriedBefore.
func Branch(start quantity.Moisture) sorption.Branch {
	if start != 0 && start < DriedBefore {
		return sorption.Middle
	}
	return sorption.Desorption
}

// historyOf is the history of a piece that starts at a moisture content.
func historyOf(start quantity.Moisture) drying.History {
	if start < DriedBefore {
		return drying.Unknown // it has been dry before
	}
	return drying.FromGreen
}
