package moisture_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

// Printed examples: an extension leaflet's red oak 136 g to 100 g, 36 %MC; a
// two-basis example 10 oz to 6.9 oz, 45 % dry and 31 % wet basis.
func TestFromOvendry(t *testing.T) {
	e, err := moisture.FromOvendry(grams(136, 0.1), grams(100, 0.1))
	require.NoError(t, err)
	assert.InDelta(t, 36, e.MC.Value.Percent(), 1e-9)
	assert.Equal(t, moisture.Mean, e.Place)
	// scale 0.1/sqrt(12) g on both, SD 0.35: sqrt(0.35^2 + (1+1.36^2)*0.0289^2) %MC
	assert.InDelta(t, math.Sqrt(0.35*0.35+(1+1.36*1.36)*0.1*0.1/12), e.SD.Percent(), 1e-9)
	e, err = moisture.FromOvendry(moisture.Weighing{Mass: 10 * quantity.Ounce}, moisture.Weighing{Mass: 6.9 * quantity.Ounce})
	require.NoError(t, err)
	assert.InDelta(t, 44.9, e.MC.Value.Percent(), 0.05)
	assert.InDelta(t, 0.31, e.MC.Value.WetBasis(), 1e-12)
	assert.True(t, expect.Warned(e.Notes, method.DefaultUsed))
}

func TestFromOvendryRefuses(t *testing.T) {
	_, err := moisture.FromOvendry(grams(100, 0.1), grams(100.5, 0.1))
	expect.Code(t, err, method.Contradictory, "ovendry_mass")
	e, err := moisture.FromOvendry(grams(100, 0.1), grams(100.1, 0.1))
	require.NoError(t, err, "within the divisions of the balance")
	assert.Zero(t, e.MC.Value)
	_, err = moisture.FromOvendry(grams(400, 0.1), grams(100, 0.1))
	expect.Code(t, err, method.Contradictory, "wet_mass")
	_, err = moisture.FromOvendry(grams(1, 2), grams(0.9, 0.1))
	expect.Code(t, err, method.Contradictory, "wet_mass_resolution")
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err = moisture.FromOvendry(grams(bad, 0.1), grams(100, 0.1))
		expect.Code(t, err, method.OutOfRange, "wet_mass")
		_, err = moisture.FromOvendry(grams(100, 0.1), grams(bad, 0.1))
		expect.Code(t, err, method.OutOfRange, "ovendry_mass")
	}
	_, err = moisture.FromOvendry(grams(100, -1), grams(90, 0.1))
	expect.Code(t, err, method.OutOfRange, "wet_mass_resolution")
}

// Print says 11.8 for 8.5 oz dried to 7.5 oz; it is 13.3.
func TestLooksWetBasis(t *testing.T) {
	for _, c := range []struct {
		claim, wet, dry float64
		looks, agrees   bool
	}{
		{11.8, 8.5, 7.5, true, false},
		{13.3, 8.5, 7.5, false, true},
		{31, 10, 6.9, true, false},
		{45, 10, 6.9, false, true},
		{20, 10, 6.9, false, false},
		{1, 10, 9.9, false, true}, // both bases round to 1
	} {
		b, err := moisture.LooksWetBasis(quantity.Moisture(c.claim/100), quantity.Mass(c.wet)*quantity.Ounce, quantity.Mass(c.dry)*quantity.Ounce)
		require.NoError(t, err)
		assert.Equal(t, c.looks, b.LooksWet, b.Detail)
		assert.Equal(t, c.agrees, b.Agrees, b.Detail)
		assert.InDelta(t, 100*(c.wet-c.dry)/c.dry, b.Dry.Percent(), 1e-9)
		assert.InDelta(t, (c.wet-c.dry)/c.wet, b.Wet, 1e-12)
	}
	_, err := moisture.LooksWetBasis(0.1, 1, 2)
	expect.Code(t, err, method.Contradictory, "ovendry_mass")
	_, err = moisture.LooksWetBasis(quantity.Moisture(math.NaN()), 1, 1)
	expect.Code(t, err, method.OutOfRange, "claimed_mc_pct")
}

// Sample board: 1000 g at 80 %, now 700 g: 26.0 %MC (arithmetic on Wengert's
// formulas). An error of 3 in the start stays 2.1 at 26, 1.9 at 12 %.
func TestFromRunningWeight(t *testing.T) {
	e, err := moisture.FromRunningWeight(known(1000, 80, 3), grams(700, 0.01))
	require.NoError(t, err)
	assert.InDelta(t, 26, e.MC.Value.Percent(), 1e-9)
	assert.InDelta(t, 3*1.26/1.8, e.SD.Percent(), 0.005)
	e, err = moisture.FromRunningWeight(known(1000, 80, 3), grams(1000*1.12/1.8, 0.01))
	require.NoError(t, err)
	assert.InDelta(t, 1.9, e.SD.Percent(), 0.05)
	assert.InDelta(t, 12, e.MC.Value.Percent(), 1e-9)
	// A coarse scale adds: 5 g of 622 g is 0.23 % of mass, 0.26 %MC.
	coarse, err := moisture.FromRunningWeight(known(1000, 80, 0), grams(1000*1.12/1.8, 5))
	require.NoError(t, err)
	assert.InDelta(t, 112*5/math.Sqrt(12)/(1000*1.12/1.8), coarse.SD.Percent(), 0.002)

	_, err = moisture.FromRunningWeight(known(1000, 80, 3), grams(550, 0.1))
	refusal := expect.Code(t, err, method.Contradictory, "mass")
	assert.Equal(t, method.AtLeast(555.6, "g"), refusal.Limit)
	_, err = moisture.FromRunningWeight(known(1000, 80, 3), grams(5500, 0.1))
	expect.Code(t, err, method.Contradictory, "mass")
	_, err = moisture.FromRunningWeight(known(1000, 280, 3), grams(700, 0.1))
	expect.Code(t, err, method.OutOfRange, "start_mc_pct")
	_, err = moisture.FromRunningWeight(moisture.Known{Weighing: grams(1000, 1), MC: band{Value: 0.8}}, grams(700, 0.1))
	expect.Code(t, err, method.Contradictory, "start_mc_pct")
	_, err = moisture.FromRunningWeight(known(math.NaN(), 80, 3), grams(700, 0.1))
	expect.Code(t, err, method.OutOfRange, "start_mass")
}

// Published weight losses from green to 20 %MC: beech 24 %, hard maple 30 %,
// red oak 31 %; the green MC they imply is arithmetic.
func TestImpliedGreenMoisture(t *testing.T) {
	for loss, want := range map[float64]float64{24: 57.9, 30: 71.4, 31: 73.9} {
		e, err := moisture.FromRunningWeight(known(1000-10*loss, 20, 0), grams(1000, 0.1))
		require.NoError(t, err)
		assert.InDelta(t, want, e.MC.Value.Percent(), 0.1)
	}
}

// Trade problem Y37: 1400 g at 15 % weighs 1314.78 g at 8 %, 1217.39 g ovendry.
func TestWeightAt(t *testing.T) {
	w, err := moisture.WeightAt(known(1400, 15, 1), 0.08)
	require.NoError(t, err)
	assert.InDelta(t, 1314.78, w.Mass.Value.Grams(), 0.005)
	assert.InDelta(t, 1217.39, w.Ovendry.Grams(), 0.005)
	assert.InDelta(t, 1314.78*0.01/1.15, w.Mass.SD().Grams(), 0.01)
	_, err = moisture.WeightAt(known(1400, 15, 1), -0.01)
	expect.Code(t, err, method.OutOfRange, "target_mc_pct")
	_, err = moisture.WeightAt(known(1400, -15, 1), 0.01)
	expect.Code(t, err, method.OutOfRange, "mc_pct")
}

func ExampleWeightAt() {
	billet := moisture.Known{
		Weighing: moisture.Weighing{Mass: 1400 * quantity.Gram, Resolution: 1 * quantity.Gram},
		MC:       quantity.NormalBand[quantity.Moisture](0.15, 0),
	}
	w, _ := moisture.WeightAt(billet, 8*quantity.PercentMC)
	fmt.Println(w.Mass.Value.Format("g"), "at 8 %;", w.Ovendry.Format("g"), "ovendry")
	// Output: 1314.8 g at 8 %; 1217.4 g ovendry
}

// Weighing at the weight expected for a target gives the target back; grams and
// ounces agree; more weight is more moisture.
func TestWeightsInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mass := rapid.Float64Range(1, 1e5).Draw(t, "mass")
		mc := rapid.Float64Range(0, 240).Draw(t, "mc")
		target := rapid.Float64Range(0, 240).Draw(t, "target")
		start := moisture.Known{Weighing: grams(mass, mass/1e4), MC: about(mc, 2)}
		w, err := moisture.WeightAt(start, quantity.Moisture(target/100))
		require.NoError(t, err)
		now := moisture.Weighing{Mass: w.Mass.Value, Resolution: start.Resolution}
		e, err := moisture.FromRunningWeight(start, now)
		require.NoError(t, err)
		require.InDelta(t, target, e.MC.Value.Percent(), 1e-9)
		require.LessOrEqual(t, e.MC.Low, e.MC.Value)
		require.LessOrEqual(t, e.MC.Value, e.MC.High)
		start.Mass, start.Resolution, now.Mass, now.Resolution = 28*start.Mass, 28*start.Resolution, 28*now.Mass, 28*now.Resolution
		scaled, err := moisture.FromRunningWeight(start, now)
		require.NoError(t, err)
		require.InDelta(t, float64(e.MC.Value), float64(scaled.MC.Value), 1e-12)
		require.InDelta(t, float64(e.SD), float64(scaled.SD), 1e-12)
		now.Mass *= 1.001
		wetter, err := moisture.FromRunningWeight(start, now)
		require.NoError(t, err)
		require.Greater(t, wetter.MC.Value, e.MC.Value)
	})
}
