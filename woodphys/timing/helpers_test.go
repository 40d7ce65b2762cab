package timing

import (
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// mapleWood is sugar maple as the tables have it.
func mapleWood(t testing.TB) wood.Wood {
	t.Helper()
	tables, err := species.Default()
	require.NoError(t, err)
	row, ok := tables.Wood("maple-sugar")
	require.True(t, ok)
	figure := func(v species.Value, scale float64) wood.Figure {
		number, known := v.Get()
		return wood.Figure{Value: number * scale, Known: known}
	}
	factor, _ := row.DryingFactor.Factor.Get()
	return wood.Wood{
		SpecificGravity: figure(row.SpecificGravityGreen, 1), Radial: figure(row.Radial, 0.01), Tangential: figure(row.Tangential, 0.01),
		CoefficientRadial: figure(row.CoefficientRadial, 1), CoefficientTangential: figure(row.CoefficientTangential, 1),
		CoefficientFibreSaturation: quantity.Moisture(row.CoefficientFibreSaturation.Or(0) / 100), FibreSaturation: quantity.Moisture(row.FibreSaturation.Or(0) / 100),
		SafeDailyLoss: quantity.Moisture(row.SafeLoss.Or(0) / 100), Pace: wood.Pace{Factor: factor, Misfit: row.DryingFactor.Misfit}, Ease: wood.Moderate, Green: 0.68, // heartwood 65 %, sapwood 72 %
	}
}

// asked is a billet of sugar maple of 58 mm at 18 %, to be sawn for a shop at 45 %, where
// it lies as well.
func asked(t testing.TB) *Question {
	t.Helper()
	q := &Question{
		Wood: mapleWood(t), RingAngle: UsualRingAngle,
		Billet:   resaw.Billet{Length: 700 * quantity.Millimetre, Width: 225 * quantity.Millimetre, Thickness: 58 * quantity.Millimetre},
		Moisture: Moisture{Mean: 0.18}, Room: seasoning.Room{Temperature: quantity.Celsius(20), RelativeHumidity: 0.45}, Horizon: 1825 * quantity.Day,
		Leaf: Leaf{Dry: 5 * quantity.Millimetre, Flat: 0.5 * quantity.Millimetre, Extra: 1.5 * quantity.Millimetre},
		Part: resaw.Piece{Length: 600 * quantity.Millimetre, Width: 200 * quantity.Millimetre, PerSet: 2},
		Saw:  resaw.Saw{Facing: 2 * quantity.Millimetre, Kerf: 1.5 * quantity.Millimetre},
	}
	var err error
	q.Rest, err = q.Room.At(seasoning.Branch(q.Moisture.Mean), sorption.Curves{})
	require.NoError(t, err)
	shop, err := drying.Constant(q.Room.Temperature, q.Room.RelativeHumidity)
	require.NoError(t, err)
	q.Lay = func(from quantity.Duration) (seasoning.Piece, error) {
		return seasoning.Piece{Wood: q.Wood, RingAngle: q.RingAngle, Phases: []drying.Phase{{Length: q.Horizon - from, Climate: shop, Exposure: drying.ClosedRoom()}}}, nil
	}
	return q
}

// weighed is the answer.
func weighed(t testing.TB, q *Question) *Answer {
	t.Helper()
	a, err := Weigh(t.Context(), q)
	require.NoError(t, err)
	return a
}

// over is a difference of core and shell in points.
func over(points float64) *quantity.Moisture {
	m := quantity.Moisture(points) * quantity.PercentMC
	return &m
}
