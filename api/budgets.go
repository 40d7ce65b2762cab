package api

import (
	"reflect"
	"slices"
	"time"

	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
	"latewood/woodphys/seasoning"
)

// Kinds of work that a request may cause.
var (
	search     = []serve.WorkBudget{{Of: "the search of a plan", Most: plan.UsualWork, Unit: "steps"}}
	stack      = []serve.WorkBudget{{Of: "leaves of one stack", Most: resaw.MaxLeaves, Unit: "leaves"}}
	recordRows = []serve.WorkBudget{{Of: "a record of air as CSV", Most: shelf.MostLogRows, Unit: "rows"}}
	forecast   = []serve.WorkBudget{{Of: "the forecast", Most: int(seasoning.LongestHorizon / quantity.Day), Unit: "days"}}
	simulation = []serve.WorkBudget{
		{Of: "one simulation of drying", Most: drying.UsualMaxSteps, Unit: "time steps"},
		{Of: "all simulations of drying together", Most: shelf.MostSimulated, Unit: "time steps"},
	}
)

// budgets are the limits of work that neither a range nor the length of a list
// tells, by route.
var budgets = map[string][]serve.WorkBudget{
	"/v1/resaw-plan":        search,
	"/v1/leaf-yield":        stack,
	"/v1/seasoning":         slices.Concat(recordRows, forecast, simulation),
	"/v1/readiness":         slices.Concat(recordRows, forecast, stack, simulation),
	"/v1/resaw-timing":      slices.Concat(recordRows, forecast, stack, simulation),
	"/v1/year-in-service":   slices.Concat(recordRows, simulation),
	"/v1/assembly-movement": slices.Concat(recordRows, simulation),
}

// limitsOf are the limits of a route; upload is the operator's for pictures, 0 the usual one.
func limitsOf(r *serve.Route, upload int64) serve.RouteLimits {
	l := serve.RouteLimits{Method: r.Method, Route: serve.ContractPath(r.Path), BodyBytes: r.BodyLimit(),
		Budgets: budgets[r.Path], Heavy: r.Heavy, Units: serve.RequestCost}
	if upload > 0 && l.BodyBytes == serve.UsualUpload {
		l.BodyBytes = upload
	}
	if r.Heavy {
		l.Units = serve.HeavyCost
	}
	if r.Request != nil {
		l.Lists = serve.ListsIn(reflect.TypeOf(r.Request), "", nil)
	}
	if w, ok := r.Handler.(serve.Work); ok {
		needs := w.Needs()
		l.Work = &serve.WorkLimits{Seconds: needs.Processor.Seconds(), Memory: needs.Memory}
	}
	if r.Open == serve.ToProbes {
		l.Units = 0
	}
	return l
}

// limitsOfAll are the limits of the routes that are no mere files.
func limitsOfAll(upload int64) []serve.RouteLimits {
	var all []serve.RouteLimits
	for i := range routes {
		if !routes[i].Asset {
			all = append(all, limitsOf(&routes[i], upload))
		}
	}
	return all
}

// What the dearest request of a kind needs. The memory is measured by testdata/chaos; the
// time is that of a service that others can reach, and more may be asked for up to the
// operator's own limit.
var (
	simulates = serve.Needs{Memory: 16 << 20, Text: 512 << 10, Processor: serve.DefaultWork}
	lives     = serve.Needs{Memory: 28 << 20, Text: 4 << 20, Processor: serve.DefaultWork} // 60 parts, day by day
	searches  = serve.Needs{Memory: 96 << 20, Text: 4 << 20, Processor: time.Second}
)
