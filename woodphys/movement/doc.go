// Package movement tells how far a dimension of wood shrinks or swells when its
// moisture content changes, at any ring angle, with the margin of error.
//
// Two published forms:
//
//	coefficient      dD = D_I C (M_F - M_I)                    6 to 14 %MC
//	total shrinkage  dD = D_I (M_F - M_I)/(30*100/S - 30 + M_I)  up to fibre saturation
//
// (Wood Handbook ch. 13; M in %MC, S in percent green to ovendry.) The second is
// the same as a size 1 - S (1 - M/F) of the green size, with F the fibre
// saturation at which shrinkage starts; written so it is exactly reversible and
// does not depend on the path, and that is how it is computed here.
//
// Which form the answer rests on: the coefficient form when both moisture
// contents lie in 6 to 14 % and a coefficient is known; else the total shrinkage
// form; else (no shrinkage known) the coefficient form beyond its range, with a
// warning. Both are always in the answer when both are known. Where they
// differ by more than 15 % - the two tables do, for some imported woods: for
// true mahogany by 1.7 times - a Disagreement is noted and the band is widened
// to hold the bands of both.
//
// Fibre saturation: the onset that the wood's coefficients were made with (22 %
// for the cedars, redwoods and some imported woods, an inference from the
// printed numbers) if given, else the wood's own, else 30 %. Above it nothing
// moves.
//
// The band is 90 %: coefficient of variation of shrinkage within a species 15 %
// (Wood Handbook ch. 4, from memory), the bands of both moisture contents, taken
// as independent, and the ring angle's if given; propagated by the delta method
// with the second-order terms that matter (product of shrinkage and moisture
// change, moisture cut at fibre saturation, angle near 0 or 90 degrees).
//
// Of also finds what to cut so that a size is left, and lets the errors of one piece in two
// airs go together.
//
// Left out: moisture gradients (surface checks and early shrinkage of the shell
// above mean fibre saturation), collapse, drying set, restraint by glue or
// neighbouring parts, uncertainty of fibre saturation itself, and cup, which is
// in package section.
package movement
