// Package resaw is the arithmetic of turning a billet into leaves: how many
// leaves a saw makes of a thickness, how many blanks of a length and a width,
// which leaves form sets, what becomes of every part of the wood, how thick a leaf
// is sawn, and what a billet weighs.
//
// Its parts stand in folders below it: exact, the arithmetic in whole nanometres;
// match, how well two opened halves meet across the seam; plan, the proven best way
// to cut whole billets. Match and plan do not know each other: what a plan wants to
// have matched is told in values of this package (Opened).
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
// The yield formulas are derived by arithmetic and geometry; each stands with its
// derivation beside its code. The worked problems they are tested against are
// testdata/published/resaw_problems.csv at the top of the repository. The one
// published yield example is Wengert, "Kerf thickness' effect on yield - and
// profitability", trade Q&A, 20 June 2000.
//
// # Left out
//
// Change of shape in drying (woodphys/section), the drift of a blade that is not
// square to the fence, and the spring of stressed wood.
package resaw
