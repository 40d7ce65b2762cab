package readiness

import (
	"context"
	"fmt"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// MeterSD returns the standard deviation of a meter of which a reading showed so much and has one:
// without what it is less sure because it showed more than a meter can tell.
//
// Accuracy: that of the standard deviation. Source: moisture.WetMeterSD.
func MeterSD(shown, sd quantity.Moisture) quantity.Moisture {
	return sd - (moisture.WetMeterSD(shown) - moisture.WetMeterSD(min(shown, meterTop)))
}

// atLeast is a reading of a meter above what it can tell, as one of just that much.
func (o Observation) atLeast() Observation {
	_, more := MeterBias(moisture.WetMeterSD(o.MC) - moisture.WetMeterSD(meterTop))
	o.MC, o.SD = meterTop, max(o.SD-more, leastMeterSD)
	return o
}

// leastMeterSD is that of a single reading of a meter, where all of what it was given with is taken
// for the meter being too wet. Own choice.
const leastMeterSD = 1 * quantity.PercentMC

// learnWet learns from observations. A meter that shows more than it can tell says that the wood is
// wet: where the forecast has it wet there as well nothing is learned of it, and where it has it
// drier in more than half of the cases the reading counts as the most that a meter can tell, for
// that is the least the wood held.
func learnWet(ctx context.Context, setup Setup, observations []Observation) (*Posterior, error) {
	p, err := Learn(ctx, setup, observations)
	if err != nil {
		return nil, err
	}
	asWet := func(holds float64) bool { return holds >= float64(meterTop) }
	wet := slices.DeleteFunc(slices.Clone(p.Ignored), func(i int) bool {
		o := &observations[i]
		return p.share(o.Part, o.At, asWet) >= 0.5
	})
	if len(wet) == 0 {
		return p, nil
	}
	counted := slices.Clone(observations)
	for _, i := range wet {
		counted[i] = counted[i].atLeast()
	}
	if p, err = Learn(ctx, setup, counted); err != nil {
		return nil, err
	}
	p.Notes.Warn(method.Warning{Code: method.Disagreement, Method: learnRow.ID, Input: fmt.Sprintf("observations/%d/mc_pct", wet[0]),
		Detail: fmt.Sprintf("a meter showed more than %.0f %%MC where the forecast has the wood drier: it counts as %.0f %%, for a meter that says wet "+
			"says no less than that. Read again, and look at the wood, the dates and the places", 100*meterTop, 100*meterTop)})
	return p, nil
}
