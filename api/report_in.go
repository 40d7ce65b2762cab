package api

import (
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// reporting is a request that says in which units it is answered.
type reporting interface{ system() string }

func (r *ReadinessRequest) system() string { return r.ReportIn }
func (r *SeasoningRequest) system() string { return r.ReportIn }
func (r *ResawRequest) system() string     { return r.ReportIn }
func (r *YieldRequest) system() string     { return r.ReportIn }
func (r *TimingRequest) system() string    { return r.ReportIn }
func (r *BookmatchRequest) system() string { return r.ReportIn }
func (r *MovementRequest) system() string  { return r.ReportIn }
func (r *SectionRequest) system() string   { return r.ReportIn }
func (r *LaminateRequest) system() string  { return r.ReportIn }
func (r *FiguresRequest) system() string   { return r.ReportIn }
func (r *InServiceRequest) system() string { return r.ReportIn }
func (r *EMCRequest) system() string       { return r.ReportIn }
func (r *AirRequest) system() string       { return r.ReportIn }

// inUnitsOf says the warnings in the units the request asks for. Those of the physics
// are worded in metric units.
func inUnitsOf(request any, warnings []method.Warning) []method.Warning {
	asks, is := request.(reporting)
	if !is || asks.system() != InchLB {
		return warnings
	}
	said := slices.Clone(warnings)
	for i := range said {
		said[i].Detail = said[i].In(reportIn(InchLB).amount)
	}
	return said
}

// amount writes a length, a temperature, a mass or a pressure of a warning for
// people; false for all else.
func (r reporter) amount(a method.Amount) (string, bool) {
	switch a.Unit {
	case "mm":
		return (quantity.Length(a.Value) * quantity.Millimetre).Format(r.length), true
	case "m":
		return (quantity.Length(a.Value) * quantity.Metre).Format(r.large), true
	case "C":
		return quantity.Celsius(a.Value).Format(r.temperature), true
	case "g":
		return (quantity.Mass(a.Value) * quantity.Gram).Format(r.mass), true
	case "Pa":
		return quantity.Pressure(a.Value).Format(r.pressure), true
	}
	return "", false
}
