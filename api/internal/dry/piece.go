package dry

import (
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
)

// piece is a piece of wood and its stays as a request describes them.
type piece struct {
	wood      *shelf.Wood // nil where it was not found
	thickness quantity.Length
	ringAngle quantity.Angle // of the rings to the wide face
	stackedOn string
	stays     []shelf.Stay
	start     seasoning.Start
	horizon   quantity.Duration
	factor    *shelf.OwnFactor
	mayBeDry  bool // where no start is told
}

// read is the piece in SI, with where it lies, which is nil where that is wrong. What
// is wrong with the piece itself is left to its Setup.
func (p *piece) read(t *shelf.Tables, work *drying.Work) (seasoning.Piece, *storage, error) {
	out := seasoning.Piece{Thickness: p.thickness, RingAngle: p.ringAngle, Factor: p.factor.Given(),
		Start: p.start, MayBeDry: p.mayBeDry, Work: work}
	stay, err := store(t, p.stackedOn, p.stays, p.horizon, &out.Notes)
	if stay != nil {
		out.Phases = stay.phases
	}
	if p.wood != nil {
		out.Wood = p.wood.Value
		_, _ = p.wood.BasicGravity(&out.Notes) // for what it notes; Setup refuses a wood without one
	}
	return out, stay, err
}

// ringsAt is a ring angle, or the usual one where none is given.
func ringsAt(degrees *float64, usual quantity.Angle) quantity.Angle {
	if degrees == nil {
		return usual
	}
	return quantity.Angle(*degrees) * quantity.Degree
}

// startOf is the start of a piece.
func startOf(pct, sd *float64) seasoning.Start {
	start := seasoning.Start{}
	if pct != nil {
		start.MC = wire.FromPercent(*pct)
	}
	if sd != nil {
		start.SD = wire.FromPercent(*sd)
	}
	return start
}

func horizonOf(days *float64) quantity.Duration {
	if days == nil {
		return seasoning.UsualHorizon
	}
	return quantity.Duration(*days) * quantity.Day
}

// wrong says what is wrong with the setup of the piece in the words of a request. Of a
// piece without a wood only what contradicts itself is told.
func (p *piece) wrong(err error) error {
	return wire.EachError(err, func(one error) error {
		domain, is := wire.AsDomain(one)
		switch {
		case !is:
			return one
		case p.wood == nil && domain.Code != method.Contradictory:
			return nil
		case domain.Input == "specific_gravity" && domain.Code == method.Unsupported:
			return p.noGravity()
		case domain.Input == "start_mc_pct" && domain.Code == method.Missing:
			return wire.Missing("start_mc_pct", "the tables hold no green moisture of "+p.wood.Common+"; say "+
				"start_mc_pct, the moisture content on the day of stacking")
		}
		return wire.Under("", one, [2]string{"specific_gravity", "wood/specific_gravity"})
	})
}

// noGravity says where the specific gravity that is not known can be given.
func (p *piece) noGravity() error {
	_, err := p.wood.BasicGravity(&method.Notes{})
	domain, is := wire.AsDomain(err)
	if !is || p.wood.Row == nil {
		return wire.Under("", err, [2]string{"specific_gravity", "wood/specific_gravity"})
	}
	moved := *domain
	moved.Input = "species"
	moved.Detail = "the tables hold no specific gravity of " + p.wood.Common +
		"; in place of species give wood with its specific_gravity, and its shrinkage if you know it"
	return &moved
}

// ofForecast points errors of a forecast at the members of a request that describe a
// piece.
func ofForecast(err error) error {
	return wire.EachError(err, func(one error) error {
		domain, is := wire.AsDomain(one)
		if !is {
			return one
		}
		if rest, is := strings.CutPrefix(domain.Input, "phases/"); is {
			stay, _, _ := strings.Cut(rest, "/")
			moved := *domain
			moved.Input = "storage/" + stay
			return &moved
		}
		return method.Renamed(one, forecastNames...)
	})
}

// forecastNames are the inputs of a forecast and the members they come from.
var forecastNames = [][2]string{
	{"specific_gravity", "wood/specific_gravity"},
	{"drying_factor", "drying_factor/median"},
	{"drying_factor_log_sd", "drying_factor/ratio"},
	{"phases", "storage"},
	{"max_steps", "horizon_days"},
	{"target_pct", "build_room"},
	{"target_sd_pct", "build_room"},
	{"end_seal", "ends"},
}
