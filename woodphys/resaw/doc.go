// Package resaw is the arithmetic of turning a billet into leaves: how many
// leaves a saw makes of a thickness, how many blanks of a length and a width,
// which leaves form sets, what becomes of every part of the wood, how well two
// opened halves match across the seam, and the proven best plan for whole
// billets.
//
// # Exactness
//
// Counting is done in whole nanometres (int64), because both a whole micrometre
// and 1/64 in (396 875 nm) are whole numbers of them: an exact fit never loses
// a leaf, in millimetres or in inches. Lengths are rounded to the nearest
// nanometre on entry. Volumes are whole cubic nanometres (Cubic), so that the
// shares of a billet add up to the billet without remainder. Angles and seam
// shifts are floating point.
//
// # Names
//
// Leaves and faces are numbered from face 1, where sawing starts. Kerf is the
// width of wood one cut turns to dust. Facing is taken off the outside faces
// before the first cut, re-facing off the billet after every cut, clean-up off
// a leaf after sawing.
//
// # Sources
//
// The yield formulas, seam shifts and orientation formulas are derived by
// arithmetic and geometry; each stands with its derivation beside its code.
// The worked problems they are tested against are
// testdata/published/resaw_problems.csv at the top of the repository. The one
// published yield example is Wengert, "Kerf thickness' effect on yield - and
// profitability", trade Q&A, 20 June 2000.
//
// # Plans
//
// MakePlan cuts whole billets: crosscut, rip, flatten, resaw. The model and the
// proof that its cut positions lose nothing stand in plan_wood.go, the proof of
// the order list in plan_order.go. It is checked against every way to cut small
// billets, against 500 integer programs that two general-purpose solvers agree on
// (testdata/planner), and by a saw mill in the tests that carries out every step.
//
// # Left out
//
// Shrinkage oversize (woodphys/movement), change of shape in drying
// (woodphys/section), masses (the caller has the density), the drift of a blade
// that is not square to the fence, and the spring of stressed wood.
package resaw
