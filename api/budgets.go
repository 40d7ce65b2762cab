package api

import (
	"latewood/api/internal/cut"
	"latewood/api/internal/dry"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"reflect"
)

// budgets are the limits of work that neither a range nor the length of a list
// tells, by route.
var budgets = map[string][]serve.WorkBudget{
	"/v1/resaw":     {{Of: "the search of a plan", Most: cut.UsualWork, Unit: "steps"}},
	"/v1/yield":     {{Of: "leaves of one stack", Most: resaw.MaxLeaves, Unit: "leaves"}},
	"/v1/seasoning": append([]serve.WorkBudget{recordRows, {Of: "the forecast", Most: int(dry.HorizonLimit / quantity.Day), Unit: "days"}}, SimulationBudgets...),
	"/v1/readiness": append([]serve.WorkBudget{recordRows, {Of: "the forecast", Most: int(dry.HorizonLimit / quantity.Day), Unit: "days"}, {Of: "leaves of one stack", Most: resaw.MaxLeaves, Unit: "leaves"}}, SimulationBudgets...),

	"/v1/resaw/timing":     append([]serve.WorkBudget{recordRows, {Of: "the forecast", Most: int(dry.HorizonLimit / quantity.Day), Unit: "days"}, {Of: "leaves of one stack", Most: resaw.MaxLeaves, Unit: "leaves"}}, SimulationBudgets...),
	"/v1/in-service":       append([]serve.WorkBudget{recordRows}, SimulationBudgets...),
	"/v1/movement-figures": append([]serve.WorkBudget{recordRows}, SimulationBudgets...),
}

var recordRows = serve.WorkBudget{Of: "a record of air as CSV", Most: shelf.MostLogRows, Unit: "rows"}

// limitsOf are the limits of a route.
func limitsOf(r *serve.Route) serve.RouteLimits {
	l := serve.RouteLimits{Method: r.Method, Route: serve.ContractPath(r.Path), BodyBytes: r.BodyLimit(), Budgets: budgets[r.Path], Heavy: r.Heavy, Units: serve.RequestCost}
	if r.Heavy {
		l.Units = serve.HeavyCost
	}
	if r.Request != nil {
		l.Lists = serve.ListsIn(reflect.TypeOf(r.Request), "", nil)
	}
	if r.Open == serve.ToProbes {
		l.Units = 0
	}
	return l
}

// limitsOfAll are the limits of the routes that are no mere files.
func limitsOfAll() []serve.RouteLimits {
	var all []serve.RouteLimits
	for i := range routes {
		if !routes[i].Asset {
			all = append(all, limitsOf(&routes[i]))
		}
	}
	return all
}

// SimulationBudgets are the limits of simulations, as GET /v1/limits tells them.
var SimulationBudgets = []serve.WorkBudget{{Of: "one simulation of drying", Most: drying.UsualMaxSteps, Unit: "time steps"}, {Of: "all simulations of drying together", Most: wire.MostSimulated, Unit: "time steps"}}
