// Package woodphys is the physics of seasoning and working wood, one package
// per chapter. It knows no HTTP, no files and no clock; every function answers
// from its arguments alone.
//
// The chapters, in the order in which they build on one another:
//
//	quantity   lengths, temperatures, masses, moisture contents and the like, SI inside
//	method     the form of a registry row, errors, warnings and notes
//	wood       what is known of a wood: the one value that all chapters take
//	air        saturation pressure, wet bulb, dew point, altitude, heated outdoor air
//	sorption   EMC of wood in air, its inverse, hysteresis branches, fibre saturation
//	moisture   MC from ovendry, from running weights, from meters; each with its uncertainty
//	movement   shrinkage and swelling of a dimension at any ring angle
//	section    shape of a cross-section after a uniform change of MC
//	drying     diffusion under a climate; drying factors
//	readiness  forecast and readings together: verdict, date, probability
//	seasoning  the forecast of a piece: dates, other months and thicknesses, checks, edges, ends
//	resaw      leaves, stacks and sets of a billet; in folders below it exact (whole
//	           nanometres), match (bookmatch seams) and plan (whole billets)
//	sawlog     a log into billets: through and through, quartered, in wedges; log rules
//	timing     saw a wet billet now, or dry it whole: dates, sets, cup, and the weighing
//	laminate   glued layers: curvature, seam strain, seasonal movement
//	inservice  finished parts through the year of a room: lag, extremes, sizes, held strain;
//	           movement figures and clearances of an assembly
//
// Arrows: a chapter imports only chapters above it in this list, so there are
// no cycles. The tables of species and stations live in package species; nothing
// here imports it, chapters take plain values. Nothing here imports the service
// that serves it.
//
// The tests of this package run the published worked examples of all chapters,
// testdata/published/worked_examples.csv, and report the agreement per source.
package woodphys
