// Package sorption is the chapter on wood and the humidity of its air: the
// equilibrium moisture content (EMC), its inverse, the branches of hysteresis
// and the fibre saturation point.
//
// # Source and equation
//
// Hailwood and Horrobin 1946 with two hydrates, coefficients of Simpson 1973
// as printed in Wood Handbook FPL-GTR-190 (2010) eq. 4-5, p. 4-4 (recalled, not
// re-read):
//
//	x   = K H
//	EMC = (1800/W) [ x/(1-x) + (K1 x + 2 K1 K2 x^2)/(1 + K1 x + K1 K2 x^2) ]   %MC
//
// The coefficients for degC are the working set; the printed set for degF gives
// the same to 0.02 %MC (a test says so).
//
// # Validity
//
// Fitted over about 0 to 100 degC. Computed from -40 to 120 degC with a
// warning: above 129 degC one coefficient turns negative. H is relative humidity over
// liquid water, below 0 degC too.
//
// The second equation that the Wood Handbook prints (2021, eq. 4-6) stands beside it
// (Equations); a third is one file with its row. Every band holds what each of them gives.
// Below table 4-2 (-1.1 degC) the polynomials of the first fall towards cold, which is a
// trait of the fit; wood holds more the colder it is, so the curve of -1.1 degC rises there
// as the second equation does (ColdRise).
//
// The printed table is one middle curve for all species, good to about 1 %MC.
// Wood that dries stays above it and wood that takes up moisture stays below (Branch).
//
// # The sorption of one wood
//
// Curves are isotherm and fibre saturation of a wood, which belong together. Of the two
// waters of the equation a wood of low fibre saturation holds the hydrate in full and so much
// less of the dissolved water that its curve ends below its fibre saturation as that of
// ordinary wood does. No figure was fitted; teak, iroko, afrormosia and western redcedar
// come within 1 to 3 %MC of movement tables (from memory), and lie in the bands. Wood of
// 30 %MC and above is ordinary.
//
// A bare surface is held to H of at most 0.98 (HighestSurfaceHumidity), because
// the curve is steep and poorly known above; a surface wet with liquid water is
// at fibre saturation.
//
// # Fast values
//
// Isotherm holds the coefficients of one temperature and answers At, Inverse
// and Slope without checks and without allocation, for solvers.
//
// Left out: scanning curves between the branches (the whole branch is given;
// after a reversal about 1 %MC passes before wood responds), sorption under
// load, and the effect of earlier high temperatures.
package sorption
