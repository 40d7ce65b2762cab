package rack

import (
	"context"
	"errors"
	"slices"

	jsonv2 "github.com/go-json-experiment/json"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/readiness"
)

// mass refuses a weight that the wood cannot have, whatever it holds, as readiness does: by its
// sizes, which have to be known, and where no wood was taken off since they were measured.
func (l *sense) mass(ctx context.Context, e *store.Entry) error {
	if l.tables == nil || e.Kind != store.Reading || e.Form != weightForm || aside(e.Body) {
		return nil
	}
	var sent struct {
		Reading shelf.Reading `json:"reading"`
	}
	if jsonv2.Unmarshal(e.Body, &sent) != nil {
		return nil //nolint:nilerr // it was read before
	}
	weight := sent.Reading.Weight()
	of, err := l.of(ctx, e)
	if err != nil || of == nil || weight == nil || weight.Mass == nil || weight.Event != "" {
		return err
	}
	events, _, err := l.rack.store.List(ctx, &store.Query{Kind: store.Event, Of: e.Of, Limit: store.MostPage})
	if err != nil || slices.ContainsFunc(events, func(one store.Record) bool { return slices.Contains(cuts, one.Form) }) {
		return err
	}
	err = l.possible(of, weight.Mass)
	var refused *wire.Refused
	if errors.As(err, &refused) {
		look := scale{rack: l.rack}
		if _, slip := look.doubt(ctx, &store.Record{Entry: *e}); slip != "" {
			refused.Detail += ". " + slip
		}
	}
	return err
}

// possible refuses a mass that wood on the rack cannot have; of what is not known of the wood
// nothing is said here.
func (l *sense) possible(of *store.Record, mass *wire.Mass) error {
	var kept struct {
		Billet *shelf.Billet `json:"billet"`
	}
	if jsonv2.Unmarshal(of.Body, &kept) != nil || kept.Billet == nil || kept.Billet.Length == nil || kept.Billet.Width == nil || kept.Billet.Thickness == nil {
		return nil //nolint:nilerr // which questions tell
	}
	var notes method.Notes
	wood, noWood := kept.Billet.WoodOf(l.tables, "billet", &notes)
	shape, noShape := kept.Billet.Shape()
	if noWood != nil || noShape != nil || wood == nil || !wood.Value.SpecificGravity.Known {
		return nil //nolint:nilerr // which questions tell
	}
	_, err := readiness.ImpossibleOf([]readiness.Scaled{{Mass: mass.SI, Unit: mass.Unit}}, shape.Volume(), &wood.Value, &notes)
	if domain, is := wire.AsDomain(err); is {
		return &wire.Refused{Why: wire.Wrong, Pointer: atMass, Code: string(domain.Code), Limit: domain.Limit, Detail: domain.Detail}
	}
	return err
}
