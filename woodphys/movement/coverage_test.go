package movement_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// lineError is what the line from fibre saturation misses (1 SD of the logarithm): 0.18,
// and 5 points of 30 (90 %).
var lineError = math.Hypot(0.21, 5.0/30/1.6448536)

// shrunkBy is the share lost of the green size at mc, in %MC, of a wood that shrinks by s in
// all, with a rate in use that is fast times that of a straight line from 30 %MC.
func shrunkBy(s, fast, mc float64) float64 {
	rate := fast * s / 30
	if 21*rate >= s {
		return rate * math.Max(0, 21-mc)
	}
	if mc <= 21 {
		return s - rate*mc
	}
	return (s - 21*rate) * math.Max(0, 30-mc) / 9
}

// The 90 % band against simulation of what it claims: 15 % variation of
// shrinkage, the error of the line, normal moisture contents cut at fibre saturation, normal ring angle.
// 40 000 draws with a fixed seed know the coverage to +/-0.5 (3 SD).
func TestBandCoverage(t *testing.T) {
	type trial struct {
		name           string
		angle, angleSD float64 // degrees
		from, fromSD   float64 // %MC
		to, toSD       float64
		wood           wood.Wood
	}
	shrinkageOnly := func(r, tg float64) wood.Wood {
		return wood.Wood{Radial: wood.Published(r), Tangential: wood.Published(tg), FibreSaturation: 0.30}
	}
	trials := []trial{
		{"exact moisture", 0, 0, 12, 0, 6, 0, shrinkageOnly(0.04, 0.086)},
		{"meter at one end", 0, 0, 12, 1.75, 7, 0.5, shrinkageOnly(0.04, 0.086)},
		{"meter at both ends, no change", 0, 0, 9, 1.75, 9, 1.75, shrinkageOnly(0.04, 0.086)},
		{"ring angle 45 +/- 10", 45, 10, 14, 1, 7, 0.5, shrinkageOnly(0.043, 0.075)},
		{"ring angle 10 +/- 20", 10, 20, 14, 0, 7, 0, shrinkageOnly(0.02, 0.099)},
		{"ring angle 20 +/- 10", 20, 10, 14, 0, 7, 0, shrinkageOnly(0.043, 0.099)},
		{"flat +/- 8", 0, 8, 14, 0, 7, 0, shrinkageOnly(0.043, 0.099)},
		{"green to dry", 90, 5, 80, 10, 8, 1, shrinkageOnly(0.043, 0.075)},
		{"near fibre saturation", 0, 0, 28, 2, 12, 1, shrinkageOnly(0.048, 0.099)},
		{"across fibre saturation", 0, 0, 30, 4, 25, 4, shrinkageOnly(0.048, 0.12)},
		{"large shrinkage", 0, 0, 60, 0, 2, 0.5, shrinkageOnly(0.05, 0.127)},
		{"coefficient form", 60, 10, 12, 1, 7, 1, wood.Wood{CoefficientRadial: wood.Published(0.00148), CoefficientTangential: wood.Published(0.00263), FibreSaturation: 0.3}},
	}
	rng := rand.New(rand.NewPCG(1, 2))
	for _, c := range trials {
		m, err := movement.Change(1, movement.WidthAt(quantity.Angle(c.angle)*quantity.Degree, quantity.Angle(c.angleSD)*quantity.Degree),
			about(c.from, c.fromSD), about(c.to, c.toSD), c.wood)
		require.NoError(t, err)
		const draws = 40000
		inside, below := 0, 0
		sum, squares := 0.0, 0.0
		for range draws {
			a := (c.angle + c.angleSD*rng.NormFloat64()) * math.Pi / 180
			vary, fast := 1+0.15*rng.NormFloat64(), math.Exp(lineError*rng.NormFloat64())
			share := math.Cos(a) * math.Cos(a)
			from := math.Min(30, c.from+c.fromSD*rng.NormFloat64())
			to := math.Min(30, c.to+c.toSD*rng.NormFloat64())
			var change float64
			if m.Form == movement.ByCoefficient {
				change = vary * fast * (share*c.wood.CoefficientTangential.Value + (1-share)*c.wood.CoefficientRadial.Value) * (to - from)
			} else {
				s := share*c.wood.Tangential.Value + (1-share)*c.wood.Radial.Value
				change = (1-vary*shrunkBy(s, fast, to))/(1-vary*shrunkBy(s, fast, from)) - 1
			}
			sum += change
			squares += change * change
			switch {
			case change < m.Strain.Low:
				below++
			case change <= m.Strain.High:
				inside++
			}
		}
		coverage := 100 * float64(inside) / draws
		t.Logf("%-30s %.1f %% inside, %.1f %% below, %.1f %% above", c.name, coverage, 100*float64(below)/draws, 100-coverage-100*float64(below)/draws)
		assert.InDelta(t, 90, coverage, 2, c.name)
		// centre and width of the band against the simulated mean and SD
		mean := sum / draws
		sd := math.Sqrt(squares/draws - mean*mean)
		assert.InDelta(t, mean, (m.Strain.Low+m.Strain.High)/2, 0.25*sd, c.name, "a ratio errs further up than down")
		assert.InEpsilon(t, sd, m.Strain.SD(), 0.06, c.name)
	}
}

// With no change in the middle the spread comes from the moisture contents
// alone, and the piece's variation adds its share of the product:
// var(S x) = var(x) (S^2 + var S) for x of mean zero, times the powers of the
// present size r = 1 - S u in the total shrinkage form.
func TestProductOfVariations(t *testing.T) {
	at := about(9, 1.75)
	m, err := movement.Change(1, movement.Tangential(), at, at, wood.Wood{CoefficientTangential: wood.Published(0.003), FibreSaturation: 0.3})
	require.NoError(t, err)
	assert.InEpsilon(t, 0.003*1.75*math.Sqrt2*math.Sqrt(1+0.15*0.15), m.Strain.SD(), 1e-9)
	m, err = movement.Change(1, movement.Tangential(), at, at, wood.Wood{Tangential: wood.Published(0.09), FibreSaturation: 0.3})
	require.NoError(t, err)
	r, u := 1-0.09*21/30, 1.75/30*math.Sqrt2
	assert.InEpsilon(t, math.Hypot(0.09/r*u, 0.15*0.09/(r*r)*u), m.Strain.SD(), 0.003, "but for the error of the line")
}
