package quantity

import "math"

// AtMost returns l, in metres, as an upper limit in the unit with that symbol, and that
// unit: rounded down as Format rounds, so that what it says lies within l, with
// more digits where rounding would move it by more than 2 %. An unknown symbol is
// replaced by "m".
func (l Length) AtMost(symbol string) (value float64, unit string) {
	return limit(DimensionLength, float64(l), symbol, "m", false)
}

// AtLeast is AtMost for a lower limit: rounded up.
func (l Length) AtLeast(symbol string) (value float64, unit string) {
	return limit(DimensionLength, float64(l), symbol, "m", true)
}

// AtMost returns t, in kelvin, as an upper limit, as Length.AtMost does. An unknown
// symbol is replaced by "K".
func (t Temperature) AtMost(symbol string) (value float64, unit string) {
	return limit(DimensionTemperature, t.kelvin, symbol, "K", false)
}

// AtLeast is AtMost for a lower limit: rounded up.
func (t Temperature) AtLeast(symbol string) (value float64, unit string) {
	return limit(DimensionTemperature, t.kelvin, symbol, "K", true)
}

// AtMost returns m, in kilograms, as an upper limit, as Length.AtMost does. An unknown
// symbol is replaced by "kg".
func (m Mass) AtMost(symbol string) (value float64, unit string) {
	return limit(DimensionMass, float64(m), symbol, "kg", false)
}

// AtLeast is AtMost for a lower limit: rounded up.
func (m Mass) AtLeast(symbol string) (value float64, unit string) {
	return limit(DimensionMass, float64(m), symbol, "kg", true)
}

// AtMost returns p, in pascals, as an upper limit, as Length.AtMost does. An unknown
// symbol is replaced by "Pa".
func (p Pressure) AtMost(symbol string) (value float64, unit string) {
	return limit(dimensionOfPressure(symbol), float64(p), symbol, "Pa", false)
}

// AtLeast is AtMost for a lower limit: rounded up.
func (p Pressure) AtLeast(symbol string) (value float64, unit string) {
	return limit(dimensionOfPressure(symbol), float64(p), symbol, "Pa", true)
}

// Over returns l for people, and a limit that it exceeds, as AtMost has it, in the unit with
// that symbol: both with so many digits, nine at most, that they read differently. An unknown
// symbol is replaced by "m".
func (l Length) Over(most Length, symbol string) (is string, limit float64, unit string) {
	u, ok := lookUp(DimensionLength, symbol)
	if !ok {
		u, _ = lookUp(DimensionLength, "m")
	}
	for decimals := u.decimals; ; decimals++ {
		size := Rounded(u.fromSI(float64(l)), decimals)
		limit = Rounded(u.within(float64(most), decimals, false), decimals)
		if size != limit || decimals >= mostDecimals {
			return FormatNumber(size, decimals) + " " + u.symbol, limit, u.symbol
		}
	}
}

const mostDecimals = 9

func limit(d Dimension, si float64, symbol, fallback string, up bool) (value float64, unit string) {
	u, ok := lookUp(d, symbol)
	if !ok {
		u, _ = lookUp(d, fallback)
	}
	v := u.fromSI(si)
	for decimals := u.decimals; ; decimals++ {
		if shown := u.within(si, decimals, up); math.Abs(shown-v) <= 0.02*math.Abs(v) || decimals >= mostDecimals {
			return Rounded(shown, decimals), u.symbol
		}
	}
}

// within is si in the unit, rounded to the decimals, up or down, unless it is that
// number but for the dust of a conversion.
func (u *unit) within(si float64, decimals int, up bool) float64 {
	v := u.fromSI(si)
	near := Rounded(v, decimals)
	const dust = 1e-13
	back := u.toSI(near)
	switch gap := dust * math.Max(math.Abs(si), math.Abs(u.after)); {
	case up && back < si-gap:
		return near + math.Pow10(-decimals)
	case !up && back > si+gap:
		return near - math.Pow10(-decimals)
	}
	return near
}
