package section_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
	"latewood/woodphys/wood"
)

// A flatsawn board of sugar maple dried from 14 to 8 %MC.
func ExampleChange() {
	// the pith lies under the middle, 100 mm below the lower face
	board := section.Section{Width: 200 * quantity.Millimetre, Thickness: 30 * quantity.Millimetre, PithY: -115 * quantity.Millimetre}
	maple := wood.Wood{Radial: recalled(0.048), Tangential: recalled(0.099), FibreSaturation: 0.30}
	from := quantity.NormalBand(14*quantity.PercentMC, 1*quantity.PercentMC)
	to := quantity.NormalBand(8*quantity.PercentMC, 0.5*quantity.PercentMC)
	r, err := section.Change(board, from, to, maple)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("cup %.2f mm (%.2f to %.2f), thickness planed flat %.2f mm, ripped in two %.2f mm\n",
		r.Shape.Cup.Lower.Value.Millimetres(), r.Shape.Cup.Lower.Low.Millimetres(), r.Shape.Cup.Lower.High.Millimetres(),
		r.Shape.Flat.Value.Millimetres(), r.Shape.Ripped.Value.Millimetres())
	// Output: cup 0.86 mm (0.37 to 1.48), thickness planed flat 28.84 mm, ripped in two 29.47 mm
}

// The exact shape of a centred flat face, written out by hand: corner to foot.
func TestCentredFace(t *testing.T) {
	const h, w = 0.1, 0.2
	for _, e := range [][2]float64{{-0.03, -0.06}, {-0.05, -0.10}, {0.03, 0.06}, {-0.06, -0.03}} {
		r, err := section.ChangeBy(flatsawn(w, 0.03, h), e[0], e[1])
		require.NoError(t, err)
		a, k, theta := 1+e[0], (1+e[1])/(1+e[0]), math.Atan(w/2/h)
		assert.InDelta(t, a*h*(math.Cos(k*theta)/math.Cos(theta)-1), float64(r.Shape.Cup.Lower.Value), 1e-11, "place of the cup found to 1e-5 of the width or better")
		assert.InDelta(t, 2*a*h*math.Sin(k*theta)/math.Cos(theta), float64(r.Shape.Width.Lower.Value), 1e-14)
		assert.InDelta(t, a*0.03, float64(r.Shape.Thickness.Middle.Value), 1e-14)
	}
}

// smallStrain is the cup, hollow towards the bark, and the width shrinkage of a flat
// face of width w whose middle is square above the pith at the distance h, for small
// shrinkages radial and tangential, to first order.
//
// Source: polar compatible field, derived; c = (e_T - e_R) h theta tan theta,
// S_w = e_R + (e_T - e_R) theta/tan theta, theta = atan(w/(2h)).
func smallStrain(w, h, radial, tangential float64) (cup, width float64) {
	tan := w / (2 * h)
	theta := math.Atan(tan)
	return h * (tangential - radial) * theta * tan, radial + (tangential-radial)*theta/tan
}

// Thin strains: the exact map becomes the printed small-strain relations.
func TestSmallStrainLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(0.02, 0.5).Draw(t, "w"), rapid.Float64Range(0.005, 2).Draw(t, "h")
		sr, st := rapid.Float64Range(0.01, 0.1).Draw(t, "sr"), rapid.Float64Range(0.01, 0.15).Draw(t, "st")
		const part = 1e-4
		cup, width := smallStrain(w, h, sr, st)
		exact, err := section.ChangeBy(flatsawn(quantity.Length(w), 0.02, quantity.Length(h)), -sr*part, -st*part)
		require.NoError(t, err)
		require.InDelta(t, cup, float64(exact.Shape.Cup.Lower.Value)/part, 1e-4*w)
		require.InDelta(t, width, (1-float64(exact.Shape.Width.Lower.Value)/w)/part, 1e-4)
	})
	// the first order is 1.2 % too large at 6 and 3 %
	cup, _ := smallStrain(0.2, 0.1, 0.03, 0.06)
	exact, err := section.ChangeBy(flatsawn(0.2, 0.03, 0.1), -0.03, -0.06)
	require.NoError(t, err)
	assert.InDelta(t, 0.0124, cup/float64(exact.Shape.Cup.Lower.Value)-1, 0.001)
}

// Far from the pith rings are straight: sizes go by the ring angle formula
// S_T cos^2 a + S_R sin^2 a and corners by (S_T - S_R) sin 2a, to first order.
func TestStraightRings(t *testing.T) {
	const part = 1e-4
	for _, degrees := range []float64{0, 15, 30, 45, 60, 90} {
		a := degrees * math.Pi / 180
		s, err := section.FromRings(0.05, 0.05, quantity.Angle(a), 900)
		require.NoError(t, err)
		r, err := section.ChangeBy(s, -0.04*part, -0.09*part)
		require.NoError(t, err)
		width := 0.09*math.Cos(a)*math.Cos(a) + 0.04*math.Sin(a)*math.Sin(a)
		assert.InDelta(t, width, (1-float64(r.Shape.Width.Middle.Value)/0.05)/part, 1e-4)
		assert.InDelta(t, 0.13-width, (1-float64(r.Shape.Thickness.Middle.Value)/0.05)/part, 1e-4)
		diamond := math.Abs(float64(r.Shape.Corners.LowerLeft.Value)-math.Pi/2) / part
		assert.InDelta(t, 0.05*math.Sin(2*a), diamond, 1e-4)
		assert.InDelta(t, 0, r.Shape.Cup.Lower.Value.Millimetres(), 1e-6)
	}
}

func TestDrawn(t *testing.T) {
	s := section.Section{Width: 0.12, Thickness: 0.04, PithX: -0.03, PithY: -0.08}
	out, err := section.Draw(s, -0.04, -0.08, 10)
	require.NoError(t, err)
	require.Len(t, out.After, 40)
	r, err := section.ChangeBy(s, -0.04, -0.08)
	require.NoError(t, err)
	length := func(i, j int) float64 {
		return math.Hypot(float64(out.After[i].X-out.After[j].X), float64(out.After[i].Y-out.After[j].Y))
	}
	assert.InDelta(t, float64(r.Shape.Width.Lower.Value), length(0, 10), 1e-14)
	assert.InDelta(t, float64(r.Shape.Thickness.Right.Value), length(10, 20), 1e-14)
	assert.InDelta(t, float64(r.Shape.Diagonals.Rising.Value), length(0, 20), 1e-14)
	assert.InDelta(t, float64(r.Shape.Thickness.Middle.Value), length(5, 25), 1e-14)
	_, err = section.Draw(section.Section{Width: 0.1, Thickness: 0.1}, -0.04, -0.08, 10)
	expect.Code(t, err, method.Unsupported, "pith")
	for _, n := range []int{0, -3, 2001} {
		_, err = section.Draw(s, -0.04, -0.08, n)
		expect.Code(t, err, method.OutOfRange, "points_per_side")
	}
}

func TestBoxedHeart(t *testing.T) {
	square := section.Section{Width: 0.1, Thickness: 0.1, PithX: 0.01}
	r, err := section.Change(square, exact(30), exact(0), plain(0.048, 0.099))
	require.NoError(t, err)
	require.Nil(t, r.Shape)
	require.NotNil(t, r.Heart)
	assert.True(t, r.Heart.Opens)
	assert.InDelta(t, 360*(1-0.901/0.952), r.Heart.Opening.Value.Degrees(), 1e-9)
	assert.InDelta(t, 2*math.Pi*0.05*0.051, float64(r.Heart.Gap.Lower.Value), 1e-12)
	assert.InDelta(t, 2*math.Pi*0.04*0.051, float64(r.Heart.Gap.Right.Value), 1e-12)
	assert.True(t, expect.Warned(r.Notes, method.Assumption))
	// the rest of a disc with a slit: its outer ring after the change is as long as the closed one was, times b
	assert.InDelta(t, 2*math.Pi*0.901*0.05, (2*math.Pi-float64(r.Heart.Opening.Value))*0.952*0.05, 1e-12)
	r, err = section.Change(square, exact(8), exact(20), plain(0.048, 0.099))
	require.NoError(t, err)
	assert.False(t, r.Heart.Opens)
	assert.Zero(t, r.Heart.Gap.Lower.Value)
	assert.Negative(t, float64(r.Heart.Opening.Value))
}

// The bands against simulation of what they claim. Shrinkage of one piece varies
// by 15 % radially and tangentially, correlated by 0.6, 0.8 or 1; the band is made
// to hold at least 90 % whichever it is.
func TestBandCoverage(t *testing.T) {
	boards := map[string]section.Section{
		"flatsawn": flatsawn(200*mm, 30*mm, 100*mm),
		"offset":   {Width: 0.12, Thickness: 0.04, PithX: -0.05, PithY: -0.07},
	}
	type figure struct {
		name string
		of   func(*section.Shape) quantity.Band[quantity.Length]
	}
	figures := []figure{
		{"cup", func(s *section.Shape) quantity.Band[quantity.Length] { return s.Cup.Lower }},
		{"width", func(s *section.Shape) quantity.Band[quantity.Length] { return s.Width.Upper }},
		{"thickness", func(s *section.Shape) quantity.Band[quantity.Length] { return s.Thickness.Middle }},
		{"flat", func(s *section.Shape) quantity.Band[quantity.Length] { return s.Flat }},
		{"ripped", func(s *section.Shape) quantity.Band[quantity.Length] { return s.Ripped }},
		{"diagonal", func(s *section.Shape) quantity.Band[quantity.Length] { return s.Diagonals.Rising }},
	}
	rng := rand.New(rand.NewPCG(3, 4))
	const draws = 6000
	for name, s := range boards {
		for _, mc := range [][4]float64{{14, 1.5, 8, 0.5}, {60, 0, 10, 1}, {10, 1.5, 10, 1.5}} {
			r, err := section.Change(s, about(mc[0], mc[1]), about(mc[2], mc[3]), plain(0.048, 0.099))
			require.NoError(t, err)
			best := make([]float64, len(figures))
			for _, correlation := range []float64{0.6, 0.8, 1} {
				inside := make([]int, len(figures))
				for range draws {
					z1, z2 := rng.NormFloat64(), rng.NormFloat64()
					sr := 0.048 * (1 + 0.15*z1)
					st := 0.099 * (1 + 0.15*(correlation*z1+math.Sqrt(1-correlation*correlation)*z2))
					u0 := 1 - math.Min(30, mc[0]+mc[1]*rng.NormFloat64())/30
					u1 := 1 - math.Min(30, mc[2]+mc[3]*rng.NormFloat64())/30
					one, err := section.ChangeBy(s, (1-sr*u1)/(1-sr*u0)-1, (1-st*u1)/(1-st*u0)-1)
					require.NoError(t, err)
					for i, f := range figures {
						v, b := f.of(one.Shape).Value, f.of(r.Shape)
						if v >= b.Low && v <= b.High {
							inside[i]++
						}
					}
				}
				for i, f := range figures {
					share := 100 * float64(inside[i]) / draws
					// 3 standard errors of 6000 draws are 1.2
					assert.GreaterOrEqualf(t, share, 88.5, "%s %s %v correlation %.1f", name, f.name, mc, correlation)
					if best[i] == 0 || share < best[i] {
						best[i] = share
					}
				}
			}
			t.Logf("%-9s %v: least coverage of %d figures over three correlations: %.1f", name, mc, len(figures), best)
		}
	}
}

// Where published figures disagree the bands hold both.
func TestDisagreement(t *testing.T) {
	mahogany := wood.Wood{
		Radial: wood.Published(0.030), Tangential: wood.Published(0.041),
		CoefficientRadial: recalled(0.00172), CoefficientTangential: recalled(0.00238), FibreSaturation: 0.30,
	}
	s := flatsawn(200*mm, 30*mm, 100*mm)
	r, err := section.Change(s, exact(12), exact(8), mahogany)
	require.NoError(t, err)
	assert.True(t, expect.Warned(r.Notes, method.Disagreement))
	narrow := mahogany
	narrow.CoefficientRadial, narrow.CoefficientTangential = wood.Figure{}, wood.Figure{}
	n, err := section.Change(s, exact(12), exact(8), narrow)
	require.NoError(t, err)
	assert.False(t, expect.Warned(n.Notes, method.Disagreement))
	only := wood.Wood{CoefficientRadial: mahogany.CoefficientRadial, CoefficientTangential: mahogany.CoefficientTangential, FibreSaturation: 0.30}
	o, err := section.Change(s, exact(12), exact(8), only)
	require.NoError(t, err)
	for _, alone := range []section.Result{n, o} { // between the two, and both in the band
		assert.LessOrEqual(t, r.Shape.Width.Lower.Low, alone.Shape.Width.Lower.Value)
		assert.GreaterOrEqual(t, r.Shape.Width.Lower.High, alone.Shape.Width.Lower.Value)
	}
	assert.Less(t, o.Shape.Width.Lower.Value, r.Shape.Width.Lower.Value)
	assert.Less(t, r.Shape.Width.Lower.Value, n.Shape.Width.Lower.Value)
	// strains agree with package movement
	m, err := movement.Change(1, movement.Tangential(), exact(12), exact(8), narrow)
	require.NoError(t, err)
	assert.InDelta(t, m.Strain.Value, n.Tangential.Value, 1e-15)
	assert.InDelta(t, m.Strain.Low, n.Tangential.Low, 1e-12)
}

func TestRefused(t *testing.T) {
	s := flatsawn(200*mm, 30*mm, 100*mm)
	w := plain(0.04, 0.08)
	for _, v := range []float64{nan, inf, -inf, 0, -1} {
		bad := s
		bad.Width = quantity.Length(v)
		_, err := section.Change(bad, exact(12), exact(8), w)
		expect.Code(t, err, method.OutOfRange, "width")
	}
	for _, v := range []float64{nan, inf, -inf, 1e9} {
		bad := s
		bad.PithY = quantity.Length(v)
		_, err := section.Change(bad, exact(12), exact(8), w)
		expect.Code(t, err, method.OutOfRange, "pith_y")
		_, err = section.ChangeBy(s, v, -0.1)
		expect.Code(t, err, method.OutOfRange, "radial_change_pct")
	}
	_, err := section.Change(s, band{Value: 0.12, Low: 0.13, High: 0.14}, exact(8), w)
	expect.Code(t, err, method.Contradictory, "from_mc_pct")
	_, err = section.Change(s, exact(12), exact(nan), w)
	expect.Code(t, err, method.OutOfRange, "to_mc_pct")
	_, err = section.Change(s, exact(12), exact(8), wood.Wood{Tangential: wood.Published(0.08)})
	expect.Code(t, err, method.MissingData, "wood")
	_, err = section.Change(s, exact(12), exact(8), plain(0.04, nan))
	expect.Code(t, err, method.OutOfRange, "tangential_pct")
	_, err = section.FromRings(0.1, 0.1, quantity.Angle(nan), 1)
	expect.Code(t, err, method.OutOfRange, "ring_angle_deg")
	_, err = section.RingAt(section.Section{Width: 0.1, Thickness: 0.1}, section.Point{})
	expect.Code(t, err, method.Contradictory, "x")
}

// No input whatever may panic or give NaN without an error.
func TestAnyInput(t *testing.T) {
	wild := rapid.OneOf(rapid.Float64(), rapid.Float64Range(-2, 2), rapid.SampledFrom([]float64{0, nan, inf, -inf, 0.05, 0.1, -0.1, 1e-5, 100, 1000}))
	rapid.Check(t, func(t *rapid.T) {
		l := func(name string) quantity.Length { return quantity.Length(wild.Draw(t, name)) }
		mc := func(name string) band {
			if v := wild.Draw(t, name); rapid.Bool().Draw(t, "exact") {
				return exact(100 * v)
			}
			m := func(end string) quantity.Moisture { return quantity.Moisture(wild.Draw(t, end)) }
			return band{Value: m(name), Low: m("low"), High: m("high")}
		}
		s := section.Section{Width: l("w"), Thickness: l("t"), PithX: l("x"), PithY: l("y")}
		r, err := section.Change(s, mc("from"), mc("to"), plain(wild.Draw(t, "r"), wild.Draw(t, "t")))
		if err == nil && r.Shape != nil {
			require.False(t, math.IsNaN(float64(r.Shape.Cup.Upper.Value+r.Shape.Flat.Value+r.Shape.Ripped.Low)))
			require.False(t, math.IsNaN(float64(r.Shape.Corners.UpperLeft.Low)))
			require.False(t, math.IsInf(float64(r.Shape.Cup.Upper.High), 0))
		}
		_, _ = section.ChangeBy(s, wild.Draw(t, "er"), wild.Draw(t, "et"))
	})
}

func TestRings(t *testing.T) {
	s := section.Section{Width: 0.2, Thickness: 0.03, PithX: -0.1, PithY: -0.115}
	places, err := section.Rings(s)
	require.NoError(t, err)
	assert.InDelta(t, 0, places[0][0].Angle.Degrees(), 1e-12)
	assert.InDelta(t, 45, places[0][1].Angle.Degrees(), 1e-9)
	assert.InDelta(t, 0.1, float64(places[0][0].Radius), 1e-12)
	assert.InDelta(t, math.Atan2(0.2, 0.13)*180/math.Pi, places[2][2].Angle.Degrees(), 1e-9)
	back, err := section.FromRings(0.2, 0.03, places[1][1].Angle, places[1][1].Radius)
	require.NoError(t, err)
	assert.InDelta(t, float64(s.PithX), float64(back.PithX), 1e-12)
	assert.InDelta(t, float64(s.PithY), float64(back.PithY), 1e-12)
}
