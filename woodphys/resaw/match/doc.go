// Package match tells how well two leaves that are opened side by side meet across
// the seam: how far ring lines, rays, flame and the tips of cathedrals are out, what
// brings them into line, which edge is the better one, and which pairs of a stack
// are the best.
//
// # Sources
//
// Shifts and angles are derived by geometry, from plane rings or from circles about
// the pith; each stands with its derivation beside its code. The worked problems are
// those of the seam in testdata/published/resaw_problems.csv at the top of the
// repository. The weights of the score are our own choice.
//
// # Left out
//
// Leaves whose two sawn faces are not parallel (a carved arch is taken off leaves that are),
// the hollow of an arch towards its edge, and figure that changes within the
// wood lost between two leaves.
package match
