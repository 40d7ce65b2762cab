package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// Conditions are a moisture content, stated or as the equilibrium of an air.
type Conditions struct {
	MC    *float64 `json:"mc_pct,omitempty" validate:"omitempty,gte=0,lte=250"`
	SD    *float64 `json:"mc_sd_points,omitempty" validate:"omitempty,gte=0,lte=20" description:"standard deviation of mc_pct; without it mc_pct is taken as exact"`
	Air   *Air     `json:"air,omitempty" description:"the wood has settled in this air"`
	Green bool     `json:"green,omitempty" description:"above fibre saturation, as sawn from the log; the answer shows 60 % with a wide band for it, because nothing moves up there"`
}

// Moisture is the moisture content meant; errors point below the named member.
func (c *Conditions) Moisture(member string, lowerEMC bool,
	notes *method.Notes) (quantity.Band[quantity.Moisture], error) {
	meant := moisture.Condition{Green: c.Green}
	if c.MC != nil {
		if *c.MC > 0 && *c.MC < 1 {
			remarkFraction(member+"/mc_pct", member+"/mc_pct", *c.MC, "ovendry wood", notes)
		}
		mc := wire.FromPercent(*c.MC)
		meant.MC = &mc
	}
	if c.SD != nil {
		sd := wire.FromPercent(*c.SD)
		meant.SD = &sd
	}
	if c.Air != nil {
		measured := c.Air.measured(notes)
		meant.Air = &measured
	}
	got, err := moisture.InCondition(meant, lowerEMC)
	if err != nil {
		return got.MC, wire.Under(member, err, [2]string{"sd_pct", "mc_sd_points"}, [2]string{"air/elevation", "air/elevation"})
	}
	for _, w := range got.Notes.Warnings {
		if w.Method == "" && w.Input == "sd_pct" {
			w.Input = member + "/mc_sd_points"
		}
		notes.Warn(w)
	}
	notes.Merge(method.Notes{Basis: got.Notes.Basis})
	return got.MC, nil
}

// InAir reports that the wood has settled in an air.
func (c *Conditions) InAir() bool { return c.Air != nil }
