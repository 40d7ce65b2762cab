// Package quantity holds the physical quantities of the project as defined
// types in SI units: Length (m), Temperature (K), Mass (kg), Moisture (fraction
// of ovendry mass), Angle (rad), Duration (s), Pressure (Pa) and Volume (m3).
//
// Numbers become quantities at the edge (parsing, constructors, unit
// constants) and leave as numbers at the edge (In, Format); in between nothing
// carries a unit in its name because the type says it.
//
//	thickness := 52 * quantity.Millimetre
//	air := quantity.Celsius(21)
//	target := 8 * quantity.PercentMC
//
// Temperature is a struct on purpose: an offset scale must not be scaled, so
// neither 2*t nor t1+t2 compiles. Differences are TemperatureDifference.
//
// Exact definitions used: 1 in = 25.4 mm, 1 lb = 0.45359237 kg (international
// yard and pound agreement, 1959), 0 degC = 273.15 K, 1 degF = 5/9 K,
// 1 board foot = 144 cubic inches.
package quantity
