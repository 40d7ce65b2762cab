package moist

import (
	"context"
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// EMCRequest asks where wood settles in an air, or which humidity keeps it at a
// wanted moisture content.
type EMCRequest struct {
	Species  string            `json:"species,omitempty" validate:"max=100" description:"id or name; woods rich in extractives settle lower"`
	Air      *shelf.Air        `json:"air,omitempty" description:"the air; gives the EMC"`
	DryBulb  *wire.Temperature `json:"dry_bulb,omitempty" validate:"omitempty,gte=233.15,lte=373.15" description:"with wanted_emc_pct: the air temperature"`
	Wanted   *float64          `json:"wanted_emc_pct,omitempty" validate:"omitempty,gt=0,lte=27" description:"gives the relative humidity that keeps wood there"`
	History  string            `json:"history,omitempty" validate:"omitempty,oneof=unknown drying wetting" default:"unknown" description:"drying wood settles above the middle curve, wetting wood below it"`
	ReportIn string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric"`
}

// System is the one that the request asks its answer in.
func (req *EMCRequest) System() string { return req.ReportIn }

// EMCResult is an equilibrium and the air that goes with it.
type EMCResult struct {
	EMC             wire.PercentBand  `json:"emc" required:"true" description:"percent of ovendry mass"`
	DryBulb         wire.Quantity     `json:"dry_bulb" required:"true"`
	RHPct           float64           `json:"rh_pct" required:"true"`
	RHBand          *wire.PercentBand `json:"rh_band,omitempty" description:"with wanted_emc_pct: the humidity that keeps the wood there, for 90 % of pieces"`
	FibreSaturation wire.PercentBand  `json:"fibre_saturation" required:"true" description:"at the air temperature; water above it is free and moves nothing"`
}

var branches = map[string]sorption.Branch{"": sorption.Middle, "unknown": sorption.Middle, "drying": sorption.Desorption, "wetting": sorption.Adsorption}

func ComputeEMC(_ context.Context, t *shelf.Tables, req *EMCRequest) (EMCResult, method.Notes, error) {
	var notes method.Notes
	wood, noWood := t.OptionalWood(req.Species)
	branch, rich := branches[req.History], wood.SettlesLower()
	state, humidity, noAir := req.state(branch, rich, &notes)
	if err := errors.Join(noWood, noAir); err != nil {
		return EMCResult{}, notes, err
	}
	emc, err := sorption.EquilibriumBand(state.DryBulb, state.RelativeHumidity, branch, rich)
	if err != nil {
		return EMCResult{}, notes, req.pointed(err)
	}
	notes.Merge(emc.Notes)
	saturation, err := shelf.FibreSaturation(wood, state.DryBulb, &notes)
	if err != nil {
		return EMCResult{}, notes, req.pointed(err)
	}
	result := EMCResult{
		EMC: wire.MoistureBandOf(emc.Moisture), DryBulb: wire.ReportIn(req.ReportIn).Temperature(state.DryBulb),
		RHPct: quantity.Tidy(state.RelativeHumidity * 100), FibreSaturation: wire.MoistureBandOf(saturation),
	}
	if humidity != nil {
		band := wire.PercentBandOf(*humidity)
		result.RHBand = &band
	}
	return result, notes, nil
}

// pointed points an error of the sorption at the members of this request.
func (req *EMCRequest) pointed(err error) error {
	member := ""
	if req.Air != nil {
		member = "air"
	}
	return wire.Under(member, err, [2]string{"temperature", "dry_bulb"}, [2]string{"fibre_saturation_pct", "/species"})
}

// state is the air of the request, or the one that keeps the wanted EMC with
// the band of its humidity.
func (req *EMCRequest) state(branch sorption.Branch, rich bool, notes *method.Notes) (air.State, *quantity.Band[float64], error) {
	switch {
	case req.Air == nil && req.Wanted == nil:
		return air.State{}, nil, wire.Missing("", "give air for its EMC, or dry_bulb and wanted_emc_pct for the humidity that keeps it")
	case req.Air != nil && (req.Wanted != nil || req.DryBulb != nil):
		return air.State{}, nil, wire.Contradictory("air", "give air, or dry_bulb and wanted_emc_pct, not both")
	case req.Air != nil:
		s, err := req.Air.State("air", notes)
		return s, nil, err
	case req.DryBulb == nil:
		return air.State{}, nil, wire.Missing("dry_bulb", "dry_bulb is needed with wanted_emc_pct")
	}
	humidity, err := sorption.HumidityFor(req.DryBulb.SI, wire.FromPercent(*req.Wanted), branch, rich)
	if err != nil {
		return air.State{}, nil, wire.Under("", err, [2]string{"mc_pct", "wanted_emc_pct"}, [2]string{"temperature", "dry_bulb"})
	}
	notes.Merge(humidity.Notes)
	s, err := air.FromRelativeHumidity(req.DryBulb.SI, humidity.RH.Value, air.SeaLevelPressure)
	return s, &humidity.RH, wire.Under("", err, [2]string{"temperature", "dry_bulb"})
}
