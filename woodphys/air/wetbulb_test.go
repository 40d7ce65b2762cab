package air

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/internal/expect"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

func TestWetBulbLeadsBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := drawAir(r)
		wet, iced, err := s.WetBulb()
		require.NoError(r, err)
		if iced {
			assert.LessOrEqual(r, wet.Celsius(), 0.01)
		} else {
			assert.GreaterOrEqual(r, wet.Celsius(), -1e-9)
			assert.LessOrEqual(r, wet.Celsius(), s.DryBulb.Celsius()+1e-9)
		}
		back, err := FromWetBulb(s.DryBulb, wet, s.Pressure, iced)
		require.NoError(r, err)
		// below about -40 degC one unit of RH is a few mPa and the bulb hardly
		// responds, so the way back is compared as vapour pressure
		assert.InDelta(r, float64(s.VapourPressure), float64(back.VapourPressure), 1e-4+1e-7*float64(s.VapourPressure))
	})
}

func TestWetBulbMeetsDryBulbAtSaturation(t *testing.T) {
	for c := 0.5; c <= 95; c += 2.5 {
		s, err := FromRelativeHumidity(quantity.Celsius(c), 1, SeaLevelPressure)
		require.NoError(t, err)
		wet, iced, err := s.WetBulb()
		require.NoError(t, err)
		assert.False(t, iced)
		assert.InDelta(t, c, wet.Celsius(), 1e-6)
	}
}

func TestIcedBulbAboveDryBulbInFog(t *testing.T) {
	// Air saturated over water at -10 degC is more than saturated over ice, so
	// the iced bulb takes up frost and reads above the air.
	s, err := FromRelativeHumidity(quantity.Celsius(-10), 1, SeaLevelPressure)
	require.NoError(t, err)
	wet, iced, err := s.WetBulb()
	require.NoError(t, err)
	assert.True(t, iced)
	// WMO-No. 8 (from memory): e = e_i(tw) - 5.75e-4 p (t - tw), solved by halving.
	low, high := -10.0, -9.0
	for range 60 {
		mid := (low + high) / 2
		e := SaturationPressureOverIce(quantity.Celsius(mid)).Pascals() - 5.75e-4*101325*(-10-mid)
		if e < s.VapourPressure.Pascals() {
			low = mid
		} else {
			high = mid
		}
	}
	assert.InDelta(t, low, wet.Celsius(), 0.02)
	assert.Greater(t, wet.Celsius(), -10.0)
}

func TestBulbStepsDownWhereItFreezes(t *testing.T) {
	// Dry bulb 8 degC, air a hair drier than a water bulb at 0 degC would show: the
	// iced bulb reads 0.56 K lower, 0.1 to 0.6 K over the dry bulbs where it occurs.
	for dry, step := range map[float64]float64{2: 0.14, 4: 0.28, 8: 0.56} {
		s, err := FromWetBulb(quantity.Celsius(dry), quantity.Celsius(1e-6), SeaLevelPressure, false)
		require.NoError(t, err)
		wet, iced, err := s.WetBulb()
		require.NoError(t, err)
		assert.False(t, iced)
		assert.InDelta(t, 1e-6, wet.Celsius(), 1e-7)
		drier, err := fromHumidityRatio(s.DryBulb, s.HumidityRatio*(1-1e-5), s.Pressure)
		require.NoError(t, err)
		wet, iced, err = drier.WetBulb()
		require.NoError(t, err)
		assert.True(t, iced)
		assert.InDelta(t, -step, wet.Celsius(), 0.01)
	}
}

func TestWetBulbOfAHandMadeState(t *testing.T) {
	_, _, err := State{}.WetBulb()
	expect.Code(t, err, method.OutOfRange, "temperature")
	_, _, err = State{DryBulb: quantity.Celsius(20), Pressure: SeaLevelPressure, VapourPressure: 5000}.WetBulb()
	expect.Code(t, err, method.Contradictory, "vapour_pressure")
}

func TestIcedBulbPrinted(t *testing.T) {
	// Dry -1, iced bulb -5 degC, 95461 Pa: W = 0.0012040 (public test file for
	// ASHRAE Fundamentals 2017 ch. 1 eq. 35, which states a tolerance of 0.03 %).
	s, err := FromWetBulb(quantity.Celsius(-1), quantity.Celsius(-5), 95461, true)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.0012040, s.HumidityRatio, 3e-4)
}

func TestAgainstPsychrometerFormula(t *testing.T) {
	// WMO-No. 8 (from memory): e = e_w(tw) - 6.53e-4 (1 + 0.000944 tw) p (t - tw).
	// 0.8 %RH bounds the difference over weather; the two were fitted apart.
	for dry := 5.0; dry <= 35; dry += 5 {
		for depression := 0.0; depression <= dry/2; depression++ {
			wet := dry - depression
			s, err := FromWetBulb(quantity.Celsius(dry), quantity.Celsius(wet), SeaLevelPressure, false)
			require.NoError(t, err)
			e := 611.2*math.Exp(17.62*wet/(243.12+wet)) - 6.53e-4*(1+0.000944*wet)*101325*depression
			rh := e / (611.2 * math.Exp(17.62*dry/(243.12+dry)))
			assert.InDelta(t, rh, s.RelativeHumidity, 0.008, "%g/%g", dry, wet)
		}
	}
}

func TestAltitudeMovesThePsychrometer(t *testing.T) {
	// The same readings mean moister air higher up. The psychrometer formula of
	// WMO-No. 8 gives 58.6 % at sea level and 60.2 % at 1000 m; the two formulas
	// differ by 0.3 %RH, so 0.5 for the values and 0.1 for the rise.
	var rh [2]float64
	for i, altitude := range []quantity.Length{0, 1000} {
		p, err := StandardPressure(altitude)
		require.NoError(t, err)
		s, err := FromWetBulb(quantity.Celsius(20), quantity.Celsius(15), p, false)
		require.NoError(t, err)
		rh[i] = 100 * s.RelativeHumidity
	}
	assert.InDelta(t, 58.6, rh[0], 0.5)
	assert.InDelta(t, 60.2, rh[1], 0.5)
	assert.InDelta(t, 60.2-58.6, rh[1]-rh[0], 0.1)
}

// TestAgainstIndependentLibrary compares with testdata/published/psychrometrics.csv
// on the definitions of that library: at and below 0.01 degC it takes saturation
// over ice, so its relative humidity there is e/p_ice, its dew point a frost
// point, and its wet bulb at or below 0 degC iced. Each state is built from the
// humidity ratio, which means the same to both.
//
// Tolerances: pressures and ratios 2e-8, the printed digits; its dew point and
// wet bulb are found to 0.001 K. Rows whose wet bulb falls where the bulb freezes
// are left out: there two bulb temperatures solve the equations and its halving
// may end on either side or at the step itself.
func TestAgainstIndependentLibrary(t *testing.T) {
	_, rows := expect.Table(t, "../../testdata/published/psychrometrics.csv")
	require.Len(t, rows, 408)
	atStep := 0
	var worstDew, worstWet float64
	for _, row := range rows {
		v := make([]float64, 7)
		for i := range v {
			v[i] = expect.Number(t, row[i])
		}
		dry, p := quantity.Celsius(v[0]), quantity.Pressure(v[2])
		s, err := fromHumidityRatio(dry, v[4], p)
		require.NoError(t, err, row)
		assert.InEpsilon(t, v[3], s.VapourPressure.Pascals(), 2e-8, row)
		saturation := SaturationPressureOverWater(dry)
		if v[0] <= 0.01 {
			saturation = SaturationPressureOverIce(dry)
		}
		assert.InEpsilon(t, v[1]/100, float64(s.VapourPressure/saturation), 2e-8, row)

		point, frost, err := s.FrostPoint()
		require.NoError(t, err)
		if !frost {
			point, err = s.DewPoint()
			require.NoError(t, err)
		}
		worstDew = math.Max(worstDew, math.Abs(v[5]-point.Celsius()))

		wet, _, err := s.WetBulb()
		require.NoError(t, err)
		if bulbStep(s) {
			atStep++
			continue
		}
		worstWet = math.Max(worstWet, math.Abs(v[6]-wet.Celsius()))
	}
	assert.LessOrEqual(t, worstDew, 0.001)
	assert.LessOrEqual(t, worstWet, 0.0011)
	t.Logf("408 states: dew point within %.5f K, wet bulb within %.5f K; %d states at the freezing of the bulb left out", worstDew, worstWet, atStep)
}

// bulbStep reports whether both a water bulb above and an iced bulb below 0 degC
// solve the equations in the air s.
func bulbStep(s State) bool {
	if s.DryBulb.Celsius() <= 0 {
		return false
	}
	water, _ := s.bulbResidual(waterBulb())(freezing)
	ice, _ := s.bulbResidual(iceBulb())(freezing)
	return water <= 0 && ice >= 0
}

func BenchmarkFromWetBulb(b *testing.B) {
	for b.Loop() {
		s, _ := FromWetBulb(quantity.Celsius(20), quantity.Celsius(15), SeaLevelPressure, false)
		sink += s.RelativeHumidity
	}
}

func BenchmarkWetBulb(b *testing.B) {
	s, _ := FromRelativeHumidity(quantity.Celsius(20), 0.5, SeaLevelPressure)
	for b.Loop() {
		t, _, _ := s.WetBulb()
		sink += t.Kelvin()
	}
}
