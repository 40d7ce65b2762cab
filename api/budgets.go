package api

import (
	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"reflect"
)

// budgets are the limits of work that neither a range nor the length of a list
// tells, by route.
var budgets = map[string][]WorkBudget{
	"/v1/resaw":     {{"the search of a plan", usualWork, "steps"}},
	"/v1/yield":     {{"leaves of one stack", resaw.MaxLeaves, "leaves"}},
	"/v1/seasoning": append([]WorkBudget{recordRows, {"the forecast", int(horizonLimit / quantity.Day), "days"}}, simulationBudgets...),
	"/v1/readiness": append([]WorkBudget{recordRows, {"the forecast", int(horizonLimit / quantity.Day), "days"}, {"leaves of one stack", resaw.MaxLeaves, "leaves"}}, simulationBudgets...),

	"/v1/resaw/timing":     append([]WorkBudget{recordRows, {"the forecast", int(horizonLimit / quantity.Day), "days"}, {"leaves of one stack", resaw.MaxLeaves, "leaves"}}, simulationBudgets...),
	"/v1/in-service":       append([]WorkBudget{recordRows}, simulationBudgets...),
	"/v1/movement-figures": append([]WorkBudget{recordRows}, simulationBudgets...),
}

var recordRows = WorkBudget{"a record of air as CSV", mostLogRows, "rows"}

// limitsOf are the limits of a route.
func limitsOf(r *route) RouteLimits {
	l := RouteLimits{Method: r.method, Route: contractPath(r.path), BodyBytes: r.bodyLimit(), Budgets: budgets[r.path], Heavy: r.heavy, Units: requestCost}
	if r.heavy {
		l.Units = heavyCost
	}
	if r.request != nil {
		l.Lists = listsIn(reflect.TypeOf(r.request), "", nil)
	}
	if r.open == toProbes {
		l.Units = 0
	}
	return l
}

// limitsOfAll are the limits of the routes that are no mere files.
func limitsOfAll() []RouteLimits {
	var all []RouteLimits
	for i := range routes {
		if !routes[i].asset {
			all = append(all, limitsOf(&routes[i]))
		}
	}
	return all
}

// simulationBudgets are the limits of simulations, as GET /v1/limits tells them.
var simulationBudgets = []WorkBudget{{"one simulation of drying", drying.UsualMaxSteps, "time steps"}, {"all simulations of drying together", mostSimulated, "time steps"}}
