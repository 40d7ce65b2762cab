package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Air is moist air as a caller knows it: dry bulb and one measure of its
// vapour, and the pressure or the altitude if it is not near sea level.
type Air struct {
	DryBulb  *wire.Temperature `json:"dry_bulb" validate:"required,gte=233.15,lte=373.15" description:"air temperature"`
	RHPct    *float64          `json:"rh_pct,omitempty" validate:"omitempty,gte=0,lte=100" description:"relative humidity over water, as instruments report it below 0 C too"`
	WetBulb  *wire.Temperature `json:"wet_bulb,omitempty" validate:"omitempty,gte=173.15,lte=373.15" description:"of an aspirated psychrometer"`
	IceBulb  bool              `json:"ice_bulb,omitempty" description:"the wet bulb carries ice"`
	DewPoint *wire.Temperature `json:"dew_point,omitempty" validate:"omitempty,gte=173.15,lte=373.15"`
	Altitude *wire.Length      `json:"altitude,omitempty" validate:"omitempty,gte=-500,lte=9000" description:"above the sea; gives the pressure when that is not given"`
	Pressure *wire.Pressure    `json:"pressure,omitempty" validate:"omitempty,gte=30000,lte=110000"`
}

// State computes the air and notes what it rests on; errors point below the
// named member.
func (a *Air) State(member string, notes *method.Notes) (air.State, error) {
	given := 0
	for _, is := range []bool{a.RHPct != nil, a.WetBulb != nil, a.DewPoint != nil} {
		if is {
			given++
		}
	}
	switch {
	case given == 0:
		return air.State{}, wire.Under(member, wire.Missing("", "the air needs one of rh_pct, wet_bulb or dew_point"))
	case given > 1:
		return air.State{}, wire.Under(member, wire.Contradictory("", "give only one of rh_pct, wet_bulb and dew_point"))
	case a.IceBulb && a.WetBulb == nil:
		return air.State{}, wire.Under(member, wire.Contradictory("ice_bulb", "ice_bulb speaks of a wet_bulb, which is not given"))
	case a.Altitude != nil && a.Pressure != nil:
		return air.State{}, wire.Under(member, wire.Contradictory("altitude", "give altitude or pressure, not both"))
	}
	pressure := quantity.Pressure(101325) // standard atmosphere at sea level
	if a.Pressure != nil {
		pressure = a.Pressure.SI
	}
	if a.Altitude != nil {
		p, err := air.StandardPressure(a.Altitude.SI)
		if err != nil {
			return air.State{}, wire.Under(member, err)
		}
		pressure = p
	}
	var s air.State
	var err error
	switch {
	case a.RHPct != nil:
		s, err = air.FromRelativeHumidity(a.DryBulb.SI, *a.RHPct/100, pressure)
	case a.WetBulb != nil:
		s, err = air.FromWetBulb(a.DryBulb.SI, a.WetBulb.SI, pressure, a.IceBulb)
	default:
		s, err = air.FromDewPoint(a.DryBulb.SI, a.DewPoint.SI, pressure)
	}
	if err != nil {
		return s, wire.Under(member, err, [2]string{"temperature", "dry_bulb"})
	}
	notes.Merge(s.Notes)
	a.remark(&s, pressure, notes)
	return s, nil
}

// readingError is how far a wet bulb is usually off, in kelvin.
const readingError = 0.5

// remark notes what a reader of the numbers should know: how much a small
// reading error is worth, and a humidity that was probably meant as a fraction.
func (a *Air) remark(s *air.State, pressure quantity.Pressure, notes *method.Notes) {
	if a.RHPct != nil && *a.RHPct > 0 && *a.RHPct <= 1 {
		notes.Warn(method.Warning{Code: method.Assumption, Input: "rh_pct", Detail: "rh_pct is in percent: " + quantity.FormatNumber(*a.RHPct, 3) + " % is almost dry air"})
	}
	if a.WetBulb == nil {
		return
	}
	off, err := air.FromWetBulb(a.DryBulb.SI, a.WetBulb.SI.Add(-readingError), pressure, a.IceBulb)
	if err != nil {
		return // so dry that a lower wet bulb is impossible
	}
	notes.Warn(method.Warning{Code: method.Assumption, Method: "air.wet-bulb", Input: "wet_bulb",
		Detail: "half a degree C (0.9 F) of error in the wet bulb is worth " + quantity.FormatNumber(100*(s.RelativeHumidity-off.RelativeHumidity), 1) + " % RH here; that is not in the bands"})
}
