package dry

import (
	"context"
	"errors"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/seasoning"
)

// piece is a piece of wood and its stays as a request describes them.
type piece struct {
	wood      *shelf.Wood // nil where it was not found
	thickness quantity.Length
	taper     *drying.Taper   // its shape, where it is no board
	length    quantity.Length // 0: not told
	ends      drying.EndSeal  // empty: not told
	ringAngle quantity.Angle  // of the rings to the wide face
	stackedOn string
	stays     []shelf.Stay
	start     seasoning.Start
	horizon   quantity.Duration
	factor    drying.Factor // that of the caller; the zero one where none was given
	mayBeDry  bool          // where no start is told
}

// read is the piece in SI, with where it lies, which is nil where that is wrong. What
// is wrong with the piece itself is left to its Setup.
func (p *piece) read(ctx context.Context, t *shelf.Tables, work *drying.Work) (seasoning.Piece, *storage, error) {
	out := seasoning.Piece{Thickness: p.thickness, Taper: p.taper, Length: p.length, Ends: p.ends, RingAngle: p.ringAngle, Factor: p.factor,
		Start: p.start, MayBeDry: p.mayBeDry, Work: work}
	if p.wood != nil {
		out.Wood = p.wood.Value
	}
	bare, noted := out, &out.Notes
	stay, err := store(t, p.stackedOn, p.stays, p.horizon, p.schedules(ctx, &bare, noted), noted)
	if stay != nil {
		out.Phases, out.Kilns = stay.phases, stay.kilns
	}
	if p.wood != nil {
		_, _ = p.wood.BasicGravity(&out.Notes) // for what it notes; Setup refuses a wood without one
	}
	return out, stay, err
}

// ringAngle is the ring angle in the middle of a billet; nil where its rings are not known.
// Zones, which have no bearing here, are judged as elsewhere. Errors point below billet.
func ringAngle(b *shelf.Billet, notes *method.Notes) (*quantity.Angle, error) {
	angle, err := middleAngle(b, notes)
	return angle, errors.Join(err, wire.Under("billet", b.CheckZones()))
}

func middleAngle(b *shelf.Billet, notes *method.Notes) (*quantity.Angle, error) {
	if b.Rings == nil {
		return nil, nil //nolint:nilnil // not told
	}
	width := shelf.LengthOrNone(b.Width)
	told := len(notes.Warnings)
	pith, angle, err := b.Rings.Found(width, notes)
	notes.Place(told, "billet/rings")
	switch {
	case err != nil || pith == nil:
		return angle, wire.Under("billet/rings", err)
	case b.Width == nil:
		return nil, wire.Missing("billet/width", "the ring angle in the middle of the piece follows from the pith and the width")
	}
	middle := resaw.RingAngleAt(resaw.Point{X: width / 2, Z: b.Thickness.SI / 2}, *pith)
	return &middle, nil
}

// ringsUsed are the members of rings that a ring angle is told by.
var ringsUsed = []string{"rings/angle_deg", "rings/pith", "rings/readings", "rings/pith_side"}

// orUsual is an angle, or the usual one where none is known.
func orUsual(angle *quantity.Angle, usual quantity.Angle) quantity.Angle {
	if angle == nil {
		return usual
	}
	return *angle
}

// Of a start that is stated, in percent, and of its spread, in points.
const (
	driestStart  = 1
	wettestStart = 150
	leastSpread  = 0.1
)

// startOf is the start of a piece; green where nothing is said of it. Errors point below
// billet.
func startOf(c *shelf.Condition, w *shelf.Wood, notes *method.Notes) (seasoning.Start, error) {
	switch {
	case c == nil || c.IsGreen():
		return seasoning.Start{}, nil
	case c.Stated() != nil:
		return startStated(c.Stated())
	}
	const member = "billet/start_condition"
	band, err := c.Moisture(member, w, notes)
	return seasoning.Start{MC: band.Value, SD: max(band.SD(), leastSpread*quantity.PercentMC)}, err
}

func startStated(m *shelf.MoistureCondition) (seasoning.Start, error) {
	start := seasoning.Start{MC: wire.FromPercent(*m.MC), SD: spreadOf(m.SD)}
	var limit *method.Limit
	switch {
	case *m.MC < driestStart:
		limit = method.AtLeast(driestStart, "%")
	case *m.MC > wettestStart:
		limit = method.AtMost(wettestStart, "%")
	default:
		return start, nil
	}
	return start, &method.Error{Code: method.OutOfRange, Input: "billet/start_condition/mc_pct", Limit: limit,
		Detail: "the mc_pct of a start must be " + limit.String()}
}

// spreadOf is a standard deviation in points, 0 where none is given: wood is never as even
// as one that is told as exact.
func spreadOf(points *float64) quantity.Moisture {
	if points == nil {
		return 0
	}
	return wire.FromPercent(max(*points, leastSpread))
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
		case domain.Input == "specific_gravity" && domain.Code == method.MissingData:
			return p.noGravity()
		case domain.Input == "start_mc_pct" && domain.Code == method.Missing:
			return wire.Missing("billet/start_condition", "the tables hold no green moisture of "+p.wood.Common+"; say "+
				"start_condition, the moisture content on the day of stacking")
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
	moved.Input = "wood/specific_gravity"
	moved.Detail = "the tables hold no specific gravity of " + p.wood.Common + "; give it with the wood"
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
			stay, input, _ := strings.Cut(rest, "/")
			moved := *domain
			moved.Input = "stays/" + stay
			if member, is := ofStay[input]; is {
				moved.Input += "/" + member
			}
			return &moved
		}
		return method.Renamed(one, forecastNames...)
	})
}

// ofStart points as ofForecast does; a start that was not given is that of the wood.
func ofStart(given *shelf.Condition) func(error) error {
	if given != nil {
		return ofForecast
	}
	return func(err error) error {
		return ofForecast(method.Renamed(err, [2]string{"start_mc_pct", "billet/wood"}, [2]string{"start_sd_pct", "billet/wood"}))
	}
}

// ofStay are the inputs of a climate and the members of a stay that they come from.
var ofStay = map[string]string{"temperature": "heated_to", "added_vapour": "added_vapour", "air_speed_m_per_s": "air_speed_m_per_s",
	"film_coefficient": "exposure", "coat_resistance": "exposure"}

// forecastNames are the inputs of a forecast and the members they come from.
var forecastNames = [][2]string{
	{"start_sd_pct", "billet/start_condition/mc_sd_points"},
	{"start_mc_pct", "billet/start_condition/mc_pct"},
	{"start_mc_sd_points", "billet/start_condition/mc_sd_points"},
	{"specific_gravity", "wood/specific_gravity"},
	{"drying_factor", "wood/drying_factor/value"},
	{"drying_factor_log_sd", "wood/drying_factor/sd_ratio"},
	{"phases", "stays"},
	{"max_steps", "horizon_days"},
	{"discrepancy_sd_pct", "billet/thickness"}, // which it follows from
	{"target_pct", "target_condition"},
	{"target_sd_pct", "target_condition"},
	{"end_seal", "billet/end_seal"},
}
