package api

import (
	"context"

	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// Air is moist air as a caller knows it: dry bulb and one measure of its
// vapour, and the pressure or the altitude if it is not near sea level.
type Air struct {
	DryBulb  *Temperature `json:"dry_bulb" validate:"required,gte=233.15,lte=373.15" description:"air temperature"`
	RHPct    *float64     `json:"rh_pct,omitempty" validate:"omitempty,gte=0,lte=100" description:"relative humidity over water, as instruments report it below 0 C too"`
	WetBulb  *Temperature `json:"wet_bulb,omitempty" validate:"omitempty,gte=173.15,lte=373.15" description:"of an aspirated psychrometer"`
	IceBulb  bool         `json:"ice_bulb,omitempty" description:"the wet bulb carries ice"`
	DewPoint *Temperature `json:"dew_point,omitempty" validate:"omitempty,gte=173.15,lte=373.15"`
	Altitude *Length      `json:"altitude,omitempty" validate:"omitempty,gte=-500,lte=9000" description:"above the sea; gives the pressure when that is not given"`
	Pressure *Pressure    `json:"pressure,omitempty" validate:"omitempty,gte=30000,lte=110000"`
}

// state computes the air and notes what it rests on; errors point below the
// named member.
func (a *Air) state(member string, notes *method.Notes) (air.State, error) {
	given := 0
	for _, is := range []bool{a.RHPct != nil, a.WetBulb != nil, a.DewPoint != nil} {
		if is {
			given++
		}
	}
	switch {
	case given == 0:
		return air.State{}, under(member, missing("", "the air needs one of rh_pct, wet_bulb or dew_point"))
	case given > 1:
		return air.State{}, under(member, contradictory("", "give only one of rh_pct, wet_bulb and dew_point"))
	case a.IceBulb && a.WetBulb == nil:
		return air.State{}, under(member, contradictory("ice_bulb", "ice_bulb speaks of a wet_bulb, which is not given"))
	case a.Altitude != nil && a.Pressure != nil:
		return air.State{}, under(member, contradictory("altitude", "give altitude or pressure, not both"))
	}
	pressure := quantity.Pressure(101325) // standard atmosphere at sea level
	if a.Pressure != nil {
		pressure = a.Pressure.SI
	}
	if a.Altitude != nil {
		p, err := air.StandardPressure(a.Altitude.SI)
		if err != nil {
			return air.State{}, under(member, err)
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
		return s, under(member, err, [2]string{"temperature", "dry_bulb"})
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

// AirRequest asks for everything that follows from one measure of the air.
type AirRequest struct {
	Air      *Air         `json:"air" validate:"required"`
	HeatedTo *Temperature `json:"heated_to,omitempty" validate:"omitempty,gte=233.15,lte=373.15" description:"what this air becomes at another temperature with its vapour kept, such as winter air in a heated shop"`
	ReportIn string       `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// AirState is moist air described in full.
type AirState struct {
	DryBulb        Quantity    `json:"dry_bulb" required:"true"`
	RHPct          float64     `json:"rh_pct" required:"true" description:"over water"`
	WetBulb        *Quantity   `json:"wet_bulb,omitempty"`
	IceBulb        bool        `json:"ice_bulb,omitempty" description:"the wet bulb would carry ice"`
	DewPoint       *Quantity   `json:"dew_point,omitempty" description:"left out where the air is too dry to have one above -100 C"`
	FrostPoint     *Quantity   `json:"frost_point,omitempty" description:"where vapour would settle as ice; only below 0 C"`
	VapourPressure Quantity    `json:"vapour_pressure" required:"true"`
	HumidityRatio  float64     `json:"humidity_ratio" required:"true" description:"kg of vapour per kg of dry air"`
	Pressure       Quantity    `json:"pressure" required:"true"`
	EMC            PercentBand `json:"emc" required:"true" description:"moisture content at which wood of unknown history settles in this air"`
}

// AirResult is the air asked about, and what it becomes when heated.
type AirResult struct {
	Air    AirState  `json:"air" required:"true"`
	Heated *AirState `json:"heated,omitempty"`
}

func computeAir(_ context.Context, _ *tables, req *AirRequest) (AirResult, method.Notes, error) {
	var notes method.Notes
	report := reportIn(req.ReportIn)
	state, err := req.Air.state("air", &notes)
	if err != nil {
		return AirResult{}, notes, err
	}
	var result AirResult
	if result.Air, err = describeAir(state, report, &notes); err != nil {
		return AirResult{}, notes, under("air", err, [2]string{"temperature", "dry_bulb"})
	}
	if req.HeatedTo != nil {
		heated, err := air.Heated(state, req.HeatedTo.SI)
		if err != nil {
			return AirResult{}, notes, under("heated_to", err, [2]string{"temperature", ""})
		}
		after, err := describeAir(heated, report, &notes)
		if err != nil {
			return AirResult{}, notes, under("heated_to", err, [2]string{"temperature", ""})
		}
		result.Heated = &after
	}
	return result, notes, nil
}

func describeAir(s air.State, report reporter, notes *method.Notes) (AirState, error) {
	notes.Merge(s.Notes)
	described := AirState{
		DryBulb: report.Temperature(s.DryBulb), RHPct: quantity.Tidy(s.RelativeHumidity * 100),
		VapourPressure: report.Pressure(s.VapourPressure), HumidityRatio: s.HumidityRatio, Pressure: report.Pressure(s.Pressure),
	}
	emc, err := sorption.EquilibriumBand(s.DryBulb, s.RelativeHumidity, sorption.Middle, false)
	if err != nil {
		return AirState{}, err
	}
	notes.Merge(emc.Notes)
	described.EMC = moistureBand(emc.Moisture)
	// A point that does not exist in very dry air is left out, not an error.
	if wet, iced, err := s.WetBulb(); err == nil {
		q := report.Temperature(wet)
		described.WetBulb, described.IceBulb = &q, iced
	}
	if dew, err := s.DewPoint(); err == nil {
		q := report.Temperature(dew)
		described.DewPoint = &q
	}
	if frost, ok, err := s.FrostPoint(); err == nil && ok {
		q := report.Temperature(frost)
		described.FrostPoint = &q
	}
	return described, nil
}
