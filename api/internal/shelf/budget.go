package shelf

import (
	"context"

	"latewood/woodphys/drying"
)

// MostSimulated is how many time steps all simulations of one request may take
// together, some four seconds of one processor. Measured at 0.8 microseconds a
// step: the demo takes 2 000 to 64 000, the fullest forecast 2 million, twelve
// thin parts in a record of 5000 rows 3 million.
const MostSimulated = 5_000_000

type simulationKey struct{}

// Simulating gives a request a budget of its own, of so many time steps at most.
func Simulating(ctx context.Context, most int) (context.Context, *drying.Work) {
	work := &drying.Work{Most: most}
	return context.WithValue(ctx, simulationKey{}, work), work
}

type brieflyKey struct{}

// Briefly says that nobody reads what only a full answer has, so that it is not made.
func Briefly(ctx context.Context) context.Context {
	return context.WithValue(ctx, brieflyKey{}, true)
}

// InBrief reports whether that was said.
func InBrief(ctx context.Context) bool {
	brief, _ := ctx.Value(brieflyKey{}).(bool)
	return brief
}

// Simulation is the budget of the request; one of its own where none was given.
func Simulation(ctx context.Context) *drying.Work {
	if work, ok := ctx.Value(simulationKey{}).(*drying.Work); ok {
		return work
	}
	return &drying.Work{Most: MostSimulated}
}
