package moist

import (
	"context"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// AirRequest asks for everything that follows from one measure of the air.
type AirRequest struct {
	Air      *shelf.Air        `json:"air" validate:"required" description:"the air, by its temperature and one measure of its vapour"`
	HeatedTo *wire.Temperature `json:"heated_to,omitempty" validate:"omitempty,gte=233.15,lte=373.15" description:"what this air becomes at another temperature with its vapour kept, such as winter air in a heated shop"`
	ReportIn string            `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer: metric (mm, C, kg, hPa, MPa) or inch (in, F, lb, inHg, psi)"`
}

// System is the one that the request asks its answer in.
func (r *AirRequest) System() string { return r.ReportIn }

// AirState is moist air described in full.
type AirState struct {
	DryBulb        wire.Quantity  `json:"temperature" required:"true" description:"of the air"`
	RHPct          float64        `json:"rh_pct" required:"true" description:"over water"`
	WetBulb        *wire.Quantity `json:"wet_bulb,omitempty" description:"of an aspirated psychrometer"`
	IceBulb        bool           `json:"ice_bulb,omitempty" description:"the wet bulb would carry ice"`
	DewPoint       *wire.Quantity `json:"dew_point,omitempty" description:"left out where the air is too dry to have one above -100 C"`
	FrostPoint     *wire.Quantity `json:"frost_point,omitempty" description:"where vapour would settle as ice; only below 0 C"`
	VapourPressure wire.Quantity  `json:"vapour_pressure" required:"true" description:"partial pressure of the water vapour"`
	HumidityRatio  float64        `json:"humidity_ratio" required:"true" resolution:"0.00001" description:"kg of vapour per kg of dry air"`
	Pressure       wire.Quantity  `json:"pressure" required:"true" description:"of the air, as given or by the elevation"`
	EMC            wire.Band      `json:"emc" required:"true" description:"moisture content at which wood of unknown history settles in this air"`
}

// AirResult is the air asked about, and what it becomes when heated.
type AirResult struct {
	Summary string `json:"summary" required:"true" description:"the answer in a sentence"`

	Air    AirState  `json:"air" required:"true" description:"the air that was told"`
	Heated *AirState `json:"heated,omitempty" description:"with heated_to: what it becomes"`
}

// ComputeAir answers what follows from one measure of an air.
func ComputeAir(_ context.Context, _ *shelf.Tables, req *AirRequest) (AirResult, method.Notes, error) {
	var notes method.Notes
	state, err := req.Air.State("air", &notes)
	if err != nil {
		return AirResult{}, notes, err
	}
	var heatedTo *quantity.Temperature
	if req.HeatedTo != nil {
		heatedTo = &req.HeatedTo.SI
	}
	airs, err := sorption.AirIn(state, heatedTo)
	if err != nil {
		return AirResult{}, notes, pointAir(err)
	}
	notes.Merge(wire.AtMembers(airs.Notes, pointAir))
	report := wire.ReportIn(req.ReportIn)
	result := AirResult{Air: describeAir(&airs.Air, report)}
	if airs.Heated != nil {
		after := describeAir(airs.Heated, report)
		result.Heated = &after
	}
	result.Summary = result.Air.said()
	if result.Heated != nil {
		result.Summary += "; with its vapour kept, " + result.Heated.said()
	}
	return result, notes, nil
}

// pointAir points at the members of a request about an air. How dry or damp the heated air
// is follows from both of its temperatures and the vapour; what can be chosen is heated_to.
func pointAir(err error) error {
	return wire.Under("", err, [2]string{"temperature", "air/temperature"}, [2]string{"rh_pct", "air/rh_pct"},
		[2]string{"heated/temperature", "heated_to"}, [2]string{"heated/rh_pct", "heated_to"})
}

// said is an air in words.
func (a *AirState) said() string {
	return "at " + airSaid(a.DryBulb, a.RHPct) + " wood settles at " + a.EMC.Said()
}

// airSaid is the state of an air in words.
func airSaid(temperature wire.Quantity, rhPct float64) string {
	return string(wire.AppendNamed([]byte(temperature.Said()+" and "), "rh_pct", rhPct)) + " % relative humidity"
}

func describeAir(s *sorption.Surroundings, report wire.Reporter) AirState {
	point := func(t *quantity.Temperature) *wire.Quantity {
		if t == nil {
			return nil
		}
		q := report.Temperature(*t)
		return &q
	}
	return AirState{
		DryBulb: report.Temperature(s.DryBulb), RHPct: s.RelativeHumidity * 100,
		VapourPressure: report.Pressure(s.VapourPressure), HumidityRatio: s.HumidityRatio,
		Pressure: report.Pressure(s.Pressure),
		EMC:      wire.MoistureBandOf(s.EMC), WetBulb: point(s.WetBulb), IceBulb: s.IceBulb, DewPoint: point(s.DewPoint),
		FrostPoint: point(s.FrostPoint),
	}
}
