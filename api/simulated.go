package api

import (
	"context"

	"latewood/woodphys/drying"
)

// simulating gives a request the budget of its simulations.
func (s *Service) simulating(ctx context.Context) (context.Context, *drying.Work) {
	work := &drying.Work{Most: s.mostSimulated}
	return context.WithValue(ctx, simulationKey{}, work), work
}
