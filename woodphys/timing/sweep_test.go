package timing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
)

// cupAt is the cup of a leaf of a billet at a mean moisture content.
func cupAt(t *testing.T, q *Question) *Cup {
	t.Helper()
	w := &work{q: q, solver: drying.Solver{}, sd: q.Moisture.SD}
	if w.sd == 0 {
		w.sd = seasoning.ReadSD(q.Moisture.Mean)
	}
	w.now = quantity.NormalBand(q.Moisture.Mean, w.sd)
	_, err := w.findProfile(t.Context())
	require.NoError(t, err)
	c, err := w.cut(w.now.Value, q.Leaf.Extra)
	require.NoError(t, err)
	require.NotNil(t, c.Cup)
	return c.Cup
}

// Over moisture contents from 8 to 80 %, a point apart, the cup goes up while the wood
// that has dried has a steeper profile and down again where it may not have dried at all. No
// step moves it by more than an eighth of its highest, and on its way down it never rises again
// by more than a fiftieth: nothing jumps at fibre saturation.
func TestCupFollowsTheMoistureContent(t *testing.T) {
	for _, c := range []struct {
		thickness quantity.Length
		angle     quantity.Angle
		sd        quantity.Moisture
	}{
		{58 * quantity.Millimetre, 45 * quantity.Degree, 0.03}, {58 * quantity.Millimetre, 0, 0}, {120 * quantity.Millimetre, 20 * quantity.Degree, 0},
	} {
		q := asked(t)
		q.Billet.Thickness, q.RingAngle, q.Moisture.SD = c.thickness, c.angle, c.sd
		var cups []*Cup
		highest, top := 0.0, 0
		for mc := 8.0; mc <= 80; mc++ {
			q.Moisture.Mean = quantity.Moisture(mc) * quantity.PercentMC
			cup := cupAt(t, q)
			assert.LessOrEqual(t, cup.Cup.Low, cup.Cup.Value, "%v at %v", c, mc)
			assert.LessOrEqual(t, cup.Cup.Value, cup.Cup.High, "%v at %v", c, mc)
			if size := float64(cup.Cup.Value); size > highest {
				highest, top = size, len(cups)
			}
			cups = append(cups, cup)
		}
		require.Positive(t, highest)
		for i := 1; i < len(cups); i++ {
			step := float64(cups[i].Cup.Value - cups[i-1].Cup.Value)
			at := 8 + float64(i)
			assert.Less(t, math.Abs(step), 0.12*highest, "%v to %v %%MC", c, at)
			assert.Less(t, math.Abs(cups[i].Over-cups[i-1].Over), 0.35, "%v to %v %%MC", c, at)
			if i > top {
				assert.Less(t, step, 0.02*highest, "%v to %v %%MC", c, at)
			}
		}
		// Wood that has lost 30 of 68 points has a shell; of wood at 68 % it is not known.
		at := func(mc float64) *Cup { return cups[int(mc-8)] }
		assert.Greater(t, at(38).Over, 0.8, "%v", c)
		assert.True(t, at(27).Exceeds && at(32).Exceeds, "%v", c)
		assert.Greater(t, at(65).Cup.High, at(65).Room, "%v: it can come, so it is named", c)
		assert.Less(t, at(80).Cup.Value, at(27).Cup.Value/4, "%v", c)
	}
}

// With the ring angle and the thickness the cup changes step by step too; quartersawn leaves
// cup less than flatsawn ones, since wood moves less along the radius.
func TestCupFollowsRingsAndThickness(t *testing.T) {
	for _, mc := range []quantity.Moisture{0.27, 0.29, 0.45} {
		q := asked(t)
		q.Moisture.Mean = mc
		var before float64
		for deg := 0.0; deg <= 90; deg += 5 {
			q.RingAngle = quantity.Angle(deg) * quantity.Degree
			cup := float64(cupAt(t, q).Cup.Value)
			if deg > 0 {
				assert.Less(t, cup, before*1.001, "%v at %v degrees", mc, deg)
				assert.Greater(t, cup, before*0.85, "%v at %v degrees", mc, deg)
			}
			before = cup
		}
		q = asked(t)
		q.Moisture.Mean = mc
		before = 0
		for mm := 25.0; mm <= 100; mm += 3 {
			q.Billet.Thickness = quantity.Length(mm) * quantity.Millimetre
			cup := float64(cupAt(t, q).Cup.Value)
			if before > 0 {
				assert.InEpsilon(t, before, cup, 0.25, "%v at %v mm", mc, mm)
			}
			before = cup
		}
	}
}
