package moist

import (
	"context"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// AirRequest asks for everything that follows from one measure of the air.
type AirRequest struct {
	Air      *shelf.Air        `json:"air" validate:"required"`
	HeatedTo *wire.Temperature `json:"heated_to,omitempty" validate:"omitempty,gte=233.15,lte=373.15" description:"what this air becomes at another temperature with its vapour kept, such as winter air in a heated shop"`
	ReportIn string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (r *AirRequest) System() string { return r.ReportIn }

// AirState is moist air described in full.
type AirState struct {
	DryBulb        wire.Quantity    `json:"dry_bulb" required:"true"`
	RHPct          float64          `json:"rh_pct" required:"true" description:"over water"`
	WetBulb        *wire.Quantity   `json:"wet_bulb,omitempty"`
	IceBulb        bool             `json:"ice_bulb,omitempty" description:"the wet bulb would carry ice"`
	DewPoint       *wire.Quantity   `json:"dew_point,omitempty" description:"left out where the air is too dry to have one above -100 C"`
	FrostPoint     *wire.Quantity   `json:"frost_point,omitempty" description:"where vapour would settle as ice; only below 0 C"`
	VapourPressure wire.Quantity    `json:"vapour_pressure" required:"true"`
	HumidityRatio  float64          `json:"humidity_ratio" required:"true" description:"kg of vapour per kg of dry air"`
	Pressure       wire.Quantity    `json:"pressure" required:"true"`
	EMC            wire.PercentBand `json:"emc" required:"true" description:"moisture content at which wood of unknown history settles in this air"`
}

// AirResult is the air asked about, and what it becomes when heated.
type AirResult struct {
	Air    AirState  `json:"air" required:"true"`
	Heated *AirState `json:"heated,omitempty"`
}

func ComputeAir(_ context.Context, _ *shelf.Tables, req *AirRequest) (AirResult, method.Notes, error) {
	var notes method.Notes
	report := wire.ReportIn(req.ReportIn)
	state, err := req.Air.State("air", &notes)
	if err != nil {
		return AirResult{}, notes, err
	}
	var result AirResult
	if result.Air, err = describeAir(state, report, &notes); err != nil {
		return AirResult{}, notes, wire.Under("air", err, [2]string{"temperature", "dry_bulb"})
	}
	if req.HeatedTo != nil {
		heated, err := air.Heated(state, req.HeatedTo.SI)
		if err != nil {
			return AirResult{}, notes, wire.Under("heated_to", err, [2]string{"temperature", ""})
		}
		after, err := describeAir(heated, report, &notes)
		if err != nil {
			return AirResult{}, notes, wire.Under("heated_to", err, [2]string{"temperature", ""})
		}
		result.Heated = &after
	}
	return result, notes, nil
}

func describeAir(s air.State, report wire.Reporter, notes *method.Notes) (AirState, error) {
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
	described.EMC = wire.MoistureBandOf(emc.Moisture)
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
