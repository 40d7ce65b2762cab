package timing

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
)

// What a prong shows adds to the cup that the moisture gives where it turned inward, and takes
// from it where it turned outward; prongs that have settled show all of it. A turn that was not
// measured is warned of.
func TestProngsCountForTheCup(t *testing.T) {
	q := asked(t)
	q.Moisture = Moisture{Mean: 0.13, CoreOverShell: over(2)}
	cup := func(p Prongs) *Cup {
		q.Prongs = p
		return weighed(t, q).SawNow.Cut.Cup
	}
	alone := cup(Prongs{})
	measured := Prongs{Turn: TurnInward, Travel: 1 * quantity.Millimetre, Length: 100 * quantity.Millimetre}
	inward := cup(measured)
	stress, _, err := section.ProngCup(measured.Travel, measured.Length, weighed(t, q).SawNow.Cut.Width)
	require.NoError(t, err)
	assert.InDelta(t, float64(alone.Cup.Value+stress.Value), float64(inward.Cup.Value), 1e-9)
	assert.Equal(t, TowardsCore, inward.Hollow)
	measured.Turn, measured.Travel = TurnOutward, 10*quantity.Millimetre
	outward := cup(measured)
	assert.InDelta(t, float64(10*stress.Value-alone.Cup.Value), float64(outward.Cup.Value), 1e-9)
	assert.Equal(t, TowardsShell, outward.Hollow)
	settled := cup(Prongs{Turn: TurnInward, Travel: 1 * quantity.Millimetre, Length: 100 * quantity.Millimetre, Settled: true})
	assert.InDelta(t, float64(stress.Value), float64(settled.Cup.Value), 1e-9)
	assert.Equal(t, alone.Cup, cup(Prongs{Turn: TurnInward}).Cup, "not measured")

	kinds := func(p Prongs) map[RiskKind]bool {
		q.Prongs = p
		list := map[RiskKind]bool{}
		for _, r := range weighed(t, q).DryWhole.Risks {
			list[r.Kind] = true
		}
		return list
	}
	assert.True(t, kinds(Prongs{})[RiskStress])
	assert.True(t, kinds(Prongs{Turn: TurnInward})[RiskCasehardened])
	assert.True(t, kinds(Prongs{Turn: TurnOutward})[RiskReversed])
	straight := kinds(Prongs{Turn: TurnStraight})
	assert.False(t, straight[RiskStress] || straight[RiskCasehardened] || straight[RiskReversed])
}
