// Package section tells what becomes of the shape of a cross-section when its
// moisture content changes: cup of every face, width and thickness at the edges
// and in the middle, diamonding, and the thickness left when it is planed flat.
//
// # The map
//
// Wood shrinks by s_R along the radius and by s_T along the rings. Put the
// pole of polar axes at the pith, r the distance from it and phi the angle. The
// map
//
//	r' = a r,  phi' = k phi,  a = 1 - s_R,  b = 1 - s_T,  k = b/a
//
// is the exact shape at finite strain, for these reasons:
//
//	(1) ds'^2 = dr'^2 + r'^2 dphi'^2 = a^2 dr^2 + a^2 k^2 (r dphi)^2 = a^2 dr^2 + b^2 (r dphi)^2.
//	    In the orthonormal axes (dr, r dphi) the right Cauchy-Green tensor is
//	    C = F^T F = diag(a^2, b^2), everywhere and without a shear term.
//	(2) A small element that shrinks freely has the very same C: a along the
//	    radius, b along the ring. The elastic part of the deformation,
//	    F diag(1/a, 1/b), is therefore a pure rotation, by (k-1) phi, and any
//	    elastic law that depends on strain alone gives zero stress.
//	(3) Zero stress in every element satisfies equilibrium and free faces.
//	(4) The map is single-valued and one-to-one on a section that does not hold
//	    the pith: it is convex, so it spans an angle of at most pi about the pith
//	    (k pi < 2 pi in the new state). The shape is unique up to a rigid motion,
//	    because two maps with the same C differ by one (compatibility on a simply
//	    connected body).
//	(5) Two changes after one another multiply: a = a1 a2, k = k1 k2. The shape
//	    does not depend on the path, nor on whether the board is ripped before or
//	    after it dries.
//
// If the pith lies inside (a boxed heart), a full turn becomes 2 pi k. When
// s_T > s_R the circle does not close: there is no stress-free state, and a
// check opens by 2 pi (1 - k) if it relieves all stress.
//
// A face at the distance h from the pith, x along it from the foot of the
// perpendicular, has after the change the tangent angle tau with
// dtau/dphi = k (k^2-1)/(k^2 + tan^2 phi), tan phi = x/h: it bends one way only,
// hollow away from the pith (towards the bark) for k < 1, so "the sagitta" is
// well defined. To first order c = (e_T - e_R) h theta tan theta and
// S_w = e_R + (e_T - e_R) theta/tan theta for a centred pith.
//
// # Use and limits
//
// The change of moisture is uniform over the section; s_R and s_T come from the
// total shrinkage from fibre saturation, relative between the two moisture
// contents, negative when it swells. A gradient from shell to core bends a board
// on top of that (Gradient). Twist and crook are small functions of their own.
//
// Warp answers all of it for one board: even moisture or a profile, the senses of all
// sides, what gradient and planing leave, and twist, crook and bow.
//
// Rings are circles about one pith: an eccentric or wavy pith is not in it.
// Stickers and load hold a stack flatter than the free shape, while it is held
// and by set after. Drying stress, collapse, set, and spring from growth stress
// are left out.
//
// # Bands
//
// 90 %, by the delta method (exact derivatives): 15 % variation of S_R and of S_T
// between pieces (Wood Handbook ch. 4, from memory) and both moisture contents.
// S_R and S_T of one piece go together: where the same wood was sampled in two places,
// with a correlation of 0.67 (36 woods, testdata/section/same_wood_other_place.csv); 0.6 is
// taken. Each number takes the wider of two ways: fully together (sizes: 15 % of the
// change) or by 0.6 (cup and diamonding, which live on S_T - S_R: about 24 % of the
// cup when S_T is twice S_R). A band so made holds at least 90 %. The strains are those of package movement, with the error of its
// forms, which err alike in both directions.
//
// Source: derived here; the same idea as the polar model of Booker, Ward and
// Williams, Journal of the Institute of Wood Science, 1992 (from memory, not
// re-read). Checked against a finite-element solution in testdata/section.
package section
