package movement_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// evenly are the means of n slices of a standard normal variable, each as likely.
func evenly(n int) []float64 {
	density := func(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
	at := func(p float64) float64 { return math.Sqrt2 * math.Erfinv(2*p-1) }
	z := make([]float64, n)
	for i := range z {
		low, high := 0.0, 0.0
		if i > 0 {
			low = density(at(float64(i) / float64(n)))
		}
		if i < n-1 {
			high = density(at(float64(i+1) / float64(n)))
		}
		z[i] = float64(n) * (low - high)
	}
	return z
}

// spreadOf returns mean and standard deviation of what f makes of independent standard
// normal variables: the piece, both moisture contents, the ring angle.
func spreadOf(f func(piece, from, to, angle float64) float64) (mean, sd float64) {
	const n = 13
	z := evenly(n)
	width := 0.0 // of the slices
	for _, v := range z {
		width += v * v / n
	}
	scale := 1 / math.Sqrt(width)
	sum, squares := 0.0, 0.0
	for _, piece := range z {
		for _, from := range z {
			for _, to := range z {
				for _, angle := range z {
					v := f(piece*scale, from*scale, to*scale, angle*scale)
					sum += v
					squares += v * v
				}
			}
		}
	}
	mean = sum / (n * n * n * n)
	return mean, math.Sqrt(squares/(n*n*n*n) - mean*mean)
}

// The band of each form by itself is the spread of its printed equation over pieces that
// vary by 15 % and by what the figure is unsure of, over normal moisture contents of which
// nothing counts above fibre saturation, and over a normal ring angle.
func TestEachFormIsAsWideAsItsEquation(t *testing.T) {
	loose := func(v, share float64) wood.Figure { return wood.Figure{Value: v, Known: true, SD: v * share} }
	for _, c := range []struct {
		name           string
		angle, angleSD float64
		from, fromSD   float64
		to, toSD       float64
		share          float64 // that the figures are unsure of
	}{
		{"exact", 0, 0, 12, 0, 6, 0, 0},
		{"both uncertain", 0, 0, 14, 1.5, 7, 0.5, 0},
		{"no change", 0, 0, 9, 1.5, 9, 1.5, 0.3},
		{"a loose figure", 0, 0, 14, 1.5, 7, 1.5, 0.3},
		{"far apart", 0, 0, 24, 1, 2, 1.5, 0.3},
		{"wetter", 0, 0, 3, 1.5, 22, 1, 0.2},
		{"at 30 degrees", 30, 0, 14, 1.5, 7, 0.5, 0.2},
		{"at 30 degrees, more or less", 30, 12, 14, 1, 7, 0.5, 0.2},
		{"at 60 degrees, more or less", 60, 15, 14, 0, 7, 0, 0.2},
		{"about to shrink", 0, 0, 28, 3, 12, 1, 0},
		{"about fibre saturation", 0, 0, 30, 3, 27, 3, 0},
		{"as good as green", 0, 0, 38, 3, 12, 1, 0},
		{"green", 0, 0, 60, 5, 12, 1, 0},
	} {
		w := wood.Wood{
			Radial: loose(0.05, c.share), Tangential: loose(0.12, c.share),
			CoefficientRadial: loose(0.0018, c.share), CoefficientTangential: loose(0.0044, c.share),
			FibreSaturation: 0.30,
		}
		angle, sd := quantity.Angle(c.angle)*quantity.Degree, quantity.Angle(c.angleSD)*quantity.Degree
		m, err := movement.Change(1, movement.WidthAt(angle, sd), about(c.from, c.fromSD), about(c.to, c.toSD), w)
		require.NoError(t, err)
		across := func(r, tg, z float64) float64 {
			cos := math.Cos(float64(angle + quantity.Angle(z)*sd))
			return tg*cos*cos + r*(1-cos*cos)
		}
		vary := math.Hypot(0.15, c.share)
		lost := func(mc, sd, z float64) float64 { return 1 - math.Min(30, mc+sd*z)/30 }
		for name, form := range map[string]struct {
			got   movement.FormResult
			given func(piece, from, to, angle float64) float64
		}{
			"coefficient": {m.Coefficient, func(piece, from, to, a float64) float64 {
				return (1 + vary*piece) * across(0.0018, 0.0044, a) * 30 * (lost(c.from, c.fromSD, from) - lost(c.to, c.toSD, to))
			}},
			"total": {m.Shrinkage, func(piece, from, to, a float64) float64 {
				s := (1 + vary*piece) * across(0.05, 0.12, a)
				return (1-s*lost(c.to, c.toSD, to))/(1-s*lost(c.from, c.fromSD, from)) - 1
			}},
		} {
			require.True(t, form.got.Known, c.name, name)
			assert.Equal(t, name == "coefficient" && !(between6And14(c.from) && between6And14(c.to)), form.got.Carried, c.name+", "+name)
			near, wide, middle := 1e-9, 0.015, 0.04
			if form.got.Carried { // within its range it stays the printed equation, which counts on another size
				near, wide, middle = 1e-3, 0.06, 0.2
				form.given = func(piece, from, to, a float64) float64 {
					left := func(mc, sd, z float64) float64 {
						lost := across(lostBy(0.05, 0.0018, mc+sd*z), lostBy(0.12, 0.0044, mc+sd*z), a)
						return 1 - (1+vary*piece)*lost
					}
					return left(c.to, c.toSD, to)/left(c.from, c.fromSD, from) - 1
				}
			}
			mean, sd := spreadOf(form.given)
			assert.InDelta(t, form.given(0, 0, 0, 0), float64(form.got.Change.Value), near, c.name+", "+name)
			assert.InEpsilon(t, sd, float64(form.got.Change.SD()), wide, c.name+", "+name)
			assert.InDelta(t, mean, float64(form.got.Change.Low+form.got.Change.High)/2, middle*sd, c.name+", "+name)
		}
	}
}

func between6And14(mc float64) bool { return mc >= 6 && mc <= 14 }

// lostBy is what wood of a total shrinkage loses of its green size at mc (%MC), that moves by the
// coefficient c up to 21 %MC and from there to 30 in a straight line.
func lostBy(total, c, mc float64) float64 {
	rate := c * (1 - total) / (1 - 10*c) // per %MC of the green size: c counts on the size at 10 %MC
	switch {
	case mc >= 30:
		return 0
	case mc >= 21:
		return (total - 21*rate) * (30 - mc) / 9
	}
	return total - rate*mc
}
