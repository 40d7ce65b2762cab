// Package drying is the chapter on how sawn wood dries under a climate: the
// moisture profile through the thickness of a board in a stack, a shed and a
// shop, over years, and what follows from it (when it is dry enough, how far
// the ends are ahead, whether it dries faster than is safe).
//
// # Equations
//
// Diffusion through the thickness, with the moisture content M as a fraction:
//
//	dM/dt = d/dx( k D(M,T) dM/dx )
//
// D is Siau's density-based model (Siau 1984, 1995, recalled), held at its value
// at fibre saturation above it; k is the drying factor of the wood (Factor). At
// the face the vapour pressure drives:
//
//	G rho_w k D dM/dx = -beta p_s(T)/(R_v T) (a(M_s) - H)
//
// a is the relative humidity in balance with the surface (the inverted sorption
// curve), H that of the air, at most 0.98, and beta the film coefficient of the
// exposure (Exposure). The wood has the temperature of the air.
//
// # Method
//
// Kirchhoff's transform phi = integral of D dM makes the flux between two nodes
// exact for any D(M); hat functions on nodes that crowd towards the face, with
// the mass of each row exact for quadratic profiles, give at least second order
// in space (fourth on even nodes with smooth D); Rodas3, a stiffly accurate
// linearly implicit method of third order with an embedded second (Sandu et al.
// 1997), steps in time. One tridiagonal matrix per step, no iteration. What
// leaves the wood equals what passes the face to rounding.
//
// Square and narrow billets: Rectangle, two directions, radial diffusion 1.2 times
// tangential. Ends: Solver.EndZone, an estimate along the grain. Drying factors:
// FactorFor; how far they agree with published times stands in AGREEMENT.md.
//
// Shell means the outer tenth of the thickness at each face, core the middle
// fifth; both are averages over that depth.
//
// # Assumptions
//
//   - Frost: below -2 C the rate is a tenth of that at 0 C, blended smoothly up
//     to 0 C; assumed (free water is frozen).
//   - Hysteresis: green stock gives up moisture on the desorption curve until the
//     piece first takes up moisture (half a point in all); from then on it responds
//     only outside a band of +/-0.5 %MC about the middle curve (a dead band of
//     about 1 %MC on reversal). It acts at the face only.
//   - Sizes are green sizes and G is the basic specific gravity. Shrinkage, which
//     shortens the way, and the higher density of the dried wood, which slows
//     diffusion, roughly cancel.
//   - Free water moves like bound water at fibre saturation. Permeable sapwood
//     moves it by capillarity and is faster at first; the factor takes that up.
//   - Below 0 C the humidity refers to liquid water, as reported.
//
// # Validity
//
// 0 to 150 %MC and -40 to 80 C; outside, a refusal. Transverse drying of boards
// much longer than thick. The factor carries most of the uncertainty: a spread
// of about 1.4 as a ratio, meant to be corrected by weighings.
//
// Left out: collapse, heartwood and sapwood in one board, air that cools on its
// way through the stack (in the factor), sun on the face, drying stress.
package drying
