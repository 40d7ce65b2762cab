package laminate_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/laminate"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

var (
	nan = math.NaN()
	inf = math.Inf(1)
)

const mm = quantity.Millimetre

type band = quantity.Band[quantity.Moisture]

func exact(percent float64) band { return about(percent, 0) }

func about(percent, sd float64) band {
	return quantity.NormalBand(quantity.Moisture(percent/100), quantity.Moisture(sd/100))
}

// shrinks is a wood whose strains from 30 to 0 %MC are just these shrinkages.
func shrinks(radial, tangential, longitudinal float64) wood.Wood {
	return wood.Wood{
		Radial: wood.Published(radial), Tangential: wood.Published(tangential), Longitudinal: wood.Published(longitudinal), FibreSaturation: 0.30,
	}
}

// full are elastic constants in which nothing is missing.
func full(el, et, er, glr, glt, grt, lr, lt, rt float64) laminate.Elastic {
	p := wood.Published
	return laminate.Elastic{EL: quantity.Pressure(el) * quantity.Megapascal, Ratios: wood.Ratios{
		ETEL: p(et), EREL: p(er), GLREL: p(glr), GLTEL: p(glt), GRTEL: p(grt), PoissonLR: p(lr), PoissonLT: p(lt), PoissonRT: p(rt),
	}}
}

// groupOnly are elastic constants of which only the group is known, whose means are those
// of the published table.
func groupOnly(t testing.TB, el float64, group wood.Group) laminate.Elastic {
	t.Helper()
	names := []string{"et_el", "er_el", "glr_el", "glt_el", "grt_el", "nu_lr", "nu_lt", "nu_rt"}
	var sum, count [8]float64
	for _, row := range expect.Named(t, "../../testdata/published/elastic_ratios.csv") {
		for i, name := range names {
			if row["group"] == string(group) && row[name] != "" {
				sum[i] += floats(t, row[name])[0]
				count[i]++
			}
		}
	}
	var m [8]float64
	for i := range m {
		require.Positive(t, count[i], names[i])
		m[i] = sum[i] / count[i]
	}
	means := full(el, m[0], m[1], m[2], m[3], m[4], m[5], m[6], m[7])
	return laminate.Elastic{EL: means.EL, StandIn: means.Ratios, Group: group}
}

// drawLayer draws a layer of any wood, direction and moisture.
func drawLayer(t *rapid.T) laminate.Layer {
	f := func(low, high float64, name string) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	return laminate.Layer{
		Wood: shrinks(f(0.01, 0.08, "sr"), f(0.02, 0.12, "st"), f(0.0001, 0.003, "sl")),
		Elastic: full(f(5000, 16000, "el"), f(0.03, 0.09, "et"), f(0.07, 0.19, "er"), f(0.05, 0.15, "glr"), f(0.04, 0.12, "glt"), f(0.004, 0.03, "grt"),
			f(0.3, 0.48, "lr"), f(0.3, 0.6, "lt"), f(0.38, 0.8, "rt")),
		Thickness: quantity.Length(f(0.0005, 0.02, "t")),
		Grain:     quantity.Angle(f(-math.Pi, math.Pi, "grain")), Ring: quantity.Angle(f(0, math.Pi/2, "ring")),
		AtGlueUp: about(f(5, 14, "mc"), 0.5), Later: about(f(4, 20, "later"), 1),
	}
}

func drawLayers(t *rapid.T, most int) []laminate.Layer {
	layers := make([]laminate.Layer, rapid.IntRange(1, most).Draw(t, "layers"))
	for i := range layers {
		layers[i] = drawLayer(t)
	}
	return layers
}

func bend(t require.TestingT, layers ...laminate.Layer) laminate.Warped {
	w, err := laminate.Bend(laminate.Panel{Layers: layers, Length: 0.5, Width: 0.3})
	require.NoError(t, err)
	return w
}
