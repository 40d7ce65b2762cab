// Package air is the chapter on moist air: what the vapour in the air of a
// shed, a shop or a room does, so that the chapters on wood can ask for its
// relative humidity, vapour pressure, dew point or wet bulb.
//
// # Sources
//
// Hyland and Wexler 1983, as printed in ASHRAE Handbook - Fundamentals 2017,
// ch. 1 (saturation pressure eqs. 5 and 6, standard atmosphere eq. 3, humidity
// ratio eq. 20, wet bulb eqs. 33 and 35). The equations and coefficients are
// recalled from these publications; the values they give were checked against
// printed table values and an independent library (tests).
//
// # Below freezing
//
// Relative humidity always refers to saturation over liquid water, below 0 degC
// too, as hygrometers and weather services report it (WMO-No. 8). Below 0 degC
// the pressure over supercooled water is the water equation of Hyland and
// Wexler continued below its printed range of 0 to 200 degC. It was preferred
// to the Magnus form of WMO-No. 8 because it has no seam: value and slope are
// continuous at 0 degC exactly, and against Murphy and Koop 2005 (supercooled
// water) it is the closer of the two down to -35 degC: it departs by 0.02 % at
// -5, 0.10 % at -20, 0.25 % at -30, 0.73 % at -40 and 2.1 % at -50 degC, where
// Magnus departs by 0.10, 0.37, 0.46, 0.58 and 1.03 %. The dew point is over
// water and the frost point over ice, at every temperature.
//
// # Validity
//
// Dry bulb -60 to 120 degC, pressure 30 to 110 kPa. Air is taken as a mixture
// of ideal gases; the enhancement factor (below 0.5 % of the saturation
// pressure at one atmosphere) is left out, as ASHRAE does in these equations.
//
// # Fast functions
//
// SaturationPressureOverWater, SaturationPressureOverIce, DewPointOf and
// FrostPointOf check nothing and allocate nothing: they are meant for the inner
// loop of a solver. The State built by the From functions checks everything.
//
// Left out: enthalpy, density and mixing of air streams; unventilated
// psychrometers (a wick bulb in still air needs another coefficient and is not
// trustworthy to better than 5 %RH).
package air
