package dry

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
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
			Limit: method.AtMost(most.AtMost(unit)), Detail: "the drying model goes to " + most.Format(unit)})
	}
	seen := map[string]bool{}
	for i := range r.Limits {
		place := "step_limits/" + strconv.Itoa(i) + "/step"
		switch step := r.Limits[i].Step; {
		case step == string(readiness.Glue):
			wrong = append(wrong, &method.Error{Code: method.NotAChoice, Input: place, Limit: method.OneOf(readiness.Resaw, readiness.Thickness),
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
	least, most := timing.MeanBetween(wire.FromPercent(*m.Shell), wire.FromPercent(*m.Core))
	off := timing.MeanStrays
	if mean := wire.FromPercent(*m.Mean); mean < least-off || mean > most+off {
		said := func(mc quantity.Moisture) string { return quantity.FormatNumber(mc.Percent(), 1) + " %" }
		return &method.Error{Code: method.Contradictory, Input: "moisture_profile/mean_mc_pct",
			Limit: method.Between(quantity.RoundedUp((least-off).Percent(), 1), quantity.RoundedDown((most+off).Percent(), 1), "%"),
			Detail: "the mean does not lie between shell and core as in a plank: with a shell of " + quantity.FormatNumber(*m.Shell, 1) + " % and a core of " +
				quantity.FormatNumber(*m.Core, 1) + " % it is " + said(least) + " to " + said(most) + "; one of the three is wrong"}
	}
	return nil
}
