package api

import (
	"context"

	"latewood/woodphys/drying"
)

// mostSimulated is how many time steps all simulations of one request may take
// together, some four seconds of one processor. Measured at 0.8 microseconds a
// step: the demo takes 2 000 to 64 000, the fullest forecast 2 million, twelve
// thin parts in a record of 5000 rows 3 million.
const mostSimulated = 5_000_000

// simulationBudgets are the limits of simulations, as GET /v1/limits tells them.
var simulationBudgets = []WorkBudget{{"one simulation of drying", drying.UsualMaxSteps, "time steps"}, {"all simulations of drying together", mostSimulated, "time steps"}}

type simulationKey struct{}

// simulating gives a request the budget of its simulations.
func (s *Service) simulating(ctx context.Context) (context.Context, *drying.Work) {
	work := &drying.Work{Most: s.mostSimulated}
	return context.WithValue(ctx, simulationKey{}, work), work
}

// simulation is the budget of the request; one of its own where none was given.
func simulation(ctx context.Context) *drying.Work {
	if work, ok := ctx.Value(simulationKey{}).(*drying.Work); ok {
		return work
	}
	return &drying.Work{Most: mostSimulated}
}
