// Package movement tells how far a dimension of wood shrinks or swells when its
// moisture content changes, at any ring angle, with the margin of error. It is the one
// source of strain: StrainsBetween gives it to the shape of sections, glued layers, the
// figures of an assembly and finished work alike.
//
// Four published forms:
//
//	coefficient           dD = D_I C (M_F - M_I)                      6 to 14 %MC
//	total shrinkage       dD = D_I (M_F - M_I)/(30*100/S - 30 + M_I)  up to fibre saturation
//	differential          dD = D_12 q (M_F - M_I)                     range of use
//	volumetric swelling   dV = V_green v (M_F - M_I)                  split as R : T
//
// (Wood Handbook ch. 13; DIN 68100; trees of a collection. M in %MC, S in percent green to
// ovendry.) Each is told by itself where it is known, as its equation is printed.
//
// What the answer rests on is all of them together. A wood shrinks to 1 - s(M) of its green
// size: s falls from S at 0 %MC in a straight line of the rate r to seven tenths of fibre
// saturation F, and from there in another to 0 at F. So the total that is printed is kept,
// the movement in use is that of the rate, the answer does not depend on the path, and
// nothing jumps. r is the mean of the rates of the forms, each weighted by its error:
//
//	21 % (1 SD)  a line from fibre saturation (total shrinkage, coefficient), with the
//	             spread of F; both together count once, because one is made from the other
//	21 %         volumetric swelling of trees, which is split by the total shrinkage
//	12 %         differential shrinkage, measured in the range of use
//
// The first two are what 250 published figures stray by; an own choice is the last. Where
// only a coefficient or a differential figure is known, it answers as it is printed.
//
// Fibre saturation is that of the wood, at which its isotherm ends as well (package
// sorption), else the onset that its coefficients were made with, else 30 %. Above it
// nothing moves.
//
// The band is 90 %: pieces vary by 15 % (Wood Handbook ch. 4, from memory) or as the trees
// that were measured; the error of the rate as a ratio, which is never less than reaches
// every form that is known; the doubt of the figures themselves; the bands of both moisture
// contents, taken as independent, and the ring angle's if given. Delta method with the
// second-order terms that matter (product of shrinkage and moisture change, moisture cut at
// fibre saturation, angle near 0 or 90 degrees).
//
// Of forty printed differential figures one lies outside the bands with the differential
// form in use (the check then tests the reading) and three without it.
//
// Of also finds what to cut so that a size is left, and lets the errors of one piece in two
// airs go together.
//
// Left out: moisture gradients (surface checks and early shrinkage of the shell
// above mean fibre saturation), collapse, drying set, restraint by glue or
// neighbouring parts, and cup, which is in package section.
package movement
