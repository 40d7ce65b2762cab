// Package species holds the published tables that the service rests on, as
// embedded text that is parsed once: woods (shrinkage, dimensional change
// coefficients, specific gravity, stiffness, green moisture, elastic ratios,
// air-drying times, drying class, cautions) and stations (monthly temperature,
// relative humidity and equilibrium moisture content). The tables of the shop
// stand beside them: plates, kerfs of saws, allowances and end trims, most of
// them common practice.
//
// Every figure is a Value: the number in its published unit, or nothing, with
// its source and a mark of how it was checked (Checked). A figure that is not
// known can not be read as zero: Get reports whether there is one.
//
//	tables, err := species.Default()
//	wood, ok := tables.Wood("maple-sugar")
//	radial, known := wood.Radial.Get() // 4.8, true: % of the green dimension
//
// About half of the figures were recalled from the published tables and not
// read in a copy; their mark is Memory, and it must travel with the figure to
// whoever uses it. DATA.md lists the tables, the marks and the anomalies.
//
// Source: Wood Handbook, FPL-GTR-190 (USDA Forest Products Laboratory, 2010),
// tables 4-1, 4-3, 4-4, 5-1, 5-2, 5-3a, 5-5a, 13-1 and 13-5; NOAA Comparative
// Climatic Data (2018); the rest as data/sources.csv says.
//
// Left out: properties along the grain but for stiffness, strength, durability,
// and every wood or place for which no figure was found.
package species
