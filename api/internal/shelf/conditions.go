package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// Conditions are a moisture content, stated or as the equilibrium of an air.
type Conditions struct {
	MC    *float64 `json:"mc_pct,omitempty" validate:"omitempty,gte=0,lte=250"`
	SD    *float64 `json:"sd_pct,omitempty" validate:"omitempty,gte=0,lte=20" description:"standard deviation of mc_pct; without it mc_pct is taken as exact"`
	Air   *Air     `json:"air,omitempty" description:"the wood has settled in this air"`
	Green bool     `json:"green,omitempty" description:"above fibre saturation, as sawn from the log; the answer shows 60 % with a wide band for it, because nothing moves up there"`
}

// Green wood of unknown moisture content: any figure above fibre saturation
// moves alike, so the band only has to be wide.
const (
	greenMoisture = 60 * quantity.PercentMC
	greenSpread   = 15 * quantity.PercentMC
)

// Moisture is the moisture content meant; errors point below the named member.
func (c *Conditions) Moisture(member string, lowerEMC bool, notes *method.Notes) (quantity.Band[quantity.Moisture], error) {
	var none quantity.Band[quantity.Moisture]
	given := 0
	for _, is := range []bool{c.MC != nil, c.Air != nil, c.Green} {
		if is {
			given++
		}
	}
	switch {
	case given == 0:
		return none, wire.Under(member, wire.Missing("", "say mc_pct, or the air the wood has settled in, or green"))
	case given > 1:
		return none, wire.Under(member, wire.Contradictory("", "say only one of mc_pct, air and green"))
	case c.SD != nil && c.MC == nil:
		return none, wire.Under(member, wire.Contradictory("sd_pct", "sd_pct goes with mc_pct"))
	case c.Green:
		return quantity.NormalBand(greenMoisture, greenSpread), nil
	case c.MC != nil:
		remarkFraction(member+"/mc_pct", *c.MC, notes)
		if c.SD == nil {
			notes.Warn(method.Warning{Code: method.DefaultUsed, Input: member + "/sd_pct", Detail: "mc_pct is taken as exact; the band does not hold its error"})
			return quantity.NormalBand(wire.FromPercent(*c.MC), 0), nil
		}
		return quantity.NormalBand(wire.FromPercent(*c.MC), wire.FromPercent(*c.SD)), nil
	}
	state, err := c.Air.State(member+"/air", notes)
	if err != nil {
		return none, err
	}
	emc, err := sorption.EquilibriumBand(state.DryBulb, state.RelativeHumidity, sorption.Middle, lowerEMC)
	if err != nil {
		return none, wire.Under(member+"/air", err, [2]string{"temperature", "dry_bulb"})
	}
	notes.Merge(emc.Notes)
	return emc.Moisture, nil
}

// MovementError points at the members of this request.
func MovementError(err error) error {
	return wire.Under("", err, [2]string{"from_mc_pct", "from"}, [2]string{"to_mc_pct", "to"},
		[2]string{"radial_pct", "wood/radial_shrinkage_pct"}, [2]string{"tangential_pct", "wood/tangential_shrinkage_pct"},
		[2]string{"fibre_saturation_pct", "wood/fibre_saturation_pct"})
}
