package dry

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/timing"
)

// check refuses what contradicts itself.
func (r *ResawTimingRequest) check() error {
	var wrong []error
	wrong = append(wrong, evenly(r.Moisture))
	if r.Prongs != nil {
		wrong = append(wrong, wire.Under("prong_test", r.Prongs.Check()))
	}
	if most, unit := seasoning.ThickestDried, r.Billet.Thickness.Unit; r.Billet.Thickness.SI > most {
		wrong = append(wrong, &method.Error{Code: method.OutOfRange, Input: "billet/thickness",
			Limit:  "at most " + most.AtMost(unit),
			Detail: "the drying model goes to " + most.AtMost(unit)})
	}
	seen := map[string]bool{}
	for i := range r.Limits {
		place := "step_limits/" + strconv.Itoa(i) + "/step"
		switch step := r.Limits[i].Step; {
		case step == string(readiness.Glue):
			wrong = append(wrong, &method.Error{Code: method.NotAChoice, Input: place, Limit: "one of resaw, thickness",
				Detail: "only the limits of resaw and thickness count here"})
		case seen[step]:
			wrong = append(wrong, twice(place, step))
		default:
			seen[step] = true
		}
	}
	return errors.Join(wrong...)
}

// evenly refuses a profile that contradicts itself.
func evenly(m *shelf.MoistureProfile) error {
	switch {
	case (m.Shell == nil) != (m.Core == nil):
		return wire.Missing("moisture_profile/"+map[bool]string{true: "shell_mc_pct", false: "core_mc_pct"}[m.Shell == nil],
			"shell_mc_pct and core_mc_pct go together")
	case m.Shell == nil:
		return nil
	}
	if off := timing.MeanStrays.Percent(); *m.Mean < min(*m.Shell, *m.Core)-off || *m.Mean > max(*m.Shell, *m.Core)+off {
		return wire.Contradictory("moisture_profile/mean_mc_pct", "the mean does not lie between shell and core")
	}
	return nil
}
