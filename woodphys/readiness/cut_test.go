package readiness

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
)

// A piece that was cut shorter between two weighings is told to be one, and a piece that
// was not is not; once it is said, the readings agree again.
func TestWoodCutOffIsSuggested(t *testing.T) {
	found, alarms := 0, 0
	const cases = 16
	for seed := range uint64(cases) {
		b := simulate(t, 8800+seed)
		b.setup.Members = 32
		list := b.read(8)
		sound, err := Learn(t.Context(), b.setup, list)
		require.NoError(t, err)
		if sound.Cut != nil {
			alarms++
		}
		after := list[len(list)-1].At / 2
		said := b.setup
		said.Bodies = append(append([]Body{}, b.setup.Bodies...), Body{Name: "before"})
		told := append([]Observation{}, list...)
		first := -1
		for i := range list {
			switch {
			case list[i].Kind != Weight:
			case list[i].At > after:
				list[i].Weighing.Mass *= 0.9
				told[i] = list[i]
				if first < 0 || list[i].At < list[first].At {
					first = i
				}
			default:
				told[i].Body = len(said.Bodies) - 1
			}
		}
		p, err := Learn(t.Context(), b.setup, list)
		require.NoError(t, err)
		if p.Cut != nil && p.Cut.Index == first {
			found++
			assert.InDelta(t, 0.1, p.Cut.Share.Value, 0.06)
		}
		p, err = Learn(t.Context(), said, told)
		require.NoError(t, err)
		if p.Cut != nil {
			alarms++
		}
	}
	t.Logf("%d of %d found, %d alarms", found, cases, alarms)
	assert.GreaterOrEqual(t, found, cases/2)
	assert.LessOrEqual(t, alarms, 2, "of %d", 2*cases)
}

// Both bodies of a piece that was cut say what it weighs without water.
func TestBodiesBeforeAndAfterACut(t *testing.T) {
	s := billet(t)
	list := series(t, s, point{0, 0, 0.68}, 2500, 0, 60, 120, 180, 240, 300)
	s.Bodies = []Body{{Name: "now"}, {Name: "before"}}
	for i := range list {
		if i < 3 {
			list[i].Body = 1
		} else {
			list[i].Weighing.Mass *= 0.8
		}
	}
	list = append(list, Observation{Kind: Sample, At: 300 * quantity.Day, MC: 0.11, SD: 0.005})
	p, err := Learn(t.Context(), s, list)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.8, float64(p.Ovendry[0].Value/p.Ovendry[1].Value), 0.04)
}
