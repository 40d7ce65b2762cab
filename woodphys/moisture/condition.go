package moisture

import (
	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// knownSD is the standard deviation of a moisture content that is known without one: that
// of a pin meter without species correction.
const knownSD = pinSDUncorrected * quantity.PercentMC

// KnownTo returns the band of a moisture content mc (0 to 2.5) that is known to the
// standard deviation sd (0.0001 to 0.5; 0 takes 0.03, that of a pin meter).
//
// Accuracy: that of sd.
//
// Source: the caller; pin meters as in the row mc.pin-meter.
func KnownTo(mc, sd quantity.Moisture) quantity.Band[quantity.Moisture] {
	if sd == 0 {
		sd = knownSD
	}
	return quantity.NormalBand(mc, sd)
}

// Condition is what wood is in: a moisture content, an air that it has settled in, or
// green. Just one of MC, Air and Green is given.
type Condition struct {
	MC    *quantity.Moisture // 0 to 2.5
	SD    *quantity.Moisture // of MC, 0 to 0.5; nil takes MC as exact, with a warning
	Air   *air.Measured
	Green bool // as sawn from the log: see Green

	Branch sorption.Branch // of the sorption loop, on which wood settles in the air
}

// Conditioned is the moisture content that a condition means.
type Conditioned struct {
	MC    quantity.Band[quantity.Moisture]
	Notes method.Notes
}

// InCondition returns the moisture content of a wood in a condition; nil is any ordinary
// wood. Green wood is never below its fibre saturation, and neither is its band.
//
// Errors: missing for none of mc_pct, air and green, contradictory for several and for
// sd_pct without mc_pct; else those of air.FromMeasured and sorption.EquilibriumBand
// under air/.
// Accuracy: that of the standard deviation given, or of sorption.EquilibriumBand, or of
// Green.
//
// Source: sorption.EquilibriumBand for an air; Green for green wood.
func InCondition(c Condition, w *wood.Wood) (Conditioned, error) {
	if err := c.check(); err != nil {
		return Conditioned{}, err
	}
	switch {
	case c.Green:
		return green(w), nil
	case c.Air != nil:
		out, err := inAir(c.Air, c.Branch, w)
		out.Notes = out.Notes.Below("air")
		return out, method.Below(err, "air")
	case c.SD != nil:
		return Conditioned{MC: quantity.NormalBand(*c.MC, *c.SD)}, nil
	}
	out := Conditioned{MC: quantity.NormalBand(*c.MC, 0)}
	out.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "sd_pct",
		Detail: "mc_pct is taken as exact; the band does not hold its error"})
	return out, nil
}

func (c *Condition) check() error {
	given := 0
	for _, is := range []bool{c.MC != nil, c.Air != nil, c.Green} {
		if is {
			given++
		}
	}
	switch {
	case given == 0:
		return &method.Error{Code: method.Missing, Detail: "say mc_pct, or the air the wood has settled in, or green"}
	case given > 1:
		return &method.Error{Code: method.Contradictory, Detail: "say only one of mc_pct, air and green"}
	case c.SD != nil && c.MC == nil:
		return &method.Error{Code: method.Contradictory, Input: "sd_pct", Detail: "a spread goes with a moisture content; give both"}
	}
	return nil
}

func inAir(m *air.Measured, branch sorption.Branch, w *wood.Wood) (Conditioned, error) {
	var out Conditioned
	var curves sorption.Curves
	if w != nil {
		curves = sorption.CurvesOf(w)
	}
	s, err := air.FromMeasured(*m)
	if err != nil {
		return out, err
	}
	out.Notes.Merge(s.Notes)
	emc, err := sorption.EquilibriumBand(s.DryBulb, s.RelativeHumidity, branch, curves)
	if err != nil {
		return Conditioned{}, err
	}
	out.Notes.Merge(emc.Notes)
	out.MC = emc.Moisture
	return out, nil
}
