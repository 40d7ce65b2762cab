package movement_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Wood Handbook table 13-5 from table 4-3, both read: one unit of the fifth decimal.
func TestCoefficientsOfTheTable(t *testing.T) {
	_, rows := expect.Table(t, "testdata/tables_4-3_13-5.csv")
	require.Len(t, rows, 33)
	for _, row := range rows {
		for _, pair := range [][2]int{{1, 3}, {2, 4}} {
			assertFits(t, expect.Number(t, row[pair[0]])/100, expect.Number(t, row[pair[1]]), 0.30)
		}
	}
	// Western redcedar: 2.4 and 5.0 (table 4-3, read), 0.00111 and 0.00234
	// (table 13-5, memory) fit an onset of 22 %.
	for s, want := range map[float64]float64{0.024: 0.00111, 0.050: 0.00234} {
		assertFits(t, s, want, 0.22)
	}
}

// assertFits asserts that wood of the total shrinkage s moves by the coefficient c about
// 10 %MC, give or take one unit of its fifth decimal.
func assertFits(t *testing.T, s, c float64, onset quantity.Moisture) {
	t.Helper()
	m, err := movement.Change(1, movement.Tangential(), exact(10), exact(11), wood.Wood{Tangential: wood.Published(s), FibreSaturation: onset})
	require.NoError(t, err)
	assert.InDelta(t, c, m.Strain.Value, 1.0e-5)
}

func TestBetween(t *testing.T) {
	// A 400 mm quartered Sitka top made at 8.5 % (45 % RH), let down to 6.9 (35 %
	// RH) and 5.4 (25 % RH): 0.9 and 1.8 mm, trade reference, coefficients from memory.
	s, err := movement.Between(400*quantity.Millimetre, movement.Radial(), exact(8.5), movement.Airs{First: exact(6.9), Second: exact(5.4)}, sitka())
	require.NoError(t, err)
	assert.InDelta(t, -0.9, s.ToFirst.Change.Value.Millimetres(), 0.06)
	assert.InDelta(t, -1.8, s.ToSecond.Change.Value.Millimetres(), 0.06)
	w := sitka()
	w.CoefficientRadial = wood.Figure{}
	s, err = movement.Between(400*quantity.Millimetre, movement.Radial(), about(8.5, 1), movement.Airs{First: exact(6.9), Second: exact(11)}, w)
	require.NoError(t, err)
	assert.InDelta(t, float64(s.ToSecond.Change.Value-s.ToFirst.Change.Value), float64(s.Between.Value), 1e-12)
	assert.Less(t, float64(s.Between.High-s.Between.Low), float64(s.ToSecond.Change.High-s.ToSecond.Change.Low), "the moisture at making drops out")
	for input, airs := range map[string]movement.Airs{
		"first_mc_pct": {First: exact(-1), Second: exact(9)}, "second_mc_pct": {First: exact(5), Second: exact(999)},
	} {
		_, err = movement.Between(0.4, movement.Radial(), exact(8), airs, sitka())
		expect.Code(t, err, method.OutOfRange, input)
	}
	_, err = movement.Between(0.4, movement.Radial(), exact(-8), movement.Airs{First: exact(5), Second: exact(6)}, sitka())
	expect.Code(t, err, method.OutOfRange, "made_mc_pct")
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
			expect.Code(t, err, method.OutOfRange, in.Name)
		}
	}
	assert.Len(t, ids, 6)
	m, err := movement.Change(0.1, movement.WidthAt(30*quantity.Degree, 0.1), exact(12), exact(5), sitka())
	require.NoError(t, err)
	for _, id := range m.Notes.Basis {
		assert.True(t, ids[id], id)
	}
}

func BenchmarkChange(b *testing.B) {
	w := redOak()
	w.Tangential.Recalled = false
	for name, d := range map[string]movement.Direction{"tangential": movement.Tangential(), "ring angle": movement.WidthAt(40*quantity.Degree, 5*quantity.Degree)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := movement.Change(0.2, d, about(12, 1), about(7, 0.5), w); err != nil {
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
