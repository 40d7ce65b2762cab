package movement_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
)

// Wood Handbook table 13-5 from table 4-3, both read: one unit of the fifth decimal.
func TestCoefficientsOfTheTable(t *testing.T) {
	file, err := os.Open("testdata/tables_4-3_13-5.csv")
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, file.Close()) })
	reader := csv.NewReader(file)
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 34)
	number := func(text string) float64 {
		v, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		return v
	}
	for _, row := range rows[1:] {
		for _, pair := range [][2]int{{1, 3}, {2, 4}} {
			c, err := movement.CoefficientFromShrinkage(number(row[pair[0]])/100, 0.30)
			require.NoError(t, err)
			assert.InDelta(t, number(row[pair[1]]), c, 1.0e-5, row[0])
		}
	}
	// Western redcedar: 2.4 and 5.0 (table 4-3, read), 0.00111 and 0.00234
	// (table 13-5, memory) fit an onset of 22 %.
	for s, want := range map[float64]float64{0.024: 0.00111, 0.050: 0.00234} {
		c, err := movement.CoefficientFromShrinkage(s, 0.22)
		require.NoError(t, err)
		assert.InDelta(t, want, c, 1.0e-5)
	}
	_, err = movement.CoefficientFromShrinkage(math.NaN(), 0.3)
	requireCode(t, err, method.OutOfRange, "shrinkage_pct")
	_, err = movement.ShrinkageFromCoefficient(1, 0.3)
	requireCode(t, err, method.OutOfRange, "coefficient")
	_, err = movement.ShrinkageFromCoefficient(0.002, 3)
	requireCode(t, err, method.OutOfRange, "fibre_saturation_pct")
}

func TestVolumeChange(t *testing.T) {
	v, err := movement.VolumeChange(1, exact(30), exact(0), redOak())
	require.NoError(t, err)
	assert.InDelta(t, -0.137, float64(v.Change.Value), 1e-12)
	assert.False(t, warned(v.Notes, method.Disagreement)) // 1-(1-0.040)(1-0.086) = 12.3 %
	wood := redOak()
	wood.Volumetric = movement.Figure{}
	v, err = movement.VolumeChange(1, exact(30), exact(0), wood)
	require.NoError(t, err)
	assert.InDelta(t, -(1 - 0.96*0.914), float64(v.Change.Value), 1e-12)
	assert.True(t, warned(v.Notes, method.DefaultUsed))
	// Tamarack: 3.7, 7.4 and 13.6 %, 1.26 times the product (table 4-3).
	tamarack := movement.Wood{Radial: movement.Published(0.037), Tangential: movement.Published(0.074), Volumetric: movement.Published(0.136), FibreSaturation: 0.3}
	v, err = movement.VolumeChange(1, exact(30), exact(0), tamarack)
	require.NoError(t, err)
	assert.True(t, warned(v.Notes, method.Disagreement))
	assert.Greater(t, v.Strain.High, -(1-0.963*0.926)*(1-0.15), "holds the band of the product")
	_, err = movement.VolumeChange(1, exact(30), exact(0), only(0.08))
	requireCode(t, err, method.Unsupported, "wood")
	_, err = movement.VolumeChange(quantity.Volume(math.NaN()), exact(30), exact(0), redOak())
	requireCode(t, err, method.OutOfRange, "volume")
}

func TestDiamonding(t *testing.T) {
	wood := movement.Wood{Tangential: movement.Published(0.08), Radial: movement.Published(0.04), FibreSaturation: 0.3}
	g, err := movement.Diamonding(45*quantity.Degree, 0, exact(30), exact(0), wood)
	require.NoError(t, err)
	assert.InDelta(t, 0.04, float64(g.Angle.Value), 1e-12) // (S_T - S_R) sin 90
	g, err = movement.Diamonding(15*quantity.Degree, 5*quantity.Degree, exact(30), exact(0), wood)
	require.NoError(t, err)
	assert.InDelta(t, 0.02, float64(g.Angle.Value), 1e-12) // sin 30
	assert.Less(t, g.Angle.Low, g.Angle.Value)
	back, err := movement.Diamonding(15*quantity.Degree, 0, exact(8), exact(12), wood)
	require.NoError(t, err)
	assert.Negative(t, float64(back.Angle.Value), "wetting turns the corner the other way")
	// at 0 degrees +/- 5 only the angle's uncertainty is left: 2 * 0.04 * 5 degrees
	g, err = movement.Diamonding(0, 5*quantity.Degree, exact(30), exact(0), wood)
	require.NoError(t, err)
	assert.InDelta(t, 2*0.04*5*math.Pi/180, float64(g.Angle.SD()), 1e-9)
	// at 45 degrees the variation of both shrinkages: 15 % of 8 and of 4 %
	g, err = movement.Diamonding(45*quantity.Degree, 0, exact(30), exact(0), wood)
	require.NoError(t, err)
	assert.InDelta(t, math.Hypot(0.15*0.08, 0.15*0.04), float64(g.Angle.SD()), 1e-9)
	for _, a := range []quantity.Angle{0, 90 * quantity.Degree} {
		g, err = movement.Diamonding(a, 0, exact(30), exact(0), wood)
		require.NoError(t, err)
		assert.InDelta(t, 0, float64(g.Angle.Value), 1e-15)
	}
	// The corner of a rotated square by its two diagonals at 45 and 135 degrees
	// to its sides: one diagonal along the rings, the other across.
	g, err = movement.Diamonding(45*quantity.Degree, 0, exact(30), exact(6), wood)
	require.NoError(t, err)
	along, across := 1-0.08*24/30, 1-0.04*24/30
	assert.InDelta(t, math.Pi/2-2*math.Atan(along/across), float64(g.Angle.Value), 0.055*float64(g.Angle.Value), "the linear form is short by about the mean shrinkage, here 4.8 %")
	_, err = movement.Diamonding(0, 0, exact(30), exact(6), only(0.08))
	requireCode(t, err, method.Unsupported, "wood")
	_, err = movement.Diamonding(2, 0, exact(30), exact(6), wood)
	requireCode(t, err, method.OutOfRange, "ring_angle_deg")
}

func TestBetween(t *testing.T) {
	// A 400 mm quartered Sitka top made at 8.5 % (45 % RH), let down to 6.9 (35 %
	// RH) and 5.4 (25 % RH): 0.9 and 1.8 mm, trade reference, coefficients from memory.
	s, err := movement.Between(400*quantity.Millimetre, movement.Radial(), exact(8.5), movement.Airs{First: exact(6.9), Second: exact(5.4)}, sitka())
	require.NoError(t, err)
	assert.InDelta(t, -0.9, s.ToFirst.Change.Value.Millimetres(), 0.06)
	assert.InDelta(t, -1.8, s.ToSecond.Change.Value.Millimetres(), 0.06)
	wood := sitka()
	wood.CoefficientRadial = movement.Figure{}
	s, err = movement.Between(400*quantity.Millimetre, movement.Radial(), about(8.5, 1), movement.Airs{First: exact(6.9), Second: exact(11)}, wood)
	require.NoError(t, err)
	assert.InDelta(t, float64(s.ToSecond.Change.Value-s.ToFirst.Change.Value), float64(s.Between.Value), 1e-12)
	assert.Less(t, float64(s.Between.High-s.Between.Low), float64(s.ToSecond.Change.High-s.ToSecond.Change.Low), "the moisture at making drops out")
	for input, airs := range map[string]movement.Airs{
		"first_mc_pct": {First: exact(-1), Second: exact(9)}, "second_mc_pct": {First: exact(5), Second: exact(999)},
	} {
		_, err = movement.Between(0.4, movement.Radial(), exact(8), airs, sitka())
		requireCode(t, err, method.OutOfRange, input)
	}
	_, err = movement.Between(0.4, movement.Radial(), exact(-8), movement.Airs{First: exact(5), Second: exact(6)}, sitka())
	requireCode(t, err, method.OutOfRange, "made_mc_pct")
}

// Every row is whole, and its limits are what the code refuses by.
func TestMethods(t *testing.T) {
	ids := map[string]bool{}
	for _, m := range movement.Methods() {
		assert.False(t, ids[m.ID], m.ID)
		ids[m.ID] = true
		assert.Equal(t, "movement", m.Chapter)
		for _, text := range []string{m.Summary, m.Equation, m.Accuracy, m.Source, string(m.Checked)} {
			assert.NotEmpty(t, text, m.ID)
		}
		for _, in := range m.Inputs {
			assert.LessOrEqual(t, in.Limit.Low, in.Fitted.Low, m.ID+" "+in.Name)
			assert.GreaterOrEqual(t, in.Limit.High, in.Fitted.High, m.ID+" "+in.Name)
			_, err := m.Check(in.Name, math.NaN())
			requireCode(t, err, method.OutOfRange, in.Name)
		}
	}
	assert.Len(t, ids, 9)
	m, err := movement.Change(0.1, movement.WidthAt(30*quantity.Degree, 0.1), exact(12), exact(5), sitka())
	require.NoError(t, err)
	for _, id := range m.Notes.Basis {
		assert.True(t, ids[id], id)
	}
}

func BenchmarkChange(b *testing.B) {
	wood := redOak()
	wood.Tangential.Recalled = false
	for name, d := range map[string]movement.Direction{"tangential": movement.Tangential(), "ring angle": movement.WidthAt(40*quantity.Degree, 5*quantity.Degree)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := movement.Change(0.2, d, about(12, 1), about(7, 0.5), wood); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("disagreeing, recalled", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := movement.Change(0.2, movement.WidthAt(40*quantity.Degree, 5*quantity.Degree), about(12, 1), about(7, 0.5), mahogany()); err != nil {
				b.Fatal(err)
			}
		}
	})
}
