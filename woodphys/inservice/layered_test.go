package inservice_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/inservice"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// layerOf is a flatsawn layer of the wood moving, with stiffness across the grain given and
// no Poisson's ratio, so that both ways of the panel are strips.
func layerOf(tb testing.TB, mm, et float64) inservice.GluedLayer {
	tb.Helper()
	tr, err := drying.NewTransport(moving)
	require.NoError(tb, err)
	p := wood.Published
	return inservice.GluedLayer{
		Layer: laminate.Layer{Wood: moving, Thickness: quantity.Length(mm) * quantity.Millimetre, AtGlueUp: exact(9),
			Elastic: laminate.Elastic{EL: 1e4 * quantity.Megapascal, Ratios: wood.Ratios{ETEL: p(et), EREL: p(0.1), GLREL: p(0.06),
				GLTEL: p(0.05), GRTEL: p(0.01), PoissonLR: p(0), PoissonLT: p(0), PoissonRT: p(0.3)}}},
		Transport: tr, Factor: 0.4, FactorSpread: 0.34, Curves: sorption.CurvesOf(&moving),
	}
}

func layered(outside, inside inservice.Finish, layers ...inservice.GluedLayer) *inservice.Layered {
	return &inservice.Layered{Layers: layers, Length: 0.4, Width: 0.3, Faces: [2]inservice.Finish{outside, inside}}
}

func layeredYear(tb testing.TB, room *inservice.Room, work *inservice.Layered) inservice.LayeredYear {
	tb.Helper()
	var s inservice.Season
	y, err := s.LayeredYear(tb.Context(), room, work)
	require.NoError(tb, err)
	return y
}

// said is what notes say of air, thickness and the year, but for what only layers have.
func said(notes method.Notes) []string {
	list := []string{}
	for _, w := range notes.Warnings {
		if w.Code == method.OutsideFitted && strings.HasSuffix(w.Input, "thickness") || w.Method == "inservice.room" || strings.Contains(w.Detail, "hysteresis") {
			list = append(list, w.Input+": "+w.Detail)
		}
	}
	slices.Sort(list)
	return list
}

// One layer is the part of that thickness, whose year is run by another scheme: mean, lag,
// dates and bands. With different finishes the part is cut in two, which is 2 % of the swing
// off at most.
func TestOneLayerIsThePart(t *testing.T) {
	room := twoSeasons(t, 20, 0.25, 0.65)
	for _, c := range []struct {
		mm              float64
		outside, inside string
	}{{0.5, "bare", "bare"}, {2, "varnish", "varnish"}, {4, "bare", "bare"}, {20, "varnish", "varnish"}, {45, "oil", "oil"}, {4, "varnish", "bare"}, {20, "varnish", "bare"}} {
		name := fmt.Sprint(c)
		part := yearOf(t, room, partOf(t, c.mm, 0.4, finish(t, c.outside), finish(t, c.inside)))
		one := layeredYear(t, room, layered(finish(t, c.outside), finish(t, c.inside), layerOf(t, c.mm, 0.05)))
		assert.Equal(t, said(part.Notes), said(one.Notes), "%s: what is told of it does not hang on how it is sent", name)
		within := 0.05
		switch {
		case c.mm < 2 && c.outside == "bare": // which follows the air within the day
			within = 0.15
		case c.outside != c.inside:
			within = 0.02 * swing(&part)
		}
		require.Len(t, one.Mean, len(part.Mean))
		worst := 0.0
		for k := range part.Mean {
			worst = math.Max(worst, math.Abs((one.Mean[k].Value - part.Mean[k].Value).Percent()))
		}
		t.Logf("%s: mean within %.3f %%MC of a swing of %.2f", name, worst, swing(&part))
		assert.Less(t, math.Abs((one.Dry.Mean.Value - part.Dry.Mean.Value).Percent()), within, name)
		assert.Less(t, math.Abs((one.Wet.Mean.Value - part.Wet.Mean.Value).Percent()), within, name)
		if c.outside == c.inside {
			assert.Less(t, worst, within, name)
			assert.InEpsilon(t, float64(part.Lag), float64(one.Lag), 0.02, name)
			assert.InDelta(t, part.Delay.Days(), one.Delay.Days(), 1.5, name)
			assert.InDelta(t, part.Dry.Mean.Low.Percent(), one.Dry.Mean.Low.Percent(), 0.1, name)
			assert.InDelta(t, part.Wet.Mean.High.Percent(), one.Wet.Mean.High.Percent(), 0.1, name)
			assert.InDelta(t, 0, one.Swing.Cup.Value.Millimetres(), 1e-6, "%s: alike on both faces", name)
		} else {
			assert.Greater(t, math.Abs(one.Swing.Cup.Value.Millimetres()), 0.02, "%s: the bare face leads", name)
		}
	}
}

// Equal layers of one board stay flat and move as the board does; the middle one, deeper
// below the faces, is further behind.
func TestEqualLayersMoveAsOnePlank(t *testing.T) {
	room := twoSeasons(t, 20, 0.25, 0.65)
	oil := finish(t, "oil")
	y := layeredYear(t, room, layered(oil, oil, layerOf(t, 8, 0.05), layerOf(t, 8, 0.05), layerOf(t, 8, 0.05)))
	for k := range y.Times {
		assert.InDelta(t, 0, y.Cup[k].Value.Millimetres(), 1e-7)
		assert.InDelta(t, 0, y.Bow[k].Value.Millimetres(), 1e-7)
	}
	assert.True(t, y.Dry.Glued.Symmetric)
	plank := piece(t, "plank", 24, 0)
	wide := 0.3 * quantity.Metre
	plank.Part, plank.Width, plank.MadeAt = *partOf(t, 24, 0.4, oil, oil), &wide, exact(9)
	var s inservice.Season
	lives, err := s.Live(t.Context(), room, []inservice.Piece{plank}, nil)
	require.NoError(t, err)
	require.Equal(t, inservice.Wide, lives.Pieces[0].Sizes[1].Dimension)
	assert.InEpsilon(t, float64(lives.Pieces[0].Sizes[1].Swing.Value), float64(y.Swing.ChangeWidth.Value), 0.01)
	assert.InDelta(t, lives.Pieces[0].Dry.At.Days(), y.Dry.At.Days(), 1.5)
	assert.Greater(t, y.Layers[1].Lag, y.Layers[0].Lag)
	assert.InEpsilon(t, float64(y.Layers[0].Lag), float64(y.Layers[2].Lag), 1e-6)
	assert.Greater(t, y.Layers[1].Delay, y.Layers[0].Delay)
	assert.Greater(t, y.Layers[0].Wet.Mean.Value-y.Layers[0].Dry.Mean.Value, y.Layers[1].Wet.Mean.Value-y.Layers[1].Dry.Mean.Value)
}

// Two thin bare layers of one wood are at rest in a slow year. One flatsawn, the other with
// its grain along too but quartered, they bend as a bimetal: Timoshenko 1925 eq. 4, written
// out here, with the strains of the isotherm and of the shrinkage.
func TestThinLayersBendAsABimetal(t *testing.T) {
	room := twoSeasons(t, 20, 0.30, 0.60)
	bare := finish(t, "bare")
	for _, mm := range [][2]float64{{1, 1}, {0.6, 2}, {2, 0.6}} {
		top, body := layerOf(t, mm[0], 0.05), layerOf(t, mm[1], 0.05)
		body.Ring = 90 * quantity.Degree
		y := layeredYear(t, room, layered(bare, bare, top, body))
		for _, at := range []struct {
			rh    float64
			state *inservice.LayeredState
		}{{0.30, &y.Dry}, {0.60, &y.Wet}} {
			m := float64(sorption.CurvesOf(&moving).At(quantity.Celsius(20), sorption.Middle).Surface(at.rh))
			shrunk := func(s float64) float64 { // from 9 % to m
				return (0.09 - m) / 0.30 * s / (1 - s*(0.30-0.09)/0.30)
			}
			moved, err := movement.Change(1, movement.Tangential(), exact(9), exact(100*m), moving)
			require.NoError(t, err)
			assert.InEpsilon(t, -shrunk(0.075), moved.Strain.Value, 0.02, "the strain by hand is that of movement")
			radial, err := movement.Change(1, movement.Radial(), exact(9), exact(100*m), moving)
			require.NoError(t, err)
			difference := radial.Strain.Value - moved.Strain.Value // of the body less that of the top
			ratio, stiff := mm[0]/mm[1], 0.05/0.1
			one := (1 + ratio) * (1 + ratio)
			curvature := 6 * difference * one / ((mm[0] + mm[1]) / 1000 * (3*one + (1+ratio*stiff)*(ratio*ratio+1/(ratio*stiff))))
			cup := curvature * 0.3 * 0.3 / 8
			assert.InEpsilon(t, cup, float64(at.state.Glued.Cup.Value), 0.01, "%v mm at %g", mm, at.rh)
			t.Logf("%v mm at %.0f %%: by Timoshenko %.3f mm, through the year %.3f mm", mm, 100*at.rh, 1000*cup, at.state.Glued.Cup.Value.Millimetres())
		}
		assert.Equal(t, y.Wet.Glued.Cup.Value-y.Dry.Glued.Cup.Value, y.Swing.Cup.Value)
	}
}

// The swing is wettest less driest; the ends of the year hold all days; the bands hold their
// values; a layer of another wood keeps its own isotherm; glue that lets nothing pass sets
// the layers apart.
func TestLayeredYear(t *testing.T) {
	room := heatedRoom(t)
	varnish, bare := finish(t, "varnish"), finish(t, "bare")
	work := layered(varnish, bare, layerOf(t, 6, 0.08), layerOf(t, 38, 0.05))
	work.Layers[1].Ring = 80 * quantity.Degree
	y := layeredYear(t, room, work)
	assert.Equal(t, y.Wet.Glued.Cup.Value-y.Dry.Glued.Cup.Value, y.Swing.Cup.Value)
	assert.Equal(t, y.Wet.Glued.ChangeWidth.Value-y.Dry.Glued.ChangeWidth.Value, y.Swing.ChangeWidth.Value)
	assert.Equal(t, y.Wet.Mean.Value-y.Dry.Mean.Value, y.Swing.Mean)
	for k := range y.Times {
		for i, series := range [][]quantity.Band[quantity.Length]{y.Cup, y.Bow} {
			ends := [][2]inservice.BendAt{y.CupEnds, y.BowEnds}[i]
			assert.LessOrEqual(t, series[k].Value, ends[0].Bend.Value)
			assert.GreaterOrEqual(t, series[k].Value, ends[1].Bend.Value)
			assert.LessOrEqual(t, series[k].Low, series[k].Value)
			assert.LessOrEqual(t, series[k].Value, series[k].High)
		}
		assert.GreaterOrEqual(t, y.Mean[k].Value, y.Dry.Mean.Value-1e-5)
		assert.LessOrEqual(t, y.Mean[k].Value, y.Wet.Mean.Value+1e-5)
	}
	assert.Less(t, y.Swing.Cup.Low, y.Swing.Cup.Value)
	assert.Len(t, y.Dry.Glued.GlueLines, 1)
	assert.Positive(t, y.Dry.Glued.GlueLines[0].AtSides.Shear.Value)
	assert.Greater(t, y.Layers[1].Lag, quantity.Duration(0))
	open := y.Layers[0].Lag

	work.GlueVapour = 1e9
	shut := layeredYear(t, room, work)
	assert.Greater(t, shut.Layers[0].Lag, quantity.Duration(0))
	assert.NotEqual(t, open, shut.Layers[0].Lag)
	sealed, err := layeredYearOf(t, room, layered(varnish, finish(t, "impermeable"), layerOf(t, 6, 0.08)))
	require.NoError(t, err)
	assert.InEpsilon(t, float64(sealed.Layers[0].Lag), float64(shut.Layers[0].Lag), 0.02, "as if its back were sealed")
}

func layeredYearOf(t *testing.T, room *inservice.Room, work *inservice.Layered) (inservice.LayeredYear, error) {
	t.Helper()
	var s inservice.Season
	return s.LayeredYear(t.Context(), room, work)
}

// What is wrong is told of the layer as counted from face 1.
func TestLayeredYearRefuses(t *testing.T) {
	room := twoSeasons(t, 20, 0.30, 0.60)
	bare, shut := finish(t, "bare"), finish(t, "impermeable")
	good := func() *inservice.Layered { return layered(bare, bare, layerOf(t, 3, 0.05), layerOf(t, 5, 0.05)) }
	for input, change := range map[string]func(*inservice.Layered){
		"layers/0/wood":          func(l *inservice.Layered) { l.Layers[0].Transport = nil },
		"layers/1/drying_factor": func(l *inservice.Layered) { l.Layers[1].Factor = 100 },
		"layers/0/et_el":         func(l *inservice.Layered) { l.Layers[0].Elastic.ETEL = wood.Published(7) },
		"layers/1/at_glue_up_mc_pct": func(l *inservice.Layered) {
			l.Layers[1].AtGlueUp = quantity.Band[quantity.Moisture]{Value: 4, Low: 4, High: 4}
		},
		"width":              func(l *inservice.Layered) { l.Width = 0 },
		"finish":             func(l *inservice.Layered) { l.Faces = [2]inservice.Finish{shut, shut} },
		"finish/inside":      func(l *inservice.Layered) { l.Faces[1].Resistance = -1 },
		"glue_resistance":    func(l *inservice.Layered) { l.GlueVapour = -1 },
		"glue_thickness":     func(l *inservice.Layered) { l.Glue.Thickness = 1 },
		"layers":             func(l *inservice.Layered) { l.Layers = nil },
		"layers/1/thickness": func(l *inservice.Layered) { l.Layers[1].Thickness = 1 },
	} {
		work := good()
		change(work)
		_, err := layeredYearOf(t, room, work)
		var domain *method.Error
		require.ErrorAs(t, err, &domain, input)
		assert.Equal(t, input, domain.Input, domain.Detail)
		var s inservice.Season
		_, err = s.Live(t.Context(), room, nil, []inservice.Layered{*work})
		require.ErrorAs(t, err, &domain, input)
		assert.Equal(t, "laminates/0/"+input, domain.Input)
	}
}

// BenchmarkLayeredYear is the year of a cap on a body.
func BenchmarkLayeredYear(b *testing.B) {
	room := heatedRoom(b)
	work := layered(finish(b, "varnish"), finish(b, "bare"), layerOf(b, 6, 0.08), layerOf(b, 38, 0.05))
	var s inservice.Season
	for b.Loop() {
		if _, err := s.LayeredYear(b.Context(), room, work); err != nil {
			b.Fatal(err)
		}
	}
}
