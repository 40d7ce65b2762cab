package moisture_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

func TestCombine(t *testing.T) {
	e, err := moisture.Combine([]moisture.Estimate{stated(t, 12, 2), stated(t, 10, 1)})
	require.NoError(t, err)
	assert.InDelta(t, (12.0/4+10)/(1.0/4+1), e.MC.Value.Percent(), 1e-9) // weights 1/4 and 1
	assert.InDelta(t, 1/math.Sqrt(1.25), e.SD.Percent(), 1e-9)
	assert.Equal(t, []string{"mc.stated", "mc.combine"}, e.Notes.Basis)
	one, err := moisture.Combine([]moisture.Estimate{stated(t, 12, 2)})
	require.NoError(t, err)
	assert.InDelta(t, 2, one.SD.Percent(), 1e-12)
	// four pin readings share 0.85^2 of their variance: 1.75^2 (1/4 + 0.7225*3/4)
	var pins []moisture.Estimate
	for _, reading := range []float64{11, 11.5, 12, 12.5} {
		p, err := moisture.FromPinMeter(pin(reading, 22.5))
		require.NoError(t, err)
		pins = append(pins, p)
	}
	e, err = moisture.Combine(pins)
	require.NoError(t, err)
	assert.InDelta(t, 1.75*math.Sqrt(0.25+0.7225*0.75), e.SD.Percent(), 1e-9)
	assert.True(t, expect.Warned(e.Notes, method.Assumption))
}

func TestCombineRefusesContradiction(t *testing.T) {
	_, err := moisture.Combine([]moisture.Estimate{stated(t, 12, 0.5), stated(t, 11.5, 1), stated(t, 19, 1), stated(t, 12.2, 1.5)})
	expect.Code(t, err, method.Contradictory, "estimates/2")
	_, err = moisture.Combine([]moisture.Estimate{stated(t, 20, 1.5), stated(t, 10, 0.5)})
	e := expect.Code(t, err, method.Contradictory, "estimates/0")
	assert.Contains(t, e.Detail, "nothing tells which")
	_, err = moisture.Combine([]moisture.Estimate{stated(t, 10, 0.5), stated(t, 20, 1.5)})
	expect.Code(t, err, method.Contradictory, "estimates/1")
	_, err = moisture.Combine(nil)
	expect.Code(t, err, method.Missing, "estimates")
	_, err = moisture.Combine(make([]moisture.Estimate, 1001))
	expect.Code(t, err, method.TooMuchWork, "estimates")
	_, err = moisture.Combine([]moisture.Estimate{stated(t, 10, 1), {}})
	expect.Code(t, err, method.OutOfRange, "estimates/1/sd_pct")
	broken := stated(t, 10, 1)
	broken.MC.Value = quantity.Moisture(math.NaN())
	_, err = moisture.Combine([]moisture.Estimate{broken})
	expect.Code(t, err, method.OutOfRange, "estimates/0/mc_pct")
	core := stated(t, 11, 1)
	core.Place = moisture.Core
	_, err = moisture.Combine([]moisture.Estimate{stated(t, 10, 1), core})
	expect.Code(t, err, method.Unsupported, "estimates/1")
}

// True estimates are refused about once in a hundred, and the 90 % band of
// those let through holds the truth in about 90 of 100.
func TestCombineRates(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	const runs = 20000
	refused, held := 0, 0
	for range runs {
		var all []moisture.Estimate
		for _, sd := range []float64{0.5, 1, 2} {
			all = append(all, stated(t, 20+sd*rng.NormFloat64(), sd))
		}
		e, err := moisture.Combine(all)
		switch {
		case err != nil:
			refused++
		case e.MC.Low <= 0.20 && 0.20 <= e.MC.High:
			held++
		}
	}
	assert.InDelta(t, 0.01, float64(refused)/runs, 0.0025)
	assert.InDelta(t, 0.90, float64(held)/float64(runs-refused), 0.01)
}

func TestGradient(t *testing.T) {
	g, err := moisture.GradientOf(stated(t, 10, 0.3), stated(t, 14, 0.4))
	require.NoError(t, err)
	assert.InDelta(t, 4, g.CoreMinusShell.Value.Percent(), 1e-9)
	assert.InDelta(t, 0.5, g.SD.Percent(), 1e-9)
	assert.Equal(t, moisture.CoreWetter, g.Sense)
	g, err = moisture.GradientOf(stated(t, 14, 0.3), stated(t, 10, 0.4))
	require.NoError(t, err)
	assert.Equal(t, moisture.ShellWetter, g.Sense)
	g, err = moisture.GradientOf(stated(t, 10, 2), stated(t, 11, 2))
	require.NoError(t, err)
	assert.Equal(t, moisture.NotTold, g.Sense)
	// one meter on both: 0.85^2 of the variance cancels
	shell, core := pin(10, 20), pin(14, 20)
	shell.Depth, core.Depth = 0.05, 0.5
	s, err := moisture.FromPinMeter(shell)
	require.NoError(t, err)
	c, err := moisture.FromPinMeter(core)
	require.NoError(t, err)
	g, err = moisture.GradientOf(s, c)
	require.NoError(t, err)
	assert.InDelta(t, 1.75*math.Sqrt(2*(1-0.7225)), g.SD.Percent(), 1e-9)
	g, err = moisture.GradientOf(c, s)
	require.NoError(t, err)
	assert.True(t, expect.Warned(g.Notes, method.Assumption), "exchanged")
	s.SD = quantity.Moisture(math.NaN())
	_, err = moisture.GradientOf(s, c)
	expect.Code(t, err, method.OutOfRange, "shell_sd_pct")
}
