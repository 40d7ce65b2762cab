package laminate_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/woodphys/laminate"
	"latewood/woodphys/quantity"
)

// No input whatever may panic, and an answer without an error is a number.
func TestAnyInput(t *testing.T) {
	wild := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-1, 1), rapid.Float64Range(0, 0.5), rapid.SampledFrom([]float64{0, nan, inf, -inf, 0.05, 0.1, 1e-5, 10, 100}))
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string) float64 { return wild.Draw(t, name) }
		layers := drawLayers(t, 3)
		l := &layers[0]
		switch rapid.IntRange(0, 5).Draw(t, "spoil") {
		case 0:
			l.Thickness = quantity.Length(v("thickness"))
		case 1:
			l.Elastic.EL = quantity.Pressure(1e10 * v("el"))
		case 2:
			l.Elastic.PoissonRT.Value, l.Elastic.ETEL.Value, l.Elastic.GRTEL.Value = v("rt"), v("et"), v("grt")
		case 3:
			l.Grain, l.Ring = quantity.Angle(v("grain")), quantity.Angle(v("ring"))
		case 4:
			l.Later = quantity.Band[quantity.Moisture]{Value: quantity.Moisture(v("mc")), Low: quantity.Moisture(v("low")), High: quantity.Moisture(v("high"))}
		case 5:
			l.Wood = shrinks(v("sr"), v("st"), v("sl"))
		}
		w, err := laminate.Bend(laminate.Panel{Layers: layers, Length: 1, Width: 1})
		if err == nil {
			require.False(t, math.IsNaN(w.CurvatureX.Low+w.TwistXY.High+float64(w.Layers[0].Upper.StressAcross.Low)))
			require.False(t, math.IsInf(w.CurvatureX.Low+w.TwistXY.High, 0))
			for _, g := range w.GlueLines {
				require.False(t, math.IsNaN(float64(g.AtEnds.Shear.Value+g.AtSides.Peel.High)))
			}
		}
		m := func(name string) quantity.Length { return quantity.Length(v(name)) }
		p := laminate.Part{ToDriest: quantity.Band[quantity.Length]{Value: m("a"), Low: m("b"), High: m("c")}}
		c, err := laminate.AtBuild(p, laminate.Part{}, laminate.Play{Least: m("d"), Most: m("e")}, laminate.Apart)
		if err == nil {
			require.False(t, math.IsNaN(float64(c.Least+c.Greatest)))
		}
	})
}
