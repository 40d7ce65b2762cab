package moist

import (
	"context"
	"errors"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// EMCRequest asks where wood settles in an air, or which humidity keeps it at a
// wanted moisture content.
type EMCRequest struct {
	Wood     *shelf.WoodAsked  `json:"wood,omitempty" description:"woods rich in extractives settle lower in damp air"`
	Air      *shelf.Air        `json:"air,omitempty" description:"the air; gives the moisture content at which wood settles"`
	DryBulb  *wire.Temperature `json:"temperature,omitempty" validate:"omitempty,gte=233.15,lte=373.15" description:"of the air, with wanted_emc_pct and in place of air"`
	Wanted   *float64          `json:"wanted_emc_pct,omitempty" validate:"omitempty,gt=0,lte=27" description:"the moisture content that the wood is to keep, with temperature and in place of air; gives the relative humidity that keeps it there"`
	History  string            `json:"sorption,omitempty" validate:"omitempty,oneof=unknown drying wetting" default:"unknown" description:"how the wood comes there: drying wood settles above the middle curve, wetting wood below it; unknown takes the middle"`
	ReportIn string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (req *EMCRequest) System() string { return req.ReportIn }

// Joins says which members go together.
func (*EMCRequest) Joins() wire.Joined {
	return wire.Joined{OneOf: [][]string{{"air"}, {"wanted_emc_pct", "temperature"}},
		NotAll: [][]string{{"air", "wanted_emc_pct"}, {"air", "temperature"}}}
}

// EMCResult is an equilibrium and the air that goes with it.
type EMCResult struct {
	Summary         string        `json:"summary" required:"true" description:"the answer in a sentence"`
	EMC             wire.Band     `json:"emc" required:"true" description:"moisture content at which the wood settles"`
	DryBulb         wire.Quantity `json:"temperature" required:"true" description:"of the air"`
	RHPct           float64       `json:"rh_pct" required:"true" description:"relative humidity of the air, over water"`
	RHBand          *wire.Band    `json:"rh,omitempty" description:"with wanted_emc_pct: rh_pct with its band, the relative humidity that keeps the wood there"`
	FibreSaturation wire.Band     `json:"fibre_saturation_mc" required:"true" description:"at the air temperature; water above it is free and moves nothing"`
	Forms           []EMCForm     `json:"forms" required:"true" nullable:"false" description:"what each published equation gives for this wood; the band of emc holds them"`
}

// EMCForm is what one published equation gives.
type EMCForm struct {
	Method string  `json:"method" required:"true" description:"id of the method of the equation"`
	EMCPct float64 `json:"emc_pct" required:"true" description:"moisture content at which the wood settles by this equation"`
}

// ComputeEMC answers where wood settles in an air, or which humidity keeps it.
func ComputeEMC(_ context.Context, t *shelf.Tables, req *EMCRequest) (EMCResult, method.Notes, error) {
	var notes method.Notes
	value := t.General
	w, noWood := t.OptionalWood(req.Wood, &notes)
	if w != nil {
		value = w.Value
		if value.FibreSaturation == 0 {
			value.FibreSaturation, value.FibreSaturationSpread = t.General.FibreSaturation, t.General.FibreSaturationSpread
			notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "wood/fibre_saturation_mc_pct", Subject: value.Name, About: method.AWood,
				Detail: "the fibre saturation of woods in general is taken, " + quantity.FormatNumber(value.FibreSaturation.Percent(), 1) + " %MC"})
		}
	}
	settled, err := req.settle(value, &notes)
	if err := errors.Join(noWood, err); err != nil {
		return EMCResult{}, notes, err
	}
	notes.Merge(settled.Notes)
	result := EMCResult{
		EMC: wire.MoistureBandOf(settled.EMC), DryBulb: wire.ReportIn(req.ReportIn).Temperature(settled.Air.DryBulb),
		RHPct: settled.Air.RelativeHumidity * 100, FibreSaturation: wire.MoistureBandOf(settled.Saturation),
	}
	for _, f := range settled.Forms {
		result.Forms = append(result.Forms, EMCForm{f.ID, f.EMC.Percent()})
	}
	if settled.RH != nil {
		band := wire.HumidityBandOf(*settled.RH)
		result.RHBand = &band
	}
	result.Summary = result.said()
	return result, notes, nil
}

// said is the answer in words.
func (r *EMCResult) said() string {
	if r.RHBand != nil {
		return "air of " + r.DryBulb.Said() + " and " + r.RHBand.Said() + " relative humidity keeps the wood at " + r.EMC.Text() + " %"
	}
	return "wood settles at " + r.EMC.Said() + " in air of " + airSaid(r.DryBulb, r.RHPct)
}

// settle is the wood in the air of the request, or in the one that keeps the wanted EMC.
func (req *EMCRequest) settle(w wood.Wood, notes *method.Notes) (sorption.Settled, error) {
	switch {
	case req.Air == nil && req.Wanted == nil:
		return sorption.Settled{}, wire.Missing("",
			"give air for its EMC, or temperature and wanted_emc_pct for the humidity that keeps it")
	case req.Air != nil && (req.Wanted != nil || req.DryBulb != nil):
		return sorption.Settled{}, wire.Contradictory("air", "give air, or temperature and wanted_emc_pct, not both")
	case req.Air == nil && req.DryBulb == nil:
		return sorption.Settled{}, wire.Missing("temperature", "temperature is needed with wanted_emc_pct")
	}
	names := [][2]string{{"mc_pct", "wanted_emc_pct"}, {"fibre_saturation_pct", "/wood/fibre_saturation_mc_pct"}}
	if req.Air == nil { // the humidity follows from the EMC that is wanted
		names = append(names, [2]string{"rh_pct", "wanted_emc_pct"})
		point := func(err error) error { return wire.Under("", err, names...) }
		settled, err := sorption.KeepAt(req.DryBulb.SI, wire.FromPercent(*req.Wanted), shelf.Branches[req.History], w)
		settled.Notes = wire.AtMembers(settled.Notes, point)
		return settled, point(err)
	}
	state, err := req.Air.State("air", notes)
	if err != nil {
		return sorption.Settled{}, err
	}
	settled, err := sorption.SettleIn(state, shelf.Branches[req.History], w)
	point := func(err error) error { return wire.Under("air", err, [2]string{"mc_pct", "rh_pct"}, names[1]) }
	settled.Notes = wire.AtMembers(settled.Notes, point)
	return settled, point(err)
}
