package dry

import (
	"latewood/api/internal/shelf"
	"latewood/woodphys/method"
	"latewood/woodphys/seasoning"
)

// heatCaution is the usual one where wood is heated; codes, manuals and those with a licence
// decide.
var heatCaution = method.Warning{Code: method.Caution,
	Detail: "heat on a stack can start a fire and burn: never leave a heater near wood alone, keep it clear of wood and dust, let it " +
		"cool before you reach in, leave wiring and fuel to licensed people, and follow local codes and the manual of the kiln"}

// heats notes the caution where wood lies in heat.
func heats(stays []shelf.Stay, notes *method.Notes) {
	for i := range stays {
		s := &stays[i]
		hot := len(s.Phases) > 0 || s.Exposure == "kiln" || s.HeatedTo != nil && seasoning.Heated(s.HeatedTo.SI)
		if s.Air != nil && s.Air.Temperature != nil {
			hot = hot || seasoning.Heated(s.Air.Temperature.SI)
		}
		if hot {
			notes.Warn(heatCaution)
			return
		}
	}
}
