package dry

import (
	"errors"
	"math"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/sorption"
)

// seasoned is what a forecast needs to know of a piece and its past.
type seasoned struct {
	wood      *shelf.Wood
	thickness quantity.Length
	shown     string // the thickness as the caller wrote it
	ringAngle *float64
	stackedOn string
	storage   []shelf.Stay
	startPct  *float64
	startSD   *float64
	horizon   quantity.Duration
	factor    *shelf.OwnFactor
}

const defaultHorizon = 5 * 365 * quantity.Day

func horizonOf(days *float64) quantity.Duration {
	if days == nil {
		return defaultHorizon
	}
	return quantity.Duration(*days) * quantity.Day
}

// setup draws up the prior knowledge of the piece, or tells all that is wrong with
// it. Without a wood there is no setup, and what
// hangs on the wood is not told. The storage is returned whenever it is right.
func setupOf(t *shelf.Tables, in *seasoned, notes *method.Notes) (readiness.Setup, *storage, shelf.FactorUsed, error) {
	var setup readiness.Setup
	stay, noStay := store(t, in.stackedOn, in.storage, in.horizon, notes)
	factor, logSD, used, noFactor := in.speed(notes)
	start, sd, noStart := in.start(notes)
	if err := errors.Join(noStay, noFactor, noStart); err != nil || in.wood == nil {
		return setup, stay, used, err
	}
	setup = readiness.Setup{
		Wood:   in.wood.Value,
		Factor: factor, FactorLogSD: logSD, Thickness: in.thickness, Phases: stay.phases, StartMC: start, StartSD: sd,
	}
	if start < driedBefore {
		setup.History = drying.Unknown // it has been dry before
	}
	return setup, stay, used, nil
}

// speed is the drying factor; nothing without a wood.
func (in *seasoned) speed(notes *method.Notes) (median, logSD float64, used shelf.FactorUsed, err error) {
	if in.wood == nil {
		return 0, 0, used, nil
	}
	gravity, err := in.wood.BasicGravity(notes)
	if err != nil {
		return 0, 0, used, in.noGravity(err)
	}
	median, logSD, used, err = shelf.DryingFactor(in.wood, in.thickness, in.ringAngle, in.factor, gravity, notes)
	return median, logSD, used, wire.Under("", err, [2]string{"specific_gravity", "wood/specific_gravity"})
}

// noGravity says where the specific gravity that the tables lack can be given.
func (in *seasoned) noGravity(err error) error {
	domain, ok := wire.AsDomain(err)
	if !ok || in.wood.Row == nil {
		return wire.Under("", err, [2]string{"specific_gravity", "wood/specific_gravity"})
	}
	moved := *domain
	moved.Input = "species"
	moved.Detail = "the tables hold no specific gravity of " + in.wood.Common + "; in place of species give wood with its specific_gravity, and its shrinkage if you know it"
	return &moved
}

// defaultGreenSD is how far a green billet strays from the published mean of
// its wood, as a share: heartwood, sapwood and season. Own choice.
const defaultGreenSD = 0.2

// start is the moisture content on the day of stacking: the caller's, or the
// green moisture of the wood.
func (in *seasoned) start(notes *method.Notes) (mc, sd quantity.Moisture, err error) {
	if in.startPct != nil {
		mc = wire.FromPercent(*in.startPct)
		sd = max(0.03*mc, 1*quantity.PercentMC)
		if in.startSD != nil {
			sd = wire.FromPercent(*in.startSD)
		}
		return mc, sd, nil
	}
	if in.startSD != nil {
		return 0, 0, wire.Contradictory("start_sd_pct", "start_sd_pct goes with start_mc_pct")
	}
	if in.wood == nil {
		return 0, 0, nil
	}
	sum, n := 0.0, 0.0
	if row := in.wood.Row; row != nil {
		for _, v := range []float64{row.GreenHeartwood.Or(0), row.GreenSapwood.Or(0)} {
			if v > 0 {
				sum, n = sum+v, n+1
			}
		}
	}
	if n == 0 {
		return 0, 0, wire.Missing("start_mc_pct", "the tables hold no green moisture of "+in.wood.Common+"; say start_mc_pct, the moisture content on the day of stacking")
	}
	mc = min(wire.FromPercent(sum/n), mostStart)
	notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "start_mc_pct",
		Detail: "the wood is taken to have been green when stacked, at " + quantity.FormatNumber(mc.Percent(), 0) + " %, the mean of the published heartwood and sapwood figures"})
	return mc, defaultGreenSD * mc, nil
}

// mostStart is the wettest start the diffusion takes.
const mostStart = 140 * quantity.PercentMC

// aim is the target as the physics wants it. The scatter between woods belongs to
// piece and target alike; what the target's band has beyond it (an unknown
// history, a wood rich in extractives) is the target's own. A stated target, which
// has no band, is what it is.
func aim(target quantity.Band[quantity.Moisture]) readiness.Target {
	all := float64(target.SD())
	if all == 0 {
		return readiness.Target{Mean: target.Value}
	}
	shared := float64(sorption.UncertaintySD(target.Value, sorption.Desorption, quantity.Celsius(20)))
	own := math.Sqrt(max(all*all-shared*shared, 0))
	return readiness.Target{Mean: target.Value, SD: quantity.Moisture(own), WoodShare: readiness.DefaultWoodShare}
}
