// Package moisture estimates the moisture content of wood, always with its
// uncertainty: from the ovendry weight, from a running weight with a known
// start, from a resistance or a dielectric meter, and from density; and it
// tells what several estimates say together, whether shell and core differ, and
// how fast a series of weights changes.
//
// Moisture content (MC) is the mass of water over the mass of ovendry wood,
// MC = (W - W0)/W0, the dry basis. Wet-basis figures, W water over W total, are
// common in print and are recognised by LooksWetBasis but never used.
//
// Every estimator returns an Estimate: the value, the 90 % band, the standard
// deviation behind it (kept unclipped, because the band is cut at zero), what
// part of the piece it speaks for, the method's id and its notes.
//
// ReadAll takes a whole list of readings at once; InCondition says what is meant by green
// wood, by a moisture content without an uncertainty and by wood that has settled in an air.
//
// Sources: ASTM D4442, EN 13183-1 and EN 13183-2 (from memory); Wengert's sample
// board formulas (read); Wood Handbook FPL-GTR-282 (2021) ch. 13 on meters
// (read); Pfaff and Garrahan (1986) temperature and species equation (from
// memory); Wood Handbook FPL-GTR-190 ch. 4 and 5 on specific gravity (from
// memory). Where only a range of uncertainty is published, the figure chosen
// stands as a named constant with the range beside it.
//
// Left out: species constants of meters (none of the tables was seen; the
// caller gives a and b), resistance in ohms, pinless density tables, the error
// of a sample that does not stand for its board, and volatile extractives that
// leave a softwood in the oven and make its MC read high.
package moisture
