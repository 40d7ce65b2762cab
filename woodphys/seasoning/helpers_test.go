package seasoning_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/species"
	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/wood"
)

// maple is sugar maple as the tables have it.
func maple(t testing.TB) wood.Wood {
	t.Helper()
	tables, err := species.Default()
	require.NoError(t, err)
	row, ok := tables.Wood("maple-sugar")
	require.True(t, ok)
	gravity, _ := row.SpecificGravityGreen.Get()
	factor, _ := row.DryingFactor.Factor.Get()
	green, _ := row.GreenMoisture().Get()
	return wood.Wood{
		SpecificGravity: wood.Published(gravity), FibreSaturation: quantity.Moisture(row.FibreSaturation.Or(0) / 100),
		Green: quantity.Moisture(green / 100), SafeDailyLoss: quantity.Moisture(row.SafeLoss.Or(0) / 100),
		Pace: wood.Pace{Factor: factor, Misfit: row.DryingFactor.Misfit}, Listing: wood.ListedHardwood, Ease: wood.Moderate,
	}
}

// station is the air of a place of the tables from a day of the year on.
func station(t testing.TB, id string, day float64) *drying.Climate {
	t.Helper()
	tables, err := species.Default()
	require.NoError(t, err)
	place, ok := tables.Station(id)
	require.True(t, ok)
	year, complete := place.Year()
	require.True(t, complete)
	normals := drying.Normals{HasTemperature: true}
	for i, month := range year {
		normals.Temperature[i], normals.RH[i] = month.Temperature, month.RelativeHumidity
	}
	climate, err := drying.Station(normals, day)
	require.NoError(t, err)
	return climate
}

// shop is a room at 20 degC and a relative humidity.
func shop(t testing.TB, rh float64) *drying.Climate {
	t.Helper()
	climate, err := drying.Constant(quantity.Celsius(20), rh)
	require.NoError(t, err)
	return climate
}

// inShop is a stay in that room.
func inShop(t testing.TB, rh float64, days float64) []drying.Phase {
	t.Helper()
	return []drying.Phase{{Length: quantity.Duration(days) * quantity.Day, Climate: shop(t, rh), Exposure: drying.ClosedRoom()}}
}

// board is green sugar maple of 50 mm in a room at 45 % for five years.
func board(t testing.TB) seasoning.Piece {
	t.Helper()
	return seasoning.Piece{Wood: maple(t), Thickness: 50 * quantity.Millimetre, RingAngle: drying.UsualRingAngle, Phases: inShop(t, 0.45, 1825)}
}

// foresee is the forecast of a piece.
func foresee(t testing.TB, p seasoning.Piece) *seasoning.Outlook {
	t.Helper()
	prior, err := p.Setup()
	require.NoError(t, err)
	o, err := seasoning.Foresee(t.Context(), &prior)
	require.NoError(t, err)
	return o
}

// faults are the inputs that an error names, with their codes.
func faults(t testing.TB, err error) map[string]method.Code {
	t.Helper()
	require.Error(t, err)
	all := map[string]method.Code{}
	if several, is := err.(interface{ Unwrap() []error }); is {
		for _, one := range several.Unwrap() {
			for input, code := range faults(t, one) {
				all[input] = code
			}
		}
		return all
	}
	var domain *method.Error
	require.ErrorAs(t, err, &domain)
	return map[string]method.Code{domain.Input: domain.Code}
}
