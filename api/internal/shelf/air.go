package shelf

import (
	"slices"

	"latewood/api/internal/wire"
	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Air is moist air as a caller knows it: dry bulb and one measure of its
// vapour, and the pressure or the elevation if it is not near sea level.
type Air struct {
	Temperature *wire.Temperature `json:"temperature" validate:"required,gte=233.15,lte=373.15" description:"air temperature"`
	RHPct       *float64          `json:"rh_pct,omitempty" validate:"omitempty,gte=0,lte=100" description:"relative humidity over water, as instruments report it below 0 C too; or give wet_bulb or dew_point"`
	WetBulb     *wire.Temperature `json:"wet_bulb,omitempty" validate:"omitempty,gte=173.15,lte=373.15" description:"of an aspirated psychrometer, in place of rh_pct"`
	IceBulb     bool              `json:"ice_bulb,omitempty" description:"with wet_bulb: it carries ice"`
	DewPoint    *wire.Temperature `json:"dew_point,omitempty" validate:"omitempty,gte=173.15,lte=373.15" description:"at which vapour would settle as water, in place of rh_pct"`
	Elevation   *wire.Length      `json:"elevation,omitempty" validate:"omitempty,gte=-500,lte=9000" description:"above the sea, in place of pressure. Left out: sea level"`
	Pressure    *wire.Pressure    `json:"pressure,omitempty" validate:"omitempty,gte=30000,lte=110000" description:"of the air. Left out: that of the elevation, else that at sea level"`
}

// Joins says which members go together.
func (*Air) Joins() wire.Joined {
	return wire.Joined{OneOf: [][]string{{"rh_pct"}, {"wet_bulb"}, {"dew_point"}},
		Needs: map[string][]string{"ice_bulb": {"wet_bulb"}}, NotAll: [][]string{{"elevation", "pressure"}}}
}

// State computes the air and notes what it rests on; errors point below the
// named member.
func (a *Air) State(member string, notes *method.Notes) (air.State, error) {
	s, err := air.FromMeasured(a.measured(member, notes))
	if err != nil {
		return s, ofAir(member)(err)
	}
	s.Notes = wire.AtMembers(s.Notes, ofAir(member))
	notes.Merge(s.Notes)
	return s, nil
}

// StateInKiln is the same of the air of a kiln, whose heat nobody doubts.
func (a *Air) StateInKiln(member string, notes *method.Notes) (air.State, error) {
	var noted method.Notes
	s, err := a.State(member, &noted)
	noted.Warnings = slices.DeleteFunc(noted.Warnings, func(w method.Warning) bool {
		return w.Input == member+"/temperature" && w.Code == method.Assumption
	})
	notes.Merge(noted)
	return s, err
}

// ofAir points what is said of an air at the members of one that stands at a place.
func ofAir(member string) func(error) error {
	return func(err error) error { return wire.Under(member, err, [2]string{"altitude", "elevation"}) }
}

// measured is the air in SI; member is where it stands.
func (a *Air) measured(member string, notes *method.Notes) air.Measured {
	m := air.Measured{DryBulb: a.Temperature.SI, IceBulb: a.IceBulb}
	if a.RHPct != nil {
		if *a.RHPct > 0 && *a.RHPct <= 1 {
			remarkFraction(member+"/rh_pct", "rh_pct", *a.RHPct, "almost dry air", notes)
		}
		rh := *a.RHPct / 100
		m.RH = &rh
	}
	if a.WetBulb != nil {
		m.WetBulb = &a.WetBulb.SI
	}
	if a.DewPoint != nil {
		m.DewPoint = &a.DewPoint.SI
	}
	if a.Elevation != nil {
		m.Altitude = &a.Elevation.SI
	}
	if a.Pressure != nil {
		m.Pressure = &a.Pressure.SI
	}
	return m
}

// remarkFraction notes a percentage so small that it was probably meant as a fraction;
// of is what it would be.
func remarkFraction(input, name string, pct float64, of string, notes *method.Notes) {
	notes.Warn(method.Warning{Code: method.Assumption, Input: input,
		Detail: name + " is in percent: " + quantity.FormatNumber(pct, 3) + " % is " + of})
}
