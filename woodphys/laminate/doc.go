// Package laminate tells what glued layers of wood do when their moisture content
// changes: how the panel bends and twists, what strain and stress each layer keeps,
// what the glue lines carry at the edges, and, for two layers, the plain strip of
// Timoshenko. It also tells the clearance at build of two parts that meet.
//
// # Lamination theory
//
// The panel lies in x (its length) and y (its width), z upwards from
// mid-thickness; layers count from the bottom. A layer is orthotropic: along its
// grain (L) and across it in its own plane (w), the direction that has the ring
// angle a to the ring tangent, a = 0 flatsawn, 90 degrees quartersawn:
//
//	1/E_w   = cos^4 a/E_T + sin^4 a/E_R + sin^2 a cos^2 a (1/G_RT - 2 nu_RT/E_R)
//	1/G_Lw  = cos^2 a/G_LT + sin^2 a/G_LR
//	nu_Lw   = nu_LT cos^2 a + nu_LR sin^2 a
//	e_w     = e_T cos^2 a + e_R sin^2 a,  e_L along the grain
//
// These are exact rotations of the orthotropic compliance about L; plane stress
// needs no more of it. Turned in the plane by the grain direction they give Q and
// e of the layer in x, y, and
//
//	| A B | |e0   |   | sum Q e t               |     A = sum Q t, B = sum Q t z,
//	| B D | |kappa| = | sum Q e t z             |     D = sum Q (t z^2 + t^3/12)
//
// with strain e0 + z kappa through the thickness (Kirchhoff), stress
// Q (e0 + z kappa - e). A layer whose moisture runs in a straight line from face to face has
// e + (z - z_i)/t e', which adds sum Q e' t^2/12 to the moments. kappa_x and kappa_y are positive when the upper face is the
// longer one, that is hollow below; kappa_xy is the engineering one (2 w_xy).
// Source: classical lamination theory as in Jones, Mechanics of Composite
// Materials, ch. 4 (from memory, not re-read).
//
// In one dimension (no Poisson's ratios, one narrow strip) two layers become the
// strip of Timoshenko, "Analysis of bi-metal thermostats", Journal of the Optical
// Society of America 11, 1925, 233-255 (from memory):
//
//	kappa = 6 de (1+m)^2 / (h [3 (1+m)^2 + (1+mn)(m^2 + 1/(mn))]),  m = t1/t2, n = E1/E2.
//
// GlueUp answers for a whole stack: the panel, the plain strip where there is one, which
// way it bends and how sure that is.
//
// # When a layup stays flat
//
// Symmetric (mirror image about mid-thickness in wood, grain, ring angle and
// moisture): B = 0 and no bending. Balanced (every layer at +p has its like at -p):
// A16 = A26 = 0, no shear of the plane. A symmetric layup of real pieces still bends
// a little, because no two pieces are alike: that is in the bands.
//
// # Bands
//
// 90 %, by the delta method with exact derivatives: 15 % variation of shrinkage
// between pieces, moisture contents at glue-up and later, 50 % along the grain, 25 %
// of each layer's stiffness (modulus of elasticity varies by 22 %, Wood Handbook ch. 5,
// from memory; the ratios add to it, assumed). Two ways are weighed and the wider
// holds: all layers deviate independently (pieces of several boards), or all layers
// deviate together (one board, one air). Ring angle, grain direction and thickness
// count as exact.
//
// # Left out
//
// Shear through the thickness, the glue's own thickness and moisture, edges (but for
// the estimate of GlueLine), knots, ribs and braces, large deflection, gradients
// inside a layer that are no straight line (package section). Wood creeps: stresses are those of elastic wood
// and fall in weeks (Creep). A panel held flat by a frame or a body bends less and is
// stressed more.
package laminate
